// Package delimited reads text files of rows and fields: CSV and its like, in
// the encodings and with the separators that spreadsheets write.
//
// The rules are those of RFC 4180 where a file keeps to them. Where it does
// not, nothing is dropped: a quotation mark in the middle of a field is a
// character of the field, what stands behind a closing quotation mark belongs
// to the field too, and one that is never closed is taken as it stands. Lines
// may end in LF, CR LF or CR. Empty lines are rows, so that rows have the
// numbers that a spreadsheet shows.
package delimited

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// Bounds. The memory is at most about five times MaxBytes.
const (
	MaxBytes = 64 << 20 // of a file
	// MaxQuoted is how far a closing quotation mark is looked for, in bytes: a
	// cell of a spreadsheet cannot hold more.
	MaxQuoted = 4 * 32_767
)

var (
	// ErrTooLarge means: over MaxBytes.
	ErrTooLarge = errors.New("larger than this program agrees to read")
	// ErrBinary means: no text.
	ErrBinary = errors.New("not a text file")
)

// Encoding says how a file stores its letters.
type Encoding uint8

// The encodings.
const (
	UTF8 Encoding = iota
	UTF16LittleEndian
	UTF16BigEndian
	// Windows1252 is taken where a file says nothing and is not UTF-8. Files
	// from Eastern Europe, for example, then show wrong letters.
	Windows1252
)

// File is a text file, decoded.
type File struct {
	Encoding  Encoding
	Separator byte // ',', ';' or a tab
	text      string
}

// marks are the signs at the beginning of a file that name its encoding.
var marks = []struct {
	mark     string
	encoding Encoding
	decoder  encoding.Encoding
}{
	{"\xEF\xBB\xBF", UTF8, encoding.Nop},
	{"\xFF\xFE", UTF16LittleEndian, unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM)},
	{"\xFE\xFF", UTF16BigEndian, unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM)},
}

// Parse decodes a file and finds out its separator. The error is ErrTooLarge
// or ErrBinary.
func Parse(data []byte) (*File, error) {
	if len(data) > MaxBytes {
		return nil, ErrTooLarge
	}
	f := &File{}
	var decoder encoding.Encoding
	for _, m := range marks {
		if bytes.HasPrefix(data, []byte(m.mark)) {
			data, f.Encoding, decoder = data[len(m.mark):], m.encoding, m.decoder
			break
		}
	}
	if f.Encoding == UTF8 && !utf8.Valid(data) {
		f.Encoding, decoder = Windows1252, charmap.Windows1252
	}
	if f.Encoding != UTF8 {
		decoded, err := decoder.NewDecoder().Bytes(data)
		if err != nil {
			return nil, ErrBinary
		}
		data = decoded
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return nil, ErrBinary
	}
	f.text = string(data)
	if f.takeSeparator(); f.Separator == 0 {
		f.Separator = separatorOf(f.text)
	}
	return f, nil
}

// takeSeparator takes the separator from a first line such as "sep=;", which
// some programs write for others and which is no row.
func (f *File) takeSeparator() {
	line, rest, _ := strings.Cut(f.text, "\n")
	line = strings.Trim(strings.TrimSuffix(line, "\r"), `"`)
	if len(line) == 5 && strings.EqualFold(line[:4], "sep=") && strings.IndexByte(separators, line[4]) >= 0 {
		f.Separator, f.text = line[4], rest
	}
}

// separators are those that are looked for, the likelier ones first where two
// divide the file equally well: a comma may also stand in numbers.
const separators = "\t;,"

// How much of a file is looked at to find its separator.
const (
	sampleRows  = 100
	sampleBytes = 1 << 20
)

// separatorOf picks the separator that divides the most rows, and of those
// that divide equally many the one that gives the most fields in rows of equal
// length.
func separatorOf(text string) byte {
	text = text[:min(len(text), sampleBytes)]
	best, mostRows, mostFields := byte(','), 0, 0
	for i := range len(separators) {
		f := File{Separator: separators[i], text: text}
		rows := map[int]int{} // by their number of fields
		scanner := f.Rows()
		for n := 0; n < sampleRows && scanner.Next(); n++ {
			rows[len(scanner.Fields())]++
		}
		divided, equal := 0, 0
		for fields, n := range rows {
			if fields > 1 {
				divided, equal = divided+n, max(equal, n*(fields-1))
			}
		}
		if divided > mostRows || divided == mostRows && equal > mostFields {
			best, mostRows, mostFields = f.Separator, divided, equal
		}
	}
	return best
}

// Rows starts reading the rows.
func (f *File) Rows() *Rows { return &Rows{text: f.text, separator: f.Separator} }

// Rows goes through the rows of a file.
type Rows struct {
	text      string
	separator byte
	at        int
	number    int
	fields    []string
	oddities  []Oddity
}

// Oddity is a quotation mark that may not be meant as it was read.
type Oddity struct {
	Field int // 0-based
	// Open tells that the quotation mark is never closed. Otherwise it is
	// closed in a later line, with separators in between.
	Open bool
}

// Number is the number of the current row, 1-based.
func (r *Rows) Number() int { return r.number }

// Fields are those of the current row, valid until the next one. An empty line
// has one, which is empty.
func (r *Rows) Fields() []string { return r.fields }

// Oddities are those of the current row.
func (r *Rows) Oddities() []Oddity { return r.oddities }

// Next moves to the next row.
func (r *Rows) Next() bool {
	if r.at >= len(r.text) {
		return false
	}
	r.number++
	r.fields, r.oddities = r.fields[:0], r.oddities[:0]
	for {
		r.fields = append(r.fields, r.field())
		if r.at >= len(r.text) {
			return true
		}
		c := r.text[r.at]
		r.at++
		if c == r.separator {
			continue
		}
		if c == '\r' && r.at < len(r.text) && r.text[r.at] == '\n' {
			r.at++
		}
		return true
	}
}

// field reads to the end of a field: a separator, the end of the line or of
// the file.
func (r *Rows) field() string {
	if r.at < len(r.text) && r.text[r.at] == '"' {
		if inside, ok := r.quoted(); ok {
			return inside + r.plain()
		}
		r.oddities = append(r.oddities, Oddity{Field: len(r.fields), Open: true})
	}
	return r.plain()
}

func (r *Rows) plain() string {
	start := r.at
	for r.at < len(r.text) {
		switch c := r.text[r.at]; c {
		case r.separator, '\n', '\r':
			return r.text[start:r.at]
		}
		r.at++
	}
	return r.text[start:]
}

// quoted reads what stands between quotation marks; ok is false, and nothing
// was read, if the first one is not closed.
func (r *Rows) quoted() (inside string, ok bool) {
	rest := r.text[r.at+1 : min(len(r.text), r.at+1+MaxQuoted)]
	doubled := false
	for end := 0; ; {
		i := strings.IndexByte(rest[end:], '"')
		if i < 0 {
			return "", false
		}
		if end += i; end+1 < len(rest) && rest[end+1] == '"' {
			doubled = true
			end += 2
			continue
		}
		inside = rest[:end]
		r.at += 1 + end + 1
		break
	}
	if at := strings.IndexAny(inside, "\r\n"); at >= 0 && strings.IndexByte(inside[at:], r.separator) >= 0 {
		r.oddities = append(r.oddities, Oddity{Field: len(r.fields)})
	}
	if doubled {
		inside = strings.ReplaceAll(inside, `""`, `"`)
	}
	return inside, true
}

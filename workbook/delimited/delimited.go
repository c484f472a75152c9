// Package delimited reads CSV files and the like, in the encodings and with the
// separators that spreadsheet programs write.
//
// It follows RFC 4180. Where a file does not, no character is dropped: a quotation
// mark inside a field is part of it, and so is text after a closing one; one that
// is never closed is an ordinary character. Lines end in LF, CR LF or CR. Empty
// lines are rows, so rows have the numbers that a spreadsheet shows. The standard
// library's reader drops empty lines, does not split at CR, and reads to the end
// of the file after an open quotation mark.
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

// Bounds. Reading takes up to five times MaxBytes of memory.
const (
	MaxBytes = 64 << 20 // of a file
	// MaxQuoted bounds a quoted field, in bytes: a cell cannot hold more.
	MaxQuoted = 4 * 32_767
)

var (
	// ErrTooLarge means over MaxBytes.
	ErrTooLarge = errors.New("larger than this program reads")
	// ErrBinary means that the file is not text.
	ErrBinary = errors.New("not a text file")
)

// File is a decoded text file.
type File struct {
	// Guessed means that the file has no byte order mark and is not UTF-8. It was
	// read as Windows-1252, which is wrong for Eastern Europe, for example.
	Guessed   bool
	Separator byte // ',', ';' or a tab
	text      string
}

// Parse decodes a file and detects its separator. The error is ErrTooLarge or
// ErrBinary.
func Parse(data []byte) (*File, error) {
	if len(data) > MaxBytes {
		return nil, ErrTooLarge
	}
	f := &File{}
	data = bytes.TrimPrefix(data, []byte("\xEF\xBB\xBF"))
	decoder := encoding.Nop
	switch {
	case bytes.HasPrefix(data, []byte("\xFF\xFE")), bytes.HasPrefix(data, []byte("\xFE\xFF")):
		decoder = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	case !utf8.Valid(data):
		f.Guessed, decoder = true, charmap.Windows1252
	}
	data, err := decoder.NewDecoder().Bytes(data)
	if err != nil {
		return nil, ErrBinary
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

// takeSeparator reads the separator from a first line such as "sep=;", which is not
// a row.
func (f *File) takeSeparator() {
	line, rest, _ := strings.Cut(f.text, "\n")
	line = strings.Trim(strings.TrimSuffix(line, "\r"), `"`)
	if len(line) == 5 && strings.EqualFold(line[:4], "sep=") && strings.IndexByte(separators, line[4]) >= 0 {
		f.Separator, f.text = line[4], rest
	}
}

// separators are tried in this order; the comma is last, because numbers may
// contain it.
const separators = "\t;,"

// The sample from which the separator is detected.
const (
	sampleRows  = 100
	sampleBytes = 1 << 20
)

// separatorOf returns the separator that splits the most rows, and of equals the
// one that gives the most fields in rows of equal length.
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

// Rows reads the rows of a file.
type Rows struct {
	text      string
	separator byte
	at        int
	number    int
	fields    []string
	oddities  []Oddity
}

// Oddity is a quotation mark that may have another meaning than was read.
type Oddity struct {
	Field int // 0-based
	// Open means that the quotation mark is never closed. Otherwise it is closed
	// in a later line, with separators in between.
	Open bool
}

// Number returns the number of the current row, from 1.
func (r *Rows) Number() int { return r.number }

// Fields returns the fields of the current row, valid until the next one. An empty
// line has one empty field.
func (r *Rows) Fields() []string { return r.fields }

// Oddities returns the oddities of the current row.
func (r *Rows) Oddities() []Oddity { return r.oddities }

// Next reads the next row.
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

// field reads to a separator, the end of the line or of the file.
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

// quoted reads a quoted field. If the quotation mark is not closed, ok is false and
// nothing was read.
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

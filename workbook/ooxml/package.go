// Package ooxml reads the cells of .xlsx and .xlsm workbooks row by row.
//
// Why not the spreadsheet library, which writes new workbooks for us: its row
// iterator gives neither a cell's stored type nor its number format, without
// which 7.10 typed as text, 7.1 typed as a number and half past eleven cannot
// be told apart; its other way in loads the whole sheet, a gigabyte for
// 100,000 rows; and it passes over damaged parts in silence. This reader goes
// through each sheet once, keeps one row, and reports whatever is broken.
//
// Opening checks every part of the file against its checksum and the limits
// below, so a damaged file is refused before anything is believed.
package ooxml

import (
	"bytes"
	"errors"
	"io"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Limits on what is read. Sizes are counted while unpacking; what the zip's
// own directory says is not trusted.
const (
	MaxEntries    = 10_000
	MaxPartBytes  = 1 << 30
	MaxTotalBytes = 2 << 30
	MaxRatio      = 500       // unpacked to packed size of a part over 16 MiB
	MaxSmallPart  = 64 << 20  // workbook, styles, relationships
	MaxStrings    = 256 << 20 // bytes of shared texts
	maxTag        = 4 << 20   // bytes between two tags, or in one
	maxNames      = 200       // that are kept, of elements
)

// limits are the constants above; tests use smaller ones.
type limits struct {
	opc.Limits
	texts int64
}

var defaultLimits = limits{
	Limits: opc.Limits{Entries: MaxEntries, Part: MaxPartBytes, Total: MaxTotalBytes, Small: MaxSmallPart, Ratio: MaxRatio, RatioFrom: 16 << 20},
	texts:  MaxStrings,
}

// pkg is the zip that a workbook is.
type pkg struct {
	*opc.Package
	limits limits
}

// openPackage opens the zip and reads every part to its end.
func openPackage(r io.ReaderAt, size int64, lim limits) (*pkg, error) {
	p, err := opc.Open(r, size, lim.Limits)
	if err != nil {
		return nil, err
	}
	return &pkg{p, lim}, p.Check(p.Parts...)
}

// element is one start or end tag on the way through a part.
type element struct {
	name  string // without prefix
	depth int    // the root has 1
	end   bool
	attrs []byte // as they stand; valid until the next tag
	bad   error  // of an attribute that was asked for
}

// attr is the attribute of that exact name; empty if there is none.
func (e *element) attr(name string) string { return string(e.value(name)) }

// value is the same, valid until the next tag.
func (e *element) value(name string) []byte {
	return e.find(func(n []byte) bool { return string(n) == name })
}

// relID is the r:id attribute, whatever its prefix.
func (e *element) relID() string {
	return string(e.find(func(n []byte) bool { return bytes.HasSuffix(n, []byte(":id")) }))
}

// find gives the first attribute whose name will do. One that cannot be read
// ends the reading at the next tag.
func (e *element) find(is func(name []byte) bool) []byte {
	for at := 0; ; {
		a, ok, err := xmlscan.NextAttr(e.attrs, at)
		if err == nil && ok && is(a.Name) {
			var value []byte
			if value, err = xmlscan.Value(a.Value); err == nil {
				return value
			}
		}
		if err != nil {
			e.bad = err
		}
		if err != nil || !ok {
			return nil
		}
		at = a.To
	}
}

// walker goes through the XML of a part.
type walker struct {
	part    *opc.Part
	body    io.ReadCloser
	scanner *xmlscan.Scanner
	element element
	closed  bool   // the element ends where it starts
	text    []byte // character data since the last tag
	names   map[string]string
}

func (p *pkg) walker(f *opc.Part, limit int64) (*walker, error) {
	body, err := p.Open(f)
	if err != nil {
		return nil, err
	}
	return &walker{part: f, body: body, scanner: xmlscan.New(&tagLimiter{r: io.LimitReader(body, limit+1), left: limit}), names: map[string]string{}}, nil
}

// next moves to the next tag; io.EOF at the end of a well-formed part. Text
// before the tag is in w.text until the next call.
func (w *walker) next() error {
	if w.element.bad != nil {
		return w.failure(w.element.bad)
	}
	w.text = w.text[:0]
	if w.closed {
		w.closed = false
		w.element = element{name: w.element.name, depth: w.element.depth, end: true}
		return nil
	}
	for {
		token, err := w.scanner.Next()
		if err == io.EOF {
			return io.EOF
		}
		if err != nil {
			return w.failure(err)
		}
		switch token {
		case xmlscan.StartTag, xmlscan.EmptyTag:
			w.element = element{name: w.name(), depth: w.scanner.Level, attrs: w.scanner.Attrs()}
			w.closed = token == xmlscan.EmptyTag
			return nil
		case xmlscan.EndTag:
			w.element = element{name: w.name(), depth: w.scanner.Level, end: true}
			return nil
		default:
			if w.text, err = w.scanner.AppendText(w.text); err != nil {
				return w.failure(err)
			}
		}
	}
}

// failure is an error of the part, in words for its user where it is damage.
func (w *walker) failure(err error) error {
	var known *opc.Error
	if errors.As(err, &known) && known.Kind == opc.ErrDamaged && known.Part == "" {
		return opc.Damaged(w.part.Name, "the file is damaged inside", errors.New(known.Why))
	}
	return opc.XMLError(w.part.Name, err)
}

// name is the element's without its prefix. A sheet has few names, many times.
func (w *walker) name() string {
	local := w.scanner.Name[bytes.IndexByte(w.scanner.Name, ':')+1:]
	name, ok := w.names[string(local)]
	if !ok {
		name = string(local)
		if len(w.names) < maxNames {
			w.names[name] = name
		}
	}
	return name
}

func (w *walker) close() { w.body.Close() }

// walk calls visit at every tag of a part.
func (p *pkg) walk(f *opc.Part, limit int64, visit func(*element) error) error {
	w, err := p.walker(f, limit)
	if err != nil {
		return err
	}
	defer w.close()
	for {
		if err := w.next(); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
		if err := visit(&w.element); err != nil {
			return err
		}
	}
}

// tagLimiter bounds the memory of the XML decoder, which keeps a tag or a
// text whole: it refuses a part once too much stands between two tags, and
// once the part is longer than allowed.
type tagLimiter struct {
	r    io.Reader
	left int64
	run  int
}

func (t *tagLimiter) Read(b []byte) (int, error) {
	n, err := t.r.Read(b)
	t.left -= int64(n)
	if i := bytes.LastIndexByte(b[:n], '<'); i >= 0 {
		t.run = n - i
	} else {
		t.run += n
	}
	switch {
	case t.left < 0:
		return n, opc.OverLimit("", "a part of the file is larger than this program agrees to read")
	case t.run > maxTag:
		return n, opc.OverLimit("", "a single cell of the file is larger than this program agrees to read")
	}
	return n, err
}

// Package ooxml reads the cells of .xlsx and .xlsm workbooks row by row.
//
// Excelize, which writes new workbooks, will not do for reading. Its row iterator
// returns neither a cell's stored type nor its number format, without which 7.10
// as text, 7.1 as a number and half past eleven look alike. Its other API loads
// the whole sheet, a gigabyte for 100,000 rows. It also ignores damaged parts.
//
// [Rows] reads values, one row at a time. [Reader] splits the same XML into items
// that keep every byte, for package splice. [Open] checks every part against its
// checksum and the limits, so a damaged file is refused before it is read.
package ooxml

import (
	"bytes"
	"errors"
	"io"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

const (
	// MaxStrings bounds the shared texts, in bytes.
	MaxStrings = 256 << 20
	maxTag     = 4 << 20 // bytes of text between two tags
	maxNames   = 200     // element names that are kept
)

// limits are larger than any roster needs; tests use smaller ones.
type limits struct {
	opc.Limits
	texts int64
}

var defaultLimits = limits{opc.Default, MaxStrings}

// element is a start or end tag.
type element struct {
	name  string // without prefix
	depth int    // the root has 1
	end   bool
	attrs []byte // raw; valid until the next tag
	bad   error  // the first attribute error
}

// attr returns the attribute of that exact name, or "".
func (e *element) attr(name string) string { return string(e.value(name)) }

// value returns the same, valid until the next tag. next reports an attribute that
// cannot be decoded.
func (e *element) value(name string) []byte {
	for at := 0; ; {
		a, ok, err := xmlscan.NextAttr(e.attrs, at)
		if err == nil && ok && string(a.Name) == name {
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

// walker reads the XML of a part tag by tag.
type walker struct {
	part    *opc.Part
	body    io.ReadCloser
	scanner *xmlscan.Scanner
	element element
	closed  bool   // the element ends where it starts
	text    []byte // character data since the last tag
	names   map[string]string
}

func (b *Book) walker(part *opc.Part) (*walker, error) {
	body, err := b.OpenXML(part)
	if err != nil {
		return nil, err
	}
	return &walker{part: part, body: body, scanner: xmlscan.New(body), names: map[string]string{}}, nil
}

// next reads the next tag and the text before it. It returns io.EOF at the end of
// a well-formed part.
func (w *walker) next() error {
	if w.element.bad != nil {
		return failure(w.part, w.element.bad)
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
			return failure(w.part, err)
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
				return failure(w.part, err)
			}
			if len(w.text) > maxTag {
				return opc.OverLimit(w.part.Name, "a cell of the file is larger than this program reads")
			}
		}
	}
}

// failure returns the user's error for err in a part.
func failure(part *opc.Part, err error) error {
	var known *opc.Error
	if errors.As(err, &known) && known.Kind == opc.ErrDamaged && known.Part == "" {
		return opc.Damaged(part.Name, "the file is damaged inside", errors.New(known.Why))
	}
	return opc.XMLError(part.Name, err)
}

// name returns the element's name without its prefix. Names repeat, so they are
// cached.
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

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
	"encoding/xml"
	"io"

	"tenback/workbook/opc"
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
	MaxRows       = 1_048_576
	MaxCols       = 16_384
	maxTag        = 4 << 20 // bytes between two tags, or in one
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
	attrs []xml.Attr
}

func (e *element) attr(name string) string {
	for _, a := range e.attrs {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// relID is the r:id attribute, whatever its prefix.
func (e *element) relID() string {
	for _, a := range e.attrs {
		if a.Name.Local == "id" && a.Name.Space != "" {
			return a.Value
		}
	}
	return ""
}

// walker goes through the XML of a part.
type walker struct {
	part    *opc.Part
	body    io.ReadCloser
	decoder *xml.Decoder
	element element
	text    []byte // character data since the last tag
}

func (p *pkg) walker(f *opc.Part, limit int64) (*walker, error) {
	body, err := p.Open(f)
	if err != nil {
		return nil, err
	}
	return &walker{part: f, body: body, decoder: xml.NewDecoder(&tagLimiter{r: io.LimitReader(body, limit+1), left: limit})}, nil
}

// next moves to the next tag; io.EOF at the end of a well-formed part. Text
// before the tag is in w.text until the next call.
func (w *walker) next() error {
	w.text = w.text[:0]
	if w.element.end {
		w.element.depth--
	}
	for {
		token, err := w.decoder.Token()
		if err == io.EOF {
			return io.EOF
		}
		if err != nil {
			return opc.XMLError(w.part.Name, err)
		}
		switch t := token.(type) {
		case xml.StartElement:
			w.element = element{name: t.Name.Local, depth: w.element.depth + 1, attrs: t.Attr}
			if w.element.depth > opc.MaxDepth {
				return opc.Damaged(w.part.Name, "the file is nested deeper than any spreadsheet", nil)
			}
			return nil
		case xml.EndElement:
			w.element = element{name: t.Name.Local, depth: w.element.depth, end: true}
			return nil
		case xml.CharData:
			w.text = append(w.text, t...)
		}
	}
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

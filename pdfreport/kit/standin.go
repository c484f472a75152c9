package kit

import (
	"bytes"
	"fmt"
	"strconv"
)

// The PDF library reads the definition of a font, of two hundred widths, and
// writes it out again in every document, which was a tenth of the time of one. So
// it is told of a stand-in that has nothing but the font's name, and the press
// puts the font in its place, as it was made ready once for the process.

// embedding is what a font is in a document, but for the numbers of its objects.
type embedding struct {
	font       []byte // open: /FontDescriptor and /Encoding are to follow
	descriptor []byte // open: /FontFile2 is to follow
	file       []byte // the whole object
	encoding   []byte // the same for the weights of a code page
	page       uint8
}

// standIn is the definition by which the library knows a font.
func (d *fontDefinition) standIn() []byte {
	return fmt.Appendf(nil, `{"Tp": "Core", "Name": %q}`, d.Name)
}

// embedding makes a font of a code page ready.
func (d *fontDefinition) embedding(page uint8, file []byte) *embedding {
	e := &embedding{page: page}
	var b bytes.Buffer
	fmt.Fprintf(&b, "<</Type /Font\n/BaseFont /%s\n/Subtype /%s\n/FirstChar %d /LastChar %d\n/Widths [", d.Name, d.Tp, firstCode, len(d.Cw)-1)
	for _, width := range d.Cw[firstCode:] {
		fmt.Fprintf(&b, "%d ", width)
	}
	b.WriteString("]\n")
	e.font = b.Bytes()
	box := d.Desc.FontBBox
	e.descriptor = fmt.Appendf(nil, "<</Type /FontDescriptor /FontName /%s /Ascent %d /Descent %d /CapHeight %d /Flags %d /FontBBox [%d %d %d %d] /ItalicAngle %d /StemV %d /MissingWidth %d",
		d.Name, d.Desc.Ascent, d.Desc.Descent, d.Desc.CapHeight, d.Desc.Flags, box.Xmin, box.Ymin, box.Xmax, box.Ymax, d.Desc.ItalicAngle, d.Desc.StemV, d.Desc.MissingWidth)
	e.file = fmt.Appendf(nil, "<</Length %d\n/Filter /FlateDecode\n/Length1 %d\n>>\nstream\n%s\nendstream\n", len(file), d.OriginalSize, file)
	e.encoding = fmt.Appendf(nil, "<</Type /Encoding /BaseEncoding /WinAnsiEncoding /Differences [%s]>>\n", d.Diff)
	return e
}

// standInHead begins the object of a stand-in; the font's name follows.
var standInHead = []byte("<</Type /Font\n/BaseFont /")

// font writes a font in place of its stand-in, of which head is the first line
// and name begins with the font's name, and has the objects added that it needs.
func (p *press) font(head, name []byte) error {
	name, _, _ = bytes.Cut(name, []byte("\n"))
	e := fonts().embeddings[string(name)]
	if e == nil {
		return errLayout
	}
	encoding, known := p.encodings[e.page]
	if !known {
		encoding = p.add(e.encoding)
		p.encodings[e.page] = encoding
	}
	file := p.add(e.file)
	descriptor := p.add(fmt.Appendf(nil, "%s /FontFile2 %d 0 R>>\n", e.descriptor, file))
	fmt.Fprintf(&p.out, "%s\n%s/FontDescriptor %d 0 R\n/Encoding %d 0 R\n>>\nendobj\n", head, e.font, descriptor, encoding)
	return nil
}

// add has an object added to the end of the document and tells its number.
func (p *press) add(body []byte) (number int) {
	p.added = append(p.added, body)
	return p.count + len(p.added)
}

// writeAdded writes the objects that are added.
func (p *press) writeAdded() {
	for i, body := range p.added {
		p.starts = append(p.starts, p.out.Len())
		p.out.Write(strconv.AppendInt(p.out.AvailableBuffer(), int64(p.count+i+1), 10))
		p.out.WriteString(" 0 obj\n")
		p.out.Write(body)
		p.out.WriteString("endobj\n")
	}
}

package kit

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"github.com/go-pdf/fpdf"
	"github.com/klauspost/compress/zlib"
)

// The PDF library makes a new compressor for every page and encodes every font
// again for every document, which took a third of the time. So it writes plain
// pages and stand-ins for fonts. A press then compresses the pages with a
// compressor that is reused, and puts in the prepared fonts.

var errLayout = errors.New("the PDF library laid out a document in an unknown way")

// press finishes documents. Its buffers and its compressor are reused.
type press struct {
	z                *zlib.Writer
	doc, stream, out bytes.Buffer  // as the library wrote it, a compressed page, the outcome
	added            [][]byte      // bodies of further objects, which follow those of doc
	starts           []int         // offset in out of each object, by number from 1
	encodings        map[uint8]int // numbers of the encoding objects, by code page
}

// presses holds idle presses. It is no sync.Pool because the collector would
// empty that every hundred pages.
var presses = make(chan *press, 16)

// keptMost is the largest document buffer that a press keeps.
const keptMost = 1 << 20

func takePress() *press {
	select {
	case p := <-presses:
		return p
	default:
		z, err := zlib.NewWriterLevel(io.Discard, zlib.BestSpeed)
		if err != nil {
			panic(err) // the level is a constant
		}
		return &press{z: z, encodings: map[uint8]int{}}
	}
}

func (p *press) giveBack() {
	if p.doc.Cap() > keptMost {
		return
	}
	p.doc.Reset()
	select {
	case presses <- p:
	default:
	}
}

// Output writes a document and compresses its plain pages if pack is set. It
// writes nothing of a document that cannot be finished.
func Output(w io.Writer, pdf *fpdf.Fpdf, pack bool) error {
	p := takePress()
	defer p.giveBack()
	if err := pdf.Output(&p.doc); err != nil {
		return err
	}
	if err := p.finish(pack); err != nil {
		return err
	}
	_, err := w.Write(p.out.Bytes())
	return err
}

// object is the number of an object and its offset in the document.
type object struct{ start, number int }

// finish makes p.out from p.doc.
func (p *press) finish(pack bool) error {
	doc := p.doc.Bytes()
	end := bytes.LastIndex(doc, []byte("\nxref\n")) + 1
	table, trailer, ok := bytes.Cut(doc[end:], []byte("trailer\n"))
	fields := bytes.Fields(table) // "xref", "0", the count, then three for each object, the first being free
	if end == 0 || !ok || len(fields) < 9 {
		return errLayout
	}
	var objects []object
	for i := 6; i < len(fields); i += 3 {
		start, err := strconv.Atoi(string(fields[i]))
		if err != nil || start > end {
			return errLayout
		}
		objects = append(objects, object{start, i/3 - 1})
	}
	slices.SortFunc(objects, func(a, b object) int { return cmp.Compare(a.start, b.start) })
	p.out.Reset()
	p.out.Write(doc[:objects[0].start])
	p.starts, p.added = append(p.starts[:0], make([]int, len(objects))...), p.added[:0]
	clear(p.encodings)
	for i, o := range objects {
		next := end
		if i+1 < len(objects) {
			next = objects[i+1].start
		}
		p.starts[o.number-1] = p.out.Len()
		if err := p.object(doc[o.start:next], pack, len(objects)); err != nil {
			return err
		}
	}
	for i, body := range p.added {
		p.starts = append(p.starts, p.out.Len())
		fmt.Fprintf(&p.out, "%d 0 obj\n%sendobj\n", len(objects)+i+1, body)
	}
	return p.finishTable(trailer, len(objects))
}

// object writes an object of a document that had count of them.
func (p *press) object(object []byte, pack bool, count int) error {
	head, rest, _ := bytes.Cut(object, []byte("\n"))
	if name, isFont := bytes.CutPrefix(rest, standInHead); isFont {
		return p.font(head, name, count)
	}
	_, stream, _ := bytes.Cut(rest, []byte(">>\nstream\n"))
	content, isStream := bytes.CutSuffix(stream, []byte("\nendstream\nendobj\n"))
	if !pack || !isStream || !bytes.HasPrefix(rest, []byte("<</Length ")) {
		p.out.Write(object)
		return nil
	}
	p.stream.Reset()
	p.z.Reset(&p.stream)
	if _, err := p.z.Write(content); err != nil {
		return err
	}
	if err := p.z.Close(); err != nil {
		return err
	}
	fmt.Fprintf(&p.out, "%s\n<</Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\nendobj\n", head, p.stream.Len(), p.stream.Bytes())
	return nil
}

// finishTable writes the table of objects and the end of the document.
func (p *press) finishTable(trailer []byte, count int) error {
	table := p.out.Len()
	fmt.Fprintf(&p.out, "xref\n0 %d\n0000000000 65535 f \n", len(p.starts)+1)
	for _, start := range p.starts {
		fmt.Fprintf(&p.out, "%010d 00000 n \n", start)
	}
	head, rest, ok := bytes.Cut(trailer, fmt.Appendf(nil, "/Size %d\n", count+1))
	rest, _, hasStart := bytes.Cut(rest, []byte("startxref\n"))
	if !ok || !hasStart {
		return errLayout
	}
	fmt.Fprintf(&p.out, "trailer\n%s/Size %d\n%sstartxref\n%d\n%%%%EOF\n", head, len(p.starts)+1, rest, table)
	return nil
}

// embedding is a prepared font as it stands in a document, without the numbers of
// its objects.
type embedding struct {
	page       uint8
	font       []byte // lacks /FontDescriptor and /Encoding
	descriptor []byte // lacks /FontFile2
	file       []byte
	encoding   []byte // shared by the weights of a code page
}

// standIn is the definition that the library gets.
func (d *fontDefinition) standIn() []byte {
	return fmt.Appendf(nil, `{"Tp": "Core", "Name": %q}`, d.Name)
}

// standInHead begins the object of a stand-in. The font's name follows.
var standInHead = []byte("<</Type /Font\n/BaseFont /")

// embedding prepares a font of a code page. file is compressed.
func (d *fontDefinition) embedding(page uint8, file []byte) *embedding {
	font := fmt.Appendf(nil, "%s%s\n/Subtype /%s\n/FirstChar %d /LastChar %d\n/Widths [", standInHead, d.Name, d.Tp, firstCode, len(d.Cw)-1)
	for _, width := range d.Cw[firstCode:] {
		font = fmt.Appendf(font, "%d ", width)
	}
	box := d.Desc.FontBBox
	return &embedding{page: page, font: append(font, "]\n"...),
		descriptor: fmt.Appendf(nil, "<</Type /FontDescriptor /FontName /%s /Ascent %d /Descent %d /CapHeight %d /Flags %d /FontBBox [%d %d %d %d] /ItalicAngle %d /StemV %d /MissingWidth %d",
			d.Name, d.Desc.Ascent, d.Desc.Descent, d.Desc.CapHeight, d.Desc.Flags, box.Xmin, box.Ymin, box.Xmax, box.Ymax, d.Desc.ItalicAngle, d.Desc.StemV, d.Desc.MissingWidth),
		file:     fmt.Appendf(nil, "<</Length %d\n/Filter /FlateDecode\n/Length1 %d\n>>\nstream\n%s\nendstream\n", len(file), d.OriginalSize, file),
		encoding: fmt.Appendf(nil, "<</Type /Encoding /BaseEncoding /WinAnsiEncoding /Differences [%s]>>\n", d.Diff)}
}

// font writes a font in place of its stand-in and adds the objects that it needs.
// head is the object's first line, and name begins with the font's name.
func (p *press) font(head, name []byte, count int) error {
	name, _, _ = bytes.Cut(name, []byte("\n"))
	e := fonts().embeddings[string(name)]
	if e == nil {
		return errLayout
	}
	add := func(body []byte) (number int) {
		p.added = append(p.added, body)
		return count + len(p.added)
	}
	if p.encodings[e.page] == 0 {
		p.encodings[e.page] = add(e.encoding)
	}
	file := add(e.file)
	descriptor := add(fmt.Appendf(nil, "%s /FontFile2 %d 0 R>>\n", e.descriptor, file))
	fmt.Fprintf(&p.out, "%s\n%s/FontDescriptor %d 0 R\n/Encoding %d 0 R\n>>\nendobj\n", head, e.font, descriptor, p.encodings[e.page])
	return nil
}

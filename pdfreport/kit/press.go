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

// The PDF library makes a new compressor for every page, of most of a megabyte,
// which was a fifth of the time of a document. So it writes the pages as they
// are, and the press packs them with compressors that are used again, of a package
// that takes a third of the time of the standard library's. It also puts in the
// fonts (see standIn).

// errLayout tells that a document is not laid out as the library lays it out.
var errLayout = errors.New("the library lays its documents out in another way than expected")

// press is what finishing a document takes: a compressor, and room for the
// document as the library wrote it, for one packed stream, and for the outcome.
type press struct {
	z                *zlib.Writer
	doc, stream, out bytes.Buffer
	count            int           // objects in doc
	added            [][]byte      // more objects, which come after them
	starts           []int         // where the objects begin in out, in the order of their numbers
	encodings        map[uint8]int // numbers of the objects, by code page
}

// presses are those not in use: a few, for ever, since the collector would empty
// a sync.Pool every hundred pages.
var presses = make(chan *press, 16)

// roomMost is what a press may keep of room for a document.
const roomMost = 1 << 20

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

// giveBack lets others use the press, and what was in it.
func (p *press) giveBack() {
	if p.doc.Cap() > roomMost {
		return
	}
	p.doc.Reset()
	select {
	case presses <- p:
	default:
	}
}

// Output writes a document, its plain pages packed if so wished. Nothing is
// written of a document that can't be finished.
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

// These begin and end the parts of a document that finish looks at.
var (
	tableHead   = []byte("xref\n0 ")
	plainHead   = []byte("<</Length ")
	plainStream = []byte(">>\nstream\n")
	plainEnd    = []byte("\nendstream\n")
)

// finish makes p.out of p.doc: with fonts, and with its plain streams, which are
// the contents of the pages, packed if so wished; all else stays as it is.
func (p *press) finish(pack bool) error {
	doc := p.doc.Bytes()
	table, objects, err := objectTable(doc)
	if err != nil {
		return err
	}
	p.out.Reset()
	p.out.Write(doc[:objects[0].start])
	p.count, p.added = len(objects), p.added[:0]
	p.starts = append(p.starts[:0], make([]int, p.count)...)
	clear(p.encodings)
	for i, o := range objects {
		end := table
		if i+1 < len(objects) {
			end = objects[i+1].start
		}
		p.starts[o.number-1] = p.out.Len()
		if err := p.object(doc[o.start:end], pack); err != nil {
			return err
		}
	}
	p.writeAdded()
	return p.finishTable(doc[table:])
}

// object writes an object, its stream packed if it has a plain one and that is
// wished.
func (p *press) object(object []byte, pack bool) error {
	head, rest, ok := bytes.Cut(object, []byte("\n"))
	if name, isFont := bytes.CutPrefix(rest, standInHead); isFont {
		return p.font(head, name)
	}
	if !ok || !pack || !bytes.HasPrefix(rest, plainHead) {
		p.out.Write(object)
		return nil
	}
	digits, stream, ok := bytes.Cut(rest[len(plainHead):], plainStream)
	length, err := strconv.Atoi(string(digits))
	if !ok || err != nil || length < 0 || length > len(stream) || !bytes.HasPrefix(stream[length:], plainEnd) {
		return errLayout
	}
	p.stream.Reset()
	p.z.Reset(&p.stream)
	if _, err := p.z.Write(stream[:length]); err != nil {
		return err
	}
	if err := p.z.Close(); err != nil {
		return err
	}
	fmt.Fprintf(&p.out, "%s\n<</Filter /FlateDecode /Length %d%s", head, p.stream.Len(), plainStream)
	p.out.Write(p.stream.Bytes())
	p.out.Write(stream[length:])
	return nil
}

// entryLength is that of a line of the table of objects.
const entryLength = len("0000000000 00000 n \n")

// object is where an object of a document begins.
type object struct{ start, number int }

// objectTable finds the table of objects, and the objects in the order in which
// they stand.
func objectTable(doc []byte) (table int, objects []object, err error) {
	last := bytes.LastIndex(doc, startMark)
	if last < 0 {
		return 0, nil, errLayout
	}
	digits, _, _ := bytes.Cut(doc[last+len(startMark):], []byte("\n"))
	if table, err = strconv.Atoi(string(digits)); err != nil || table < 0 || table > last || !bytes.HasPrefix(doc[table:], tableHead) {
		return 0, nil, errLayout
	}
	entries, _, err := tableEntries(doc[table:])
	if err != nil {
		return 0, nil, err
	}
	for number := 1; len(entries) > 0; number++ {
		start, err := strconv.Atoi(string(entries[:10]))
		if err != nil || start >= table {
			return 0, nil, errLayout
		}
		objects = append(objects, object{start, number})
		entries = entries[entryLength:]
	}
	if len(objects) == 0 {
		return 0, nil, errLayout
	}
	slices.SortFunc(objects, func(a, b object) int { return cmp.Compare(a.start, b.start) })
	return table, objects, nil
}

// tableEntries are, of the end of a document, the entries of the objects in use,
// and what stands after them.
func tableEntries(end []byte) (entries, trailer []byte, err error) {
	digits, _, ok := bytes.Cut(end[len(tableHead):], []byte("\n"))
	n, err := strconv.Atoi(string(digits))
	first := len(tableHead) + len(digits) + 1 + entryLength
	if !ok || err != nil || n < 1 || first+(n-1)*entryLength > len(end) {
		return nil, nil, errLayout
	}
	return end[first : first+(n-1)*entryLength], end[first+(n-1)*entryLength:], nil
}

// startMark stands before the place of the table.
var startMark = []byte("startxref\n")

// finishTable writes the table of where the objects stand, and the end of the
// document.
func (p *press) finishTable(end []byte) error {
	_, trailer, err := tableEntries(end)
	if err != nil {
		return err
	}
	table := p.out.Len()
	fmt.Fprintf(&p.out, "%s%d\n0000000000 65535 f \n", tableHead, len(p.starts)+1)
	for _, start := range p.starts {
		fmt.Fprintf(&p.out, "%010d 00000 n \n", start)
	}
	head, rest, ok := bytes.Cut(trailer, fmt.Appendf(nil, "/Size %d\n", p.count+1))
	at := bytes.LastIndex(rest, startMark)
	if !ok || at < 0 {
		return errLayout
	}
	fmt.Fprintf(&p.out, "%s/Size %d\n%s%s%d\n%%%%EOF\n", head, len(p.starts)+1, rest[:at], startMark, table)
	return nil
}

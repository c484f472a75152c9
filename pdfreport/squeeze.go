package pdfreport

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"github.com/klauspost/compress/zlib"
)

// The PDF library makes a new compressor for every page, of most of a megabyte,
// which was a fifth of the time of a document. So it writes the pages as they
// are, and squeeze compresses them with compressors that are used again, of a
// package that takes a third of the time of the standard library's.

// errLayout tells that a document is not laid out as the library lays it out.
var errLayout = errors.New("the library lays its documents out in another way than expected")

// press is what squeezing a document takes: a compressor, and room for the
// document as the library wrote it, for one packed stream, and for the outcome.
type press struct {
	z                *zlib.Writer
	doc, stream, out bytes.Buffer
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
		return &press{z: z}
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

// These begin and end the parts of a document that squeeze looks at.
var (
	tableHead   = []byte("xref\n0 ")
	plainHead   = []byte("<</Length ")
	plainStream = []byte(">>\nstream\n")
	plainEnd    = []byte("\nendstream\n")
)

// squeeze writes the document in p.doc with its plain streams, which are the
// contents of the pages, compressed; all else stays as it is.
func (p *press) squeeze(w io.Writer) error {
	doc := p.doc.Bytes()
	table, starts, err := objectTable(doc)
	if err != nil {
		return err
	}
	p.out.Reset()
	p.out.Write(doc[:starts[0]])
	moved := make(map[int]int, len(starts)) // offset of an object in doc to that in out
	for i, at := range starts {
		next := table
		if i+1 < len(starts) {
			next = starts[i+1]
		}
		moved[at] = p.out.Len()
		if err := p.object(doc[at:next]); err != nil {
			return err
		}
	}
	if err := finishTable(&p.out, doc[table:], moved); err != nil {
		return err
	}
	_, err = w.Write(p.out.Bytes())
	return err
}

// object writes an object, its stream compressed if it has a plain one.
func (p *press) object(object []byte) error {
	head, rest, ok := bytes.Cut(object, []byte("\n"))
	if !ok || !bytes.HasPrefix(rest, plainHead) {
		_, err := p.out.Write(object)
		return err
	}
	digits, stream, ok := bytes.Cut(rest[len(plainHead):], plainStream)
	length, err := strconv.Atoi(string(digits))
	if !ok || err != nil { // the file of a font, which is compressed already
		_, err := p.out.Write(object)
		return err
	}
	if length < 0 || length > len(stream) || !bytes.HasPrefix(stream[length:], plainEnd) {
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

// objectTable finds the table of objects and where each begins, rising.
func objectTable(doc []byte) (table int, starts []int, err error) {
	last := bytes.LastIndex(doc, []byte("startxref\n"))
	if last < 0 {
		return 0, nil, errLayout
	}
	digits, _, _ := bytes.Cut(doc[last+len("startxref\n"):], []byte("\n"))
	if table, err = strconv.Atoi(string(digits)); err != nil || table < 0 || table > last || !bytes.HasPrefix(doc[table:], tableHead) {
		return 0, nil, errLayout
	}
	_, entries, err := tableEntries(doc[table:])
	if err != nil {
		return 0, nil, err
	}
	for len(entries) > 0 {
		start, err := strconv.Atoi(string(entries[:10]))
		if err != nil || start >= table {
			return 0, nil, errLayout
		}
		starts = append(starts, start)
		entries = entries[entryLength:]
	}
	if len(starts) == 0 {
		return 0, nil, errLayout
	}
	slices.Sort(starts)
	return table, starts, nil
}

// tableEntries splits the end of a document into what stands before the entries
// of the objects in use, and the entries.
func tableEntries(end []byte) (before, entries []byte, err error) {
	digits, _, ok := bytes.Cut(end[len(tableHead):], []byte("\n"))
	n, err := strconv.Atoi(string(digits))
	first := len(tableHead) + len(digits) + 1 + entryLength
	if !ok || err != nil || n < 1 || first+(n-1)*entryLength > len(end) {
		return nil, nil, errLayout
	}
	return end[:first], end[first : first+(n-1)*entryLength], nil
}

// finishTable writes what has become of the objects, and the end of the document
// with the places where they now stand.
func finishTable(out *bytes.Buffer, end []byte, moved map[int]int) error {
	before, entries, err := tableEntries(end)
	if err != nil {
		return err
	}
	table := out.Len()
	out.Write(before)
	for i := 0; i < len(entries); i += entryLength {
		was, err := strconv.Atoi(string(entries[i : i+10]))
		now, known := moved[was]
		if err != nil || !known {
			return errLayout
		}
		fmt.Fprintf(out, "%010d%s", now, entries[i+10:i+entryLength])
	}
	trailer := end[len(before)+len(entries):]
	at := bytes.LastIndex(trailer, []byte("startxref\n"))
	if at < 0 {
		return errLayout
	}
	out.Write(trailer[:at])
	fmt.Fprintf(out, "startxref\n%d\n%%%%EOF\n", table)
	return nil
}

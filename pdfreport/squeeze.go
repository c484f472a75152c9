package pdfreport

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"sync"
)

// The PDF library makes a new compressor for every page, of most of a megabyte,
// which was a fifth of the time of a document. So it writes the pages as they
// are, and squeeze compresses them with compressors that are used again.

// errLayout tells that a document is not laid out as the library lays it out.
var errLayout = errors.New("the library lays its documents out in another way than expected")

// compressors are those not in use.
var compressors = sync.Pool{New: func() any {
	z, err := zlib.NewWriterLevel(io.Discard, zlib.BestSpeed)
	if err != nil {
		panic(err) // the level is a constant
	}
	return z
}}

// These begin and end the parts of a document that squeeze looks at.
var (
	tableHead   = []byte("xref\n0 ")
	plainHead   = []byte("<</Length ")
	plainStream = []byte(">>\nstream\n")
	plainEnd    = []byte("\nendstream\n")
)

// squeeze writes a document of the library with its plain streams, which are the
// contents of the pages, compressed; all else stays as it is.
func squeeze(w io.Writer, doc []byte) error {
	z := compressors.Get().(*zlib.Writer)
	defer compressors.Put(z)
	table, starts, err := objectTable(doc)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	out.Grow(len(doc))
	out.Write(doc[:starts[0]])
	moved := make(map[int]int, len(starts)) // offset of an object in doc to that in out
	for i, at := range starts {
		next := table
		if i+1 < len(starts) {
			next = starts[i+1]
		}
		moved[at] = out.Len()
		if err := squeezeObject(&out, doc[at:next], z); err != nil {
			return err
		}
	}
	return finishTable(w, &out, doc[table:], moved)
}

// squeezeObject writes an object, its stream compressed if it has a plain one.
func squeezeObject(out *bytes.Buffer, object []byte, z *zlib.Writer) error {
	head, rest, ok := bytes.Cut(object, []byte("\n"))
	if !ok || !bytes.HasPrefix(rest, plainHead) {
		_, err := out.Write(object)
		return err
	}
	digits, stream, ok := bytes.Cut(rest[len(plainHead):], plainStream)
	length, err := strconv.Atoi(string(digits))
	if !ok || err != nil { // the file of a font, which is compressed already
		_, err := out.Write(object)
		return err
	}
	if length < 0 || length > len(stream) || !bytes.HasPrefix(stream[length:], plainEnd) {
		return errLayout
	}
	var packed bytes.Buffer
	z.Reset(&packed)
	if _, err := z.Write(stream[:length]); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s\n<</Filter /FlateDecode /Length %d%s", head, packed.Len(), plainStream)
	out.Write(packed.Bytes())
	out.Write(stream[length:])
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
func finishTable(w io.Writer, out *bytes.Buffer, end []byte, moved map[int]int) error {
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
	_, err = w.Write(out.Bytes())
	return err
}

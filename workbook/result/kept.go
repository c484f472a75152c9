package result

import (
	"bytes"
	"encoding/binary"
	"math"
	"sync"

	"github.com/klauspost/compress/s2"

	"tenback/workbook/splice"
)

// keptRows caches the results of a chunk of rows, compressed. They are read more than
// once, and their texts are costly.
type keptRows struct {
	filled []columnSet // of each row
	packed []byte
}

// packing holds reusable buffers for plain and compressed results.
type packing struct{ plain, packed []byte }

var packings = sync.Pool{New: func() any { return new(packing) }}

// keep compresses the cells of rows; filled lists the columns of each row.
func keep(cells []splice.Cell, filled []columnSet) keptRows {
	room := packings.Get().(*packing)
	defer packings.Put(room)
	b := room.plain[:0]
	for i := range cells {
		c := &cells[i]
		b = append(b, byte(c.Kind))
		if c.Kind == splice.Number {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(c.Number))
			continue
		}
		b = append(binary.AppendUvarint(b, uint64(len(c.Text))), c.Text...)
	}
	room.plain = b
	room.packed = s2.Encode(room.packed[:cap(room.packed)], b)
	return keptRows{filled, bytes.Clone(room.packed)}
}

// places returns the cells of the rows without their values.
func (k *keptRows) places(e *sheetEdit, rows []int, styles cellStyles) []splice.Cell {
	cells := make([]splice.Cell, 0, len(rows)*len(e.columns))
	for i, row := range rows {
		for n := range k.filled[i].all() {
			cells = append(cells, splice.Cell{Row: row, Col: e.columns[n].col, Style: styles.body[n]})
		}
	}
	return cells
}

// cells returns the cells of the rows.
func (k *keptRows) cells(e *sheetEdit, rows []int, styles cellStyles) []splice.Cell {
	cells := k.places(e, rows, styles)
	b, err := s2.Decode(nil, k.packed)
	if err != nil {
		panic(err) // the buffer is ours alone
	}
	text := string(b)
	for i := range cells {
		c := &cells[i]
		c.Kind = splice.Kind(b[0])
		b = b[1:]
		if c.Kind == splice.Number {
			c.Number = math.Float64frombits(binary.LittleEndian.Uint64(b))
			b = b[8:]
			continue
		}
		length, n := binary.Uvarint(b)
		from := len(text) - len(b) + n
		c.Text = text[from : from+int(length)]
		b = b[n+int(length):]
	}
	return cells
}

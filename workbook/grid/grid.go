// Package grid holds the addresses and ranges of a sheet's cells.
package grid

import (
	"strconv"
	"strings"
)

// The size of a sheet.
const (
	MaxRow = 1_048_576
	MaxCol = 16_384
)

// Address is a cell's place, counted from 1. The zero Address is no cell.
type Address struct{ Row, Col int }

// String returns the usual form, such as "K5".
func (a Address) String() string {
	var room [16]byte
	return string(a.Append(room[:0]))
}

// Append adds the usual form to b.
func (a Address) Append(b []byte) []byte {
	return strconv.AppendInt(appendColumn(b, a.Col), int64(a.Row), 10)
}

// At returns the address of a cell, such as "C7" for column 3 and row 7.
func At(col, row int) string { return Address{row, col}.String() }

// Column returns a column's letters, such as "AB" for 28.
func Column(col int) string { return string(appendColumn(nil, col)) }

func appendColumn(b []byte, col int) []byte {
	var letters [8]byte
	i := len(letters)
	for ; col > 0 && i > 0; col = (col - 1) / 26 {
		i--
		letters[i] = byte('A' + (col-1)%26)
	}
	return append(b, letters[i:]...)
}

// ParseAddress parses letters then digits, as in "K5" or "k5", inside the sheet.
func ParseAddress[T string | []byte](b T) (Address, bool) {
	var a Address
	i := 0
	for ; i < len(b) && i < 4; i++ {
		c := b[i] &^ 0x20 // upper case
		if c < 'A' || c > 'Z' {
			break
		}
		a.Col = a.Col*26 + int(c-'A') + 1
	}
	if i == 0 || i == len(b) || len(b)-i > 7 || b[i] == '0' {
		return a, false
	}
	for ; i < len(b); i++ {
		if b[i] < '0' || b[i] > '9' {
			return a, false
		}
		a.Row = a.Row*10 + int(b[i]-'0')
	}
	return a, a.Row <= MaxRow && a.Col <= MaxCol
}

// Range returns the range of the one cell.
func (a Address) Range() Range { return Range{a.Row, a.Col, a.Row, a.Col} }

// Range is a block of cells, both ends included, counted from 1.
type Range struct{ FirstRow, FirstCol, LastRow, LastCol int }

// String returns the usual form, such as "A1:T30", or "K5" for one cell.
func (r Range) String() string {
	first := Address{r.FirstRow, r.FirstCol}.String()
	if r.FirstRow == r.LastRow && r.FirstCol == r.LastCol {
		return first
	}
	return first + ":" + Address{r.LastRow, r.LastCol}.String()
}

// Absolute returns the form with dollar signs, such as "$A$1:$T$30".
func (r Range) Absolute() string {
	s := "$" + Column(r.FirstCol) + "$" + strconv.Itoa(r.FirstRow)
	if r.FirstRow == r.LastRow && r.FirstCol == r.LastCol {
		return s
	}
	return s + ":$" + Column(r.LastCol) + "$" + strconv.Itoa(r.LastRow)
}

// Contains reports whether a cell is in r.
func (r Range) Contains(row, col int) bool {
	return row >= r.FirstRow && row <= r.LastRow && col >= r.FirstCol && col <= r.LastCol
}

// Overlaps reports whether r and q have a cell in common.
func (r Range) Overlaps(q Range) bool {
	return r.FirstRow <= q.LastRow && q.FirstRow <= r.LastRow &&
		r.FirstCol <= q.LastCol && q.FirstCol <= r.LastCol
}

// Valid reports whether r is a block inside the sheet.
func (r Range) Valid() bool {
	return r.FirstRow >= 1 && r.FirstRow <= r.LastRow && r.LastRow <= MaxRow &&
		r.FirstCol >= 1 && r.FirstCol <= r.LastCol && r.LastCol <= MaxCol
}

// Grow extends r, which may be zero, to include q.
func (r *Range) Grow(q Range) {
	if r.LastRow == 0 {
		*r = q
		return
	}
	r.FirstRow, r.FirstCol = min(r.FirstRow, q.FirstRow), min(r.FirstCol, q.FirstCol)
	r.LastRow, r.LastCol = max(r.LastRow, q.LastRow), max(r.LastCol, q.LastCol)
}

// ParseRange parses "A1:B2", "A1", and the whole-column and whole-row forms
// "A:C" and "2:7", with or without dollar signs. On failure the Range is zero.
func ParseRange(s string) (Range, bool) {
	if len(s) > 40 {
		return Range{}, false
	}
	from, to, ok := strings.Cut(strings.ReplaceAll(s, "$", ""), ":")
	if !ok {
		to = from
	}
	switch digits := "0123456789"; {
	case ok && !strings.ContainsAny(from+to, digits):
		from, to = from+"1", to+strconv.Itoa(MaxRow)
	case ok && strings.Trim(from+to, digits) == "":
		from, to = "A"+from, "XFD"+to
	}
	a, okA := ParseAddress(from)
	b, okB := ParseAddress(to)
	if !okA || !okB {
		return Range{}, false
	}
	r := Range{min(a.Row, b.Row), min(a.Col, b.Col), max(a.Row, b.Row), max(a.Col, b.Col)}
	return r, true
}

package splice

import (
	"fmt"
	"iter"
	"math"
	"strconv"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
)

// source iterates over the new cells of a sheet and checks them.
type source struct {
	pull   func() (Cell, bool)
	stop   func()
	cell   Cell // the next cell, if ok
	ok     bool
	styles int // how many styles there are to choose from
}

func newSource(cells iter.Seq[Cell], styles int) *source {
	if cells == nil {
		cells = func(func(Cell) bool) {}
	}
	pull, stop := iter.Pull(cells)
	return &source{pull: pull, stop: stop, styles: styles}
}

// places yields the new cells where their content does not matter.
func (s *Sheet) places() iter.Seq[Cell] {
	if s.Places != nil {
		return s.Places
	}
	return s.Cells
}

// advance moves to the next cell.
func (s *source) advance() error {
	last := s.cell
	s.cell, s.ok = s.pull()
	if !s.ok {
		return nil
	}
	c := &s.cell
	wrong := func(why string) error {
		return &Error{Kind: ErrRequest, Cell: Address{Row: c.Row, Col: c.Col}.String(), Why: why}
	}
	switch {
	case c.Row < 1 || c.Row > grid.MaxRow || c.Col < 1 || c.Col > grid.MaxCol:
		return &Error{Kind: ErrRequest, Why: fmt.Sprintf("row %d, column %d is outside the sheet (%d rows, %d columns)", c.Row, c.Col, grid.MaxRow, grid.MaxCol),
			Do: "remove unused columns on the right and retry"}
	case c.Row < last.Row || c.Row == last.Row && c.Col <= last.Col:
		return wrong("the new cells are not in order of rows and columns")
	case c.Style < 0 || c.Style > s.styles:
		return wrong("the new cell has a style that is not listed")
	case c.Kind > Text:
		return wrong("the new cell is of no known kind")
	case c.Kind == Number && (math.IsNaN(c.Number) || math.IsInf(c.Number, 0)):
		return wrong("the new cell's number is not a finite number")
	case c.Kind == Text && tooLong(c.Text):
		return wrong(fmt.Sprintf("the new text is longer than the %d characters a cell can hold", MaxText))
	}
	return nil
}

// Fits reports whether a text is short enough for a cell.
func Fits(text string) bool { return !tooLong(text) }

func tooLong(s string) bool {
	if len(s) <= MaxText {
		return false
	}
	n := 0
	for _, r := range s {
		n++
		if r > 0xFFFF {
			n++
		}
	}
	return n > MaxText
}

// appendCell appends the cell's XML. xf is the index of its format, 0 for the
// default.
func appendCell(b []byte, prefix string, c *Cell, xf int) []byte {
	open := func(name string) {
		b = append(append(append(b, '<'), prefix...), name...)
	}
	closing := func(name string) {
		b = append(append(append(append(b, '<', '/'), prefix...), name...), '>')
	}
	open("c")
	b = append(b, ` r="`...)
	b = append(Address{Row: c.Row, Col: c.Col}.Append(b), '"')
	if xf > 0 {
		b = append(b, ` s="`...)
		b = append(strconv.AppendInt(b, int64(xf), 10), '"')
	}
	switch c.Kind {
	case Number:
		b = append(b, '>')
		open("v")
		b = append(b, '>')
		b = appendNumber(b, c.Number)
		closing("v")
	case Text:
		b = append(b, ` t="inlineStr">`...)
		open("is")
		b = append(b, '>')
		open("t")
		if needsPreserve(c.Text) {
			b = append(b, ` xml:space="preserve"`...)
		}
		b = append(b, '>')
		b = ooxml.AppendText(b, c.Text)
		closing("t")
		closing("is")
	default:
		return append(b, '/', '>')
	}
	closing("c")
	return b
}

// needsPreserve reports whether readers may trim or fold blanks of s.
func needsPreserve(s string) bool {
	return strings.ContainsAny(s, "\t\n\r") || strings.Contains(s, "  ") ||
		strings.HasPrefix(s, " ") || strings.HasSuffix(s, " ")
}

// appendNumber appends the shortest digits that parse to the same number.
func appendNumber(b []byte, x float64) []byte {
	return strconv.AppendFloat(b, x+0, 'g', -1, 64) // +0 turns -0 into 0
}

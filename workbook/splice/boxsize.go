package splice

import (
	"strconv"
)

// rulers are the widths of columns and the usual height of rows, in pixels as
// spreadsheet programs count them with their default font.
type rulers struct {
	columns [MaxCol + 1]int // by column from 1; -1 for the default
	wished  map[int]int     // columns whose width will be another
	column  int
	row     int
}

func newRulers() *rulers {
	r := &rulers{column: 64, row: 20, wished: map[int]int{}}
	for i := range r.columns {
		r.columns[i] = -1
	}
	return r
}

// wish notes the width that a column will have.
func (r *rulers) wish(w width) { r.wished[w.col] = pixels(w.width) }

// size of a column.
func (r *rulers) size(col int) int {
	if px, ok := r.wished[col]; ok {
		return px
	}
	if px := r.columns[col]; px >= 0 {
		return px
	}
	return r.column
}

// pixels of a width in characters.
func pixels(width float64) int {
	return int(min(max(width, 0), 255)*7 + 5)
}

// defaults takes the sizes that <sheetFormatPr> gives.
func (r *rulers) defaults(attrs []byte) error {
	return eachAttr(attrs, func(name, value string) {
		x, err := strconv.ParseFloat(value, 64)
		if err != nil || !(x > 0 && x < 500) {
			return
		}
		switch name {
		case "defaultColWidth":
			r.column = pixels(x)
		case "defaultRowHeight":
			r.row = max(int(x*4/3), 1)
		}
	})
}

// set takes the width of the columns in one <col>.
func (r *rulers) set(from, to int, attrs []byte) error {
	size := -1
	err := eachAttr(attrs, func(name, value string) {
		switch name {
		case "width":
			if x, err := strconv.ParseFloat(value, 64); err == nil && size != 0 {
				size = pixels(x)
			}
		case "hidden":
			if value == "1" || value == "true" {
				size = 0
			}
		}
	})
	for col := max(from, 1); col <= min(to, MaxCol); col++ {
		r.columns[col] = size
	}
	return err
}

const (
	boxWidth   = 270
	lineHeight = 15 // of text in the size of comments
	lineLength = 42 // characters that surely fit on a line
	maxBox     = 600
)

// place puts a box that is large enough for the text to the right of a cell.
func (r *rulers) place(cell Address, text string) (b box, width, height int) {
	lines, length := 1, 0
	for _, c := range text {
		length++
		if c == '\n' || length > lineLength {
			lines++
			length = 0
		}
		if c > 0x2E7F {
			length++ // wide as two
		}
	}
	width, height = boxWidth, min(12+lines*lineHeight, maxBox)
	b.cell = cell
	b.left = edge{min(cell.Col, MaxCol-1), 15}
	b.right = r.across(b.left, width)
	b.top = edge{max(cell.Row-2, 0), 10}
	b.bottom = r.down(b.top, height)
	return b, width, height
}

// across goes right by a number of pixels.
func (r *rulers) across(from edge, by int) edge {
	by += from.pixels
	for col := from.line + 1; ; col++ {
		size := r.size(col)
		if by <= size || col == MaxCol {
			return edge{col - 1, min(by, size)}
		}
		by -= size
	}
}

// down goes down by a number of pixels.
func (r *rulers) down(from edge, by int) edge {
	by += from.pixels
	line := from.line + by/r.row
	if line >= MaxRow {
		return edge{MaxRow - 1, r.row}
	}
	return edge{line, by % r.row}
}

package splice

import (
	"sort"
	"strconv"
)

// rulers are the widths of columns and the usual height of rows, in pixels as
// spreadsheet programs count them with their default font.
type rulers struct {
	columns     []columnSize // by rising columns
	wished      map[int]int  // columns that get another width
	column, row int          // where nothing else is said
}

// columnSize is the width of neighbouring columns.
type columnSize struct{ first, last, pixels int }

func newRulers(wishes []width) *rulers {
	r := &rulers{column: 64, row: 20, wished: map[int]int{}}
	for _, w := range wishes {
		r.wished[w.col] = pixels(w.width)
	}
	return r
}

func (r *rulers) size(col int) int {
	if px, ok := r.wished[col]; ok {
		return px
	}
	i := sort.Search(len(r.columns), func(i int) bool { return r.columns[i].last >= col })
	if i < len(r.columns) && r.columns[i].first <= col {
		return r.columns[i].pixels
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

// set takes the width of the columns in one <col>, which come by rising
// columns.
func (r *rulers) set(from, to int, attrs []byte) error {
	size, hidden := r.column, false
	err := eachAttr(attrs, func(name, value string) {
		switch name {
		case "width":
			if x, err := strconv.ParseFloat(value, 64); err == nil {
				size = pixels(x)
			}
		case "hidden":
			hidden = value == "1" || value == "true"
		}
	})
	if hidden {
		size = 0
	}
	r.columns = append(r.columns, columnSize{from, to, size})
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

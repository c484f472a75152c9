package result

import (
	"iter"
	"math"
	"math/bits"
	"slices"
	"unicode/utf8"

	"tenback/workbook/splice"
)

// spliceEdit converts the plan into cells.
func spliceEdit(edits []sheetEdit) splice.Edit {
	var all splice.Edit
	styleNumber := func(st splice.Style) int {
		if st == (splice.Style{}) {
			return 0
		}
		at := slices.Index(all.Styles, st)
		if at < 0 {
			at = len(all.Styles)
			all.Styles = append(all.Styles, st)
		}
		return at + 1
	}
	for i := range edits {
		e := &edits[i]
		var head splice.Style
		if e.headLike > 0 {
			head.Like = splice.Address{Row: e.headerRow, Col: e.headLike}
		}
		var styles cellStyles
		for _, c := range e.columns {
			styles.body = append(styles.body, styleNumber(bodyLook(c.Format)))
			look := head
			if c.renamed {
				look.Like.Col = c.col
			}
			styles.heads = append(styles.heads, styleNumber(look))
		}
		sheet := splice.Sheet{Name: e.name, Cells: e.cells(styles), Places: e.places(styles), Clear: e.earlierCells(),
			Widths: map[int]float64{}, WidenTable: e.table}
		for _, c := range e.columns {
			if c.isNew {
				sheet.Widths[c.col] = e.width(c)
			}
		}
		all.Sheets = append(all.Sheets, sheet)
	}
	return all
}

// bodyLook returns the style of a column's results. Numbers are centred, clear of the
// texts beside them. Text does not wrap, because row heights are the user's.
func bodyLook(format string) splice.Style {
	look := splice.Style{NumberFormat: format}
	if format != "" && format != formatText {
		look.Horizontal = "center"
	}
	return look
}

// What a new column's width is taken from, in characters.
const (
	headWidth = 1.1 // of a character of a header, which may be bold
	textWidth = 0.9 // of one of a text: most are narrower than the digits that widths count
	textSpace = 2   // at the sides
	maxWidth  = 114 // a text is rarely longer, and a wider column fills the screen
	fileWidth = 24  // of the names of most files
	measured  = 500 // people whose results are looked at
)

// width returns the width that shows a new column's header and results in full. People
// under 18 have no decades, so a school's columns are narrow.
func (e *sheetEdit) width(c placedColumn) float64 {
	width := headWidth * float64(utf8.RuneCountInString(c.Header))
	if c.ID == reportColumn {
		width = max(width, fileWidth) // its pages may be made another time
	}
	looked := 0
	for _, row := range e.rows {
		o := e.outcomes[row]
		if o == nil {
			continue
		}
		if looked++; looked > measured {
			break
		}
		width = max(width, textWidth*float64(utf8.RuneCountInString(c.Value(o, o.Score(e.options)).Text)))
	}
	return min(math.Ceil(width)+textSpace, maxWidth)
}

// cellStyles holds the style numbers of the headers and of the cells of each column.
type cellStyles struct{ heads, body []int }

// cells yields new and renamed headers, then the results, in the order of the sheet.
// Results are computed once and cached.
func (e *sheetEdit) cells(styles cellStyles) iter.Seq[splice.Cell] {
	return func(yield func(splice.Cell) bool) {
		if !e.heads(styles, yield) {
			return
		}
		parts := slices.Collect(slices.Chunk(e.rows, aheadPart))
		kept := e.kept
		first := kept == nil
		if first {
			kept = make([]keptRows, len(parts))
		}
		work := func(i int) []splice.Cell {
			if !first {
				return kept[i].cells(e, parts[i], styles)
			}
			cells, filled := e.results(parts[i], styles)
			kept[i] = keep(cells, filled)
			return cells
		}
		for part := range ahead(len(parts), 1, work) {
			for _, cell := range part {
				if !yield(cell) {
					return
				}
			}
		}
		e.kept = kept
	}
}

// places yields the same cells, without the values of cached results.
func (e *sheetEdit) places(styles cellStyles) iter.Seq[splice.Cell] {
	return func(yield func(splice.Cell) bool) {
		if e.kept == nil {
			e.cells(styles)(yield)
			return
		}
		if !e.heads(styles, yield) {
			return
		}
		at := 0
		for part := range slices.Chunk(e.rows, aheadPart) {
			for _, cell := range e.kept[at].places(e, part, styles) {
				if !yield(cell) {
					return
				}
			}
			at++
		}
	}
}

// heads yields the headers to write and reports whether to go on.
func (e *sheetEdit) heads(styles cellStyles, yield func(splice.Cell) bool) bool {
	for i, c := range e.columns {
		if (c.isNew || c.renamed) && !yield(splice.Cell{Row: e.headerRow, Col: c.col, Kind: splice.Text, Text: c.Header, Style: styles.heads[i]}) {
			return false
		}
	}
	return true
}

// results returns the cells of rows and the columns that each row has. A row without
// a person has none.
func (e *sheetEdit) results(rows []int, styles cellStyles) (cells []splice.Cell, filled []columnSet) {
	cells = make([]splice.Cell, 0, len(rows)*len(e.columns))
	filled = make([]columnSet, len(rows))
	for at, row := range rows {
		o := e.outcomes[row]
		if o == nil {
			continue
		}
		score := o.Score(e.options)
		for i, c := range e.columns {
			if e.typed.cells[splice.Address{Row: row, Col: c.col}] {
				continue
			}
			cell := splice.Cell{Row: row, Col: c.col, Style: styles.body[i]}
			switch v := c.Value(o, score); {
			case v.IsBlank():
				continue
			case v.IsNumber():
				cell.Kind, cell.Number = splice.Number, v.Number
			default:
				cell.Kind, cell.Text = splice.Text, v.Text
			}
			cells = append(cells, cell)
			filled[at] |= 1 << i
		}
	}
	return cells, filled
}

// columnSet is a bit set of result columns, by their position in an edit.
type columnSet uint64

// all yields the positions, rising.
func (s columnSet) all() iter.Seq[int] {
	return func(yield func(int) bool) {
		for ; s != 0; s &= s - 1 {
			if !yield(bits.TrailingZeros64(uint64(s))) {
				return
			}
		}
	}
}

// earlierCells returns the ranges that may hold results of an earlier run. Adjacent
// rows and columns are joined.
func (e *sheetEdit) earlierCells() []splice.Range {
	var ranges []splice.Range
	var columns []int
	for _, c := range e.columns {
		if !c.isNew {
			columns = append(columns, c.col)
		}
	}
	add := func(rows span, columns []int) {
		for _, cols := range runs(columns) {
			ranges = append(ranges, splice.Range{FirstRow: rows.first, FirstCol: cols.first, LastRow: rows.last, LastCol: cols.last})
		}
	}
	isTyped := func(row int) bool { _, found := slices.BinarySearch(e.typed.rows, row); return found }
	for _, rows := range runs(slices.DeleteFunc(slices.Clone(e.rows), isTyped)) {
		add(rows, columns)
	}
	for _, row := range e.typed.rows {
		add(span{row, row}, slices.DeleteFunc(slices.Clone(columns), func(col int) bool {
			return e.typed.cells[splice.Address{Row: row, Col: col}]
		}))
	}
	for _, c := range e.columns {
		if c.renamed {
			ranges = append(ranges, splice.Range{FirstRow: e.headerRow, FirstCol: c.col, LastRow: e.headerRow, LastCol: c.col})
		}
	}
	return ranges
}

type span struct{ first, last int }

// runs joins neighbours in a rising list.
func runs(numbers []int) []span {
	var all []span
	for _, n := range numbers {
		if k := len(all) - 1; k >= 0 && all[k].last+1 == n {
			all[k].last = n
		} else {
			all = append(all, span{n, n})
		}
	}
	return all
}

package result

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/source"
)

// typed are the cells of result columns that hold what no run wrote.
type typed struct {
	cells map[grid.Address]bool
	rows  []int    // with such cells, rising
	shown []string // the first ones
}

// maxShown is the most such cells of a sheet that are named.
const maxShown = 10

func (t *typed) add(at grid.Address, r cell.Raw) {
	if t.cells == nil {
		t.cells = map[grid.Address]bool{}
	}
	t.cells[at] = true
	if n := len(t.rows); n == 0 || t.rows[n-1] != at.Row {
		t.rows = append(t.rows, at.Row)
	}
	if len(t.shown) < maxShown {
		t.shown = append(t.shown, at.String()+" "+strconv.Quote(cell.Display(r, false)))
	}
}

// notes names the cells.
func (t *typed) notes(sheet string) []string {
	if len(t.cells) == 0 {
		return nil
	}
	all := strings.Join(t.shown, ", ")
	if more := len(t.cells) - len(t.shown); more > 0 {
		all += fmt.Sprintf(" and %d more", more)
	}
	return []string{fmt.Sprintf("sheet %q: somebody typed %s where results go; that was kept, and the result is not in the sheet: move it to a column of your own and run again", sheet, all)}
}

// readEarlier reads what an earlier run wrote. It finds rows without a person that
// still have results; other cells below the people, such as a line of averages, are
// the user's and stay. It also finds what somebody typed into cells to be written.
func (e *sheetEdit) readEarlier(book *ooxml.Book, texts *texts) error {
	sheet, ok := source.Named(book.Sheets(), e.name)
	if !ok {
		return source.ErrChangedSinceRead
	}
	rows, err := book.Rows(sheet)
	if err != nil {
		return err
	}
	defer rows.Close()
	var left []int
	for rows.Next() {
		row := rows.Row()
		if row.Number <= e.headerRow {
			continue
		}
		_, written := slices.BinarySearch(e.rows, row.Number)
		if !written {
			if written = e.hasResult(row.Cells); written {
				left = append(left, row.Number)
			}
		}
		for _, c := range row.Cells {
			at, found := slices.BinarySearchFunc(e.columns, c.Col, func(p placedColumn, col int) int { return p.col - col })
			if written && found && !e.columns[at].isNew && !c.IsBlank() && !columns[numberOf(e.columns[at].ID)].holds(texts, c.Raw) {
				e.typed.add(grid.Address{Row: row.Number, Col: c.Col}, c.Raw)
			}
		}
	}
	e.rows = append(e.rows, left...)
	slices.Sort(e.rows)
	return rows.Err()
}

// hasResult reports whether cells have the result of an earlier run.
func (e *sheetEdit) hasResult(cells []ooxml.Cell) bool {
	from, flags := e.earlier(sourceColumn), e.earlier(flagsColumn)
	return slices.ContainsFunc(cells, func(c ooxml.Cell) bool {
		return c.Col == from && saysSource(c.Text) || c.Col == flags && saysNotScored(c.Text)
	})
}

package workbook

import (
	"errors"
	"testing"

	"tenback/workbook/ooxml"
)

// counted are rows of so many cells, each with its row's number; err comes after
// the last.
type counted struct {
	sheetRows
	cells  []int
	err    error
	row    ooxml.Row
	at     int
	closed bool
}

func (c *counted) Next() bool {
	if c.at == len(c.cells) {
		return false
	}
	c.row.Number, c.row.Hidden, c.row.Cells = c.at+1, c.at%2 == 0, c.row.Cells[:0]
	for col := range c.cells[c.at] {
		c.row.Cells = append(c.row.Cells, ooxml.Cell{Col: c.at + col})
	}
	c.at++
	return true
}

func (c *counted) Row() *ooxml.Row { return &c.row }
func (c *counted) Err() error      { return c.err }
func (c *counted) Close()          { c.closed = true }

func TestRowsAhead(t *testing.T) {
	wide := []int{1, batchCells + 1, 0, batchCells, 1, 3 * batchCells, 2}
	many := make([]int, 40_000)
	for i := range many {
		many[i] = 1 + i%7
	}
	for _, cells := range [][]int{nil, {0}, {3}, wide, many} {
		failure := errors.New("the end is missing")
		source := &counted{cells: cells, err: failure}
		rows := readAhead(source)
		for i, n := range cells {
			if !rows.Next() {
				t.Fatalf("%d rows of %d", i, len(cells))
			}
			row := rows.Row()
			if row.Number != i+1 || row.Hidden != (i%2 == 0) || len(row.Cells) != n {
				t.Fatalf("row %d: %d, hidden %v, %d cells", i+1, row.Number, row.Hidden, len(row.Cells))
			}
			for col, c := range row.Cells {
				if c.Col != i+col {
					t.Fatalf("row %d: cell %d is %d", i+1, col, c.Col-i)
				}
			}
		}
		for range 2 {
			if rows.Next() || !errors.Is(rows.Err(), failure) {
				t.Errorf("%d rows: there are more, or the error is lost", len(cells))
			}
		}
		rows.Close()
		if !source.closed {
			t.Error("not closed")
		}
	}
	source := &counted{cells: many}
	rows := readAhead(source)
	for range 3 {
		rows.Next()
	}
	rows.Close()
	if !source.closed || source.at == len(many) {
		t.Errorf("closed: %v, at row %d of %d", source.closed, source.at, len(many))
	}
}

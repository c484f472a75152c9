package reading

import (
	"maps"
	"slices"

	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// lone is the text of a row without other cells, such as "10 km" over the people
// who ran it.
type lone struct {
	row  int
	text string
}

// maxLone bounds such rows of a sheet.
const maxLone = 1000

// nameBlocks gives the rows of a sheet of blocks a column with the test of each
// block, and drops the rows that name it. A title names the test of the first.
func (sr *sheetReader) nameBlocks() {
	generic := slices.ContainsFunc(sr.Used, func(c *columns.Column) bool { return c.Titled || c.Meaning.Role == roster.Result })
	if !generic || sr.Columns.With(roster.TestName) != nil {
		return
	}
	heads := map[int]roster.Meaning{} // by row
	blocks := sr.Named.Test == nil
	for _, l := range sr.body.alone {
		if m := heading.BlockTest(l.text); m.Test != nil {
			heads[l.row] = m
			blocks = blocks || m != sr.Named
		}
	}
	sr.body.rows = slices.DeleteFunc(sr.body.rows, func(r rawRow) bool { return heads[r.number].Test != nil })
	if !blocks {
		return
	}
	for _, c := range sr.Used {
		if c.Titled || c.Meaning.Role == roster.Result {
			at := grid.At(c.Index, sr.Sheet.HeaderRow)
			sr.Problems = slices.DeleteFunc(sr.Problems, func(p roster.Problem) bool { return p.Cell == at && !p.Blocking })
			sr.Say(c, columns.FixReadAsResult, readByBlock)
		}
		if c.Titled {
			c.Meaning, c.Titled = roster.Meaning{Role: roster.Result, Input: c.Meaning.Input, Unit: c.Meaning.Unit, UnitGiven: c.Meaning.UnitGiven}, false
			sr.Sheet.ColumnOf(c.Index).Meaning = c.Meaning
		}
	}
	name := &columns.Column{Column: roster.Column{Index: 1, Meaning: roster.Meaning{Role: roster.TestName}}, Slot: len(sr.Used)}
	rows := slices.Sorted(maps.Keys(heads))
	test := sr.Named
	for i := range sr.body.rows {
		row := &sr.body.rows[i]
		for len(rows) > 0 && rows[0] < row.number {
			test, rows = heads[rows[0]], rows[1:]
		}
		row.cells = append(row.cells, cell.Raw{Kind: cell.Text, Text: heading.NameOf(test)})
	}
	sr.Used = slices.Insert(sr.Used, 0, name)
}

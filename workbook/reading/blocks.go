package reading

import (
	"maps"
	"slices"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/header"
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

// inBlocks reports whether some row below the header names the test of those below
// it.
func inBlocks(body []header.Row) bool {
	return slices.ContainsFunc(body, func(r header.Row) bool {
		return len(r.Cells) == 1 && heading.BlockTest(cell.Label(r.Cells[0].Raw)).Test != nil
	})
}

// nameBlocks gives the rows of a sheet of blocks a column with the test of each
// block, and drops the rows that name it. A title names the test of the first.
func (sr *sheetReader) nameBlocks() {
	generic := slices.ContainsFunc(sr.used, func(c *sheetColumn) bool { return c.titled || c.Meaning.Role == roster.Result })
	if !generic || sr.columns.with(roster.TestName) != nil {
		return
	}
	heads := map[int]roster.Meaning{} // by row
	blocks := sr.named.Test == nil
	for _, l := range sr.body.alone {
		if m := heading.BlockTest(l.text); m.Test != nil {
			heads[l.row] = m
			blocks = blocks || m != sr.named
		}
	}
	sr.body.rows = slices.DeleteFunc(sr.body.rows, func(r rawRow) bool { return heads[r.number].Test != nil })
	if !blocks {
		return
	}
	for _, c := range sr.used {
		if c.titled || c.Meaning.Role == roster.Result {
			at := grid.At(c.Index, sr.sheet.HeaderRow)
			sr.problems = slices.DeleteFunc(sr.problems, func(p roster.Problem) bool { return p.Cell == at && !p.Blocking })
			sr.say(c, fixReadAsResult, readByBlock)
		}
		if c.titled {
			c.Meaning, c.titled = roster.Meaning{Role: roster.Result, Input: c.Meaning.Input, Unit: c.Meaning.Unit, UnitGiven: c.Meaning.UnitGiven}, false
			sr.sheet.ColumnOf(c.Index).Meaning = c.Meaning
		}
	}
	name := &sheetColumn{Column: roster.Column{Index: 1, Meaning: roster.Meaning{Role: roster.TestName}}, slot: len(sr.used)}
	rows := slices.Sorted(maps.Keys(heads))
	test := sr.named
	for i := range sr.body.rows {
		row := &sr.body.rows[i]
		for len(rows) > 0 && rows[0] < row.number {
			test, rows = heads[rows[0]], rows[1:]
		}
		row.cells = append(row.cells, cell.Raw{Kind: cell.Text, Text: heading.NameOf(test)})
	}
	sr.used = slices.Insert(sr.used, 0, name)
}

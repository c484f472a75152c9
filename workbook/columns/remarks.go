package columns

import (
	"tenback/scoring"
	"tenback/workbook/roster"
)

// Remark is said once of a column, however many cells it concerns.
type Remark uint8

// The remarks on columns.
const (
	ReadFromHours Remark = iota
	ReadByPossibility
	ReadShortYear
	ReadYearOnly
	ReadNoSeconds
	ReadAsUntested
)

// Tally counts the cells that a remark concerns.
type Tally struct {
	Count int
	First roster.Problem
}

// Add counts a cell; the first one is kept.
func (t *Tally) Add(p roster.Problem) {
	if t.Count == 0 {
		t.First = p
	}
	t.Count++
}

// Remark counts a cell that a remark concerns.
func (c *Column) Remark(kind Remark, p roster.Problem) {
	if c.remarked == nil {
		c.remarked = map[Remark]*Tally{}
	}
	if c.remarked[kind] == nil {
		c.remarked[kind] = &Tally{}
	}
	c.remarked[kind].Add(p)
}

// Problem returns the remark, pointing at the first cell.
func (t *Tally) Problem(sheet string, what scoring.Said) roster.Problem {
	p := t.First
	p.Sheet, p.What, p.Answerable = sheet, what, false
	if t.Count > 1 {
		p.What = inCells.With(what, t.Count)
	}
	return p
}

package reading

import (
	"tenback/scoring"
	"tenback/workbook/roster"
)

// remark is said once of a column, however many cells it concerns.
type remark uint8

const (
	readFromHours remark = iota
	readByPossibility
	readShortYear
	readYearOnly
	readNoSeconds
	readAsUntested
)

// tally counts the cells that a remark concerns.
type tally struct {
	count int
	first roster.Problem
}

func (t *tally) add(p roster.Problem) {
	if t.count == 0 {
		t.first = p
	}
	t.count++
}

func (c *sheetColumn) remark(kind remark, p roster.Problem) {
	if c.remarked == nil {
		c.remarked = map[remark]*tally{}
	}
	if c.remarked[kind] == nil {
		c.remarked[kind] = &tally{}
	}
	c.remarked[kind].add(p)
}

// problem returns the remark, pointing at the first cell.
func (t *tally) problem(sheet string, what scoring.Said) roster.Problem {
	p := t.first
	p.Sheet, p.What, p.Answerable = sheet, what, false
	if t.count > 1 {
		p.What = inCells.With(what, t.count)
	}
	return p
}

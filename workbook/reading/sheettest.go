package reading

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// testOfSheet finds the one test that the lines above the header name, or else
// the name of the sheet; a zero Meaning where it is none or several.
func (rd *reader) testOfSheet(sheet string, above []headRow) roster.Meaning {
	var found roster.Meaning
	for _, row := range above {
		for _, c := range row.cells {
			if c.Kind != cell.Text || len(c.Text) > heading.MaxLen {
				continue
			}
			m, several := heading.TestIn(c.Text)
			if several || m.Test != nil && found.Test != nil && m != found {
				return roster.Meaning{}
			}
			if m.Test != nil {
				found = m
			}
		}
	}
	if found.Test == nil {
		found, _ = heading.TestIn(sheet)
	}
	return found
}

// takeSheetTest makes a result of no test one of the sheet's test.
func (sr *sheetReader) takeSheetTest(c *sheetColumn) bool {
	t := sr.named.Test
	in := inputFor(c, t)
	if t == nil || !t.HasResult(in) {
		return false
	}
	m := roster.Meaning{Role: roster.InputData, Input: in, Test: t, Distance: sr.named.Distance, Unit: c.Meaning.Unit, UnitGiven: c.Meaning.UnitGiven}
	if c.Meaning.Role == roster.Minutes {
		m.Role = roster.Minutes
	}
	if m.Unit == scoring.NoUnit {
		m.Unit = in.Info().Unit
	}
	c.Meaning = m
	sr.columnProblem(c, false, fixReadAsResult, readAsResult.With(t))
	return true
}

// cutSecondList finds a second list of people beside the first, with the same
// columns again, and keeps it from being mixed up with the first.
func (sr *sheetReader) cutSecondList() {
	before := map[roster.Meaning]bool{}
	for at, c := range sr.columns {
		m := roster.Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if m.Role.IsPerson() && before[m] && sr.repeatsFrom(at, before) {
			sr.columnProblem(c, true, fixSecondList, secondList)
			for _, d := range sr.columns[at:] {
				if d.Meaning.Role != roster.Ours {
					d.Meaning = roster.Meaning{Role: roster.Other}
				}
			}
			return
		}
		before[m] = true
	}
}

// repeatsFrom tells whether a column from place at on says of people what one
// before it says.
func (sr *sheetReader) repeatsFrom(at int, before map[roster.Meaning]bool) bool {
	for _, c := range sr.columns[at:] {
		m := roster.Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if before[m] && !m.Role.IsPerson() && m.Role != roster.Unknown && m.Role != roster.Ours && m.Role != roster.Other {
			return true
		}
	}
	return false
}

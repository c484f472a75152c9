package workbook

import (
	"cmp"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
)

// LeftOut tells that no test of the row could be read.
func (o *Outcome) LeftOut() bool { return o.Score.Best() == nil && len(o.Score.Norms) == 0 }

// Problems lists what stood in the way in this row: what could not be read,
// then the tests that could not be scored.
func (o *Outcome) Problems() []Problem {
	problems := append([]Problem(nil), o.Row.Problems...)
	for _, r := range o.Score.Refused {
		p := Problem{
			Sheet: o.Row.Sheet,
			Cell:  cmp.Or(r.Cell, r.ResultCell, o.Row.Person.NameCell),
			What:  r.Why, Fix: r.Fix, Blocking: true,
		}
		if r.Missing {
			if cell := o.emptyCell(r.Input, r.Test); cell != "" {
				if o.hasProblemAt(cell) {
					continue
				}
				p.Cell, p.Fix = cell, "fill in the "+r.Input.Info().Name
			}
		}
		problems = append(problems, p)
	}
	return problems
}

// emptyCell is the cell of this row in which a missing input would stand, if
// the sheet has a column for it. An age may also come from the date of birth.
func (o *Outcome) emptyCell(in scoring.Input, test *scoring.Test) string {
	if o.Sheet == nil {
		return ""
	}
	for _, c := range o.Sheet.Columns {
		serves := c.Meaning.Role == InputData && c.Meaning.Input == in && (c.Meaning.Test == nil || c.Meaning.Test == test)
		if serves || in == scoring.Age && c.Meaning.Role == Birth {
			cell, err := excelize.CoordinatesToCellName(c.Index, o.Row.Number)
			if err == nil {
				return cell
			}
		}
	}
	return ""
}

// hasProblemAt tells whether reading already met a problem in the cell, which
// is then why the input is missing.
func (o *Outcome) hasProblemAt(cell string) bool {
	for _, p := range o.Row.Problems {
		if p.Cell == cell && p.Blocking {
			return true
		}
	}
	return false
}

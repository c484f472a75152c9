package workbook

import "cmp"

// LeftOut tells that no test of the row could be read.
func (o *Outcome) LeftOut() bool { return o.Score.Best() == nil && len(o.Score.Norms) == 0 }

// Problems lists what stood in the way in this row: what could not be read,
// then the tests that could not be scored.
func (o *Outcome) Problems() []Problem {
	problems := append([]Problem(nil), o.Row.Problems...)
	for _, r := range o.Score.Refused {
		problems = append(problems, Problem{
			Sheet: o.Row.Sheet,
			Cell:  cmp.Or(r.Cell, r.ResultCell, o.Row.Person.NameCell),
			What:  r.Why, Fix: r.Fix, Blocking: true,
		})
	}
	return problems
}

package workbook

import "slices"

// OnlyUntested tells that the problem is no more than that nothing has been
// entered for the person yet.
func (p Problem) OnlyUntested() bool { return p.What == noResultHere }

// Untested tells that no result of the person stands in the roster, rather than
// one that cannot be used.
func (o *Outcome) Untested() bool {
	return o.LeftOut() && !slices.ContainsFunc(o.Problems(), func(p Problem) bool { return p.Blocking && !p.OnlyUntested() })
}

package workbook

import "slices"

// Untested tells that no result of the person stands in the roster, rather than
// one that cannot be used.
func (o *Outcome) Untested() bool {
	return o.LeftOut() && !slices.ContainsFunc(o.Problems(), func(p Problem) bool { return p.Blocking && !p.OnlyUntested })
}

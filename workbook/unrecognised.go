package workbook

import (
	"tenback/scoring"
	"tenback/workbook/grid"
)

// unrecognisedMost is how many of them are named in advice on one cell.
const unrecognisedMost = 5

// listUnrecognised is what orRename names them by, each with the cell of
// its header; nil if there is none.
func listUnrecognised(s *Sheet) any {
	var all []any
	for _, c := range s.Unrecognised() {
		all = append(all, withPlace.With(scoring.Quoted(c.Header), grid.At(c.Index, s.HeaderRow)))
	}
	if len(all) == 0 {
		return nil
	}
	return firstOf(all, unrecognisedMost)
}

// orRename adds to the advice to add a column that it may be there already under
// a header that was not recognised.
func orRename(s *Sheet, fix scoring.Said) scoring.Said {
	if s.Unread == nil {
		return fix
	}
	return fixOrRename.With(fix, s.Unread)
}

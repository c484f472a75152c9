package workbook

import (
	"tenback/scoring"
	"tenback/workbook/grid"
)

// Unrecognised lists the columns whose headers were not recognised.
func (s *Sheet) Unrecognised() (all []Column) {
	for _, c := range s.Columns {
		if c.Meaning.Role == Unknown {
			all = append(all, c)
		}
	}
	return all
}

// unrecognisedMost is how many of them are named in advice on one cell.
const unrecognisedMost = 5

// listUnrecognised is what [Sheet.orRename] names them by, each with the cell of
// its header; nil if there is none.
func (s *Sheet) listUnrecognised() any {
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
func (s *Sheet) orRename(fix scoring.Said) scoring.Said {
	if s.unread == nil {
		return fix
	}
	return orRename.With(fix, s.unread)
}

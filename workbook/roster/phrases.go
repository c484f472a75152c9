package roster

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
)

var phrases = scoring.NewPhrasebook("roster.")

// What more than one package says.
var (
	andMore       = phrases.Phrase("and-more", "{What} and {Count} more")
	InPlace       = phrases.Phrase("in-place", "{What} ({Place})")
	CorrectOne    = phrases.Say("correct-one", "correct the one that is wrong")
	NoTestDay     = phrases.Say("no-test-day", "the age can't be worked out, because the test day is not known")
	AddTestDate   = phrases.Say("add-test-date", "add a column \"Test date\", or give the day with --test-date if everyone was tested on one day")
	FixEitherDate = phrases.Say("fix-either-date", "correct the date of birth or the test date")
	orRename      = phrases.Phrase("or-rename", "{Fix}; if one of the columns that were not recognised holds it, rename that: {Headers}")
)

// FirstOf lists at most so many values of a slot, and counts the rest.
func FirstOf(all []any, most int) any {
	if more := len(all) - most; more > 0 {
		return andMore.With(cell.Listed(all[:most]), more)
	}
	return cell.Listed(all)
}

// QuotedList quotes words of a sheet, at most 20.
func QuotedList(names []string) any {
	var all []any
	for _, n := range names {
		all = append(all, scoring.Quoted(n))
	}
	return FirstOf(all, 20)
}

// unrecognisedMost bounds the columns named in advice on one cell.
const unrecognisedMost = 5

// NoteUnrecognised prepares [Sheet.OrRename], because many rows may need it.
func (s *Sheet) NoteUnrecognised() {
	var all []any
	for _, c := range s.Unrecognised() {
		all = append(all, InPlace.With(scoring.Quoted(c.Header), grid.At(c.Index, s.HeaderRow)))
	}
	if len(all) > 0 {
		s.unread = FirstOf(all, unrecognisedMost)
	}
}

// OrRename extends the advice to add a column: one with an unrecognised header
// may hold it already.
func (s *Sheet) OrRename(fix scoring.Said) scoring.Said {
	if s.unread == nil {
		return fix
	}
	return orRename.With(fix, s.unread)
}

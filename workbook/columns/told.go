package columns

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// TellNoResults reports that no column is a test result, and which headers are
// unknown.
func (s *Survey) TellNoResults() {
	blocking := slices.ContainsFunc(s.Problems, func(p roster.Problem) bool { return p.Blocking })
	if s.IsList || s.Columns.HasResults() || blocking || len(s.Asked) > 0 {
		return
	}
	likely := ResultHeader(fieldtests.All()[1])
	if s.Named.Test != nil {
		likely = ResultHeader(s.Named.Test)
	}
	p := roster.Problem{Sheet: s.Sheet.Name, Blocking: true, What: noResultKnown, Fix: addOneSuchAs.With(likely)}
	var unknown []string
	for _, c := range s.Columns {
		if c.Meaning.Role == roster.Unknown && len(unknown) < 8 {
			unknown = append(unknown, c.Header)
		}
	}
	if len(unknown) > 0 {
		p.What, p.Fix = notRecognised.With(p.What, roster.QuotedList(unknown)), fixNotRecognised
	}
	s.Problems = append(s.Problems, p)
}

// TellRemarks reports what is said once of each column.
func (s *Survey) TellRemarks() {
	for _, c := range s.Columns {
		for kind := ReadFromHours; kind <= ReadAsUntested; kind++ {
			if t := c.remarked[kind]; t != nil {
				s.Tell(t.Problem(s.Sheet.Name, remarkTexts[kind]))
			}
		}
		if s.Facts.Text && c.shuttles.possible() {
			s.Say(c, fixShuttle10, readNoShuttle10.With(c.shuttles.first))
		}
		if c.dates.Exchanged() {
			s.Say(c, fixExchanged, daysExchanged)
		}
	}
}

// Say adds a remark on a column.
func (s *Survey) Say(c *Column, fix, what scoring.Said) {
	s.Problems = append(s.Problems, columnProblem(s.Sheet, c, false, fix, what))
}

// Tell adds a problem, if there is one.
func (s *Survey) Tell(p roster.Problem) {
	if !p.What.IsZero() {
		s.Problems = append(s.Problems, p)
	}
}

func columnProblem(s *roster.Sheet, c *Column, blocking bool, fix, what scoring.Said) roster.Problem {
	return roster.Problem{Sheet: s.Name, Cell: grid.At(c.Index, s.HeaderRow), Read: c.Header, What: what, Fix: fix, Blocking: blocking}
}

// ResultHeader returns the header for a test's preferred result.
func ResultHeader(t *scoring.Test) scoring.Header {
	return scoring.Header{Test: t, Input: t.Results[0].Input}
}

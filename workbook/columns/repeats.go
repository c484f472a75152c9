package columns

import (
	"cmp"
	"regexp"
	"slices"

	"tenback/scoring"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// settleRepeats finds columns of the same meaning. Those of a test are attempts,
// or of several days; others must agree.
func (s *settler) settleRepeats() {
	s.pairLaps()
	first := map[roster.Meaning]*Column{}
	for _, c := range s.columns {
		m := c.Meaning
		key := roster.Meaning{Role: m.Role, Input: m.Input, Test: m.Test, Distance: m.Distance}
		switch {
		case m.Role == roster.Minutes && m.Test != nil:
			key.Role = roster.InputData
		case m.Role != roster.InputData && m.Role != roster.Birth && m.Role != roster.TestDate:
			continue
		}
		f := first[key]
		if f == nil {
			first[key] = c
			continue
		}
		f.again, c.Repeats = append(f.again, c), true
		c.Copied = c.OfTest() && c.Attempt == f.Attempt && c.term == f.term && c.Meaning.UnitGiven && f.Meaning.UnitGiven && c.Meaning.Unit != f.Meaning.Unit
		switch {
		case c.Morning:
			f.Morning = true // one of several, whatever its header
		case m.Role == roster.InputData && m.Input.Info().YesNo: // the most careful answer counts
		case !c.OfTest() && c.term == f.term:
			s.say(c, false, fixSameColumns.With(LeaveOut(f)), sameColumns.With(s.headerCell(f), scoring.Quoted(f.Header)))
		}
	}
}

// terms lists the days, months or terms that the headers of columns of one meaning
// name, left to right or by their years.
func (c *Column) terms() []string {
	var all []string
	for _, d := range c.Alike() {
		if !slices.Contains(all, d.term) && !(d.Best && d.term == "") { // the best of all is of no day
			all = append(all, d.term)
		}
	}
	year := func(term string) string { return yearInTerm.FindString(term) }
	if !slices.ContainsFunc(all, func(t string) bool { return year(t) == "" }) {
		slices.SortStableFunc(all, func(a, b string) int { return cmp.Compare(year(a), year(b)) })
	}
	return all
}

var yearInTerm = regexp.MustCompile(`(?:19|20)\d\d`)

// ChooseTerm keeps the columns of the latest day with a result, where headers name
// several, and leaves out those of the others.
func (s *Survey) ChooseTerm(anyResult func(*Column) bool) {
	latest, some := "", false
	for _, c := range s.Columns {
		terms := c.terms()
		if len(terms) < 2 || c.Repeats || !c.IsResult() || c.dated() {
			continue
		}
		for _, d := range c.Alike() {
			if anyResult(d) && slices.Contains(terms, d.term) && slices.Index(terms, d.term) >= slices.Index(terms, latest) {
				latest, some = d.term, true
			}
		}
	}
	for _, c := range s.Columns {
		terms := c.terms()
		if len(terms) < 2 || c.Repeats || c.dated() || c.Morning && !(some && slices.Contains(terms, latest)) {
			continue
		}
		kept := terms[len(terms)-1]
		for _, d := range c.Alike() {
			if some && slices.Contains(terms, latest) {
				kept = latest
			} else if anyResult(d) {
				kept = d.term
			}
		}
		s.keepTerm(c.Alike(), kept)
	}
}

// keepTerm leaves out the columns of one meaning that are not of a term.
func (s *Survey) keepTerm(alike []*Column, term string) {
	head := alike[slices.IndexFunc(alike, func(c *Column) bool { return c.term == term })]
	head.Repeats, head.again = false, nil
	for _, c := range alike {
		switch {
		case c == head:
		case c.term == term:
			head.again = append(head.again, c)
		default:
			s.Say(c, fixOtherTerm.With(LeaveOut(head)), otherTerm.With(grid.At(head.Index, s.Sheet.HeaderRow), scoring.Quoted(head.Header)))
			c.Meaning, c.Seconds, c.again, c.Repeats = roster.Meaning{Role: roster.Other}, nil, nil, false
			s.Sheet.ColumnOf(c.Index).Meaning = c.Meaning
		}
	}
}

// NumberAttempts numbers the attempts that columns of one meaning hold. What goes
// with a result belongs to the result at its left; a single such column serves all.
func (s *Survey) NumberAttempts() {
	for _, c := range s.Columns {
		if !c.OfTest() || c.Repeats || !c.Meaning.Test.HasResult(c.Meaning.Input) {
			continue
		}
		tries := slices.DeleteFunc(c.Alike(), func(d *Column) bool { return d.Best || d.Copied })
		slices.SortStableFunc(tries, func(a, b *Column) int { return a.Attempt - b.Attempt })
		for i, d := range tries {
			d.Attempt = i + 1
		}
		if len(tries) < 2 {
			continue
		}
		what := attemptsBetter
		switch {
		case c.dated():
			what = attemptsByDay
		case c.Meaning.Test.ByPulse():
			what = attemptsLast
		}
		s.Say(tries[1], fixSameColumns.With(LeaveOut(tries[0])), what.With(grid.At(tries[0].Index, s.Sheet.HeaderRow), scoring.Quoted(tries[0].Header)))
	}
	result := map[*scoring.Test]int{} // the attempt of the last result at the left
	for _, c := range s.Columns {
		switch m := c.Meaning; {
		case !c.OfTest():
		case m.Test.HasResult(m.Input):
			result[m.Test] = c.Attempt
		case c.Repeats || len(c.again) > 0:
			c.Attempt = result[m.Test]
		default:
			c.Attempt = 0
		}
	}
}

// dated reports whether each of the columns of one meaning names its day.
func (c *Column) dated() bool {
	return !slices.ContainsFunc(c.Alike(), func(d *Column) bool { return d.Day.IsZero() })
}

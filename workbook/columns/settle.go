package columns

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/result"
	"tenback/workbook/roster"
)

// settler determines the meanings of a sheet's columns from their headers and
// from each other.
type settler struct {
	sheet    *roster.Sheet  // its name and header row
	named    roster.Meaning // the test in a title, with the distance of a race
	columns  List
	body     []header.Row // the first rows below the header
	problems []roster.Problem
	asked    []roster.Question
}

// settle determines the meaning of every headed column, and of the result columns of
// an earlier run by [result.Own].
func (s *settler) settle(headers []string, own map[int]string, ns header.Names) {
	for i, text := range headers {
		id, isOwn := own[i+1]
		if text == "" && !isOwn {
			continue
		}
		c := &Column{Column: roster.Column{Index: i + 1, Header: text, Own: id}}
		c.known, c.told = ns.Told(i+1, text)
		switch {
		case isOwn:
			c.Meaning.Role = roster.Ours
		default:
			if h, ok := ns.MatchAt(i+1, text); ok {
				c.Meaning, c.style, c.Unclear, c.Morning = h.Meaning, h.Style, h.Unclear, h.Morning
				c.weak, c.choices, c.fits = h.Weak, h.Choices, h.Fits
				c.Attempt, c.Best, c.term = h.Attempt, h.Best, h.Term
			}
		}
		s.columns = append(s.columns, c)
	}
	s.judgeChoices()
	s.weigh()
	s.cutSecondList()
	s.findClocks()
	s.pairMinutes()
	s.columns.pairImperial()
	s.pairLevels()
	s.settleNames()
	s.settleHeartRates()
	s.settleResults()
	s.settleRepeats()
	s.tellRaces()
	s.askChoices()
	s.nameUnused()
}

// findClocks finds a column of start times with one of finish times. Neither is a
// result.
func (s *settler) findClocks() {
	headed := func(heads func(header string) bool) int {
		return slices.IndexFunc(s.columns, func(c *Column) bool {
			return (c.Meaning.Role == roster.Unknown || c.Meaning.Role == roster.Result) && heads(c.Header)
		})
	}
	start, finish := headed(heading.HeadsStart), headed(heading.HeadsFinish)
	if start < 0 || finish < 0 {
		return
	}
	s.columns[start].Meaning = roster.Meaning{Role: roster.Other}
	c := s.columns[finish]
	c.Meaning = roster.Meaning{Role: roster.Unscored}
	c.Unclear = clocks.With(s.headerCell(s.columns[start]), scoring.Quoted(s.columns[start].Header))
}

// settleNames distinguishes whole, given and family names: "Name" beside
// "Vorname" is the family name, "Nome" beside "Cognome" the given one.
func (s *settler) settleNames() {
	whole, given, family := s.columns.With(roster.Name), s.columns.With(roster.GivenName), s.columns.With(roster.FamilyName)
	switch {
	case whole != nil && given != nil && family == nil:
		whole.Meaning.Role = roster.FamilyName
	case whole != nil && family != nil && given == nil:
		whole.Meaning.Role = roster.GivenName
	}
	if number := s.columns.With(roster.ListNumber); number != nil && s.columns.With(roster.ID) == nil &&
		s.columns.With(roster.Name) == nil && s.columns.With(roster.GivenName) == nil && s.columns.With(roster.FamilyName) == nil {
		number.Meaning.Role, number.Listed = roster.ID, true
	}
}

// settleHeartRates decides what a plain "HR" or "Pulse" is by the other columns.
func (s *settler) settleHeartRates() {
	for _, c := range s.columns {
		if c.Meaning.Role != roster.HeartRate {
			continue
		}
		m := roster.Meaning{Role: roster.InputData, Unit: scoring.BeatsPerMinute}
		if c.Meaning.UnitGiven {
			m.Unit, m.UnitGiven = c.Meaning.Unit, true
		}
		t := s.named.Test
		switch {
		case t != nil && t.HasResult(scoring.RecoveryHR):
			m.Input, m.Test = scoring.RecoveryHR, t
		case t != nil && t.HasResult(scoring.ExerciseHR):
			m.Input, m.Test = scoring.ExerciseHR, t
		case s.columns.Input(scoring.RestingHR) != nil && s.takesPulse():
			m.Input = scoring.ExerciseHR
		case s.columns.Input(scoring.ExerciseHR) != nil:
			m.Input = scoring.RestingHR
		default:
			continue
		}
		c.Meaning = m
	}
	s.pulseOfTest()
}

// takesPulse reports whether a test of the sheet may take a pulse at its end.
func (s *settler) takesPulse() bool {
	takes := func(t *scoring.Test) bool { return t != nil && t.Takes(scoring.ExerciseHR) }
	return takes(s.named.Test) || s.columns.With(roster.TestName) != nil || slices.ContainsFunc(s.columns, func(c *Column) bool {
		in := c.Meaning.Input
		return takes(c.Meaning.Test) || c.Meaning.Role == roster.InputData && (in == scoring.BenchHeight || in == scoring.StepRate || in == scoring.Power || in == scoring.BeltSpeed)
	})
}

// pulseOfTest gives a heart rate such as "walk pulse" to the one test of the sheet
// that it can be of.
func (s *settler) pulseOfTest() {
	for _, c := range s.columns {
		in := c.Meaning.Input
		if c.Meaning.Role != roster.InputData || c.Meaning.Test != nil || in != scoring.ExerciseHR && in != scoring.RecoveryHR {
			continue
		}
		var of []*scoring.Test
		for _, d := range s.columns {
			if t := d.Meaning.Test; t != nil && c.fits != nil && c.fits(t) && t.Takes(in) && !slices.Contains(of, t) {
				of = append(of, t)
			}
		}
		if t := s.named.Test; len(of) == 0 && t != nil && t.HasResult(in) {
			of = []*scoring.Test{t}
		}
		if len(of) == 1 {
			c.Meaning.Test = of[0]
		}
	}
}

// settleResults reports results without a test.
func (s *settler) settleResults() {
	tests := s.columns.With(roster.TestName)
	var result *Column
	for _, c := range s.columns {
		if c.weak && c.Meaning.Role == roster.Result && (s.named.Test == nil || tests != nil) {
			c.Meaning = roster.Meaning{} // "May" is a result only under a title
		}
		generic := c.Meaning.Role == roster.Result || c.Meaning.Role == roster.Minutes && c.Meaning.Test == nil
		if !generic {
			continue
		}
		result = c
		if tests == nil && (s.takeSheetTest(c) || s.named.Test == nil && inBlocks(s.body)) {
			continue
		}
		if tests == nil || c.Index < tests.Index {
			if tests == nil {
				s.say(c, true, FixHeaderTest, headerWhichTest)
			} else {
				s.say(c, true, fixTestToLeft, noTestToLeft)
			}
			c.Meaning = roster.Meaning{}
			if c.Seconds != nil {
				c.Seconds.Meaning, c.Seconds = roster.Meaning{}, nil
			}
		}
	}
	if tests != nil && result == nil && !s.columns.HasResults() {
		s.say(tests, true, addResultColumn, noResultColumn)
	}
}

// nameUnused reports columns of tests that are not scored.
func (s *settler) nameUnused() {
	for _, c := range s.columns {
		switch {
		case c.Meaning.Role != roster.Unscored || len(c.choices) > 0: // judgeChoices asks
		case c.Unclear.IsZero():
			s.say(c, false, scoring.Said{}, testNotScored)
		default:
			s.say(c, true, scoring.Said{}, c.Unclear)
		}
	}
}

// tellRaces reports each column that was read as a race.
func (s *settler) tellRaces() {
	for _, c := range s.columns {
		if d := c.Meaning.Distance; d > 0 && !c.Repeats && c.Meaning.Role != roster.Unscored {
			s.say(c, false, fixRace, readAsRace.With(scoring.Q(d, scoring.Metres)))
		}
	}
}

// cutSecondList finds a second list of people beside the first and leaves it out.
func (s *settler) cutSecondList() {
	before := map[roster.Meaning]bool{}
	for at, c := range s.columns {
		m := roster.Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if m.Role.IsPerson() && before[m] && s.columns.repeatFrom(at, before) {
			s.say(c, true, fixSecondList, secondList)
			for _, d := range s.columns[at:] {
				if d.Meaning.Role != roster.Ours {
					d.Meaning = roster.Meaning{Role: roster.Other}
				}
			}
			return
		}
		before[m] = true
	}
}

// takeSheetTest assigns a result without a test to the sheet's test.
func (s *settler) takeSheetTest(c *Column) bool {
	t := s.named.Test
	in := InputFor(c, t)
	if t == nil || !t.HasResult(in) {
		return false
	}
	m := roster.Meaning{Role: roster.InputData, Input: in, Test: t, Distance: s.named.Distance, Unit: c.Meaning.Unit, UnitGiven: c.Meaning.UnitGiven, LapMetres: c.Meaning.LapMetres}
	if c.weak && c.Meaning.Input == scoring.Distance {
		m.LapMetres = max(m.LapMetres, s.named.LapMetres)
		if m.LapMetres == 0 {
			h := heading.LapsUnclear()
			c.Meaning, c.Unclear, c.choices = h.Meaning, h.Unclear, h.Choices
			return true
		}
	}
	if c.Meaning.Role == roster.Minutes {
		m.Role = roster.Minutes
	}
	if m.Unit == scoring.NoUnit {
		m.Unit = in.Info().Unit
	}
	c.Meaning, c.Titled = m, true
	s.say(c, false, FixReadAsResult, readAsResult.With(t))
	return true
}

// kept returns the columns whose cells are kept.
func (s *settler) kept() (used List) {
	for _, c := range s.columns {
		switch c.Meaning.Role {
		case roster.Ours:
			if !result.NamesReport(&c.Column) {
				continue
			}
		case roster.Unknown, roster.Unscored, roster.Other:
			continue
		}
		if len(used) == maxColumns {
			s.say(c, true, fixColumnsMany, columnsMany.With(maxColumns))
			s.dropFrom(c)
			break
		}
		c.Slot = len(used)
		used = append(used, c)
	}
	return used
}

// dropFrom leaves out a column and those after it.
func (s *settler) dropFrom(first *Column) {
	for _, c := range s.columns {
		if c.Index >= first.Index && c.Meaning.Role != roster.Ours {
			c.Meaning, c.Seconds = roster.Meaning{}, nil
		}
		if c.Seconds != nil && c.Seconds.Index >= first.Index {
			c.Meaning, c.Seconds = roster.Meaning{}, nil
		}
		c.again = slices.DeleteFunc(c.again, func(d *Column) bool { return d.Index >= first.Index })
	}
}

// headerCell returns the address of a column's header.
func (s *settler) headerCell(c *Column) string { return grid.At(c.Index, s.sheet.HeaderRow) }

// say adds a problem of a column.
func (s *settler) say(c *Column, blocking bool, fix, what scoring.Said) {
	s.problems = append(s.problems, columnProblem(s.sheet, c, blocking, fix, what))
}

// repeatFrom reports whether a column from index at on repeats the meaning of an
// earlier one.
func (cs List) repeatFrom(at int, before map[roster.Meaning]bool) bool {
	for _, c := range cs[at:] {
		m := roster.Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if before[m] && !m.Role.IsPerson() && m.Role != roster.Unknown && m.Role != roster.Ours && m.Role != roster.Other {
			return true
		}
	}
	return false
}

// inBlocks reports whether some row below the header names the test of those below
// it.
func inBlocks(body []header.Row) bool {
	return slices.ContainsFunc(body, func(r header.Row) bool {
		return len(r.Cells) == 1 && heading.BlockTest(cell.Label(r.Cells[0].Raw)).Test != nil
	})
}

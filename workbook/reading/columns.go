package reading

import (
	"slices"
	"strconv"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// sheetColumn is a column with what its cells tell about each other.
type sheetColumn struct {
	roster.Column
	key     string // see headerKey
	start   starts // of the key; empty if the header does not begin with two letters
	style   cell.TimeStyle
	unclear scoring.Said
	morning bool           // a resting heart rate of one morning of several
	slot    int            // place of its cells in a rawRow, and of itself in sheetReader.used
	seconds *sheetColumn   // of a Minutes column
	rest    *sheetColumn   // inches beside the feet, pounds beside the stones
	again   []*sheetColumn // later columns that say they hold the same
	repeats bool           // it is such a later column
	listed  bool           // an ID that is a place in the list

	times    cell.TimeEvidence
	halves   cell.HalfLevels
	dates    cell.DateColumn
	sexes    cell.SexColumn
	remarked map[remark]*tally
	shuttles lostZeros
}

// alike are the column and the later ones that say they hold the same.
func (c *sheetColumn) alike() []*sheetColumn { return append([]*sheetColumn{c}, c.again...) }

// headerKey is that of its header, worked out once.
func (c *sheetColumn) headerKey() string {
	if c.key == "" {
		c.key = heading.Key(c.Header)
		if h := c.Header; len(h) >= 2 && isLetter(h[0]|0x20) && isLetter(h[1]|0x20) {
			c.start = startsOf(slices.Values([]string{c.key}))
		}
	}
	return c.key
}

// saysHeader tells whether a text is the header again.
func (c *sheetColumn) saysHeader(text string) bool {
	key := c.headerKey()
	return (len(c.start) == 0 || !c.start.ruleOut(text)) && heading.Key(text) == key
}

// readColumns gives every headed column its meaning.
func (sr *sheetReader) readColumns(headers []string) {
	ours := sr.rd.ours.Find(headers)
	for i, text := range headers {
		if text == "" {
			continue
		}
		c := &sheetColumn{Column: roster.Column{Index: i + 1, Header: text}}
		switch {
		case slices.Contains(ours, i):
			c.Meaning.Role = roster.Ours
		default:
			if h, ok := sr.rd.match(text); ok {
				c.Meaning, c.style, c.unclear, c.morning = h.Meaning, h.Style, h.Unclear, h.Morning
			}
		}
		sr.columns = append(sr.columns, c)
	}
	sr.cutSecondList()
	sr.findClocks()
	sr.pairMinutes()
	sr.pairImperial()
	sr.pairLevels()
	sr.settleNames()
	sr.settleHeartRates()
	sr.settleResults()
	sr.settleRepeats()
	sr.tellRaces()
	sr.nameUnused()
	sr.chooseUsed()
}

// chooseUsed picks the columns whose cells are kept.
func (sr *sheetReader) chooseUsed() {
	for _, c := range sr.columns {
		switch c.Meaning.Role {
		case roster.Ours:
			if !sr.rd.ours.NamesReport(c.Header) {
				continue
			}
		case roster.Unknown, roster.HeartRate, roster.ListNumber, roster.Unscored, roster.Other:
			continue
		}
		if len(sr.used) == maxColumns {
			sr.columnProblem(c, true, fixColumnsMany, columnsMany.With(maxColumns))
			sr.dropFrom(c)
			break
		}
		c.slot = len(sr.used)
		sr.used = append(sr.used, c)
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput {
			c.sexes.ObserveHeader(c.Header)
			if len(sr.rd.opt.SexCodes) > 0 {
				c.sexes.Codes = sr.rd.opt.SexCodes
			}
		}
	}
	sr.birth, sr.tested, sr.age = sr.columnWith(roster.Birth), sr.columnWith(roster.TestDate), sr.inputColumn(scoring.Age)
}

// dropFrom makes a column and those after it unknown.
func (sr *sheetReader) dropFrom(first *sheetColumn) {
	for _, c := range sr.columns {
		if c.Index >= first.Index && c.Meaning.Role != roster.Ours {
			c.Meaning, c.seconds = roster.Meaning{}, nil
		}
		if c.seconds != nil && c.seconds.Index >= first.Index {
			c.Meaning, c.seconds = roster.Meaning{}, nil
		}
		c.again = slices.DeleteFunc(c.again, func(d *sheetColumn) bool { return d.Index >= first.Index })
	}
}

func (sr *sheetReader) columnWith(role roster.Role) *sheetColumn {
	for _, c := range sr.columns {
		if c.Meaning.Role == role {
			return c
		}
	}
	return nil
}

func (sr *sheetReader) inputColumn(in scoring.Input) *sheetColumn {
	for _, c := range sr.columns {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == in {
			return c
		}
	}
	return nil
}

// headerCell is the address of a column's header.
func (sr *sheetReader) headerCell(c *sheetColumn) string {
	return grid.At(c.Index, sr.sheet.HeaderRow)
}

func (sr *sheetReader) columnProblem(c *sheetColumn, blocking bool, fix, what scoring.Said) {
	sr.rd.roster.Problems = append(sr.rd.roster.Problems, roster.Problem{Sheet: sr.sheet.Name, Cell: sr.headerCell(c),
		Read: c.Header, What: what, Fix: fix, Blocking: blocking})
}

// leaveOut is what to give to --column to leave a column out.
func leaveOut(c *sheetColumn) string { return strconv.Quote(c.Header + "=ignore") }

// findClocks finds a column of start times with one of finish times, of which
// neither is a result.
func (sr *sheetReader) findClocks() {
	headed := func(heads func(header string) bool) int {
		return slices.IndexFunc(sr.columns, func(c *sheetColumn) bool {
			return (c.Meaning.Role == roster.Unknown || c.Meaning.Role == roster.Result) && heads(c.Header)
		})
	}
	start, finish := headed(heading.HeadsStart), headed(heading.HeadsFinish)
	if start < 0 || finish < 0 {
		return
	}
	sr.columns[start].Meaning = roster.Meaning{Role: roster.Other}
	c := sr.columns[finish]
	c.Meaning = roster.Meaning{Role: roster.Unscored}
	c.unclear = clocks.With(sr.headerCell(sr.columns[start]), scoring.Quoted(sr.columns[start].Header))
}

// pairMinutes joins a column of minutes with the column of seconds beside it.
func (sr *sheetReader) pairMinutes() {
	for i, c := range sr.columns {
		m := c.Meaning
		takes := m.Role == roster.Minutes || m.Input == scoring.Time && (m.Role == roster.InputData || m.Role == roster.Result) && c.style != cell.InSeconds
		if takes && i+1 < len(sr.columns) && sr.columns[i+1].Index == c.Index+1 {
			d := sr.columns[i+1]
			alone := d.Meaning.Role == roster.SecondsOf
			same := d.Meaning.Input == scoring.Time && d.style == cell.InSeconds && c.style == cell.InMinutes &&
				d.Meaning.Test == m.Test && (d.Meaning.Role == roster.InputData || d.Meaning.Role == roster.Result)
			if alone || same {
				c.seconds = d
				c.Meaning = roster.Meaning{Role: roster.Minutes, Input: scoring.Time, Unit: scoring.Minutes, Test: m.Test, UnitGiven: true}
				d.Meaning = roster.Meaning{Role: roster.SecondsOf, Input: scoring.Time, Unit: scoring.Seconds, Test: m.Test, UnitGiven: true}
			}
		}
	}
	paired := map[*sheetColumn]bool{}
	for _, c := range sr.columns {
		if c.seconds != nil {
			paired[c], paired[c.seconds] = true, true
		}
		if (c.Meaning.Role == roster.Minutes || c.Meaning.Role == roster.SecondsOf) && !paired[c] {
			c.Meaning = roster.Meaning{}
		}
	}
}

// pairLevels joins a column of levels with the column of shuttles beside it.
// Neither word by itself means a shuttle run.
func (sr *sheetReader) pairLevels() {
	test := heading.MustTest("shuttle-20-m")
	for i, c := range sr.columns {
		level := c.Meaning.Role == roster.LevelPart || c.Meaning.Test == test && c.Meaning.Input == scoring.ShuttleLevel
		if !level || i+1 == len(sr.columns) || sr.columns[i+1].Index != c.Index+1 || !isShuttlePart(sr.columns[i+1].Meaning, sr.columns[i+1].Header) {
			continue
		}
		c.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLevel, Unit: scoring.Levels, Test: test}
		sr.columns[i+1].Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleInLevel, Unit: scoring.Laps, Test: test}
	}
	for _, c := range sr.columns {
		if c.Meaning.Role == roster.LevelPart && sr.named.Test == test {
			c.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLevel, Unit: scoring.Levels, Test: test}
		}
		if c.Meaning.Role == roster.LevelPart || c.Meaning.Role == roster.ShuttlePart {
			c.Meaning = roster.Meaning{}
		}
	}
}

// isShuttlePart tells whether a column beside a level may hold the shuttles
// done in it. Shuttles are those of the whole run where they stand alone.
func isShuttlePart(m roster.Meaning, header string) bool {
	return m.Role == roster.ShuttlePart || m.Input == scoring.ShuttleLaps && heading.Key(header) == "shuttles"
}

// settleNames tells apart whole, given and family names: "Name" beside
// "Vorname" is the family name, "Nome" beside "Cognome" the given one.
func (sr *sheetReader) settleNames() {
	whole, given, family := sr.columnWith(roster.Name), sr.columnWith(roster.GivenName), sr.columnWith(roster.FamilyName)
	switch {
	case whole != nil && given != nil && family == nil:
		whole.Meaning.Role = roster.FamilyName
	case whole != nil && family != nil && given == nil:
		whole.Meaning.Role = roster.GivenName
	}
	if number := sr.columnWith(roster.ListNumber); number != nil && sr.columnWith(roster.ID) == nil &&
		sr.columnWith(roster.Name) == nil && sr.columnWith(roster.GivenName) == nil && sr.columnWith(roster.FamilyName) == nil {
		number.Meaning.Role, number.listed = roster.ID, true
	}
}

// settleHeartRates decides what a plain "HR" or "Pulse" is by what else is
// there.
func (sr *sheetReader) settleHeartRates() {
	for _, c := range sr.columns {
		if c.Meaning.Role != roster.HeartRate {
			continue
		}
		var in scoring.Input
		switch {
		case sr.inputColumn(scoring.RestingHR) != nil:
			in = scoring.ExerciseHR
		case sr.inputColumn(scoring.ExerciseHR) != nil:
			in = scoring.RestingHR
		default:
			sr.columnProblem(c, true, fixHeartRate, whichHeartRate)
			continue
		}
		c.Meaning = roster.Meaning{Role: roster.InputData, Input: in, Unit: scoring.BeatsPerMinute}
	}
}

// settleResults reports results of which nothing says the test.
func (sr *sheetReader) settleResults() {
	tests := sr.columnWith(roster.TestName)
	var result *sheetColumn
	for _, c := range sr.columns {
		generic := c.Meaning.Role == roster.Result || c.Meaning.Role == roster.Minutes && c.Meaning.Test == nil
		if !generic {
			continue
		}
		result = c
		if tests == nil && sr.takeSheetTest(c) {
			continue
		}
		if tests == nil || c.Index < tests.Index {
			if tests == nil {
				sr.columnProblem(c, true, fixHeaderTest, headerWhichTest)
			} else {
				sr.columnProblem(c, true, fixTestToLeft, noTestToLeft)
			}
			c.Meaning = roster.Meaning{}
			if c.seconds != nil {
				c.seconds.Meaning, c.seconds = roster.Meaning{}, nil
			}
		}
	}
	if tests != nil && result == nil && !sr.hasResults() {
		sr.columnProblem(tests, true, addResultColumn, noResultColumn)
	}
}

// settleRepeats finds columns that say they hold the same.
func (sr *sheetReader) settleRepeats() {
	first := map[roster.Meaning]*sheetColumn{}
	for _, c := range sr.columns {
		m := c.Meaning
		key := roster.Meaning{Role: m.Role, Input: m.Input, Test: m.Test, Distance: m.Distance}
		switch m.Role {
		case roster.InputData, roster.Birth, roster.TestDate, roster.Minutes:
		default:
			continue
		}
		if m.Role == roster.Minutes {
			key.Role = roster.InputData
		}
		if m.Role == roster.Minutes && m.Test == nil {
			continue
		}
		f := first[key]
		if f == nil {
			first[key] = c
			continue
		}
		if c.morning {
			f.morning = true // whatever its header, it is one of several
			f.again = append(f.again, c)
			c.repeats = true
			continue
		}
		sr.columnProblem(c, false, fixSameColumns.With(leaveOut(f)), sameColumns.With(sr.headerCell(f), scoring.Quoted(f.Header)))
		f.again = append(f.again, c)
		c.repeats = true
	}
}

// nameUnused reports columns of tests that are not scored, and unknown ones
// that look like a slip of the hand.
func (sr *sheetReader) nameUnused() {
	for i, c := range sr.columns {
		switch c.Meaning.Role {
		case roster.Unscored:
			if !c.unclear.IsZero() {
				sr.columnProblem(c, true, scoring.Said{}, c.unclear)
				continue
			}
			sr.columnProblem(c, false, scoring.Said{}, testNotScored)
		case roster.Unknown:
			if i >= headerWidth {
				return
			}
			near, ok := heading.Nearest(c.Header)
			if !ok {
				continue
			}
			if h, known := heading.Match(near); known && !slices.ContainsFunc(sr.columns, func(d *sheetColumn) bool { return d.Meaning == h.Meaning }) {
				sr.columnProblem(c, false, fixNearlyHeader.With(scoring.Quoted(near)), nearlyHeader.With(scoring.Quoted(near)))
			}
		}
	}
}

// hasResults tells whether a column can hold a test's result.
func (sr *sheetReader) hasResults() bool {
	return slices.ContainsFunc(sr.columns, func(c *sheetColumn) bool { return c.isResult() })
}

// isResult tells whether a column can hold a test's result.
func (c *sheetColumn) isResult() bool {
	m := c.Meaning
	switch {
	case m.Role == roster.Result || m.Role == roster.Minutes:
		return true
	case m.Role != roster.InputData || m.Input.Info().Personal:
		return false
	case m.Test != nil:
		return m.Test.HasResult(m.Input)
	}
	return slices.ContainsFunc(fieldtests.All(), func(t *scoring.Test) bool { return t.HasResult(m.Input) })
}

// tellRaces says of each column that is a distance that it was read as a race.
func (sr *sheetReader) tellRaces() {
	for _, c := range sr.columns {
		if d := c.Meaning.Distance; d > 0 && !c.repeats {
			sr.columnProblem(c, false, fixRace, readAsRace.With(scoring.Q(d, scoring.Metres)))
		}
	}
}

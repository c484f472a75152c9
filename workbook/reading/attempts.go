package reading

import (
	"cmp"
	"math"
	"regexp"
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// ofTest reports whether the column holds a result of one test, or what goes with
// it.
func (c *sheetColumn) ofTest() bool {
	m := c.Meaning
	return m.Test != nil && (m.Role == roster.InputData || m.Role == roster.Minutes)
}

// settleRepeats finds columns of the same meaning. Those of a test are attempts,
// or of several days; others must agree.
func (s *settler) settleRepeats() {
	s.pairLaps()
	first := map[roster.Meaning]*sheetColumn{}
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
		f.again, c.repeats = append(f.again, c), true
		c.copied = c.ofTest() && c.attempt == f.attempt && c.term == f.term && c.Meaning.UnitGiven && f.Meaning.UnitGiven && c.Meaning.Unit != f.Meaning.Unit
		switch {
		case c.morning:
			f.morning = true // one of several, whatever its header
		case m.Role == roster.InputData && m.Input.Info().YesNo: // the most careful answer counts
		case !c.ofTest() && c.term == f.term:
			s.say(c, false, fixSameColumns.With(leaveOut(f)), sameColumns.With(s.headerCell(f), scoring.Quoted(f.Header)))
		}
	}
}

// pairLaps pairs laps of a track with the part of a lap beside them. Laps without it
// are left out beside the whole distance.
func (s *settler) pairLaps() {
	for i, c := range s.columns {
		if c.Meaning.LapMetres > 0 && i+1 < len(s.columns) && s.isPartOf(s.columns[i+1], c) {
			c.rest, s.columns[i+1].Meaning = s.columns[i+1], roster.Meaning{Role: roster.RestOf}
			c.Meaning.Unit, c.Meaning.UnitGiven = scoring.Metres, true
			continue
		}
		whole := func(d *sheetColumn) bool {
			return d != c && d.Meaning.Test == c.Meaning.Test && d.Meaning.Input == scoring.Distance && d.Meaning.LapMetres == 0 && d.term == c.term && d.attempt == c.attempt
		}
		if c.Meaning.LapMetres > 0 && slices.ContainsFunc(s.columns, whole) {
			c.Meaning = roster.Meaning{Role: roster.Other}
		}
	}
}

// isPartOf reports whether a column of metres holds parts of a lap.
func (s *settler) isPartOf(d, laps *sheetColumn) bool {
	if d.Meaning.Test != laps.Meaning.Test || d.Meaning.Input != scoring.Distance || d.Meaning.Unit != scoring.Metres || d.Meaning.LapMetres > 0 {
		return false
	}
	parts := 0
	for _, row := range s.body {
		for _, c := range row.Cells {
			x, ok := cell.BareNumber(c.Raw)
			if c.Col != d.Index || !ok {
				continue
			}
			if x.Amount >= laps.Meaning.LapMetres {
				return false
			}
			parts++
		}
	}
	return parts > 2
}

// terms lists the days, months or terms that the headers of columns of one meaning
// name, left to right or by their years.
func (c *sheetColumn) terms() []string {
	var all []string
	for _, d := range c.alike() {
		if !slices.Contains(all, d.term) && !(d.best && d.term == "") { // the best of all is of no day
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

// chooseTerm keeps the columns of the latest day with a result, where headers name
// several, and leaves out those of the others.
func (sr *sheetReader) chooseTerm() {
	latest, some := "", false
	for _, c := range sr.columns {
		terms := c.terms()
		if len(terms) < 2 || c.repeats || !c.isResult() || c.dated() {
			continue
		}
		for _, d := range c.alike() {
			if sr.anyResult(d) && slices.Contains(terms, d.term) && slices.Index(terms, d.term) >= slices.Index(terms, latest) {
				latest, some = d.term, true
			}
		}
	}
	for _, c := range sr.columns {
		terms := c.terms()
		if len(terms) < 2 || c.repeats || c.dated() || c.morning && !(some && slices.Contains(terms, latest)) {
			continue
		}
		kept := terms[len(terms)-1]
		for _, d := range c.alike() {
			if some && slices.Contains(terms, latest) {
				kept = latest
			} else if sr.anyResult(d) {
				kept = d.term
			}
		}
		sr.keepTerm(c.alike(), kept)
	}
}

// keepTerm leaves out the columns of one meaning that are not of a term.
func (sr *sheetReader) keepTerm(alike []*sheetColumn, term string) {
	head := alike[slices.IndexFunc(alike, func(c *sheetColumn) bool { return c.term == term })]
	head.repeats, head.again = false, nil
	for _, c := range alike {
		switch {
		case c == head:
		case c.term == term:
			head.again = append(head.again, c)
		default:
			sr.say(c, fixOtherTerm.With(leaveOut(head)), otherTerm.With(grid.At(head.Index, sr.sheet.HeaderRow), scoring.Quoted(head.Header)))
			c.Meaning, c.seconds, c.again, c.repeats = roster.Meaning{Role: roster.Other}, nil, nil, false
			sr.sheet.ColumnOf(c.Index).Meaning = c.Meaning
		}
	}
}

// anyResult reports whether some row has a result in the column.
func (sr *sheetReader) anyResult(c *sheetColumn) bool {
	return slices.ContainsFunc(sr.body.rows, func(r rawRow) bool { return !r.cells[c.slot].IsBlank() && !c.saysNone(r.cells[c.slot]) })
}

// numberAttempts numbers the attempts that columns of one meaning hold. What goes
// with a result belongs to the result at its left; a single such column serves all.
func (sr *sheetReader) numberAttempts() {
	for _, c := range sr.columns {
		if !c.ofTest() || c.repeats || !c.Meaning.Test.HasResult(c.Meaning.Input) {
			continue
		}
		tries := slices.DeleteFunc(c.alike(), func(d *sheetColumn) bool { return d.best || d.copied })
		slices.SortStableFunc(tries, func(a, b *sheetColumn) int { return a.attempt - b.attempt })
		for i, d := range tries {
			d.attempt = i + 1
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
		sr.say(tries[1], fixSameColumns.With(leaveOut(tries[0])), what.With(grid.At(tries[0].Index, sr.sheet.HeaderRow), scoring.Quoted(tries[0].Header)))
	}
	result := map[*scoring.Test]int{} // the attempt of the last result at the left
	for _, c := range sr.columns {
		switch m := c.Meaning; {
		case !c.ofTest():
		case m.Test.HasResult(m.Input):
			result[m.Test] = c.attempt
		case c.repeats || len(c.again) > 0:
			c.attempt = result[m.Test]
		default:
			c.attempt = 0
		}
	}
}

// readOwn reads the columns of single tests, one trial a test or a race's
// distance.
func (b *rowTrials) readOwn() {
	for i, c := range b.survey.used {
		m := c.Meaning
		sameTrial := func(d *sheetColumn) bool {
			return d.ofTest() && d.Meaning.Test == m.Test && d.Meaning.Distance == m.Distance && m.Test.HasResult(d.Meaning.Input)
		}
		if c.ofTest() && m.Test.HasResult(m.Input) && !slices.ContainsFunc(b.survey.used[:i], sameTrial) {
			b.readAttempts(m)
		}
	}
	for _, c := range b.survey.used { // what goes with a test named in the row
		m := c.Meaning
		if c.ofTest() && !m.Test.HasResult(m.Input) {
			if at := b.trialOf(m.Test); at >= 0 && !b.trials[at].Has(m.Input) {
				b.set(at, c)
			}
		}
	}
}

// readAttempts reads the attempts at the test of a column and keeps the one that
// counts.
func (b *rowTrials) readAttempts(m roster.Meaning) {
	last := 0
	for _, c := range b.survey.used {
		if c.ofTest() && c.Meaning.Test == m.Test {
			last = max(last, c.attempt)
		}
	}
	made, chosen, before := 0, scoring.Trial{Test: m.Test}, b.blocked
	for n := 1; n <= last; n++ {
		trial := b.readAttempt(m, n)
		if _, ok := trial.ResultOf(); !ok {
			continue
		}
		if made++; made == 1 || trial.Supersedes(&chosen) {
			chosen = trial
		}
	}
	if made > 1 {
		chosen.Attempts = last
	} else {
		chosen.Attempt = 0
	}
	if b.blocked > before || !b.agreesWithBest(m, &chosen, made) {
		return // an attempt that can't be read may be the one that counts
	}
	if _, ok := chosen.ResultOf(); !ok {
		return
	}
	if at := b.trialOf(m.Test); at >= 0 && m.Test != heading.Race {
		for in := range scoring.InputCount { // the row also names the test
			b.trials[at].Take(in, &chosen.Values, chosen.Cell(in))
		}
		return
	}
	b.trials, b.named = append(b.trials, chosen), append(b.named, nil)
}

// readAttempt reads one attempt. What goes with the result is read only where
// there is a result.
func (b *rowTrials) readAttempt(m roster.Meaning, n int) scoring.Trial {
	trial := scoring.Trial{Test: m.Test, Attempt: n}
	for _, results := range []bool{true, false} {
		for _, c := range b.survey.used {
			d := c.Meaning
			if !c.ofTest() || d.Test != m.Test || d.Distance != m.Distance || c.best || c.copied || b.ofOtherDay(c) || m.Test.HasResult(d.Input) != results || c.attempt != n && c.attempt != 0 {
				continue
			}
			b.readInto(&trial, c)
		}
		if _, ok := trial.ResultOf(); !ok {
			return trial
		}
	}
	return trial
}

// readInto reads a cell of a test's column into a trial.
func (b *rowTrials) readInto(trial *scoring.Trial, c *sheetColumn) {
	before := b.blocked
	values, ok := b.readCell(c, trial.Test)
	b.failed = b.failed || !ok && b.blocked > before
	if d := c.Meaning.Distance; ok && d > 0 {
		trial.Set(scoring.Distance, scoring.Q(d, scoring.Metres), grid.At(c.Index, b.sheet.HeaderRow))
	}
	for _, v := range values {
		trial.Set(v.in, v.q, v.cell)
	}
}

// alike reports whether two columns in different units hold one result: a beat more
// or less in 15 seconds is 3 %.
func alike(a, b *scoring.Trial, result scoring.Input) bool {
	p, _ := a.Get(result)
	q, ok := b.Get(result)
	return ok && math.Abs(p.Amount-q.Amount) <= 0.03*q.Amount
}

// agreesWithBest compares the attempt that counts with a column for the best one,
// or the same result in another unit. Either stands in where no attempt is given.
func (b *rowTrials) agreesWithBest(m roster.Meaning, chosen *scoring.Trial, made int) bool {
	for _, c := range b.survey.used {
		if !c.best && !c.copied || !c.ofTest() || c.Meaning.Test != m.Test || c.Meaning.Distance != m.Distance {
			continue
		}
		best := scoring.Trial{Test: m.Test}
		b.readInto(&best, c)
		result, ok := best.ResultOf()
		switch {
		case !ok:
		case made == 0:
			for in := range scoring.InputCount {
				chosen.Take(in, &best.Values, best.Cell(in))
			}
		case c.copied && !alike(chosen, &best, result.Input):
			b.failed = true
			b.block(c, saysOther.With(chosen.Cell(result.Input)), roster.CorrectOne)
			return false
		case !c.copied && !m.Test.ByPulse() && !chosen.SameResult(&best):
			b.failed = true
			b.block(c, notTheBest.With(chosen.Cell(result.Input)), roster.CorrectOne)
			return false
		}
	}
	return true
}

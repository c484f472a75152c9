package reading

import (
	"math"
	"slices"

	"tenback/scoring"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// readOwn reads the columns of single tests, one trial a test or a race's
// distance.
func (b *rowTrials) readOwn() {
	for i, c := range b.survey.Used {
		m := c.Meaning
		sameTrial := func(d *columns.Column) bool {
			return d.OfTest() && d.Meaning.Test == m.Test && d.Meaning.Distance == m.Distance && m.Test.HasResult(d.Meaning.Input)
		}
		if c.OfTest() && m.Test.HasResult(m.Input) && !slices.ContainsFunc(b.survey.Used[:i], sameTrial) {
			b.readAttempts(m)
		}
	}
	for _, c := range b.survey.Used { // what goes with a test named in the row
		m := c.Meaning
		if c.OfTest() && !m.Test.HasResult(m.Input) {
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
	for _, c := range b.survey.Used {
		if c.OfTest() && c.Meaning.Test == m.Test {
			last = max(last, c.Attempt)
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
		for _, c := range b.survey.Used {
			d := c.Meaning
			if !c.OfTest() || d.Test != m.Test || d.Distance != m.Distance || c.Best || c.Copied || b.ofOtherDay(c) || m.Test.HasResult(d.Input) != results || c.Attempt != n && c.Attempt != 0 {
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
func (b *rowTrials) readInto(trial *scoring.Trial, c *columns.Column) {
	before := b.blocked
	values, ok := b.readCell(c, trial.Test)
	b.failed = b.failed || !ok && b.blocked > before
	if d := c.Meaning.Distance; ok && d > 0 {
		trial.Set(scoring.Distance, scoring.Q(d, scoring.Metres), grid.At(c.Index, b.sheet.HeaderRow))
	}
	for _, v := range values {
		trial.Set(v.In, v.Q, v.Cell)
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
	for _, c := range b.survey.Used {
		if !c.Best && !c.Copied || !c.OfTest() || c.Meaning.Test != m.Test || c.Meaning.Distance != m.Distance {
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
		case c.Copied && !alike(chosen, &best, result.Input):
			b.failed = true
			b.block(c, saysOther.With(chosen.Cell(result.Input)), roster.CorrectOne)
			return false
		case !c.Copied && !m.Test.ByPulse() && !chosen.SameResult(&best):
			b.failed = true
			b.block(c, notTheBest.With(chosen.Cell(result.Input)), roster.CorrectOne)
			return false
		}
	}
	return true
}

package reading

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// rowTrials builds the trials of a row.
type rowTrials struct {
	*rowReader
	trials []scoring.Trial
	named  []*columns.Column // per trial: the column that named its test, or nil
	failed bool              // a result could not be used
}

// readTrials reads the tests that the person did.
func (rr *rowReader) readTrials() {
	b := &rowTrials{rowReader: rr}
	before := rr.blocked
	b.metres = b.raceDistance()
	b.readNamed()
	b.readOwn()
	b.startStages()
	b.share()
	b.finish()
	rr.row.ResultUnread = b.failed
	if len(rr.row.Entry.Trials) == 0 && !b.failed && rr.blocked == before && rr.survey.Columns.HasResults() && !rr.saysAbsent() {
		rr.problems = append(rr.problems, roster.Problem{Sheet: rr.sheet.Name, Cell: rr.row.Person.NameCell, Read: rr.row.Person.Label(),
			What: noResultHere, Fix: rr.resultFix(), Blocking: true, OnlyUntested: true})
	}
}

// raceDistance returns the metres in the row's column for the distance of a race; 0 if
// there are none.
func (b *rowTrials) raceDistance() float64 {
	for _, c := range b.survey.Used {
		m := c.Meaning
		if m.Role != roster.InputData || m.Input != scoring.Distance || m.Test != nil && m.Test != heading.Race || c.Asked || m.LapMetres > 0 {
			continue
		}
		if q, d := cell.ParseAmount(b.raw.cells[c.Slot], cell.Measure{Unit: m.Unit}); d == nil {
			return q.In(scoring.Metres)
		}
	}
	return 0
}

// saysAbsent reports whether the row says why it has no result.
func (rr *rowReader) saysAbsent() bool {
	return slices.ContainsFunc(rr.survey.Used, func(c *columns.Column) bool { return c.IsResult() && c.SaysNone(rr.raw.cells[c.Slot]) })
}

// resultFix returns which columns take a result.
func (rr *rowReader) resultFix() scoring.Said {
	var names []string
	for _, c := range rr.survey.Used {
		if c.IsResult() && len(names) < 4 {
			names = append(names, c.Header)
		}
	}
	if len(names) == 0 {
		return addResult.With(columns.ResultHeader(fieldtests.All()[1]))
	}
	return fillInHeaders.With(cell.OrEach(names))
}

// readNamed reads the tests named in a Test column, with the results to the right
// of the name.
func (b *rowTrials) readNamed() {
	var name *columns.Column
	var test *scoring.Test
	at := -1
	for _, c := range b.survey.Used {
		switch {
		case c.Meaning.Role == roster.TestName:
			name, test, at = c, nil, -1
			r := b.raw.cells[c.Slot]
			if r.IsBlank() || c.SaysNone(r) {
				continue
			}
			m := b.testNamed(c)
			if test = m.Test; test != nil {
				t := scoring.Trial{Test: test}
				if m.Distance > 0 {
					t.Set(scoring.Distance, scoring.Q(m.Distance, scoring.Metres), grid.At(c.Index, b.raw.number))
					b.metres = m.Distance
				}
				b.trials = append(b.trials, t)
				if c.Header == "" {
					c = nil // the line above the people names the test
				}
				b.named = append(b.named, c)
				at = len(b.trials) - 1
			}
		case name == nil || c.Meaning.Test != nil || c.Meaning.Role != roster.Result && c.Meaning.Role != roster.Minutes:
		case at < 0:
			if r := b.raw.cells[c.Slot]; !r.IsBlank() && !c.SaysNone(r) && b.raw.cells[name.Slot].IsBlank() {
				b.failed = true
				fix := columns.FixHeaderTest
				if name.Header != "" {
					fix = fixWhichTest.With(scoring.Quoted(name.Header))
				}
				b.block(c, whichTest, fix)
			}
		case test.HasResult(columns.InputFor(c, test)) && b.trials[at].Has(columns.InputFor(c, test)):
			b.again(at, c)
		case test.Takes(columns.InputFor(c, test)):
			b.set(at, c)
		}
	}
}

// again reads a further attempt at the test named in the row.
func (b *rowTrials) again(at int, c *columns.Column) {
	had := &b.trials[at]
	next := scoring.Trial{Test: had.Test, Attempt: max(had.Attempts, 1) + 1}
	b.readInto(&next, c)
	if _, ok := next.ResultOf(); !ok {
		return
	}
	had.Attempt, had.Attempts = max(had.Attempt, 1), next.Attempt
	if next.Attempts = next.Attempt; next.Supersedes(had) {
		b.trials[at] = next
	}
}

// testNamed finds the test that a cell names, or reports that it is unknown.
func (b *rowTrials) testNamed(c *columns.Column) roster.Meaning {
	text := cell.Label(b.raw.cells[c.Slot])
	m, ok := b.facts.TestNamed(text)
	if ok && len(m.Test.Results) > 0 {
		return m
	}
	fix := listOfTests
	if near, ok := heading.NearestTest(text); ok {
		fix = didYouMean.With(scoring.Quoted(near), fix)
	}
	b.failed = true
	if d := b.raw.cells[c.Slot].FormulaFault(listOfTests); d != nil {
		b.block(c, d.What, d.Fix)
		return roster.Meaning{}
	}
	b.block(c, unknownTest, fix)
	return roster.Meaning{}
}

// set reads a cell into a trial.
func (b *rowTrials) set(at int, c *columns.Column) {
	before := b.blocked
	values, ok := b.readOne(c, b.trials[at].Test)
	if !ok {
		b.failed = b.failed || b.blocked > before
		return
	}
	for _, v := range values {
		b.trials[at].Set(v.In, v.Q, v.Cell)
	}
}

func (b *rowTrials) trialOf(t *scoring.Test) int {
	return slices.IndexFunc(b.trials, func(tr scoring.Trial) bool { return tr.Test == t })
}

// shared returns the filled columns of inputs that serve any test.
func (b *rowTrials) shared() []*columns.Column {
	var all []*columns.Column
	for _, c := range b.survey.Used {
		m := c.Meaning
		if m.Role != roster.InputData || m.Test != nil || c.Repeats || m.Input.Info().Personal {
			continue
		}
		for _, d := range c.Alike() {
			if r := b.raw.cells[d.Slot]; !r.IsBlank() && !d.SaysNone(r) {
				all = append(all, c)
				break
			}
		}
	}
	return all
}

// startStages begins a trial if a shared column holds a test's result and another
// one identifies the test, as the bench height does for a heart rate after
// stepping.
func (b *rowTrials) startStages() {
	shared := b.shared()
	holds := func(in scoring.Input) bool {
		return slices.ContainsFunc(shared, func(c *columns.Column) bool { return c.Meaning.Input == in })
	}
	for _, t := range fieldtests.All() {
		if len(t.Results) == 0 || !holds(t.Results[0].Input) || b.trialOf(t) >= 0 {
			continue
		}
		told := slices.ContainsFunc(shared, func(c *columns.Column) bool {
			in := c.Meaning.Input
			return in != t.Results[0].Input && t.Takes(in) && !slices.ContainsFunc(fieldtests.All(), func(other *scoring.Test) bool {
				return other != t && other.Takes(in)
			})
		})
		if told {
			b.trials = append(b.trials, scoring.Trial{Test: t})
			b.named = append(b.named, nil)
		}
	}
}

// share assigns each shared value to the one trial that can use it.
func (b *rowTrials) share() {
	for _, c := range b.shared() {
		in := c.Meaning.Input
		takers := b.takers(in)
		if len(takers) == 0 && in == scoring.ExerciseHR {
			// A pulse after a test of recovery is that of recovery.
			if takers = b.takers(scoring.RecoveryHR); len(takers) == 1 {
				as := *c
				as.Meaning.Input = scoring.RecoveryHR
				c = &as
			}
		}
		switch len(takers) {
		case 0:
		case 1:
			b.set(takers[0], c)
		default:
			b.block(c, eitherTest.With(b.trials[takers[0]].Test, b.trials[takers[1]].Test),
				fixEitherTest.With(b.trials[takers[0]].Test))
		}
	}
}

// takers returns the trials that can use an input and lack it.
func (b *rowTrials) takers(in scoring.Input) (all []int) {
	for i := range b.trials {
		if b.trials[i].Test.Takes(in) && !b.trials[i].Has(in) {
			all = append(all, i)
		}
	}
	return all
}

// finish keeps the trials with a result.
func (b *rowTrials) finish() {
	for i := range b.trials {
		t := &b.trials[i]
		if _, ok := t.ResultOf(); ok {
			b.row.Entry.Trials = append(b.row.Entry.Trials, *t)
			continue
		}
		if b.named[i] != nil && !b.failed && !b.saysAbsent() {
			b.block(b.named[i], testNoResult, b.resultFix())
		}
	}
}

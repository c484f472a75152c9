package desk

import (
	"fmt"
	"time"

	"tenback/cmd/internal/batch"
	"tenback/scoring"
	"tenback/workbook"
	"tenback/workbook/result"
)

// readingOf collects what the board shows of a reading.
func readingOf(at time.Time, roster *workbook.Roster, outcomes []workbook.Outcome, options *scoring.Options, work *batch.Work) Reading {
	r := Reading{At: at, People: batch.CountPeople(outcomes), Visits: len(outcomes)}
	made := map[*workbook.Outcome]bool{}
	for _, o := range work.Made {
		made[o] = true
	}
	toMend := func(name string, problems []workbook.Problem) {
		for _, p := range problems {
			if p.Blocking && !p.OnlyUntested {
				r.ToMend = append(r.ToMend, Mend{Name: name, Cell: p.Where(), Read: p.Read, What: p.What.String(), Fix: p.Fix.String(), OtherTest: p.OtherTest})
			}
		}
	}
	toMend("", roster.Problems)
	for i := range outcomes {
		o := &outcomes[i]
		toMend(o.Row.Person.Label(), o.Problems())
		if why := batch.TalkText(o); why != "" {
			r.Cautions = append(r.Cautions, Caution{Place: batch.Place(o.Row), Name: o.Row.Person.Label(), Why: why})
		}
		switch {
		case o.Untested():
			r.Untested++
			continue
		case o.LeftOut():
			if o.WhyLeftOut() == result.NeedsOtherTest {
				r.Another++
			}
			continue
		}
		result := Result{Entered: enteredOf(o), Place: batch.Place(o.Row), Name: o.Row.Person.Label(), Group: o.Row.Person.Group, Page: o.Report, Made: made[o]}
		result.Test, result.Value = valueOf(o, options)
		r.Results = append(r.Results, result)
	}
	return r
}

// enteredOf writes who a person is and all that was entered. It omits what a page
// also depends on: its look and the tables.
func enteredOf(o *workbook.Outcome) string {
	text := fmt.Sprintf("%q %q %s", o.Row.Person.Label(), o.Row.Person.Group, batch.Entered(&o.Row.Entry))
	for _, p := range o.Problems() {
		text += fmt.Sprintf(" %q %q", p.Read, p.What)
	}
	return text
}

// valueOf returns the test of the headline and its result.
func valueOf(o *workbook.Outcome, options *scoring.Options) (test, value string) {
	test = o.Test.Name
	score := o.Score(options)
	best := score.Best()
	if best == nil {
		return test, score.Norms[0].Result.String()
	}
	low, high := best.Likely()
	return test, fmt.Sprintf("%.1f (%.1f to %.1f)", float64(best.VO2), float64(low), float64(high))
}

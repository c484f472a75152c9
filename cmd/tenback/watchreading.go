package main

import (
	"fmt"
	"strings"
	"time"

	"tenback/cmd/internal/desk"
	"tenback/cmd/internal/manifest"
	"tenback/workbook"
)

// readingOf is what the board has to know of a reading.
func readingOf(at time.Time, roster *workbook.Roster, outcomes []workbook.Outcome, maker *pageMaker, work *pageWork) (desk.Reading, error) {
	r := desk.Reading{At: at, People: peopleIn(outcomes), Visits: len(outcomes)}
	made := map[*workbook.Outcome]bool{}
	for _, o := range work.made {
		made[o] = true
	}
	toMend := func(name string, problems []workbook.Problem) {
		for _, p := range problems {
			if p.Blocking && !p.OnlyUntested {
				r.ToMend = append(r.ToMend, desk.Mend{Name: name, Cell: p.Where(), Read: p.Read, What: p.What.String(), Fix: p.Fix.String(), OtherTest: p.OtherTest})
			}
		}
	}
	toMend("", roster.Problems)
	for i := range outcomes {
		o := &outcomes[i]
		toMend(o.Row.Person.Label(), o.Problems())
		if why := clinicianReasons(o); len(why) > 0 {
			r.Cautions = append(r.Cautions, desk.Caution{Place: placeOf(o.Row), Name: o.Row.Person.Label(), Why: strings.Join(why, "; ")})
		}
		switch {
		case o.Untested():
			r.Untested++
			continue
		case o.LeftOut():
			if o.WhyLeftOut() == workbook.NeedsOtherTest {
				r.Another++
			}
			continue
		}
		sum, err := enteredSum(o, maker)
		if err != nil {
			return r, err
		}
		result := desk.Result{Sum: sum, Place: placeOf(o.Row), Name: o.Row.Person.Label(), Group: o.Row.Person.Group, Page: o.Report, Made: made[o]}
		result.Test, result.Value = valueOf(o)
		r.Results = append(r.Results, result)
	}
	return r, nil
}

// enteredSum sums up who a person is and what was entered, without the look of
// the page and the tables it is read against.
func enteredSum(o *workbook.Outcome, maker *pageMaker) (manifest.Digest, error) {
	p := maker.person(o)
	return manifest.Of(p.Name, p.Group, p.Problems, o.Row.Entry)
}

// valueOf names the test of the headline and its result.
func valueOf(o *workbook.Outcome) (test, value string) {
	test = o.Test.Name
	score := o.Score()
	best := score.Best()
	if best == nil {
		return test, score.Norms[0].Result.String()
	}
	low, high := best.Likely()
	return test, fmt.Sprintf("%.1f (%.1f to %.1f)", float64(best.VO2), float64(low), float64(high))
}

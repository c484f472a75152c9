package result

import (
	"regexp"
	"testing"

	"tenback/scoring"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// TestEveryResultWordIsWritten: each block that is meant for result cells is
// written into one.
func TestEveryResultWordIsWritten(t *testing.T) {
	w := sheetwords.Of(nil)
	said := map[string]bool{}
	w.Heard = func(key string) { said[key] = true }
	columns := Columns(w)
	for _, o := range manyOutcomes(t) {
		for _, c := range columns {
			c.Value(o, o.Score(&scoring.Options{}))
		}
	}
	if w.Failure() != nil {
		t.Fatal(w.Failure())
	}
	ours := regexp.MustCompile(`^(sheet|percentile)\b`)
	// Headers come from the words of the program. What is said of a change and of a
	// group is not looked at here.
	elsewhere := regexp.MustCompile(`^sheet\..*\.header$|^sheet\.(since|pulse|verdict|summary)\b`)
	for _, key := range w.Set.Keys() {
		if ours.MatchString(key) && !elsewhere.MatchString(key) && !said[key] {
			t.Errorf("nothing writes %q", key)
		}
	}
}

// manyOutcomes are people who together have everything that a cell can say.
func manyOutcomes(t *testing.T) []*Outcome {
	all := []*Outcome{
		outcomeOf(t, run(t, scoring.Male, 55.5, 960)),
		outcomeOf(t, run(t, scoring.SexUnspecified, 55.5, 960)),
		outcomeOf(t, func(e *scoring.Entry) { person(e, scoring.Male, 40) }),
		outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.Female, 71)
			trial(t, e, "step-in-place-2-min", map[scoring.Input]float64{scoring.StepsInPlace: 58})
		}),
		outcomeOf(t, func(e *scoring.Entry) { person(e, scoring.Male, 40) }, roster.Problem{Sheet: "People", Cell: "D2", What: scoring.Verbatim("it is odd"), Blocking: true}),
	}
	withheld := outcomeOf(t, run(t, scoring.Male, 55.5, 960))
	withheld.Withheld = true
	all = append(all, withheld)
	for _, value := range []float64{10, 70} {
		all = append(all, outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.SexUnspecified, 35)
			trial(t, e, "measured", map[scoring.Input]float64{scoring.MeasuredVO2: value})
		}))
	}
	for _, level := range []float64{3, 9} {
		all = append(all, outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.SexUnspecified, 13.5)
			trial(t, e, "shuttle-20-m", map[scoring.Input]float64{scoring.ShuttleLevel: level})
		}))
	}
	for _, rate := range []float64{35, 50, 65, 75, 90} {
		all = append(all, outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.Female, 40)
			e.Set(scoring.RestingHR, scoring.Q(rate, scoring.BeatsPerMinute), "E2")
		}))
	}
	return all
}

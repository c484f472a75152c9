package plausible_test

import (
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/audit"
	"tenback/scoring/fieldtests"
	"tenback/scoring/plausible"
)

// judged returns an entry written as "TEST name=value name=value TEST name=value".
func judged(t testing.TB, text string) *scoring.Entry {
	t.Helper()
	e := &scoring.Entry{}
	for _, word := range strings.Fields(text) {
		name, value, isValue := strings.Cut(word, "=")
		if !isValue {
			test, ok := fieldtests.ByID(word)
			if !ok {
				t.Fatalf("no field test %q", word)
			}
			e.Trials = append(e.Trials, scoring.Trial{Test: test})
			continue
		}
		var trial *scoring.Trial
		if len(e.Trials) > 0 {
			trial = &e.Trials[len(e.Trials)-1]
		}
		if err := audit.Put(e, trial, name, value, "cell of "+name); err != nil {
			t.Fatal(err)
		}
	}
	plausible.Judge(e)
	return e
}

func TestDoubtedValuesAreNotUsed(t *testing.T) {
	e := judged(t, "sex=M age=30 body-mass=181 stature=120 run-12-minute distance=2500 walk-1-mile time=15:00 exercise-hr=120")
	s := scoring.Assess(e)
	if len(s.Estimates) != 1 || s.Best().Test.ID != "run-12-minute" || s.Entry().Has(scoring.BodyMass) {
		t.Fatalf("estimates %+v", s.Estimates)
	}
	if len(s.Refused) != 1 || s.Refused[0].Cell != "cell of body-mass" || s.Refused[0].Doubtful || s.Refused[0].Missing {
		t.Errorf("refused %+v", s.Refused)
	}
}

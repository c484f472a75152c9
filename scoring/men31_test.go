package scoring_test

import (
	"testing"

	. "tenback/scoring"
	"tenback/testdata/evidence"
)

// men31 reads the 31 men who were measured and ran 1.5 miles all-out.
func men31(t *testing.T) []evidence.Man {
	t.Helper()
	men, err := evidence.Men31()
	if err != nil {
		t.Fatal(err)
	}
	if len(men) != 31 {
		t.Fatalf("%d men, want 31", len(men))
	}
	return men
}

// runOf is a man's run as an entry; with says what else the sheet holds.
func runOf(t *testing.T, m evidence.Man, with func(e *Entry)) *Entry {
	t.Helper()
	e := &Entry{Trials: []Trial{{Test: testOf(t, "run-1.5-mile")}}}
	e.SetSex(Male, "")
	e.Set(Age, Q(m.Age, Years), "")
	e.Set(BodyMass, Q(m.BodyMass, Kilograms), "")
	e.Trials[0].Set(Time, Q(m.RunTime, Minutes), "")
	if with != nil {
		with(e)
	}
	return e
}

func withPulse(m evidence.Man) func(*Entry) {
	return func(e *Entry) {
		e.Trials[0].Set(ExerciseHR, Q(m.RunPulse, BeatsPerMinute), "")
		e.Set(MaxHR, Q(m.PeakPulse, BeatsPerMinute), "")
	}
}

// The assumed error must be no narrower than what these men show.
func TestAssumedErrorCoversThe31Men(t *testing.T) {
	const rmse = 3.767506
	if AssumedSEE < rmse {
		t.Errorf("assumed error %.1f is below the RMSE of %.3f on the 31 men", float64(AssumedSEE), rmse)
	}
}

// These runs were all-out, and no pulse makes them steady ones.
func TestNoSteadyEquationOnAllOutRuns(t *testing.T) {
	steady := func(s Score) bool {
		for i := range s.Estimates {
			if id := s.Estimates[i].Equation.ID; id == "run15-larsen2002" || id == "run15-larsen2002-hr" {
				return true
			}
		}
		return len(s.Estimates) == 0
	}
	for i, m := range men31(t) {
		for name, with := range map[string]func(*Entry){
			"maximum pulse": withPulse(m),
			"no pulse":      nil,
			"run pulse alone": func(e *Entry) {
				e.Trials[0].Set(ExerciseHR, Q(m.RunPulse-10, BeatsPerMinute), "") // counted late
			},
			"effort column": func(e *Entry) {
				e.Trials[0].Set(ExerciseHR, Q(m.RunPulse, BeatsPerMinute), "")
				e.Trials[0].Set(Effort, Q(EffortAllOut, NoUnit), "")
			},
		} {
			if steady(Assess(runOf(t, m, with))) {
				t.Errorf("man %d, %s: read as a steady run", i+1, name)
			}
		}
	}
}

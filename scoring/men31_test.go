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

// These runs were all-out. With the measured maximum pulse, with an effort
// column, or without any pulse, no steady-pace equation may be chosen.
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

// With the pulse but no measured maximum the rule leans on a maximum predicted
// from age, and takes three all-out runs of 31 for steady ones: the known
// price of that prediction, and the reason why the flag says that the pulse
// decided. An effort column avoids it.
func TestEffortRuleWithPredictedMaximum(t *testing.T) {
	wrong := 0
	for _, m := range men31(t) {
		s := Assess(runOf(t, m, func(e *Entry) {
			e.Trials[0].Set(ExerciseHR, Q(m.RunPulse, BeatsPerMinute), "")
		}))
		if !hasFlag(s.Flags, FlagEffortFromPulse) {
			t.Fatal("the pulse decided and no flag says so")
		}
		if s.Best().Equation.Source == "larsen2002" {
			wrong++
		}
	}
	if wrong != 3 {
		t.Errorf("%d of 31 all-out runs read as steady, want 3", wrong)
	}
}

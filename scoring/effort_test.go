package scoring_test

import (
	"strings"
	"testing"

	. "tenback/scoring"
)

// A 22-year-old: maximum predicted 208 − 0.7 × 22 = 192.6.
const runner = "sex=M;age=22;body-mass=70;time=12:00;"

// Only the effort column makes a run steady: no pulse changes the equation. A low one is
// remarked on.
func TestEffortRule(t *testing.T) {
	const allOut, steady = "run15-acsm", "run15-larsen2002-hr"
	for _, c := range []struct {
		name, more, equation string
		remark               bool
	}{
		{"nothing said", "", allOut, false},
		{"column says all-out", "effort=all-out", allOut, false},
		{"column beats a high pulse", "effort=steady;exercise-hr=190", steady, false},
		{"column beats a low pulse", "effort=all-out;exercise-hr=140", allOut, false},
		{"pulse near the maximum", "exercise-hr=174", allOut, false},
		{"pulse under 90 % of it", "exercise-hr=173", allOut, true},
		{"near the measured maximum", "exercise-hr=162;max-hr=180", allOut, false},
		{"under 90 % of the measured maximum", "exercise-hr=161.9;max-hr=180", allOut, true},
		{"slowed by a medicine", "exercise-hr=140;heart-rate-drug=1", allOut, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Assess(entryOf(t, "run-1.5-mile", strings.TrimSuffix(runner+c.more, ";")))
			only(t, s, c.equation)
			if got := hasFlag(s.Flags, FlagEffortUnsaid); got != c.remark {
				t.Errorf("remark on the effort: %v, want %v", got, c.remark)
			}
		})
	}
	if r := refused(t, Assess(entryOf(t, "run-1.5-mile", runner+"effort=steady"))); !r.Missing || r.Input != ExerciseHR {
		t.Errorf("a steady run without a pulse: %+v", r)
	}
	if r := refused(t, Assess(entryOf(t, "run-1.5-mile", "sex=M;age=30;body-mass=70;time=14:00;effort=steady;exercise-hr=150"))); !r.NotForAge || !strings.Contains(r.Fix.String(), "18–26") {
		t.Errorf("a steady run at 30: %+v", r)
	}
}

// Without an age and a measured maximum there is nothing to hold a pulse
// against: the run is taken as the test is meant to be run.
func TestEffortWithoutAge(t *testing.T) {
	s := Assess(entryOf(t, "run-1.5-mile", "time=12:00;exercise-hr=140"))
	if got := s.Best(); got == nil || got.Equation.ID != "run15-acsm" {
		t.Errorf("equations %v", equationIDs(s))
	}
	if hasFlag(s.Flags, FlagEffortUnsaid) {
		t.Error("the pulse is remarked on")
	}
}

// A steady run lacks what its equations need: the refusal asks for that, and
// does not say merely that other equations are for other runs.
func TestSteadyRunWithoutBodyMass(t *testing.T) {
	r := refused(t, Assess(entryOf(t, "run-1.5-mile", "sex=M;age=22;time=14:00;effort=steady")))
	if !r.Missing || r.Input != BodyMass || !strings.Contains(r.Fix.String(), "body mass") {
		t.Errorf("refusal %+v", r)
	}
}

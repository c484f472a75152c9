package scoring_test

import (
	"strings"
	"testing"

	. "tenback/scoring"
)

// A 22-year-old: maximum predicted 208 − 0.7 × 22 = 192.6, so all-out from a
// pulse of 173.34 on.
const runner = "sex=M;age=22;body-mass=70;time=12:00;"

func TestEffortRule(t *testing.T) {
	const allOut, steady, steadyHR = "run15-george1993", "run15-larsen2002", "run15-larsen2002-hr"
	for _, c := range []struct {
		name, more, equation string
		judged               bool
	}{
		{"nothing said", "", allOut, false},
		{"column says all-out", "effort=all-out", allOut, false},
		{"column says steady", "effort=steady", steady, false},
		{"column beats a high pulse", "effort=steady;exercise-hr=190", steadyHR, false},
		{"column beats a low pulse", "effort=all-out;exercise-hr=140", allOut, false},
		{"pulse at the line", "exercise-hr=174", allOut, true},
		{"pulse under the line", "exercise-hr=173", steadyHR, true},
		{"measured maximum decides, all-out", "exercise-hr=162;max-hr=180", allOut, true},
		{"measured maximum decides, steady", "exercise-hr=161.9;max-hr=180", steadyHR, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Assess(entryOf(t, "run-1.5-mile", strings.TrimSuffix(runner+c.more, ";")))
			if got := s.Best(); got == nil || got.Equation.ID != c.equation {
				t.Fatalf("equations %v, refusals %+v, want %s first", equationIDs(s), s.Refused, c.equation)
			}
			if got := hasFlag(s.Flags, FlagEffortFromPulse); got != c.judged {
				t.Errorf("flag that the pulse decided: %v, want %v", got, c.judged)
			}
			for i := range s.Estimates {
				if (s.Estimates[i].Equation.Source == "larsen2002") != (s.Best().Equation.Source == "larsen2002") {
					t.Errorf("equations for both efforts: %v", equationIDs(s))
				}
			}
		})
	}
}

func TestEffortFlagSaysWhatWasSeen(t *testing.T) {
	s := Assess(entryOf(t, "run-1.5-mile", runner+"exercise-hr=150;max-hr=200"))
	for _, f := range s.Flags {
		if f.Code == FlagEffortFromPulse {
			if f.Detail.String() != "steady: 150 of about 200 beats/min" {
				t.Errorf("detail %q", f.Detail)
			}
			return
		}
	}
	t.Error("no flag")
}

// Without an age and a measured maximum there is nothing to hold a pulse
// against: the run is taken as the test is meant to be run.
func TestEffortWithoutAge(t *testing.T) {
	s := Assess(entryOf(t, "run-1.5-mile", "time=12:00;exercise-hr=140"))
	if got := s.Best(); got == nil || got.Equation.ID != "run15-acsm" {
		t.Errorf("equations %v", equationIDs(s))
	}
	if hasFlag(s.Flags, FlagEffortFromPulse) {
		t.Error("flagged as judged from the pulse")
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

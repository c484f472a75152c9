package scoring_test

import (
	"strings"
	"testing"

	. "tenback/scoring"
)

func rangesOf(e *Entry) ([]HRRange, bool) {
	s := Assess(e)
	return s.HRRanges()
}

// Ranges of heart-rate reserve (garber2011) for rest 60 and maximum 180.
func TestHRRanges(t *testing.T) {
	want := []struct {
		name           string
		low, high, err float64
	}{
		{"light", 96, 108, 0.40 * 11.4},
		{"moderate", 108, 132, 0.60 * 11.4},
		{"vigorous", 132, 168, 0.90 * 11.4},
		{"near maximal", 168, 180, 11.4},
	}
	for _, c := range []struct {
		text     string
		measured bool
	}{{"age=40;resting-hr=60", false}, {"age=20;resting-hr=60;max-hr=180", true}, {"resting-hr=60;max-hr=180", true}} {
		got, ok := rangesOf(personOf(t, c.text))
		if !ok || len(got) != len(want) {
			t.Fatalf("%s: %v, %v", c.text, got, ok)
		}
		for i, w := range want {
			if c.measured {
				w.err = 0
			}
			if r := got[i]; r.Name != w.name || !near(r.Low.Amount, w.low, 1e-9) || !near(r.High.Amount, w.high, 1e-9) || !near(r.Error, w.err, 1e-9) || r.Measured {
				t.Errorf("%s: %+v, want %+v", c.text, r, w)
			}
		}
	}
	for _, text := range []string{"age=40", "resting-hr=60", "age=40;resting-hr=60;heart-rate-drug=1", "threshold-1-hr=130;threshold-2-hr=160;heart-rate-drug=1;cleared=1", "age=40;resting-hr=60;symptoms=1"} {
		if got, ok := rangesOf(personOf(t, text)); ok {
			t.Errorf("%s: %v", text, got)
		}
	}
}

// Both thresholds measured take the place of the percentages; one alone, or
// two out of order, does not.
func TestHRRangesByThresholds(t *testing.T) {
	got, ok := rangesOf(personOf(t, "age=40;resting-hr=60;threshold-1-hr=130;threshold-2-hr=160"))
	if !ok || len(got) != 3 {
		t.Fatalf("%v, %v", got, ok)
	}
	for i, w := range []struct{ low, high float64 }{{0, 130}, {130, 160}, {160, 0}} {
		if r := got[i]; !r.Measured || r.Low.Amount != w.low || r.High.Amount != w.high || r.Name == "" {
			t.Errorf("%+v, want %+v", r, w)
		}
	}
	for _, text := range []string{"age=40;resting-hr=60;threshold-1-hr=130", "age=40;resting-hr=60;threshold-1-hr=160;threshold-2-hr=160"} {
		if got, ok := rangesOf(personOf(t, text)); !ok || got[0].Measured {
			t.Errorf("%s: %v", text, got)
		}
	}
}

func TestLaboratoryDoubts(t *testing.T) {
	for _, c := range []struct {
		text                string
		maximal, thresholds bool // flagged
	}{
		{"respiratory-exchange-ratio=1.15", false, false},
		{"respiratory-exchange-ratio=1", false, false},
		{"respiratory-exchange-ratio=0.99", true, false},
		{"threshold-1-hr=130;threshold-2-hr=160;max-hr=185", false, false},
		{"threshold-1-hr=160;threshold-2-hr=160", false, true},
		{"threshold-1-hr=170;threshold-2-hr=160", false, true},
		{"threshold-2-hr=185;max-hr=185", false, false},
		{"threshold-2-hr=186;max-hr=185", false, true},
	} {
		s := Assess(personOf(t, c.text))
		if a, b := hasFlag(s.Flags, FlagNotMaximal), hasFlag(s.Flags, FlagThresholds); a != c.maximal || b != c.thresholds {
			t.Errorf("%s: not maximal %v, thresholds %v", c.text, a, b)
		}
	}
}

// 0.40 L/min in 20 weeks (bouchard1999): for 75 kg 5.33 mL/kg/min.
func TestTrainingGain(t *testing.T) {
	if got, ok := TrainingGain(personOf(t, "body-mass=75")); !ok || !near(got, 5.3333, 1e-4) {
		t.Errorf("%.4f, %v", float64(got), ok)
	}
	for text, want := range map[string]bool{"age=40": false, "age=65.9;body-mass=75": true, "age=66;body-mass=75": false} {
		if _, ok := TrainingGain(personOf(t, text)); ok != want {
			t.Errorf("%s: a gain %v, want %v", text, ok, want)
		}
	}
}

// Man of 60: 20 years to 80 cost 6.2 slowly and 10 fast, so 24.2 to 28 now;
// 30 years to 90 cost 9.3 to 15, so 27.3 to 33. A woman loses 0.25 a year
// slowly and her line is 15: 20 to 25, and 22.5 to 30.
func TestOutlook(t *testing.T) {
	for _, c := range []struct {
		who, value string
		sex        Sex
		age        float64
		want       []Outlook
	}{
		{"sex=M;age=60", "28", Male, 60, []Outlook{{80, 18, 24.2, 28, true, false}, {90, 18, 27.3, 33, false, false}}},
		{"sex=M;age=60", "27.9", Male, 60, []Outlook{{80, 18, 24.2, 28, false, false}, {90, 18, 27.3, 33, false, false}}},
		{"sex=M;age=60", "24.1", Male, 60, []Outlook{{80, 18, 24.2, 28, false, true}, {90, 18, 27.3, 33, false, true}}},
		{"sex=F;age=60", "24", Female, 60, []Outlook{{80, 15, 20, 25, false, false}, {90, 15, 22.5, 30, false, false}}},
		{"sex=F;age=85", "24", Female, 85, []Outlook{{90, 15, 16.25, 17.5, true, false}}},
		{"sex=F;age=91", "24", Female, 91, nil},
		{"sex=F;age=17", "40", Female, 17, nil},
	} {
		s := measuredAs(t, c.who, c.value)
		got := OutlookFor(s.Best(), c.sex, c.age)
		if len(got) != len(c.want) {
			t.Errorf("%s: %+v, want %+v", c.who, got, c.want)
			continue
		}
		for i, w := range c.want {
			g := got[i]
			if g.At != w.At || g.Line != w.Line || !near(g.NeedSlow, w.NeedSlow, 1e-9) || !near(g.NeedFast, w.NeedFast, 1e-9) || g.Reached != w.Reached || g.OutOfReach != w.OutOfReach {
				t.Errorf("%s at %s: %+v, want %+v", c.who, c.value, g, w)
			}
		}
	}
}

func TestErrorInLitresForPeople(t *testing.T) {
	e := ErrorOfEstimate{LPerMin: 0.355}
	if got := e.String(); got != "±0.355 L/min" {
		t.Errorf("%q", got)
	}
	if got := e.Of(40, 71); !near(got, 5, 1e-9) {
		t.Errorf("0.355 L/min in 71 kg is %.4f mL/kg/min", float64(got))
	}
}

// The intensities join without gaps.
func TestIntensitiesJoin(t *testing.T) {
	all := Intensities()
	for i := range all[1:] {
		if all[i].To != all[i+1].From || strings.TrimSpace(all[i].Name) == "" {
			t.Errorf("%+v, then %+v", all[i], all[i+1])
		}
	}
	if all[len(all)-1].To != 1 {
		t.Errorf("the last ends at %g", all[len(all)-1].To)
	}
}

package outlook

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/audit"
)

// personOf is a person of "name=value;name=value", without a test.
func personOf(t *testing.T, text string) *scoring.Entry {
	t.Helper()
	e := &scoring.Entry{}
	for part := range strings.SplitSeq(text, ";") {
		name, value, _ := strings.Cut(part, "=")
		if err := audit.Put(e, nil, name, value, name); err != nil {
			t.Fatal(err)
		}
	}
	return e
}

func near[T ~float64](got, want, tolerance T) bool {
	return math.Abs(float64(got-want)) <= float64(tolerance)
}

func rangesOf(e *scoring.Entry) ([]Range, bool) {
	s := scoring.Assess(e)
	return Ranges(&s)
}

// Ranges of heart-rate reserve (garber2011) for rest 60 and maximum 180.
func TestRanges(t *testing.T) {
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
func TestRangesByThresholds(t *testing.T) {
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

// 0.40 L/min in 20 weeks (bouchard1999): for 75 kg 5.33 mL/kg/min.
func TestGain(t *testing.T) {
	if got, ok := Gain(personOf(t, "body-mass=75")); !ok || !near(got, 5.3333, 1e-4) {
		t.Errorf("%.4f, %v", float64(got), ok)
	}
	for text, want := range map[string]bool{"age=40": false, "age=65.9;body-mass=75": true, "age=66;body-mass=75": false} {
		if _, ok := Gain(personOf(t, text)); ok != want {
			t.Errorf("%s: a gain %v, want %v", text, ok, want)
		}
	}
}

// Man of 60: 20 years to 80 cost 6.2 slowly and 10 fast, so 24.2 to 28 now;
// 30 years to 90 cost 9.3 to 15, so 27.3 to 33. A woman loses 0.25 a year
// slowly and her line is 15: 20 to 25, and 22.5 to 30.
func TestLater(t *testing.T) {
	for _, c := range []struct {
		who, value string
		sex        scoring.Sex
		age        float64
		want       []Later
	}{
		{"sex=M;age=60", "28", scoring.Male, 60, []Later{{80, 18, 24.2, 28, true, false}, {90, 18, 27.3, 33, false, false}}},
		{"sex=M;age=60", "27.9", scoring.Male, 60, []Later{{80, 18, 24.2, 28, false, false}, {90, 18, 27.3, 33, false, false}}},
		{"sex=M;age=60", "24.1", scoring.Male, 60, []Later{{80, 18, 24.2, 28, false, true}, {90, 18, 27.3, 33, false, true}}},
		{"sex=F;age=60", "24", scoring.Female, 60, []Later{{80, 15, 20, 25, false, false}, {90, 15, 22.5, 30, false, false}}},
		{"sex=F;age=85", "24", scoring.Female, 85, []Later{{90, 15, 16.25, 17.5, true, false}}},
		{"sex=F;age=91", "24", scoring.Female, 91, nil},
		{"sex=F;age=17", "40", scoring.Female, 17, nil},
	} {
		v, err := strconv.ParseFloat(c.value, 64)
		if err != nil {
			t.Fatal(err)
		}
		got := LaterFor(&scoring.Estimate{VO2: scoring.VO2(v)}, c.sex, c.age)
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

// What is usual for age, sex and size, worked on paper. Man of 40, 81 kg
// (178.574 lb), 180 cm (70.866 in): 45.2 − 14 − 10.9 − 26.786 + 48.189 − 0.46
// = 41.243 (desouza2018). Without stature 79.9 − 15.6 − 22.679 = 41.621
// (myers2017); a woman 13.7 less.
func TestUsual(t *testing.T) {
	sourceOf := map[scoring.VO2]string{6.6: "desouza2018", 7.2: "myers2017"}
	for _, c := range []struct {
		text     string
		vo2, see scoring.VO2
	}{
		{"sex=M;age=40;body-mass=81;stature=180", 41.243, 6.6},
		{"sex=F;age=40;body-mass=81;stature=180", 30.343, 6.6},
		{"sex=M;age=40;body-mass=81", 41.621, 7.2},
		{"sex=F;age=40;body-mass=81", 27.921, 7.2},
		{"sex=M;age=85.9;body-mass=81;stature=180", 25.178, 6.6},
		{"sex=M;age=86;body-mass=81;stature=180", 0, 0},
		{"sex=M;age=79.9;body-mass=81", 26.060, 7.2},
		{"sex=M;age=80;body-mass=81", 0, 0},
		{"sex=M;age=20;body-mass=81", 49.421, 7.2},
		{"sex=M;age=19.9;body-mass=81", 0, 0},
		{"age=40;body-mass=81", 0, 0},
		{"sex=M;body-mass=81", 0, 0},
		{"sex=M;age=40;stature=180", 0, 0},
	} {
		got := UsualOf(personOf(t, c.text))
		switch {
		case c.vo2 == 0:
			if got != nil {
				t.Errorf("%s: %+v", c.text, *got)
			}
		case got == nil || !near(got.VO2, c.vo2, 1e-3) || got.SEE != c.see || got.Source != sourceOf[c.see]:
			t.Errorf("%s: %+v, want %.3f ± %.1f", c.text, got, float64(c.vo2), float64(c.see))
		}
	}
}

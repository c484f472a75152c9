package scoring_test

import (
	"fmt"
	"strings"
	"testing"

	. "tenback/scoring"

	"tenback/scoring/fieldtests"
)

// Shuttles up to the end of each level. Start at 8.0 km/h: counts seen in two
// public texts, added up; 247 in all. Start at 8.5: 60 s at the level's speed
// in whole shuttles, own arithmetic, not published.
var (
	totals80 = []int{7, 15, 23, 32, 41, 51, 61, 72, 83, 94, 106, 118, 131, 144, 157, 171, 185, 200, 215, 231, 247}
	totals85 = []int{7, 15, 23, 31, 40, 49, 59, 69, 79, 90, 101, 113, 125, 137, 150, 163, 177, 191, 206, 221, 236}
)

// speedOf reads the last speed of a shuttle run of an adult.
func speedOf(t *testing.T, text string) (kmPerHour float64, how string, refusal *Refusal) {
	t.Helper()
	e := entryOf(t, "shuttle-20-m", "age=30;"+text)
	_, eq := equationOf(t, "shuttle-leger1989")
	found, refusal := e.StepBy(eq, 0)
	return found.Value, found.How.String(), refusal
}

func TestShuttleTotals(t *testing.T) {
	for _, v := range []struct {
		start  string
		first  float64
		totals []int
	}{{"8", 8, totals80}, {"8.5", 8.5, totals85}} {
		for i, total := range v.totals {
			speed := v.first
			if i > 0 {
				speed = 8 + 0.5*float64(i+1)
			}
			got, how, refusal := speedOf(t, fmt.Sprintf("shuttle-laps=%d;shuttle-start=%s", total, v.start))
			if refusal != nil || got != speed {
				t.Errorf("start %s, %d laps: %g km/h, %+v; want level %d at %g", v.start, total, got, refusal, i+1, speed)
			}
			if want := fmt.Sprintf("level %d finished (%d laps)", i+1, total); !strings.Contains(how, want) {
				t.Errorf("start %s, %d laps: %q, want %q in it", v.start, total, how, want)
			}
			less, _, refusal := speedOf(t, fmt.Sprintf("shuttle-laps=%d;shuttle-start=%s", total-1, v.start))
			switch {
			case i == 0:
				if refusal == nil {
					t.Errorf("start %s, %d laps: scored though no level is finished", v.start, total-1)
				}
			case refusal != nil || less >= speed:
				t.Errorf("start %s, %d laps: %g km/h, want the level before %d", v.start, total-1, less, i+1)
			}
		}
		// A lap more than the last level has changes nothing.
		last := v.totals[len(v.totals)-1]
		if got, _, _ := speedOf(t, fmt.Sprintf("shuttle-laps=%d;shuttle-start=%s", last+1, v.start)); got != 18.5 {
			t.Errorf("start %s, %d laps: %g km/h", v.start, last+1, got)
		}
	}
}

func TestShuttleLevels(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64 // km/h; 0 where it is refused
		how  string
	}{
		{"shuttle-level=1", 8, "level 1 finished"},
		{"shuttle-level=1;shuttle-start=8.5", 8.5, "level 1 finished"},
		{"shuttle-level=2", 9, "level 2 finished"},
		{"shuttle-level=2;shuttle-start=8.5", 9, "level 2 finished"},
		{"shuttle-level=21", 18.5, "level 21 finished"},
		{"shuttle-level=7;shuttle-in-level=10", 11.5, "level 7 finished (all 10 shuttles)"},
		{"shuttle-level=7;shuttle-in-level=9", 11, "level 7 not finished (9 shuttles), so level 6 counts"},
		{"shuttle-level=7;shuttle-in-level=0", 11, "level 7 not finished (0 shuttles), so level 6 counts"},
		{"shuttle-level=7;shuttle-in-level=11", 0, "level 7 has 10 shuttles on a recording that starts at 8.0 km/h, not 11"},
		{"shuttle-level=9;shuttle-in-level=11", 12.5, "level 9 finished"},
		{"shuttle-level=9;shuttle-in-level=11;shuttle-start=8.5", 0, "level 9 has 10 shuttles on a recording that starts at 8.5 km/h, not 11"},
		{"shuttle-level=9;shuttle-in-level=10;shuttle-start=8.5", 12.5, "level 9 finished"},
		{"shuttle-level=9;shuttle-in-level=10;shuttle-start=8", 12, "level 9 not finished"},
		{"shuttle-level=1;shuttle-in-level=7", 8, "level 1 finished"},
		{"shuttle-level=1;shuttle-in-level=6", 0, "the first level was not finished"},
		{"shuttle-level=21;shuttle-in-level=16", 18.5, "level 21 finished"},
		{"shuttle-level=21;shuttle-in-level=17", 0, "level 21 has 16 shuttles"},
		{"shuttle-laps=6", 0, "the first level was not finished"},
		{"shuttle-speed=11.5", 11.5, "as given"},
		{"shuttle-speed=11.5;shuttle-level=3", 11.5, "as given"},
		{"shuttle-level=0", 0, "0 levels is outside"},
		{"shuttle-level=0;shuttle-in-level=3", 0, "0 levels is outside"},
		{"shuttle-level=22", 0, "22 levels is outside"},
		{"shuttle-level=22;shuttle-in-level=3", 0, "22 levels is outside"},
		{"shuttle-level=-3;shuttle-in-level=3", 0, "-3 levels is outside"},
		{"shuttle-laps=NaN", 0, ""},
		{"shuttle-level=NaN;shuttle-in-level=3", 0, ""},
	} {
		got, how, refusal := speedOf(t, c.text)
		if refusal != nil {
			how = refusal.Why.String()
		}
		if got != c.want || !strings.Contains(how, c.how) {
			t.Errorf("%s: %g km/h, %q; want %g, %q", c.text, got, how, c.want, c.how)
		}
	}
}

// Where the start speed matters and is not given, the score says which was
// taken.
func TestShuttleStartAssumed(t *testing.T) {
	for _, c := range []struct {
		text    string
		flagged bool
	}{
		{"shuttle-level=1", true},
		{"shuttle-level=1;shuttle-start=8", false},
		{"shuttle-level=7", false}, // the same speed on both recordings
		{"shuttle-laps=60", true},
		{"shuttle-laps=60;shuttle-start=8.5", false},
		{"shuttle-speed=11", false},
		{"shuttle-level=9;shuttle-in-level=10", true},                  // finished only if the start was 8.5
		{"shuttle-level=9;shuttle-in-level=11", false},                 // 11 shuttles exist only with a start at 8.0
		{"shuttle-level=9;shuttle-in-level=10;shuttle-start=8", false}, // given
		{"shuttle-level=9;shuttle-in-level=9", false},                  // unfinished on both
		{"shuttle-level=7;shuttle-in-level=10", false},                 // ten shuttles on both
	} {
		s := Assess(entryOf(t, "shuttle-20-m", "sex=F;age=30;"+c.text))
		if got := hasFlag(s.Flags, FlagShuttleStart); got != c.flagged {
			t.Errorf("%s: flagged %v, want %v", c.text, got, c.flagged)
		}
	}
}

func TestShuttleWithoutResult(t *testing.T) {
	r := refused(t, Assess(entryOf(t, "shuttle-20-m", "age=30;shuttle-start=8")))
	if !r.Missing || r.Input != ShuttleLevel {
		t.Errorf("refusal %+v", r)
	}
}

// The refusal points at the result that was typed.
func TestShuttleRefusalPointsAtTheResult(t *testing.T) {
	for text, cell := range map[string]string{
		"shuttle-level=1;shuttle-in-level=2": "cell of shuttle-level",
		"shuttle-laps=3":                     "cell of shuttle-laps",
	} {
		if r := refused(t, Assess(entryOf(t, "shuttle-20-m", "age=30;"+text))); r.Cell != cell || r.Fix.IsZero() {
			t.Errorf("%s: refusal %+v, want it at %q", text, r, cell)
		}
	}
}

func TestShuttleLevelSpeed(t *testing.T) {
	for _, c := range []struct {
		level       int
		start, want float64
	}{{1, 8, 8}, {1, 8.5, 8.5}, {2, 8, 9}, {2, 8.5, 9}, {7, 8, 11.5}, {21, 8.5, 18.5}} {
		if got := fieldtests.ShuttleLevelSpeed(c.level, c.start); got != c.want {
			t.Errorf("level %d from %g: %g km/h, want %g", c.level, c.start, got, c.want)
		}
	}
}

// The equation follows the age: under 18 the youth form with completed years, at 18 to 47
// the adult form with 18 whatever the age.
func TestShuttleAgeDecidesTheEquation(t *testing.T) {
	for _, c := range []struct {
		age, equation string
		want          float64
	}{
		{"8", "shuttle-leger1988", 58.6426},
		{"8.9", "shuttle-leger1988", 58.6426},
		{"17.99", "shuttle-leger1988", 45.9994},
		{"18", "shuttle-leger1989", 44.5946},
		{"45", "shuttle-leger1989", 44.5946},
		{"47.9", "shuttle-leger1989", 44.5946},
	} {
		got := only(t, Assess(entryOf(t, "shuttle-20-m", "age="+c.age+";shuttle-speed=12")), c.equation)
		if !near(got.VO2, VO2(c.want), 1e-3) {
			t.Errorf("age %s: %.4f, want %.4f", c.age, float64(got.VO2), c.want)
		}
	}
	if r := refused(t, Assess(entryOf(t, "shuttle-20-m", "age=7.9;shuttle-speed=12"))); r.Input != Age {
		t.Errorf("age 7: refusal %+v", r)
	}
}

// What is wrong with a result is said, not that the equation for other ages
// is for other ages.
func TestShuttleRefusalIsAboutTheFault(t *testing.T) {
	for _, age := range []string{"12", "30"} {
		r := refused(t, Assess(entryOf(t, "shuttle-20-m", "age="+age+";shuttle-level=7;shuttle-in-level=14")))
		if r.Input != ShuttleLevel || !strings.Contains(r.Why.String(), "level 7 has 10 shuttles") {
			t.Errorf("age %s: %+v", age, r)
		}
	}
	r := refused(t, Assess(entryOf(t, "shuttle-20-m", "age=6;shuttle-level=3")))
	if r.Input != Age || !strings.HasSuffix(r.Fix.String(), "this one is for 8–47") {
		t.Errorf("age 6: %+v", r)
	}
}

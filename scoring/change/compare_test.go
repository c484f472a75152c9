package change

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// TestRetestFigures holds the declared retest errors to what the studies print.
func TestRetestFigures(t *testing.T) {
	for _, c := range []struct {
		equation, printed, source string
		at, want                  float64 // mL/kg/min
	}{
		// 95 % limits of agreement ±6.8: 6.8/1.96.
		{"shuttle-leger1989", "abstract: limits of agreement 0.6 ± 6.8", "metsios2008", 45, 3.469},
		{"shuttle-leger1988", "the same", "metsios2008", 45, 3.469},
		{"shuttle-leger1982", "abstract: r 0.975, standard error 2.0, n 50", "leger1982", 45, 2.0},
		{"step-line", "abstract: 95 % limits ±3.7", "buckley2004", 40, 1.888},
		// 5.7 √(2 × 0.07), own arithmetic on a printed ICC of 0.93.
		{"run15-larsen2002", "abstract: ICC 0.93", "larsen2002", 45, 2.133},
		// 3.3 √(2 × 0.22), own arithmetic on a printed reliability of 0.78.
		{"step41-mcardle1972-women", "abstract: reliability 0.78 to 0.92", "mcardle1972", 40, 2.189},
		// √2 e^(0.661 + 0.006 × 45)
		{"measured", "summary: ln SEM = 0.661 + 0.006 VO2max", "vickers-lab", 45, 3.588},
	} {
		r := equation(t, c.equation).Retest
		if r == nil {
			t.Errorf("%s has no retest error (%s)", c.equation, c.printed)
			continue
		}
		if got := float64(r.SDOfDifferences(scoring.VO2(c.at))); math.Abs(got-c.want) > 0.001 || r.Source != c.source {
			t.Errorf("%s: %.3f from %s, want %.3f from %s (%s)", c.equation, got, r.Source, c.want, c.source, c.printed)
		}
	}
	for _, test := range fieldtests.All() {
		for _, e := range test.Equations {
			if r := e.Retest; r != nil {
				for _, key := range []string{r.Source, r.PracticeSource} {
					if key != "" && fieldtests.Cite(key) == key {
						t.Errorf("%s: source %q is not in the bibliography", e.ID, key)
					}
				}
				if r.Figure == "" || (r.Practice > 0) != (r.PracticeSource != "") {
					t.Errorf("%s: figure or source of the practice is missing", e.ID)
				}
			}
		}
	}
}

// TestDayShareIsThatOfTheStudies works out the day's part of the squared error
// of estimate wherever both are published: it lies around the share assumed.
func TestDayShareIsThatOfTheStudies(t *testing.T) {
	lowest, highest := 1.0, 0.0
	for id, want := range map[string]float64{"shuttle-leger1988": 0.11, "shuttle-leger1989": 0.14, "run15-larsen2002": 0.18, "step41-mcardle1972-women": 0.27} {
		e := equation(t, id)
		day := float64(e.Retest.SDOfDifferences(40)) / math.Sqrt2
		share := day * day / float64(e.Error.SEE*e.Error.SEE)
		if math.Abs(share-want) > 0.01 {
			t.Errorf("%s: the day's share is %.3f, the package comment says %.2f", id, share, want)
		}
		lowest, highest = min(lowest, share), max(highest, share)
	}
	if DayShare < lowest || DayShare > highest {
		t.Errorf("%.2f is assumed, the studies give %.2f to %.2f", DayShare, lowest, highest)
	}
}

func TestCompare(t *testing.T) {
	const (
		man   = "sex=M;age=40;body-mass=80"
		woman = "sex=F;age=40;body-mass=65"
		walk  = ";resting-hr=60;treadmill-stage:belt-speed=5.5;treadmill-stage:grade=6;treadmill-stage:gait=0;treadmill-stage:exercise-hr="
	)
	for _, c := range []struct {
		name          string
		before, after string
		difference    float64
		se            float64
		basis         Basis
		verdict       Verdict
	}{
		// 3.5 + 483/T: 43.75 and 48; error assumed 5.0, a quarter of its square on
		// each date: 5 √0.5 = 3.54; 4.25/3.54 is 1.2 standard errors: 88 %.
		{"a faster run within the error", man + ";run-1.5-mile:time=12:00", man + ";run-1.5-mile:time=10:51", 4.26, 3.536, ByDayShare, Unclear},
		{"a much faster run", man + ";run-1.5-mile:time=14:00", man + ";run-1.5-mile:time=11:00", 9.41, 3.536, ByDayShare, RealRise},
		{"a probable fall", man + ";run-1.5-mile:time=11:00", man + ";run-1.5-mile:time=12:20", -4.75, 3.536, ByDayShare, ProbableFall},
		{"no change at all", man + ";run-1.5-mile:time=12:00", man + ";run-1.5-mile:time=12:00", 0, 3.536, ByDayShare, Unclear},
		// Level 7 to 9 of the shuttle: 6.0 S, so 6.0; limits 6.8/1.96.
		{"two levels more", woman + ";shuttle-20-m:shuttle-level=7", woman + ";shuttle-20-m:shuttle-level=9", 6.0, 3.469, ByRetest, ProbableRise},
		// 5.0 and 6.5, whole.
		{"another test", man + ";run-1.5-mile:time=12:00", man + ";shuttle-20-m:shuttle-level=8", -43.75 + 44.59, 8.201, ByBothTests, Unclear},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Compare(dated(t, "2026-03-01", c.before), dated(t, "2026-09-01", c.after))
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(float64(got.Difference)-c.difference) > 0.02 || math.Abs(float64(got.SE)-c.se) > 0.002 {
				t.Errorf("difference %.3f ± %.3f, want %.2f ± %.3f", got.Difference, got.SE, c.difference, c.se)
			}
			if got.Basis != c.basis || got.Verdict != c.verdict {
				t.Errorf("basis %d, %s (chance %.3f); want %d, %s", got.Basis, got.Verdict.ID(), got.Chance(), c.basis, c.verdict.ID())
			}
		})
	}

	t.Run("a predicted maximum heart rate cancels but for its unlike part", func(t *testing.T) {
		got, err := Compare(dated(t, "2026-03-01", man+walk+"130"), dated(t, "2026-09-01", man+walk+"122"))
		if err != nil {
			t.Fatal(err)
		}
		if a, b := got.Earlier, got.Later; a.FromOwn <= 1 || a.FromOwn != a.FromSteps || got.SE >= a.SD || got.SE >= b.SD {
			t.Errorf("from the maximum heart rate ±%.2f and ±%.2f, of the difference ±%.2f, of the estimates ±%.2f and ±%.2f", a.FromOwn, b.FromOwn, got.SE, a.SD, b.SD)
		}
	})

	t.Run("an equation that both have is preferred to two headlines", func(t *testing.T) {
		got, err := Compare(dated(t, "2026-03-01", man+";run-1.5-mile:time=12:00"),
			dated(t, "2026-09-01", man+";run-1.5-mile:time=11:00;measured:measured-vo2max=50"))
		if err != nil {
			t.Fatal(err)
		}
		if got.Earlier.Equation != got.Later.Equation || got.Headline {
			t.Errorf("%s against %s, headline %v", got.Earlier.Equation.ID, got.Later.Equation.ID, got.Headline)
		}
	})

	t.Run("what training brings and ageing takes", func(t *testing.T) {
		got, err := Compare(dated(t, "2024-09-01", man+";run-1.5-mile:time=12:00"), dated(t, "2026-09-01", man+";run-1.5-mile:time=12:00"))
		if err != nil {
			t.Fatal(err)
		}
		// 400 and 1000 mL/min over 80 kg; two years at 0.31 and 0.5.
		if tr := got.Training; tr == nil || tr.Mean != 5 || tr.Most != 12.5 {
			t.Errorf("training %+v", got.Training)
		}
		if a := got.Ageing; a == nil || math.Abs(float64(a.Slow)-0.62) > 0.002 || math.Abs(float64(a.Fast)-1.0) > 0.002 {
			t.Errorf("ageing %+v", got.Ageing)
		}
		young, err := Compare(dated(t, "2025-09-01", "sex=F;age=12;body-mass=40;shuttle-20-m:shuttle-level=4"),
			dated(t, "2026-09-01", "sex=F;age=13;body-mass=46;shuttle-20-m:shuttle-level=5"))
		if err != nil {
			t.Fatal(err)
		}
		if young.Training != nil || young.Ageing != nil || young.Mass == nil || young.Mass.After.Amount != 46 {
			t.Errorf("a child: training %v, ageing %v, mass %v", young.Training, young.Ageing, young.Mass)
		}
	})
}

func TestNotCompared(t *testing.T) {
	run := dated(t, "2026-03-01", "sex=M;age=40;run-1.5-mile:time=12:00")
	later := dated(t, "2026-09-01", "sex=M;age=40;run-1.5-mile:time=12:00")
	rough := scoring.Options{Fallback: fieldtests.WithoutExercise()}.Assess(entry(t, "sex=M;age=40;body-mass=80;stature=180;resting-hr=60;activity-level=3"))
	for _, c := range []struct {
		name   string
		a, b   Dated
		reason error
	}{
		{"one day", run, run, ErrOrder},
		{"the wrong way round", later, run, ErrOrder},
		{"no day", Dated{Score: run.Score}, run, ErrOrder},
		{"no result", dated(t, "2026-01-01", "sex=M;age=40"), run, ErrNoEstimate},
		{"no exercise test", Dated{on(t, "2026-01-01"), &rough}, run, ErrNoTest},
	} {
		if _, err := Compare(c.a, c.b); !errors.Is(err, c.reason) {
			t.Errorf("%s: %v, want %v", c.name, err, c.reason)
		}
	}
	if ReviewOf([]Dated{run}) != nil {
		t.Error("one date has a review")
	}
}

// TestClaimsComeTrue draws people from the model of the package comment: their
// own misfit to the equation, the same on both dates, and the day's error.
//
// Of those who did not change, 5 % are told that they did; of those who changed
// by twice the standard error, as many are found as the normal distribution
// says: 1 − Φ(1.96 − 2) + Φ(−1.96 − 2) = 51.6 %.
func TestClaimsComeTrue(t *testing.T) {
	const people = 40_000
	random := rand.New(rand.NewPCG(6, 26))
	draw := func(sd scoring.VO2) scoring.VO2 { return sd * scoring.VO2(random.NormFloat64()) }
	run, shuttle, step := equation(t, "run15-acsm"), equation(t, "shuttle-leger1989"), equation(t, "step41-mcardle1972-women")
	for _, c := range []struct {
		name          string
		before, after *scoring.Equation
		pair          func() (before, after scoring.VO2) // errors on the two dates
	}{
		{"day's share", run, run, func() (scoring.VO2, scoring.VO2) {
			own, day := draw(run.Error.SEE*scoring.VO2(math.Sqrt(1-DayShare))), run.Error.SEE*scoring.VO2(math.Sqrt(DayShare))
			return own + draw(day), own + draw(day)
		}},
		{"study of repeated tests", shuttle, shuttle, func() (scoring.VO2, scoring.VO2) {
			own, day := draw(4), shuttle.Retest.SDOfDifferences(45)/math.Sqrt2
			return own + draw(day), own + draw(day)
		}},
		{"two tests", run, step, func() (scoring.VO2, scoring.VO2) { return draw(run.Error.SEE), draw(step.Error.SEE) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			share := func(change scoring.VO2) (found float64) {
				n := 0
				for range people {
					before, after := c.pair()
					got := Comparison{
						Earlier: &scoring.Estimate{Test: testOf(c.before), Equation: c.before, VO2: 45 + before, SEE: c.before.Error.SEE, SD: c.before.Error.SEE},
						Later:   &scoring.Estimate{Test: testOf(c.after), Equation: c.after, VO2: 45 + change + after, SEE: c.after.Error.SEE, SD: c.after.Error.SEE}}
					got.weigh()
					got.judge()
					if got.Verdict == RealRise || got.Verdict == RealFall {
						n++
					}
				}
				return float64(n) / people
			}
			se := Comparison{Earlier: &scoring.Estimate{Test: testOf(c.before), Equation: c.before, VO2: 45, SEE: c.before.Error.SEE, SD: c.before.Error.SEE},
				Later: &scoring.Estimate{Test: testOf(c.after), Equation: c.after, VO2: 45, SEE: c.after.Error.SEE, SD: c.after.Error.SEE}}
			se.weigh()
			if got := share(0); math.Abs(got-0.05) > 0.005 {
				t.Errorf("claimed of %.3f of those who did not change, want 0.05", got)
			}
			if got := share(2 * se.SE); math.Abs(got-0.516) > 0.01 {
				t.Errorf("found in %.3f of those who changed by twice the error, want 0.516", got)
			}
		})
	}
}

func testOf(e *scoring.Equation) *scoring.Test {
	test, _, _ := fieldtests.Equation(e.ID)
	return test
}

func TestVerdictsGoByTheChance(t *testing.T) {
	for _, c := range []struct {
		rise float64
		want Verdict
	}{
		{0.999, RealRise}, {0.975, RealRise}, {0.974, ProbableRise}, {0.90, ProbableRise}, {0.899, Unclear}, {0.5, Unclear},
		{0.101, Unclear}, {0.0999, ProbableFall}, {0.026, ProbableFall}, {0.0249, RealFall},
	} {
		if got := verdict(c.rise); got != c.want {
			t.Errorf("chance of a rise %.4f: %s, want %s", c.rise, got.ID(), c.want.ID())
		}
		if c.want.Rises() != strings.HasSuffix(c.want.ID(), "-rise") || c.want.Falls() != strings.HasSuffix(c.want.ID(), "-fall") {
			t.Errorf("%s: rises %v, falls %v", c.want.ID(), c.want.Rises(), c.want.Falls())
		}
	}
}

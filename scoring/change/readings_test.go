package change

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/scoring/reference"
)

func TestComparePulse(t *testing.T) {
	const mph7 = "pace-speed=7 mph;pace-hr="
	for _, c := range []struct {
		name, before, after string
		difference          float64
		verdict             Verdict
		large               bool
	}{
		{"a large gain", mph7 + "150", mph7 + "115", -35, RealFall, true},
		{"day-to-day noise", mph7 + "150", mph7 + "147", -3, Unclear, false},
		{"a gain", mph7 + "160", mph7 + "148", -12, RealFall, false},
		{"a rise", mph7 + "140", mph7 + "152", 12, RealRise, false},
		{"a pace within 2 %", "pace-speed=10 km/h;pace-hr=150", "pace-speed=10.2 km/h;pace-hr=140", -10, RealFall, false},
		{"the same stage of a cycle", "cycle-stage:power=100;cycle-stage:exercise-hr=140", "cycle-stage:power=101;cycle-stage:exercise-hr=120", -20, RealFall, true},
		{"the same steps on the same bench", "step-stage:step-rate=24;step-stage:bench-height=30;step-stage:exercise-hr=140",
			"step-stage:step-rate=24;step-stage:bench-height=30;step-stage:exercise-hr=138", -2, Unclear, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := ComparePulse(entry(t, c.before), entry(t, c.after))
			if len(got) != 1 {
				t.Fatalf("%d changes", len(got))
			}
			if p := got[0]; p.Difference != c.difference || p.Verdict != c.verdict || p.Large != c.large {
				t.Errorf("%+v", p)
			}
		})
	}
	for name, pair := range map[string][2]string{
		"another pace":            {"pace-speed=10 km/h;pace-hr=150", "pace-speed=10.3 km/h;pace-hr=140"},
		"no pulse":                {mph7 + "150", "pace-speed=7 mph"},
		"another slope":           {"treadmill-stage:belt-speed=6;treadmill-stage:grade=0;treadmill-stage:exercise-hr=120", "treadmill-stage:belt-speed=6;treadmill-stage:grade=5;treadmill-stage:exercise-hr=120"},
		"a belt is no open road":  {"treadmill-stage:belt-speed=10;treadmill-stage:grade=0;treadmill-stage:exercise-hr=150", "pace-speed=10 km/h;pace-hr=150"},
		"a medicine on one date":  {mph7 + "150", mph7 + "115;heart-rate-drug=1"},
		"a medicine on the other": {mph7 + "150;heart-rate-drug=1", mph7 + "115"},
	} {
		if got := ComparePulse(entry(t, pair[0]), entry(t, pair[1])); len(got) != 0 {
			t.Errorf("%s: compared, %+v", name, got)
		}
	}
	// 1.4 % of 150 is 2.1, with 2 beats beside it (lamberts2004; assumption).
	if got := PulseError(150); math.Abs(got-2.9) > 0.005 {
		t.Errorf("error of 150: %.3f", got)
	}
}

func TestReadResting(t *testing.T) {
	days := []string{"2025-03-01", "2025-09-01", "2026-03-01", "2026-09-01"}
	line := func(mornings int, rates ...string) []Dated {
		var all []Dated
		for i, rate := range rates {
			text := "sex=F;age=40"
			if rate != "" {
				text += ";resting-hr=" + rate
			}
			all = append(all, dated(t, days[i], text))
		}
		all[len(all)-1].Score.Entry().Mornings = mornings
		return all
	}
	for _, c := range []struct {
		name     string
		mornings int
		rates    []string
		want     RestingVerdict
		change   float64
	}{
		{"about the same", 0, []string{"60", "63"}, RestingSame, 3},
		{"lower", 0, []string{"66", "58"}, RestingLower, -8},
		{"one high reading is no sustained rise", 0, []string{"60", "68"}, RestingHigher, 8},
		{"five more", 5, []string{"60", "65"}, RestingHigher, 5},
		{"six on several mornings", 5, []string{"60", "66"}, RestingHigher, 6},
		{"seven on several mornings", 3, []string{"60", "67"}, RestingRecover, 7},
		{"two mornings are not enough", 2, []string{"60", "67"}, RestingHigher, 7},
		{"up twice running", 0, []string{"60", "68", "69"}, RestingRecover, 9},
		{"up once, then back", 0, []string{"60", "68", "62"}, RestingSame, -2},
		{"against the median of all before", 0, []string{"60", "70", "62", "63"}, RestingSame, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := ReadResting(line(c.mornings, c.rates...))
			if !ok || got.Verdict != c.want || got.Difference != c.change {
				t.Errorf("%+v, %v; want verdict %d, change %.0f", got, ok, c.want, c.change)
			}
		})
	}
	for name, rates := range map[string][]string{"one date": {"60"}, "no rate now": {"60", ""}, "none before": {"", "60"}} {
		if got, ok := ReadResting(line(0, rates...)); ok {
			t.Errorf("%s: read as %+v", name, got)
		}
	}
	drug := line(5, "70", "55")
	drug[1].Score.Entry().Set(scoring.HeartRateDrug, scoring.Q(scoring.Yes, scoring.NoUnit), "")
	if got, ok := ReadResting(drug); ok {
		t.Errorf("with a medicine: read as %+v", got)
	}
}

func TestMedian(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   float64
	}{{[]float64{61}, 61}, {[]float64{58, 90, 60}, 60}, {[]float64{64, 58, 60, 62}, 61}} {
		before := slices.Clone(c.values)
		if got := Median(c.values); got != c.want || !slices.Equal(before, c.values) {
			t.Errorf("median of %v is %v, want %v; left as %v", before, got, c.want, c.values)
		}
	}
	if !math.IsNaN(Median(nil)) {
		t.Error("the median of nothing is a number")
	}
}

// Men of 40-49 (Mandsager 2018, in MET of 3.5 mL/kg/min).
func TestReadGoals(t *testing.T) {
	e := entry(t, "sex=M;age=44;body-mass=80;measured:measured-vo2max=36")
	s := scoring.Assess(e)
	st := &s.Adults[0]
	goals, year := ReadGoals(st, 26, 36, e)
	// 400 and 1000 mL/min over 80 kg; a year at 0.5 and at 0.31.
	if year == nil || math.Abs(float64(year.Typical)-40.5) > 0.01 || math.Abs(float64(year.Most)-48.19) > 0.01 {
		t.Fatalf("in a year: %+v", year)
	}
	ahead := map[int]int{}
	for _, g := range goals {
		row, _ := st.Table.Row(st.Sex, g.Ages.Min)
		then, now := row.Group(26) >= g.Group, row.Group(36) >= g.Group
		switch g.Reach {
		case ReachedSince:
			if then || !now {
				t.Errorf("%+v counts as reached since", g)
			}
		case LostSince:
			t.Errorf("%+v counts as lost", g)
		default:
			ahead[g.Younger]++
			if now || (g.Reach == WithinTypical) != (row.Group(40.5) >= g.Group) || (g.Reach == BeyondAYear) != (row.Group(48.19) < g.Group) {
				t.Errorf("%+v: reach", g)
			}
		}
	}
	if len(goals) < 4 || !slices.ContainsFunc(goals, func(p Progress) bool { return p.Reach == ReachedSince && p.Younger == 0 }) {
		t.Errorf("goals %+v", goals)
	}
	for younger, n := range ahead {
		if n > 1 {
			t.Errorf("%d goals ahead %d decades back, only the next is listed", n, younger)
		}
	}
	lost, _ := ReadGoals(st, 44, 30, e)
	if !slices.ContainsFunc(lost, func(p Progress) bool { return p.Reach == LostSince && p.Group == reference.Fourth }) {
		t.Errorf("nothing lost on the way from 44 to 30: %+v", lost)
	}
	if same, year := ReadGoals(st, 36, 36, entry(t, "sex=M;age=44")); year != nil || len(same) != 0 {
		t.Errorf("without a body mass nothing is in reach: %+v", same)
	}
}

// TestPairedOf is held to published results.
func TestPairedOf(t *testing.T) {
	for _, c := range []struct {
		source          string
		differences     []float64
		mean, low, high float64
		tolerance       float64
	}{
		// sileaderwt.github.io/UMSL-MTH1320, "paired t-test with confidence
		// interval", exercise 10.5.161, output of R: −43.51131 to 41.01131.
		{"eight students, a test taken twice", []float64{-30, 30, -40, -40, 80, 60, -50, -20}, -1.25, -43.51131, 41.01131, 0.000005},
		// Student 1908, extra sleep; the interval as R's manual has it, from memory.
		{"ten patients, two drugs", []float64{-1.2, -2.4, -1.3, -1.3, 0, -1.0, -1.8, -0.8, -4.6, -1.4}, -1.58, -2.4598858, -0.7001142, 0.00000005},
	} {
		got, ok := PairedOf(c.differences)
		if !ok || got.N != len(c.differences) || math.Abs(got.Mean-c.mean) > 1e-9 || math.Abs(got.Low-c.low) > c.tolerance || math.Abs(got.High-c.high) > c.tolerance {
			t.Errorf("%s: %+v, want %v (%v to %v)", c.source, got, c.mean, c.low, c.high)
		}
	}
	for _, silent := range [][]float64{nil, {1}, {2, 2}, {3, 3.01, 3, 3, 3.01, 3, 3, 3.01}, {3, math.NaN()}} {
		if got, ok := PairedOf(silent); ok {
			t.Errorf("%v has an interval: %+v", silent, got)
		}
	}
	for want, differences := range map[Verdict][]float64{RealRise: {3, 4, 3, 5, 4}, RealFall: {-3, -4, -3, -5}, Unclear: {-3, 4, -1, 2}} {
		if got, _ := PairedOf(differences); got.Verdict() != want {
			t.Errorf("%v: %s", differences, got.Verdict().ID())
		}
	}
	if got, _ := PairedOf([]float64{2, 4}); got.Verdict() != Unclear {
		t.Errorf("two people who gain 2 and 4 are taken for proof: %+v", got)
	}
}

func TestRounds(t *testing.T) {
	people := func(days ...[]string) [][]time.Time {
		var all [][]time.Time
		for _, of := range days {
			var mine []time.Time
			for _, day := range of {
				if day == "" {
					mine = append(mine, time.Time{})
					continue
				}
				mine = append(mine, on(t, day))
			}
			all = append(all, mine)
		}
		return all
	}
	for _, c := range []struct {
		name   string
		people [][]time.Time
		starts []string
		places []Presence
	}{
		{"one round", people([]string{"2026-05-11"}, []string{"2026-05-12"}), []string{"2026-05-11"}, []Presence{OneRound, OneRound}},
		{"a second class a month later is no second round", people([]string{"2026-05-11"}, []string{"2026-07-12"}), []string{"2026-05-11"}, []Presence{OneRound, OneRound}},
		{"tested again, new, left", people([]string{"2025-09-01", "2026-03-02"}, []string{"2026-03-03"}, []string{"2025-09-02"}),
			[]string{"2025-09-01", "2026-03-02"}, []Presence{TestedAgain, Newcomer, Left}},
		{"twice within two weeks is one round", people([]string{"2025-09-01", "2025-09-14"}, []string{"2025-09-02"}), []string{"2025-09-01"}, []Presence{OneRound, OneRound}},
		{"three rounds, back after a gap", people([]string{"2025-03-01", "2026-03-01"}, []string{"2025-03-02", "2025-09-01"}, []string{"2025-09-02", "2026-03-02"}),
			[]string{"2025-03-01", "2025-09-01", "2026-03-01"}, []Presence{TestedAgain, Left, TestedAgain}},
		{"a missing day leaves it open, unless the others tell",
			people([]string{"2025-09-01", "2026-03-02"}, nil, []string{""}, []string{"", "2026-03-02"}, []string{"2025-09-01", ""}, []string{"2025-09-01", "", "2026-03-02"}),
			[]string{"2025-09-01", "2026-03-02"}, []Presence{TestedAgain, Undated, Undated, Undated, Undated, TestedAgain}},
		{"nobody has a day", [][]time.Time{{}, {time.Time{}}}, nil, []Presence{OneRound, OneRound}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var want []time.Time
			for _, s := range c.starts {
				want = append(want, on(t, s))
			}
			got := Rounds(c.people)
			if fmt.Sprint(got) != fmt.Sprint(want) {
				t.Fatalf("rounds begin on %v, want %v", got, want)
			}
			for i, days := range c.people {
				if p := PresenceOf(days, got); p != c.places[i] {
					t.Errorf("person %d: %d, want %d", i, p, c.places[i])
				}
			}
		})
	}
}

func TestReview(t *testing.T) {
	first := dated(t, "2025-03-01", "sex=M;age=43;body-mass=80;resting-hr=66;shuttle-20-m:shuttle-level=5")
	none := dated(t, "2025-09-01", "sex=M;age=43;body-mass=80")
	last := dated(t, "2026-03-01", "sex=M;age=44;body-mass=78;resting-hr=60;shuttle-20-m:shuttle-level=6")
	r := ReviewOf([]Dated{first, none, last})
	if r == nil || r.Comparison == nil || !r.Comparison.From.Equal(first.Day) || !r.Since().Equal(first.Day) {
		t.Fatalf("a date without a test between: %+v", r)
	}
	if r.Comparison.Practice != 1.1 {
		t.Errorf("practice %v: nobody ran the shuttle before", r.Comparison.Practice)
	}
	if r.Resting == nil || r.Resting.Verdict != RestingLower || len(r.Goals) == 0 || r.InAYear == nil {
		t.Errorf("resting %+v, goals %+v", r.Resting, r.Goals)
	}
	again := ReviewOf([]Dated{first, last, dated(t, "2026-09-01", "sex=M;age=44;shuttle-20-m:shuttle-level=8")})
	if again.Comparison.Practice != 0 {
		t.Error("a third test is no practice")
	}
}

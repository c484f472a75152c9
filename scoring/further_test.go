package scoring_test

import (
	"slices"
	"strings"
	"testing"

	. "tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// Both sides of the limits of the further field tests; see TestLimits.
func TestFurtherLimits(t *testing.T) {
	const (
		jogger = "body-mass=65;age=22;"
		miler  = "sex=M;age=14;"
	)
	for _, c := range []struct{ equation, text, want string }{
		// The study's own rejections: 8 min in men, 9 in women, 180 beats/min.
		{"jog1-george1993", jogger + "sex=M;exercise-hr=160;time=8:00", ""},
		{"jog1-george1993", jogger + "sex=M;exercise-hr=160;time=7:59", "under 8 minutes"},
		{"jog1-george1993", jogger + "sex=F;exercise-hr=160;time=9:00", ""},
		{"jog1-george1993", jogger + "sex=F;exercise-hr=160;time=8:59", "under 9 minutes"},
		{"jog1-george1993", jogger + "sex=F;exercise-hr=180;time=10:00", ""},
		{"jog1-george1993", jogger + "sex=F;exercise-hr=181;time=10:00", "above 180"},
		{"jog1-george1993", jogger + "exercise-hr=160;time=10:00", "needs the sex"},

		{"race-daniels-gilbert1979", "age=30;distance=1500;time=5:00", ""},
		{"race-daniels-gilbert1979", "age=30;distance=1499;time=5:00", "1500 m to the marathon"},
		{"race-daniels-gilbert1979", "age=30;distance=42195;time=3:30:00", ""},
		{"race-daniels-gilbert1979", "age=30;distance=42201;time=3:30:00", "1500 m to the marathon"},
		{"race-daniels-gilbert1979", "age=30;distance=5000;time=11:00", "no running speed"},
		{"race-daniels-gilbert1979", "age=30;distance=5000;time=56:00", "no running speed"},
		{"race-daniels-gilbert1979", "age=30;distance=5000;time=55:00", ""},

		{"run1-cureton1995-males", miler + "time=4:00", ""},
		{"run1-cureton1995-males", miler + "time=3:59", "no time for a mile"},
		{"run1-cureton1995-males", miler + "time=11:55", ""},
		{"run1-cureton1995-males", miler + "time=11:56", "flag: 11:56 is outside 4:00 to 11:55"},
		{"run1-cureton1995-males", "sex=M;age=8;time=10:00", ""},
		{"run1-cureton1995-males", "sex=M;age=7.9;time=10:00", "not meant for the age of 7"},
		{"run1-cureton1995-males", "sex=M;age=26;time=10:00", "not meant for the age of 26"},
		{"run1-burns2016", "sex=M;age=16.9;time=8:00", ""},
		{"run1-burns2016", "sex=M;age=17;time=8:00", "not meant for the age of 17"},
		{"run1-burns2016", "sex=M;age=12.9;time=8:00", "not meant for the age of 12"},

		{"walk1-dolgener1994", "sex=F;age=29.9;body-mass=60;exercise-hr=130;time=14:00", ""},
		{"walk1-dolgener1994", "sex=F;age=30;body-mass=60;exercise-hr=130;time=14:00", "not meant for the age of 30"},
		{"walk1-dolgener1994", "sex=F;age=13.9;body-mass=60;exercise-hr=130;time=14:00", "not meant for the age of 13"},
		{"walk2km-mass-women", "sex=F;age=45;body-mass=60;exercise-hr=130;time=10:00", ""},
		{"walk2km-mass-women", "sex=F;age=45;body-mass=60;exercise-hr=130;time=9:59", "no time for 2 km"},
		{"walk6-burr2011", "sex=F;age=45;body-mass=60;resting-hr=60;distance=150", ""},
		{"walk6-burr2011", "sex=F;age=45;body-mass=60;resting-hr=60;distance=149", "no distance for a six-minute walk"},
		{"walk6-burr2011", "sex=F;age=45;body-mass=60;resting-hr=60;distance=1000", ""},
		{"walk6-burr2011", "sex=F;age=45;body-mass=60;resting-hr=60;distance=1001", "no distance for a six-minute walk"},
		{"walk6-burr2011", "sex=F;age=60;body-mass=60;resting-hr=60;distance=500", "not meant for the age of 60"},
		{"walk6-sagat2023", "sex=F;age=80.9;body-mass=60;stature=160;distance=400", ""},
		{"walk6-sagat2023", "sex=F;age=81;body-mass=60;stature=160;distance=400", "not meant for the age of 81"},
		{"walk2km-index-women", "sex=F;age=45;body-mass=102.4;stature=160;exercise-hr=130;time=18:00", ""},
		{"walk2km-index-women", "sex=F;age=45;body-mass=102.5;stature=160;exercise-hr=130;time=18:00", "body mass index of 40"},
		{"jog1-hunt2000", "sex=F;age=16.9;body-mass=60;exercise-hr=160;time=11:00", ""},
		{"jog1-hunt2000", "sex=F;age=12.9;body-mass=60;exercise-hr=160;time=11:00", "not meant for the age of 12"},
		{"jog1-hunt-george", "sex=F;age=18.9;body-mass=60;exercise-hr=160;time=11:00", ""},
		{"step20-milligan", "age=40;recovery-hr=50", ""},
		{"step20-milligan", "age=40;recovery-hr=49", "no recovery pulse"},
	} {
		test, eq := equationOf(t, c.equation)
		e := entryOf(t, test.ID, c.text)
		est, refusal := e.EstimateBy(eq)
		got := ""
		for _, f := range est.Flags {
			if f.Code == FlagOutsideLimits {
				got += "flag: " + f.Detail.String()
			}
		}
		if refusal != nil {
			got = refusal.Why.String()
		}
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s at %s: %q, want %q", c.equation, c.text, got, c.want)
		}
	}
}

// Beyond the lowest point of the printed curve a slower mile never reads
// higher.
func TestSlowerMileNeverReadsHigher(t *testing.T) {
	for _, id := range []string{"run1-cureton1995", "run1-cureton1995-males", "run1-cureton1995-females"} {
		_, eq := equationOf(t, id)
		sex := "M"
		if eq.Sex == Female {
			sex = "F"
		}
		e := entryOf(t, "run-1-mile", "sex="+sex+";age=14;body-mass=50;stature=160;time=4:00")
		last := VO2(1000)
		for seconds := 4 * 60; seconds <= 25*60; seconds++ {
			v, ok := resultOf(e, eq, Time, float64(seconds))
			if !ok {
				t.Fatalf("%s: %d s refused", id, seconds)
			}
			if v > last+1e-4 { // the lowest point is printed to two decimals
				t.Fatalf("%s: %d s gives %.3f after %.3f", id, seconds, float64(v), float64(last))
			}
			last = v
		}
	}
}

// One equation reads a mile: the one with body size at all ages, and at 13 to 16 the one
// without where the size is missing.
func TestChoiceForTheMile(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"sex=F;age=10;time=9:00;body-mass=35;stature=140", "run1-cureton1995"},
		{"sex=F;age=14;time=9:00;body-mass=50;stature=160", "run1-cureton1995"},
		{"sex=F;age=14;time=9:00", "run1-burns2016"},
	} {
		only(t, Assess(entryOf(t, "run-1-mile", c.text)), c.want)
	}
	if r := refused(t, Assess(entryOf(t, "run-1-mile", "sex=M;age=10;time=9:00"))); !r.Missing || r.Input != BodyMass {
		t.Errorf("without body size at 10: %+v", r)
	}
}

// A birthday changes little where one form passes into another: a woman of 60 by the
// form for adults, of 62 by the one for the old, and halfway the mean.
func TestFormsPassIntoEachOther(t *testing.T) {
	at := func(age string) VO2 {
		s := Assess(entryOf(t, "walk-6-minute", "sex=F;age="+age+";body-mass=70;stature=163;resting-hr=70;distance=500"))
		return s.Best().VO2
	}
	// 70.161 + 11.5 − 19.32 − 6.79 − 13.51 − 0.191 age; 59.44 − 7.66 − 0.56 age − 12.646 + 20.
	burr := func(age VO2) VO2 { return 42.041 - 0.191*age }
	sagat := func(age VO2) VO2 { return 59.1334 - 0.56*age }
	for age, want := range map[string]VO2{"59": burr(59), "60": burr(60), "61": (burr(61) + sagat(61)) / 2, "62": sagat(62)} {
		if got := at(age); !near(got, want, 0.005) {
			t.Errorf("at %s: %.3f, want %.3f", age, float64(got), float64(want))
		}
	}
}

// An equation by choice is used when named and only then; naming one of a
// test leaves other tests alone.
func TestNamedEquations(t *testing.T) {
	shuttle := entryOf(t, "shuttle-20-m", "sex=M;age=25;shuttle-level=10")
	addTrial(t, shuttle, "walk-1-mile", "body-mass=70;exercise-hr=120;time=13:00")
	for _, c := range []struct {
		named []string
		want  []string
	}{
		{nil, []string{"shuttle-leger1989", "walk1-kline1987-young"}},
		{[]string{"shuttle-stickland2003-men"}, []string{"walk1-kline1987-young", "shuttle-stickland2003-men"}},
		{[]string{"walk1-dolgener1994"}, []string{"shuttle-leger1989", "walk1-dolgener1994"}},
		{[]string{"no-such-equation"}, []string{"shuttle-leger1989", "walk1-kline1987-young"}},
	} {
		if got := equationIDs(Options{Equations: c.named}.Assess(shuttle)); !slices.Equal(got, c.want) {
			t.Errorf("naming %v: %v, want %v", c.named, got, c.want)
		}
	}
	box := entryOf(t, "step-30-cm", "sex=M;age=30;body-mass=70;recovery-hr=105")
	if r := refused(t, Assess(box)); !strings.Contains(r.Why.String(), "unless it is named") || r.ResultCell != "cell of recovery-hr" {
		t.Errorf("not named: %+v", r)
	}
	only(t, Options{Equations: []string{"step30-hong2019"}}.Assess(box), "step30-hong2019")
	patients := entryOf(t, "walk-6-minute", "age=60;distance=400")
	if e := only(t, Options{Equations: []string{"walk6-ross2010"}}.Assess(patients), "walk6-ross2010"); !hasFlag(e.Flags, FlagPatientsOnly) {
		t.Error("nothing says that the equation was made on patients")
	}
}

// The shuttle's choices count laps and halves of levels.
func TestShuttleChoices(t *testing.T) {
	for _, c := range []struct {
		equation, text string
		step           string
		want           float64 // of the step; 0 where it is refused
	}{
		{"shuttle-stickland2003-men", "shuttle-level=10", "X", 10},
		{"shuttle-stickland2003-men", "shuttle-level=11;shuttle-in-level=12", "X", 11},
		{"shuttle-stickland2003-men", "shuttle-level=11;shuttle-in-level=6", "X", 10.5},
		{"shuttle-stickland2003-men", "shuttle-level=11;shuttle-in-level=5", "X", 10},
		{"shuttle-stickland2003-men", "shuttle-laps=94", "X", 10},
		{"shuttle-stickland2003-men", "shuttle-speed=13", "X", 0},
		{"shuttle-stickland2003-men", "shuttle-level=1;shuttle-in-level=5", "X", 0},
		{"shuttle-korea2023", "shuttle-laps=60", "laps", 60},
		{"shuttle-korea2023", "shuttle-level=7", "laps", 61},
		{"shuttle-korea2023", "shuttle-level=7;shuttle-in-level=9", "laps", 60},
		{"shuttle-korea2023", "shuttle-level=4;shuttle-start=8.5", "laps", 31},
		{"shuttle-korea2023", "shuttle-level=22", "laps", 0},
		{"shuttle-korea2023", "shuttle-speed=12", "laps", 0},
		{"shuttle-silva2012", "shuttle-level=6", "stage", 6},
		{"shuttle-silva2012", "shuttle-speed=11", "stage", 6},
		{"shuttle-silva2012", "shuttle-speed=8", "stage", 1},
		{"shuttle-silva2012", "shuttle-laps=51", "stage", 6},
		{"shuttle-silva2012", "shuttle-level=1;shuttle-in-level=2", "stage", 0},
		{"shuttle-leger1982", "shuttle-level=8", "S", 11.5},
		{"shuttle-leger1982", "shuttle-speed=11.5", "S", 11.5},
	} {
		test, eq := equationOf(t, c.equation)
		e := entryOf(t, test.ID, "sex=M;age="+map[bool]string{true: "18", false: "19"}[eq.Ages.Contains(18)]+";body-mass=70;stature=175;"+c.text)
		est, refusal := e.EstimateBy(eq)
		if refusal != nil {
			if c.want != 0 {
				t.Errorf("%s at %s: %s", c.equation, c.text, refusal.Why)
			}
			continue
		}
		got := ""
		for _, s := range est.Working().Steps {
			if s.Symbol == c.step {
				got, _, _ = strings.Cut(s.Value, " ")
			}
		}
		if got != TrimNumber(c.want, 1) {
			t.Errorf("%s at %s: %s = %s, want %g", c.equation, c.text, c.step, got, c.want)
		}
	}
	// The 2-minute form knows no default where neither is given.
	if r := refused(t, Assess(entryOf(t, "shuttle-20-m-2-min", "age=30"))); !r.Missing || r.Input != ShuttleLevel {
		t.Errorf("%+v", r)
	}
}

// A medicine that changes the heart rate: tests by pulse are not scored and
// say why; tests by time and distance are, and a slow pulse is not taken for
// an easy run.
func TestHeartRateDrug(t *testing.T) {
	const drug = ";heart-rate-drug=1"
	for _, c := range []struct{ test, text string }{
		{"walk-1-mile", walker + "age=40;time=15:00"},
		{"step-stage", stepper + "exercise-hr=130"},
		{"walk-6-minute", "sex=F;age=45;body-mass=60;resting-hr=60;distance=500"},
		{"step-41-cm", "sex=F;age=20;recovery-hr=140"},
	} {
		r := refused(t, Assess(entryOf(t, c.test, c.text+drug)))
		if r.Input != HeartRateDrug || r.Cell == "" || !strings.Contains(r.Fix.String(), "neither reads the pulse") {
			t.Errorf("%s: %+v", c.test, r)
		}
	}
	unclear := refused(t, Assess(entryOf(t, "walk-1-mile", walker+"age=40;time=15:00;heart-rate-drug=0.5")))
	if unclear.Input != HeartRateDrug || unclear.OtherTest || !strings.Contains(unclear.Fix.String(), "yes or no") {
		t.Errorf("an unclear answer: %+v", unclear)
	}
	s := Assess(entryOf(t, "run-1.5-mile", "sex=M;age=22;body-mass=70;time=12:00;exercise-hr=140"+drug))
	if got := equationIDs(s); !slices.Equal(got, []string{"run15-acsm"}) {
		t.Errorf("a run with a slowed pulse: %v", got)
	}
	if !hasFlag(s.Flags, FlagHeartRateDrug) {
		t.Error("no flag")
	}
	only(t, Assess(entryOf(t, "run-12-minute", "age=30;distance=2400"+drug)), "run12-cooper1968")
	only(t, Assess(entryOf(t, "measured", "age=30;measured-vo2max=40"+drug)), "measured")
	only(t, Assess(entryOf(t, "walk-1-mile", walker+"age=40;time=15:00;heart-rate-drug=0")), "walk1-kline1987")
}

func TestScreening(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string // details of the flag
	}{
		{"age=40", nil},
		{"symptoms=0;known-disease=0;pregnant=0", nil},
		{"symptoms=1", []string{"symptoms"}},
		{"known-disease=1", []string{"known heart, metabolic or kidney disease"}},
		{"pregnant=1", []string{"pregnancy"}},
		{"heart-rate-drug=1", []string{"medicine that slows the heart"}},
		{"heart-rate-drug=1;cleared=1", nil},
		{"known-disease=1;pregnant=1;cleared=1", nil},
		{"symptoms=0.5;pregnant=0.5", []string{"symptoms", "pregnancy"}},
		{"known-disease=1;cleared=0.5", []string{"known heart, metabolic or kidney disease"}},
		{"known-disease=1;cleared=0", []string{"known heart, metabolic or kidney disease"}},
		{"symptoms=1;known-disease=1;cleared=1", []string{"symptoms"}},
	} {
		s := Assess(personOf(t, c.text))
		var got []string
		for _, f := range s.Flags {
			if f.Code == FlagSeeClinician {
				got = append(got, f.Detail.String())
			}
		}
		if !slices.Equal(got, c.want) || s.SeeClinicianFirst() != (c.want != nil) {
			t.Errorf("%s: %v, want %v", c.text, got, c.want)
		}
	}
}

func TestOnlyUnclear(t *testing.T) {
	for text, want := range map[string]bool{"pregnant=0.5": true, "pregnant=0.5;symptoms=1": false, "heart-rate-drug=0.5;resting-hr=104;age=40": false, "symptoms=1": false} {
		if got := personOf(t, text).OnlyUnclear(); got != want {
			t.Errorf("%s: %v", text, got)
		}
	}
	e := personOf(t, "symptoms=0.5")
	e.Notes = []DangerNote{{Kind: Symptoms, Cell: "K2", Text: "dizzy"}}
	if e.OnlyUnclear() {
		t.Error("a note of danger counts as an unclear answer alone")
	}
}

// Someone who should see a clinician first gets no result to reach.
func TestNoTargetsBeforeAClinician(t *testing.T) {
	for _, c := range []struct {
		more   string
		target bool
	}{{"", true}, {";symptoms=1", false}, {";resting-hr=104", false}, {";pregnant=1;cleared=1", true}} {
		s := Assess(entryOf(t, "run-12-minute", "sex=F;age=30;distance=2000"+c.more))
		if got := s.Adults[0].Decades()[0].Goals[3].InTest.OK; got != c.target || s.Adults[0].Next.InTest.OK != c.target {
			t.Errorf("%q: target %v", c.more, got)
		}
		s = Assess(entryOf(t, "shuttle-20-m", "sex=M;age=12;shuttle-laps=16"+c.more))
		if got := s.Youth[0].InTest.OK; got != c.target && c.more != ";resting-hr=104" {
			t.Errorf("boy, %q: target %v", c.more, got)
		}
	}
}

// Without a test nothing is estimated unless asked for, and never where a
// test was scored.
func TestFallback(t *testing.T) {
	const who = "sex=M;age=40;body-mass=81;stature=180;resting-hr=65;activity-level=3;activity-rating=4;body-fat=20;activity-index=8;waist=92"
	if s := Assess(personOf(t, who)); s.Best() != nil {
		t.Errorf("not asked for: %v", equationIDs(s))
	}
	s := Options{Fallback: fieldtests.WithoutExercise()}.Assess(personOf(t, who))
	if e := only(t, s, "jurca2005"); !hasFlag(e.Flags, FlagNoExercise) {
		t.Errorf("flags %v", flagIDs(e.Flags))
	}
	only(t, Options{Fallback: fieldtests.WithoutExercise(), Equations: []string{"uth2004"}}.Assess(personOf(t, who)), "uth2004")
	tested := entryOf(t, "run-12-minute", who+";distance=2400")
	only(t, Options{Fallback: fieldtests.WithoutExercise()}.Assess(tested), "run12-cooper1968")
	failed := entryOf(t, "run-12-minute", who+";distance=100")
	if s := (Options{Fallback: fieldtests.WithoutExercise()}).Assess(failed); s.Best() == nil || len(s.Refused) != 1 {
		t.Errorf("a refused run: %v, %d refused", equationIDs(s), len(s.Refused))
	}
	for level := range 7 {
		e := personOf(t, "sex=M;age=40;body-mass=81;stature=180;resting-hr=65")
		e.Set(ActivityLevel, Q(float64(level), Levels), "")
		s := Options{Fallback: fieldtests.WithoutExercise()}.Assess(e)
		if scored := slices.Contains(equationIDs(s), "jurca2005"); scored != (level >= 1 && level <= 5) {
			t.Errorf("activity level %d: scored %v", level, scored)
		}
	}
}

// The two-minute step in place is read against its own norms: mean and
// standard deviation by five years of age (rikli-jones, seen on a secondary
// page).
func TestStepInPlace(t *testing.T) {
	for _, c := range []struct {
		sex, age, steps string
		ages            reference.Ages
		mean, sd, line  float64
		average         int
	}{
		{"M", "60", "101", reference.Ages{Min: 60, Max: 64}, 101, 21, 106, 0},
		{"M", "64.9", "79", reference.Ages{Min: 60, Max: 64}, 101, 21, 106, -1},
		{"M", "64.9", "80", reference.Ages{Min: 60, Max: 64}, 101, 21, 106, 0},
		{"M", "64.9", "122", reference.Ages{Min: 60, Max: 64}, 101, 21, 106, 0},
		{"M", "64.9", "123", reference.Ages{Min: 60, Max: 64}, 101, 21, 106, 1},
		{"M", "65", "80", reference.Ages{Min: 65, Max: 69}, 101, 23, 101, 0},
		{"M", "72", "80", reference.Ages{Min: 70, Max: 74}, 95, 23, 95, 0},
		{"M", "77", "80", reference.Ages{Min: 75, Max: 79}, 91, 27, 88, 0},
		{"M", "82", "80", reference.Ages{Min: 80, Max: 84}, 87, 24, 80, 0},
		{"M", "87", "80", reference.Ages{Min: 85, Max: 89}, 75, 24, 71, 0},
		{"M", "94.9", "80", reference.Ages{Min: 90, Max: 94}, 69, 26, 60, 0},
		{"F", "60", "91", reference.Ages{Min: 60, Max: 64}, 91, 24, 97, 0},
		{"F", "67", "91", reference.Ages{Min: 65, Max: 69}, 90, 26, 93, 0},
		{"F", "72", "91", reference.Ages{Min: 70, Max: 74}, 84, 25, 89, 0},
		{"F", "77", "91", reference.Ages{Min: 75, Max: 79}, 84, 24, 84, 0},
		{"F", "82", "91", reference.Ages{Min: 80, Max: 84}, 75, 23, 78, 0},
		{"F", "87", "91", reference.Ages{Min: 85, Max: 89}, 70, 22, 70, 0},
		{"F", "92", "91", reference.Ages{Min: 90, Max: 94}, 58, 21, 60, 1},
	} {
		s := Assess(entryOf(t, "step-in-place-2-min", "sex="+c.sex+";age="+c.age+";steps-in-place="+c.steps))
		if len(s.Norms) != 1 || s.Best() != nil || len(s.Refused) != 0 {
			t.Fatalf("%s %s: %d norms, refused %+v", c.sex, c.age, len(s.Norms), s.Refused)
		}
		n := s.Norms[0]
		if n.Ages != c.ages || n.Mean != c.mean || n.SD != c.sd || n.Independence != c.line || n.Average() != c.average || n.Test.ID != "step-in-place-2-min" {
			t.Errorf("%s %s at %s: %+v, average %d", c.sex, c.age, c.steps, n, n.Average())
		}
	}
	for text, in := range map[string]Input{"sex=F;age=59.9": Age, "sex=F;age=95": Age, "sex=F": Age, "age=70": SexInput} {
		if r := refused(t, Assess(entryOf(t, "step-in-place-2-min", text+";steps-in-place=90"))); r.Input != in {
			t.Errorf("%s: %+v", text, r)
		}
	}
}

// What is left out is not declared under another name.
func TestLeftOut(t *testing.T) {
	for _, l := range fieldtests.LeftOutEquations() {
		if l.Test == "" || l.Source == "" || l.Missing == "" {
			t.Errorf("%+v", l)
		}
		for _, test := range fieldtests.All() {
			for _, e := range test.Equations {
				if e.Name == l.Name {
					t.Errorf("%s is declared", l.Name)
				}
			}
		}
	}
}

func TestLookupsByID(t *testing.T) {
	if _, ok := fieldtests.ByID("no-such-test"); ok {
		t.Error("a test that is not there")
	}
	if _, _, ok := fieldtests.Equation("no-such-equation"); ok {
		t.Error("an equation that is not there")
	}
	if test, eq, ok := fieldtests.Equation("walk1-kline1987"); !ok || test.ID != "walk-1-mile" || eq.Source != "kline1987" {
		t.Errorf("%v %v %v", test, eq, ok)
	}
}

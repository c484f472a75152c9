package plausible_test

import (
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/audit"
	"tenback/scoring/fieldtests"
	"tenback/scoring/plausible"
)

// judged returns an entry written as "TEST name=value name=value TEST name=value".
func judged(t testing.TB, text string) *scoring.Entry {
	t.Helper()
	e := &scoring.Entry{}
	for _, word := range strings.Fields(text) {
		name, value, isValue := strings.Cut(word, "=")
		if !isValue {
			test, ok := fieldtests.ByID(word)
			if !ok {
				t.Fatalf("no field test %q", word)
			}
			e.Trials = append(e.Trials, scoring.Trial{Test: test})
			continue
		}
		var trial *scoring.Trial
		if len(e.Trials) > 0 {
			trial = &e.Trials[len(e.Trials)-1]
		}
		if err := audit.Put(e, trial, name, value, "cell of "+name); err != nil {
			t.Fatal(err)
		}
	}
	plausible.Judge(e)
	return e
}

func TestDoubtedValuesAreNotUsed(t *testing.T) {
	e := judged(t, "sex=M age=30 body-mass=181 stature=120 run-12-minute distance=2500 walk-1-mile time=15:00 exercise-hr=120")
	s := scoring.Assess(e)
	if len(s.Estimates) != 1 || s.Best().Test.ID != "run-12-minute" || s.Entry().Has(scoring.BodyMass) {
		t.Fatalf("estimates %v, doubts %v", s.Estimates, e.Doubts)
	}
	if len(s.Refused) != 1 || s.Refused[0].Cell != "cell of body-mass" || s.Refused[0].Doubt == nil || s.Refused[0].Missing {
		t.Errorf("refused %+v", s.Refused)
	}
}

// told writes the doubts of an entry as cells, with ! after those that cannot be.
func told(e *scoring.Entry) string {
	var all []string
	for _, d := range e.Doubts {
		mark := ""
		if d.Impossible {
			mark = "!"
		}
		all = append(all, strings.TrimPrefix(d.Cell, "cell of ")+mark)
	}
	return strings.Join(all, " ")
}

// TestOddValues holds every kind of slip to a doubt at its cell.
func TestOddValues(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		// Bodies.
		{"sex=F age=12 body-mass=90 stature=120 shuttle-20-m shuttle-level=4", "body-mass!"},
		{"sex=M age=40 body-mass=75 stature=118 run-1.5-mile time=13:00", "stature"},
		{"sex=F age=31 body-mass=69 resting-hr=141 walk-1-mile time=15:31 exercise-hr=75", "resting-hr exercise-hr"}, // exchanged
		{"sex=M age=40 body-mass=18 run-1.5-mile time=13:00", "body-mass!"},
		{"sex=M age=40 body-mass=176 stature=88 run-1.5-mile time=15:00", "stature body-mass"},
		{"sex=M age=8 body-mass=80 shuttle-20-m shuttle-level=4", "body-mass"},
		{"sex=M age=8 body-mass=80 stature=182 shuttle-20-m shuttle-level=4", "stature body-mass"},
		{"sex=M age=25 body-mass=178 run-1.5-mile time=11:30", "body-mass"},
		{"sex=M age=35 body-mass=154 stature=175 walk-1-mile time=15:00 exercise-hr=120", "body-mass"}, // pounds
		{"sex=F age=35 body-mass=139 stature=165 shuttle-20-m shuttle-level=5", "body-mass"},
		// Pulses.
		{"sex=F age=45 body-mass=70 walk-1-mile time=15:00 exercise-hr=230", "exercise-hr!"},
		{"sex=F age=45 body-mass=70 resting-hr=70 walk-1-mile time=15:00 exercise-hr=60", "exercise-hr!"},
		{"sex=F age=45 body-mass=70 resting-hr=70 walk-1-mile time=15:00 exercise-hr=78", "exercise-hr"},
		{"sex=F age=45 body-mass=70 walk-1-mile time=15:00 exercise-hr=66", "exercise-hr"},
		{"sex=F age=72 body-mass=70 walk-1-mile time=17:00 exercise-hr=198", "exercise-hr"},
		{"sex=F age=45 body-mass=70 resting-hr=128 walk-1-mile time=15:00 exercise-hr=131", "resting-hr"},
		{"sex=M age=30 body-mass=70 resting-hr=34 run-1.5-mile time=14:30", "resting-hr"},
		{"sex=M age=45 body-mass=78 stature=180 resting-hr=35 walk-6-minute distance=620", "resting-hr"},
		{"sex=M age=13 body-mass=50 stature=158 run-1-mile time=24:40", "time"},
		{"sex=M age=13 shuttle-20-m shuttle-level=13", "shuttle-level"},
		{"sex=M age=40 body-mass=92 run-12-minute distance=4260", "distance"},
		{"sex=M age=9 resting-hr=38 shuttle-20-m shuttle-level=4", "resting-hr"},
		// Speeds.
		{"sex=F age=9 shuttle-20-m shuttle-level=20", "shuttle-level!"},
		{"sex=F age=9 shuttle-20-m shuttle-laps=88", "shuttle-laps"},
		{"sex=M age=12 body-mass=40 stature=150 run-1-mile time=4:05", "time!"},
		{"sex=M age=24 run-12-minute distance=4400", "distance"},
		{"run-12-minute distance=4400", "distance"},
		{"sex=M age=30 run-12-minute distance=550", "distance"},
		{"sex=M age=35 body-mass=75 walk-1-mile time=8:00 exercise-hr=150", "time"},
		{"sex=M age=35 body-mass=75 walk-6-minute distance=950 stature=178", "distance"},
		{"sex=M age=35 race distance=10000 time=26:00", "time"}, {"sex=M age=35 race distance=10000 time=25:00", "time!"},
		// Results of others.
		{"sex=M age=35 body-mass=60 cycle-stage power=300 exercise-hr=150", "power"},
		{"sex=F age=70 step-in-place-2-min steps-in-place=210", "steps-in-place"},
		{"sex=F age=60 measured measured-vo2max=71", "measured-vo2max"},
		{"sex=M age=40 body-mass=70 run-1.5-mile time=8:30 walk-1-mile time=17:50 exercise-hr=165", "time time"},
	} {
		e := judged(t, c.text)
		if got := told(e); got != c.want {
			t.Errorf("%s:\n doubts %q, want %q", c.text, got, c.want)
		}
	}
}

// TestUnusualPeopleAreBelieved: people who exist and are far from the mean.
func TestUnusualPeopleAreBelieved(t *testing.T) {
	for _, text := range []string{
		// National runners, cyclists, rowers, players.
		"sex=M age=24 body-mass=62 stature=178 resting-hr=34 run-1.5-mile time=6:45",
		"sex=F age=26 body-mass=50 stature=166 resting-hr=36 run-1.5-mile time=7:40",
		"sex=M age=22 body-mass=60 resting-hr=38 run-12-minute distance=4200",
		"sex=M age=28 body-mass=64 stature=181 run-1-mile time=4:08",
		"sex=M age=27 race distance=5000 time=13:55",
		"sex=F age=29 race distance=42195 time=2:31:00",
		"sex=M age=14 body-mass=52 stature=168 run-1-mile time=4:50",
		"sex=F age=14 body-mass=48 stature=163 run-1-mile time=5:25",
		"sex=M age=70 body-mass=62 stature=170 resting-hr=44 race distance=5000 time=20:00",
		"sex=F age=75 body-mass=52 stature=158 race distance=5000 time=25:30",
		"sex=M age=82 body-mass=64 race distance=5000 time=26:00",
		"sex=M age=26 body-mass=74 resting-hr=42 shuttle-20-m shuttle-level=15",
		"sex=F age=24 body-mass=63 resting-hr=46 shuttle-20-m shuttle-level=13",
		"sex=M age=12 body-mass=38 stature=150 shuttle-20-m shuttle-level=11",
		"sex=F age=10 body-mass=31 stature=140 shuttle-20-m shuttle-level=8",
		"sex=M age=24 body-mass=75 resting-hr=40 cycle-stage power=300 exercise-hr=150",
		"sex=M age=25 body-mass=97 stature=195 measured measured-vo2max-abs=6.6",
		"sex=M age=24 body-mass=66 measured measured-vo2max=84",
		"sex=M age=24 body-mass=66 stature=180 resting-hr=36 walk-1-mile time=11:10 exercise-hr=84",
		"sex=M age=30 body-mass=70 resting-hr=38 run-1.5-mile time=9:10",
		"sex=M age=23 body-mass=146 stature=193 resting-hr=62 run-1.5-mile time=14:40",
		"sex=M age=26 body-mass=112 stature=187 resting-hr=52 shuttle-20-m shuttle-level=11",
		// The very large, the very small, the unfit.
		"sex=M age=38 body-mass=160 stature=187 resting-hr=88 walk-1-mile time=20:30 exercise-hr=158",
		"sex=F age=45 body-mass=128 stature=166 resting-hr=92 walk-1-mile time=22:10 exercise-hr=162",
		"sex=M age=22 body-mass=104 stature=212 resting-hr=52 shuttle-20-m shuttle-level=11",
		"sex=F age=23 body-mass=84 stature=196 run-12-minute distance=2700",
		"sex=F age=19 body-mass=38 stature=152 resting-hr=52 run-1.5-mile time=12:30",
		"sex=F age=34 body-mass=43 stature=139 run-12-minute distance=1900",
		"sex=M age=50 body-mass=120 stature=175 resting-hr=96 run-1.5-mile time=26:00",
		"sex=F age=62 body-mass=95 stature=158 resting-hr=104 walk-2-km time=27:00 exercise-hr=168",
		// The old.
		"sex=F age=88 body-mass=48 stature=149 resting-hr=78 walk-6-minute distance=160",
		"sex=M age=92 body-mass=60 stature=163 walk-6-minute distance=420",
		"sex=F age=88 body-mass=60 shuttle-20-m shuttle-level=1",
		"sex=F age=84 step-in-place-2-min steps-in-place=28",
		"sex=M age=70 step-in-place-2-min steps-in-place=152",
		"sex=M age=74 body-mass=70 resting-hr=46 walk-1-mile time=14:00 exercise-hr=88",
		"sex=M age=66 body-mass=77 resting-hr=60 walk-1-mile time=15:30 exercise-hr=176",
		// Children in growth.
		"sex=M age=6 body-mass=16 stature=107 resting-hr=112 run-1-mile time=14:30",
		"sex=F age=6 body-mass=45 stature=126 resting-hr=104 run-1-mile time=17:00",
		"sex=F age=6 body-mass=45 run-1-mile time=17:00",
		"sex=M age=13 body-mass=95 stature=168 resting-hr=98 shuttle-20-m shuttle-level=1 shuttle-in-level=5",
		"sex=F age=13 body-mass=95 stature=158 run-1-mile time=16:00",
		"sex=M age=12 body-mass=74 stature=184 shuttle-20-m shuttle-level=8",
		"sex=F age=15 body-mass=34 stature=148 shuttle-20-m shuttle-laps=9",
		"sex=M age=9 body-mass=20 stature=118 shuttle-20-m shuttle-laps=12",
		"sex=M age=16 body-mass=60 stature=178 resting-hr=38 shuttle-20-m shuttle-level=14",
		"sex=F age=11 body-mass=28 stature=140 resting-hr=54 run-1-mile time=6:05",
		"sex=M age=10 body-mass=33 stature=140 run-1-mile time=5:30",
		// Steps and medicines.
		"sex=F age=20 body-mass=55 resting-hr=44 step-41-cm recovery-hr=92",
		"sex=M age=34 body-mass=80 resting-hr=40 heart-rate-drug=1 run-1.5-mile time=14:00",
		"age=30 body-mass=70 run-1.5-mile time=12:00", "run-12-minute distance=2400", "sex=F run-1.5-mile time=14:00",
	} {
		if e := judged(t, text); len(e.Doubts) > 0 {
			t.Errorf("%s:\n %s: %s", text, told(e), e.Doubts[0].What)
		}
	}
}

package scoring_test

import (
	"math"
	"testing"

	. "tenback/scoring"
)

// walked is an input that is changed in the smallest step that people can tell.
type walked struct {
	in             Input
	from, to, step float64 // in the input's own unit
}

var (
	everyWeek  = walked{Age, 8, 95, 0.02}
	everyBeat  = walked{ExerciseHR, 80, 200, 1}
	afterwards = walked{RecoveryHR, 70, 190, 1}
	resting    = walked{RestingHR, 40, 110, 1}
	heavier    = walked{BodyMass, 35, 130, 0.1}
	taller     = walked{Stature, 135, 200, 0.1}
)

// edges are the tests with people who differ, and what is walked for each. Most says
// how far one step may move the estimate, in mL/kg/min; zero means 1.
var edges = []struct {
	test   string
	people string // what all have
	vary   []string
	walk   []walked
	most   float64
	why    string
}{
	{test: "run-1.5-mile", people: "resting-hr=60", vary: []string{"time=9:00", "time=13:00", "time=18:30", "time=13:00;exercise-hr=150", "time=14:00;effort=steady;exercise-hr=150"},
		walk: []walked{everyWeek, everyBeat, heavier, {Time, 330, 1500, 1}}},
	{test: "run-12-minute", vary: []string{"distance=1700", "distance=2400", "distance=3000"}, walk: []walked{everyWeek, heavier, {Distance, 500, 4500, 1}}},
	{test: "run-1-mile", vary: []string{"time=6:30", "time=9:00", "time=12:00"}, walk: []walked{everyWeek, heavier, taller, {Time, 260, 1300, 1}}},
	{test: "jog-1-mile", vary: []string{"time=9:30;exercise-hr=150", "time=12:00;exercise-hr=170"}, walk: []walked{everyWeek, everyBeat, heavier, {Time, 420, 1200, 1}}},
	{test: "race", vary: []string{"distance=5000;time=25:00", "distance=10000;time=50:00"}, walk: []walked{everyWeek, {Time, 1000, 4000, 1}}},
	{test: "walk-1-mile", vary: []string{"time=12:30;exercise-hr=120", "time=15:00;exercise-hr=140"}, walk: []walked{everyWeek, everyBeat, heavier, {Time, 540, 1500, 1}}},
	{test: "walk-2-km", vary: []string{"time=15:30;exercise-hr=120", "time=19:00;exercise-hr=140"}, walk: []walked{everyWeek, everyBeat, heavier, taller, {Time, 720, 1800, 1}}},
	{test: "walk-6-minute", people: "resting-hr=68", vary: []string{"distance=420", "distance=600"}, walk: []walked{everyWeek, resting, heavier, taller, {Distance, 200, 850, 1}}},
	{test: "shuttle-20-m", vary: []string{"shuttle-speed=10", "shuttle-speed=13"}, walk: []walked{everyWeek}, most: 13.0 / 4,
		why: "a youth's age counts in completed years, as in the paper: a quarter of the likely range at each birthday"},
	{test: "shuttle-20-m", vary: []string{"age=12", "age=30"}, walk: []walked{{ShuttleSpeed, 8.5, 17, 0.5}}, most: 3.01,
		why: "a level is the smallest step of the test"},
	{test: "step-41-cm", vary: []string{"recovery-hr=130", "recovery-hr=165"}, walk: []walked{everyWeek, heavier, afterwards}},
	{test: "step-stage", people: "resting-hr=65;bench-height=30;step-rate=24", vary: []string{"exercise-hr=140", "exercise-hr=150;stage-time=3"},
		walk: []walked{everyWeek, everyBeat, resting, heavier, {StepRate, 12, 30, 0.1}, {StageTime, 2, 5, 0.1}}},
	{test: "cycle-stage", people: "resting-hr=65;body-mass=75", vary: []string{"power=100;exercise-hr=135", "power=120;exercise-hr=145"},
		walk: []walked{everyWeek, everyBeat, resting, heavier, {Power, 30, 250, 1}}},
	{test: "cycle-stage", people: "resting-hr=65;body-mass=75;power=75;exercise-hr=115;power-2=125;stage-hr-2=140", vary: []string{"power-3=150;stage-hr-3=152"},
		walk: []walked{everyWeek, everyBeat, heavier}, most: 3, why: "a line through few stages tilts with one beat: a quarter of its likely range"},
	{test: "treadmill-stage", people: "resting-hr=65;grade=5", vary: []string{"belt-speed=5.5;exercise-hr=130"}, walk: []walked{everyWeek, everyBeat, resting, {BeltSpeed, 3, 6, 0.1}}},
}

// bodies are the people of the walk.
var bodies = []string{
	"sex=F;age=12.5;body-mass=45;stature=152", "sex=M;age=12.5;body-mass=48;stature=155", "sex=F;age=16.5;body-mass=60;stature=165", "sex=M;age=17.5;body-mass=72;stature=178",
	"sex=F;age=24.5;body-mass=58;stature=168", "sex=M;age=27.5;body-mass=95;stature=180", "sex=F;age=41.5;body-mass=85;stature=165", "sex=M;age=45.5;body-mass=80;stature=182",
	"sex=F;age=58.5;body-mass=66;stature=160", "sex=M;age=66.5;body-mass=78;stature=172", "sex=F;age=78.5;body-mass=60;stature=158",
}

// TestNoEdges walks every input of every test in the smallest steps: none moves the
// estimate further than 1 mL/kg/min, or than a declared edge allows.
func TestNoEdges(t *testing.T) {
	for _, c := range edges {
		most := c.most
		if most == 0 {
			most = 1
		}
		for _, w := range c.walk {
			largest, at, scored := 0.0, "", 0
			for _, body := range bodies {
				for _, vary := range c.vary {
					text := body + ";" + vary
					if c.people != "" {
						text = body + ";" + c.people + ";" + vary
					}
					e := entryOf(t, c.test, text)
					values := &e.Values
					if e.Trials[0].Has(w.in) {
						values = &e.Trials[0].Values
					}
					before, had := VO2(0), false
					for i := 0; ; i++ {
						x := w.from + float64(i)*w.step
						if x > w.to {
							break
						}
						values.Set(w.in, Q(x, w.in.Info().Unit), "")
						s := Options{}.Estimates(e)
						best := s.Best()
						if best == nil {
							had = false
							continue
						}
						scored++
						if step := math.Abs(float64(best.VO2 - before)); had && step > largest {
							largest, at = step, text
						}
						before, had = best.VO2, true
					}
				}
			}
			t.Logf("%-16s %-14s step %-6.3g largest %.2f of %.2f mL/kg/min (%d scored)", c.test, w.in, w.step, largest, most, scored)
			if largest > most {
				t.Errorf("%s: a step of %.3g in %s moves the estimate by %.2f: %s", c.test, w.step, w.in, largest, at)
			}
			if scored == 0 && !testing.Short() {
				t.Errorf("%s: nothing scored along %s", c.test, w.in)
			}
		}
	}
}

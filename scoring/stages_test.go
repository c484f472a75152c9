package scoring_test

import (
	"math"
	"strings"
	"testing"

	. "tenback/scoring"
)

// Stepping on 30 cm costs 11.9904 + … : 0.9182 f + 3.5 mL/kg/min at f cycles a
// minute: 16 gives 18.1912, 20 gives 21.864, 24 gives 25.5368.
const stepping30 = "age=40;bench-height=30;"

func TestStagesChooseTheEquation(t *testing.T) {
	for _, c := range []struct{ test, text, want string }{
		{"step-stage", stepping30 + "resting-hr=60;step-rate=24;exercise-hr=130", "step-stage-hrr"},
		{"step-stage", stepping30 + "step-rate=16;exercise-hr=115;step-rate-2=24;stage-hr-2=140", "step-line"},
		// A load without a heart rate was planned and not done.
		{"step-stage", stepping30 + "resting-hr=60;step-rate=24;exercise-hr=130;step-rate-2=28", "step-stage-hrr"},
		{"cycle-stage", "age=50;body-mass=80;resting-hr=65;power=100;exercise-hr=130", "cycle-hrr"},
		{"cycle-stage", "age=50;body-mass=80;power=75;exercise-hr=110;power-2=125;stage-hr-2=135", "cycle-line"},
		{"treadmill-stage", "age=45;resting-hr=65;belt-speed=5;grade=5;exercise-hr=130", "treadmill-walk-hrr"},
		{"treadmill-stage", "age=45;resting-hr=65;belt-speed=9;grade=0;exercise-hr=140", "treadmill-run-hrr"},
		{"treadmill-stage", "age=45;belt-speed=5;grade=2;exercise-hr=110;belt-speed-2=5;grade-2=8;stage-hr-2=135", "treadmill-walk-line"},
		{"treadmill-stage", "age=45;belt-speed=9;grade=0;exercise-hr=140;belt-speed-2=11;grade-2=0;stage-hr-2=160", "treadmill-run-line"},
	} {
		only(t, Assess(entryOf(t, c.test, c.text)), c.want)
	}
}

// 100 m/min is walked, 134 m/min is run, and between them the sheet must say.
func TestGait(t *testing.T) {
	const rest = ";grade=0;exercise-hr=130;age=45;resting-hr=65"
	for _, c := range []struct{ text, want string }{
		{"belt-speed=100 m/min", "treadmill-walk-hrr"},
		{"belt-speed=100.1 m/min", ""},
		{"belt-speed=133.9 m/min", ""},
		{"belt-speed=134 m/min", "treadmill-run-hrr"},
		{"belt-speed=120 m/min;gait=0", "treadmill-walk-hrr"},
		{"belt-speed=120 m/min;gait=1", "treadmill-run-hrr"},
		{"belt-speed=90 m/min;gait=1", "treadmill-run-hrr"},
	} {
		s := Assess(entryOf(t, "treadmill-stage", c.text+rest))
		if c.want != "" {
			only(t, s, c.want)
			continue
		}
		if r := refused(t, s); r.Input != BeltSpeed || !strings.Contains(r.Why.String(), "walked or run") {
			t.Errorf("%s: %+v", c.text, r)
		}
	}
}

func TestStagesThatCannotBeScored(t *testing.T) {
	for _, c := range []struct {
		name, test, text string
		in               Input
		why              string
	}{
		{"no bench height, two stages", "step-stage", "age=40;step-rate=16;exercise-hr=115;step-rate-2=24;stage-hr-2=140", BenchHeight, "needs the bench height"},
		{"no body mass, two stages", "cycle-stage", "age=50;power=75;exercise-hr=110;power-2=125;stage-hr-2=135", BodyMass, "needs the body mass"},
		{"a stage without its load", "cycle-stage", "age=50;body-mass=80;resting-hr=60;power=75;exercise-hr=110;stage-hr-2=135", Power2, "needs the cycle power of stage 2"},
		{"a stage without its slope", "treadmill-stage", "age=45;belt-speed=5;grade=2;exercise-hr=110;belt-speed-2=5;stage-hr-2=135", Grade2, "needs the treadmill grade of stage 2"},
		{"walked, then run", "treadmill-stage", "age=45;belt-speed=5;grade=2;exercise-hr=110;belt-speed-2=9;grade-2=0;stage-hr-2=150", BeltSpeed, "some stages were walked and others run"},
		{"heart rate falls", "cycle-stage", "age=50;body-mass=80;power=75;exercise-hr=135;power-2=125;stage-hr-2=110", StageHR2, "does not rise with the load"},
		{"heart rate stays", "cycle-stage", "age=50;body-mass=80;power=75;exercise-hr=120;power-2=125;stage-hr-2=120", StageHR2, "does not rise with the load"},
		{"no age and no maximum", "cycle-stage", "body-mass=80;power=75;exercise-hr=110;power-2=125;stage-hr-2=135", Age, "needs the age"},
	} {
		if r := refused(t, Assess(entryOf(t, c.test, c.text))); r.Input != c.in || !strings.Contains(r.Why.String(), c.why) {
			t.Errorf("%s: %s: %s; want %s: %s", c.name, r.Input, r.Why, c.in, c.why)
		}
	}
}

// Parts of a line's error: 5 % assumed, the line's own, and 11.4 beats of
// predicted maximum along the slope.
func TestErrorOfALine(t *testing.T) {
	s := Assess(entryOf(t, "step-stage", stepping30+"step-rate=16;exercise-hr=115;step-rate-2=24;stage-hr-2=140"))
	e := only(t, s, "step-line")
	slope := (25.5368 - 18.1912) / 25
	value := 18.1912 + slope*(180-115)
	if !near(float64(e.VO2), value, 1e-9) {
		t.Fatalf("%.4f, want %.4f", float64(e.VO2), value)
	}
	want := math.Hypot(0.10*value, 11.4*slope)
	if !near(float64(e.FromSteps), want, 1e-6) || !near(float64(e.SEE), 0.05*value, 1e-9) {
		t.Errorf("from steps %.4f, SEE %.4f; want %.4f, %.4f", float64(e.FromSteps), float64(e.SEE), want, 0.05*value)
	}
	// Three stages on one straight line have no scatter.
	s = Assess(entryOf(t, "step-stage", stepping30+"max-hr=180;step-rate=16;exercise-hr=115;step-rate-2=20;stage-hr-2=127.5;step-rate-3=24;stage-hr-3=140"))
	if e := only(t, s, "step-line"); !near(float64(e.FromSteps), 0, 1e-6) || !near(float64(e.VO2), value, 1e-9) {
		t.Errorf("three stages in line: %.4f ± %.6f", float64(e.VO2), float64(e.FromSteps))
	}
	// A fourth off the line brings scatter.
	s = Assess(entryOf(t, "step-stage", stepping30+"max-hr=180;step-rate=16;exercise-hr=115;step-rate-2=20;stage-hr-2=127.5;step-rate-3=24;stage-hr-3=140;step-rate-4=28;stage-hr-4=160"))
	if e := only(t, s, "step-line"); e.FromSteps < 0.5 {
		t.Errorf("four stages off the line: ± %.4f", float64(e.FromSteps))
	}
}

package scoring_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	. "tenback/scoring"
)

// Both sides of every limit. "scored" has no remark about limits or ages,
// "flagged" is scored with one, "refused" names the input at fault.
func TestLimits(t *testing.T) {
	const (
		scored  = "scored"
		flagged = "flagged"
		refused = "refused"
	)
	for _, c := range []struct {
		equation, text, want, why string
	}{
		{"run15-acsm", "age=30;time=5:30", scored, ""},
		{"run15-acsm", "age=30;time=5:29", refused, "5:29 is outside 5:30 to 20:00"},
		{"run15-acsm", "age=30;time=20:00", scored, ""},
		{"run15-acsm", "age=30;time=20:01", refused, "20:01 is outside 5:30 to 20:00"},
		{"run15-acsm", "age=18;time=12:00", scored, ""},
		{"run15-acsm", "age=17.999;time=12:00", refused, "not meant for the age of 17"},
		{"run15-acsm", "age=60.9;time=18:00", scored, ""},
		{"run15-acsm", "age=61;time=18:00", refused, "not meant for the age of 61"},

		{"run15-george1993", "sex=F;body-mass=60;age=18;time=12:00", scored, ""},
		{"run15-george1993", "sex=F;body-mass=60;age=29.99;time=12:00", scored, ""},
		{"run15-george1993", "sex=F;body-mass=60;age=30;time=12:00", refused, "not meant for the age of 30"},
		{"run15-george1993", "sex=F;body-mass=60;age=22;time=12:00;effort=steady", refused, "the run was steady"},
		{"run15-larsen2002", "sex=F;body-mass=60;age=26.9;time=14:00;effort=steady", scored, ""},
		{"run15-larsen2002", "sex=F;body-mass=60;age=27;time=14:00;effort=steady", refused, "not meant for the age of 27"},
		{"run15-larsen2002", "sex=F;body-mass=60;age=22;time=14:00", refused, "the run was all-out"},
		{"run15-larsen2002-hr", "sex=F;body-mass=60;age=22;time=14:00;effort=steady", refused, "needs the heart rate"},

		{"run12-cooper1968", "age=25;distance=2250", scored, ""},
		{"run12-cooper1968", "age=25;distance=2249", flagged, "truest from 2250 m"},
		{"run12-cooper1968", "age=25;distance=1600", flagged, "truest from 2250 m"},
		{"run12-cooper1968", "age=25;distance=1599", refused, "1599 m is outside 1600 m to 5000 m"},
		{"run12-cooper1968", "age=25;distance=4600", scored, ""},
		{"run12-cooper1968", "age=25;distance=5000", refused, "gives a VO2max of 100"},
		{"run12-cooper1968", "age=25;distance=5001", refused, "5001 m is outside 900 m to 5000 m"},
		{"run12-cooper1968", "age=17;distance=2500", scored, ""},
		{"run12-cooper1968", "age=16.9;distance=2500", refused, "not meant for the age of 16"},
		{"run12-cooper1968", "age=52.9;distance=2500", scored, ""},
		{"run12-cooper1968", "age=53;distance=2500", refused, "not meant for the age of 53"},

		{"walk1-kline1987", walker + "age=30;time=15:00", scored, ""},
		{"walk1-kline1987", walker + "age=29.9;time=15:00", refused, "not meant for the age of 29"},
		{"walk1-kline1987-young", walker + "age=29.9;time=15:00", scored, ""},
		{"walk1-kline1987-young", walker + "age=17.9;time=15:00", refused, "not meant for the age of 17"},
		{"walk1-kline1987", walker + "age=69.9;time=15:00", scored, ""},
		{"walk1-kline1987", walker + "age=70;time=15:00", refused, "not meant for the age of 70"},
		{"walk1-sung2019", "sex=F;age=10;time=15:00", scored, ""},
		{"walk1-sung2019", "sex=F;age=14;time=15:00", refused, "not meant for the age of 14"},
		{"walk1-kline1987", walker + "age=40;time=8:00", scored, ""},
		{"walk1-kline1987", walker + "age=40;time=7:59", refused, "7:59 is outside 8:00 to 30:00"},
		{"walk1-kline1987", "sex=M;body-mass=40;exercise-hr=60;age=30;time=30:00", scored, ""},
		{"walk1-kline1987", "sex=M;body-mass=40;exercise-hr=60;age=30;time=30:01", refused, "30:01 is outside"},
		{"walk1-kline1987", "body-mass=60;exercise-hr=120;age=40;time=15:00", refused, "needs the sex"},
		{"walk1-kline1987", "sex=F;body-mass=60;exercise-hr=120;time=15:00", refused, "needs the age"},

		{"step41-mcardle1972-women", "sex=F;age=20;recovery-hr=80", scored, ""},
		{"step41-mcardle1972-women", "sex=F;age=20;recovery-hr=79", refused, "79 beats/min is outside 80"},
		{"step41-mcardle1972-women", "sex=F;age=20;recovery-hr=194", scored, ""},
		{"step41-mcardle1972-women", "sex=F;age=20;recovery-hr=195", refused, "above the maximum of about 194"},
		{"step41-mcardle1972-women", "sex=F;age=20;max-hr=205;recovery-hr=200", scored, ""},
		{"step41-mcardle1972-women", "sex=M;age=20;recovery-hr=140", refused, "the other sex"},
		{"step41-mcardle1972-women", "age=20;recovery-hr=140", refused, "needs the sex"},
		{"step41-mcardle1972-women", "sex=F;age=35.9;recovery-hr=140", scored, ""},
		{"step41-mcardle1972-women", "sex=F;age=36;recovery-hr=140", refused, "not meant for the age of 36"},
		{"step41-mcardle-men", "sex=F;age=20;recovery-hr=140", refused, "the other sex"},

		{"step-stage-hrr", stepper + "exercise-hr=130", scored, ""},
		// Reserve from rest 60 to maximum 180: half is 120, 105 % is 186.
		{"step-stage-hrr", stepper + "exercise-hr=120", scored, ""},
		{"step-stage-hrr", stepper + "exercise-hr=119.9", refused, "needs 120 beats/min or more"},
		{"step-stage-hrr", stepper + "exercise-hr=186", scored, ""},
		{"step-stage-hrr", stepper + "exercise-hr=186.1", refused, "only from half of the heart-rate reserve"},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=180;step-rate=24;bench-height=30;exercise-hr=180", refused, "only from half of the heart-rate reserve"},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=60;step-rate=12;bench-height=30;exercise-hr=130", scored, ""},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=60;step-rate=11.9;bench-height=30;exercise-hr=130", refused, "12 to 30 cycles"},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=60;step-rate=30;bench-height=30;exercise-hr=130", scored, ""},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=60;step-rate=30.1;bench-height=30;exercise-hr=130", refused, "12 to 30 cycles"},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=60;step-rate=24;bench-height=40;exercise-hr=130", scored, ""},
		{"step-stage-hrr", "age=40;max-hr=180;resting-hr=60;step-rate=24;bench-height=40.1;exercise-hr=130", refused, "4 to 40 cm"},
		{"step-stage-hrr", "age=40;max-hr=180;step-rate=24;bench-height=30;exercise-hr=130", refused, "needs the resting heart rate"},
		{"step-stage-hrr", stepper + "exercise-hr=130;stage-time=2.9", refused, "2.9 minutes is too short"},
		{"step-stage-hrr", stepper + "exercise-hr=130;stage-time=3", scored, ""},

		{"shuttle-leger1989", "age=47.9;shuttle-speed=10", scored, ""},
		{"shuttle-leger1989", "age=48;shuttle-speed=10", refused, "not meant for the age of 48"},
		{"shuttle-leger1989", "age=30;shuttle-speed=8", scored, ""},
		{"shuttle-leger1989", "age=30;shuttle-speed=7.9", refused, "7.9 km/h is outside 8 km/h to 18.5 km/h"},
		{"shuttle-leger1989", "age=30;shuttle-speed=18.5", scored, ""},
		{"shuttle-leger1989", "age=30;shuttle-speed=18.6", refused, "18.6 km/h is outside 8 km/h to 18.5 km/h"},

		{"measured", "measured-vo2max=8", scored, ""},
		{"measured", "measured-vo2max=7.9", refused, "which cannot be"},
		{"measured", "measured-vo2max=97", scored, ""},
		{"measured", "measured-vo2max=97.1", refused, "which cannot be"},
		{"measured", "measured-vo2max=NaN", refused, "which cannot be"},
		{"measured-absolute", "measured-vo2max-abs=3.2", refused, "needs the body mass"},
		{"measured-absolute", "measured-vo2max-abs=8;body-mass=40", refused, "gives a VO2max of 200"},
	} {
		test, eq := equationOf(t, c.equation)
		e := entryOf(t, test.ID, c.text)
		est, refusal := e.EstimateBy(eq)
		got, why := scored, ""
		for _, f := range est.Flags {
			if f.Code == FlagOutsideLimits {
				got, why = flagged, why+f.Detail.String()
			}
		}
		if refusal != nil {
			got, why = refused, refusal.Why.String()
		}
		if got != c.want || !strings.Contains(why, c.why) {
			t.Errorf("%s at %s: %s (%s), want %s (%s)", c.equation, c.text, got, why, c.want, c.why)
		}
		if refusal == nil && est.Valid() != (got == scored) {
			t.Errorf("%s at %s: valid is %v", c.equation, c.text, est.Valid())
		}
	}
}

const (
	walker  = "sex=F;body-mass=60;exercise-hr=120;"
	stepper = "sex=F;age=40;max-hr=180;resting-hr=60;step-rate=24;bench-height=30;"
)

func TestRefusalsSayWhereAndWhatToDo(t *testing.T) {
	for _, c := range []struct {
		test, text string
		want       Refusal
	}{
		{"run-1.5-mile", "age=30;time=5:00", Refusal{Input: Time, Cell: "cell of time", Fix: Verbatim("check the value"), ResultCell: "cell of time"}},
		{"run-1.5-mile", "age=12;time=12:00", Refusal{Input: Age, Cell: "cell of time", Fix: Verbatim("use a test for that age; this one is for 18–60"), ResultCell: "cell of time", OtherTest: true}},
		{"walk-1-mile", "sex=F;age=40;time=15:00;exercise-hr=120", Refusal{Input: BodyMass, Fix: Verbatim("add a column for the body mass"), Missing: true, ResultCell: "cell of time"}},
		{"run-12-minute", "age=40;distance=4999", Refusal{Input: Distance, Cell: "cell of distance", Fix: Verbatim("check the result and what goes with it"), ResultCell: "cell of distance"}},
		{"step-stage", stepper + "exercise-hr=70", Refusal{Input: ExerciseHR, Cell: "cell of exercise-hr", Fix: Verbatim("check the pulse; if it is right, repeat the test with a harder stage"), ResultCell: "cell of exercise-hr"}},
	} {
		got := refused(t, Assess(entryOf(t, c.test, c.text)))
		if got.Test.ID != c.test || got.Why.IsZero() {
			t.Errorf("%s: refusal %+v", c.text, got)
		}
		got = Refusal{Input: got.Input, Cell: got.Cell, Fix: Verbatim(got.Fix.String()), Missing: got.Missing, OtherTest: got.OtherTest, ResultCell: got.ResultCell}
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.text, got, c.want)
		}
	}
}

func TestChoiceAmongEstimates(t *testing.T) {
	for _, c := range []struct {
		name  string
		sheet [][2]string // test, values
		want  []string    // equations, the headline first
	}{
		{"measured before all, though its error of 4.5 is larger", [][2]string{{"step-41-cm", "sex=F;age=20;recovery-hr=140"}, {"measured", "measured-vo2max=90"}}, []string{"measured", "step41-mcardle1972-women"}},
		{"valid before the order of the sheet", [][2]string{{"run-12-minute", "sex=F;age=40;distance=2000"}, {"walk-1-mile", walker + "time=15:00"}}, []string{"walk1-kline1987", "run12-cooper1968"}},
		{"the smaller error among valid ones", [][2]string{{"run-12-minute", "sex=F;age=22;distance=2400"}, {"step-41-cm", "recovery-hr=140"}}, []string{"step41-mcardle1972-women", "run12-cooper1968"}},
		{"an error found on others before a smaller one of the study", [][2]string{{"step-41-cm", "sex=F;age=22;recovery-hr=140"}, {"shuttle-20-m", "shuttle-level=7"}}, []string{"shuttle-leger1989", "step41-mcardle1972-women"}},
		{"the order of the sheet among equals", [][2]string{{"run-12-minute", "age=30;distance=2400"}, {"race", "distance=5000;time=25:00"}}, []string{"run12-cooper1968", "race-daniels-gilbert1979"}},
		{"the order of the sheet, the other way", [][2]string{{"race", "age=30;distance=5000;time=25:00"}, {"run-12-minute", "distance=2400"}}, []string{"race-daniels-gilbert1979", "run12-cooper1968"}},
		{"one estimate of a test", [][2]string{{"run-1.5-mile", "sex=M;age=22;body-mass=70;time=12:00"}}, []string{"run15-acsm"}},
		{"no estimate outside the ages", [][2]string{{"run-1.5-mile", "sex=M;age=40;body-mass=70;time=14:00;effort=steady;exercise-hr=150"}}, nil},
		{"a refused trial leaves the others", [][2]string{{"run-1.5-mile", "age=30;time=2:00"}, {"run-12-minute", "distance=2400"}}, []string{"run12-cooper1968"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := &Entry{}
			for _, row := range c.sheet {
				addTrial(t, e, row[0], row[1])
			}
			s := Assess(e)
			if got := equationIDs(s); !slices.Equal(got, c.want) {
				t.Errorf("%v, want %v; refused %+v", got, c.want, s.Refused)
			}
		})
	}
}

// The parts of an estimate's error, and their sum in quadrature.
func TestErrorOfAnEstimate(t *testing.T) {
	for _, c := range []struct {
		name, test, text        string
		see, fromSteps, outside VO2
	}{
		{"published", "walk-1-mile", walker + "age=40;time=15:00", 5, 0, 0},
		{"outside a limit", "run-12-minute", "age=40;distance=2000", 5, 0, 1},
		{"of unknown age", "run-12-minute", "distance=2400", 5, 0, 1},
		// e^(0.661 + 0.24) (vickers-lab).
		{"of a laboratory", "measured", "measured-vo2max=40", 2.46206, 0, 0},
		// 3.5 + 22.0368 × (180 − 60)/70 = 41.2774; a maximum 11.4 higher adds 22.0368 × 11.4/70.
		{"predicted maximum", "step-stage", "age=40;resting-hr=60;step-rate=24;bench-height=30;exercise-hr=130", 6.19161, 3.58885, 0},
		{"measured maximum", "step-stage", "age=40;max-hr=180;resting-hr=60;step-rate=24;bench-height=30;exercise-hr=130", 6.19161, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Assess(entryOf(t, c.test, c.text))
			e := s.Best()
			if e == nil {
				t.Fatal("not scored")
			}
			if !near(e.SEE, c.see, 1e-4) || !near(e.FromSteps, c.fromSteps, 1e-4) || !near(e.Outside, c.outside, 1e-9) {
				t.Errorf("SEE %.5f, from steps %.5f, outside %.5f; want %.5f, %.5f, %.5f", e.SEE, e.FromSteps, e.Outside, c.see, c.fromSteps, c.outside)
			}
			want := VO2(math.Sqrt(float64(c.see*c.see + c.fromSteps*c.fromSteps + c.outside*c.outside)))
			if !near(e.SD, want, 1e-4) {
				t.Errorf("SD %.5f, want %.5f", e.SD, want)
			}
			if low, high := e.Likely(); !near(low, e.VO2-e.SD, 1e-9) || !near(high, e.VO2+e.SD, 1e-9) {
				t.Errorf("likely %.2f to %.2f around %.2f", low, high, e.VO2)
			}
		})
	}
}

func TestErrorForPeople(t *testing.T) {
	for _, c := range []struct {
		e    ErrorOfEstimate
		want string
	}{
		{ErrorOfEstimate{SEE: 2.87}, "±2.87 mL/kg/min"},
		{ErrorOfEstimate{Curve: func(v VO2) VO2 { return v / 10 }, CurveText: "a tenth"}, "±a tenth mL/kg/min"},
		{ErrorOfEstimate{Share: 0.1, Status: ErrorAssumed}, "±10 % of the value (assumed: error not published)"},
		{AssumedError(), "±5 mL/kg/min (assumed: error not published)"},
	} {
		if got := c.e.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestWithoutSex(t *testing.T) {
	s := Assess(entryOf(t, "run-1.5-mile", "age=45;time=12:00;body-mass=70;resting-hr=60"))
	only(t, s, "run15-acsm") // the one equation that needs no sex
	if len(s.Adults) != 2 || s.Adults[0].Sex != Female || s.Adults[1].Sex != Male {
		t.Errorf("standings %+v, want one for each table", s.Adults)
	}
	if len(s.Resting.Percentiles) != 2 || s.Resting.Percentiles[0].Sex != Female || s.Resting.Percentiles[1].Sex != Male {
		t.Errorf("resting percentiles %+v", s.Resting.Percentiles)
	}
	if !hasFlag(s.Flags, FlagSexMissing) {
		t.Error("nothing says that the sex is missing")
	}
}

func TestWithoutAge(t *testing.T) {
	s := Assess(entryOf(t, "run-1.5-mile", "sex=F;time=12:00;resting-hr=62"))
	only(t, s, "run15-acsm")
	if len(s.Adults)+len(s.Youth) != 0 || !hasFlag(s.Flags, FlagAgeMissing) {
		t.Errorf("standings %v %v, flags %v", s.Adults, s.Youth, flagIDs(s.Flags))
	}
	if s.Resting == nil || s.Resting.IsAdult || len(s.Resting.Percentiles) != 0 {
		t.Errorf("resting %+v", s.Resting)
	}
	if s := Assess(entryOf(t, "run-1.5-mile", "sex=F;time=12:00;resting-hr=104")); !hasFlag(s.Flags, FlagRestingHigh) {
		t.Errorf("someone who may be an adult is not told of a rate of 104: %v", flagIDs(s.Flags))
	}
}

func TestNothingToScore(t *testing.T) {
	s := Assess(&Entry{})
	if s.Best() != nil || len(s.Refused) != 0 || len(s.Flags) != 0 || s.Resting != nil {
		t.Errorf("score %+v", s)
	}
	e := entryOf(t, "run-1.5-mile", "age=30;time=2:00")
	s = Assess(e)
	if s.Best() != nil || s.Entry() != e {
		t.Errorf("best %+v", s.Best())
	}
}

func TestIsYouth(t *testing.T) {
	for age, want := range map[float64]bool{8: true, 17.999: true, 18: false, 45: false} {
		if got := IsYouth(age); got != want {
			t.Errorf("age %g: %v", age, got)
		}
	}
}

func TestFlagsOfTheScore(t *testing.T) {
	for _, c := range []struct {
		name, test, text string
		code             FlagCode
		want             bool
	}{
		{"at 55 by a field test", "run-12-minute", "sex=M;age=25;distance=2966", FlagNearTop, true},
		{"under 55 by a field test", "run-12-minute", "sex=M;age=25;distance=2964", FlagNearTop, false},
		{"above 55 in the laboratory", "measured", "sex=M;age=25;measured-vo2max=60", FlagNearTop, false},
		// Woman: the line is 15; a measured 17.2 ± 2.15 stays above it, 17.1 does not.
		{"independence, above", "measured", "sex=F;age=70;measured-vo2max=17.2", FlagIndependence, false},
		{"independence, near", "measured", "sex=F;age=70;measured-vo2max=17.1", FlagIndependence, true},
		{"independence at 60", "measured", "sex=F;age=60;measured-vo2max=15", FlagIndependence, true},
		{"independence at 59", "measured", "sex=F;age=59.9;measured-vo2max=15", FlagIndependence, false},
		// Man: the line is 18; 20.2 ± 2.19.
		{"independence of a man, above", "measured", "sex=M;age=70;measured-vo2max=20.2", FlagIndependence, false},
		{"independence of a man, near", "measured", "sex=M;age=70;measured-vo2max=20.1", FlagIndependence, true},
		{"no table under 8", "measured", "sex=M;age=7.9;measured-vo2max=45", FlagNoTable, true},
		{"a table at 8", "measured", "sex=M;age=8;measured-vo2max=45", FlagNoTable, false},
		{"assumed error", "run-1.5-mile", "age=40;time=12:00", FlagErrorAssumed, true},
		{"published error", "walk-1-mile", walker + "age=40;time=15:00", FlagErrorAssumed, false},
		{"measured maximum", "step-stage", stepper + "exercise-hr=130", FlagMaxHRPredicted, false},
		{"predicted maximum", "step-stage", "age=40;resting-hr=60;step-rate=24;bench-height=30;exercise-hr=130", FlagMaxHRPredicted, true},
	} {
		s := Assess(entryOf(t, c.test, c.text))
		if s.Best() == nil {
			t.Errorf("%s: not scored: %+v", c.name, s.Refused)
		}
		if got := hasFlag(s.Flags, c.code); got != c.want {
			t.Errorf("%s: flag %s is %v, want %v; all: %v", c.name, c.code.ID(), got, c.want, flagIDs(s.Flags))
		}
	}
}

// Flags are ordered by gravity and said once.
func TestFlagsAreOrdered(t *testing.T) {
	e := entryOf(t, "step-stage", "age=70;resting-hr=48;step-rate=16;bench-height=25;exercise-hr=120")
	s := Assess(e)
	if len(s.Flags) < 4 {
		t.Fatalf("flags %v", flagIDs(s.Flags))
	}
	for i, f := range s.Flags[1:] {
		before := s.Flags[i]
		if before.Code.Severity() < f.Code.Severity() || (before.Code.Severity() == f.Code.Severity() && before.Code > f.Code) {
			t.Errorf("%s stands before %s", before.Code.ID(), f.Code.ID())
		}
		if before == f {
			t.Errorf("%s is said twice", f)
		}
	}
	if s.Flags[0].Code != FlagRestingLow {
		t.Errorf("first is %s", s.Flags[0].Code.ID())
	}
}

// Two tests that differ by more than chance are flagged: a measured 40 ± 2.462 and
// a run with ± 5 from 1.96 × √(2.462² + 5²) = 10.924 on; with the ± 5.10 of a
// short run from 1.96 × √(2.462² + 26) = 11.098 on.
func TestTestsThatDiffer(t *testing.T) {
	for _, c := range []struct {
		distance string // 12-minute run
		flagged  bool
	}{
		{"2782", false}, // 50.908
		{"2783", true},  // 50.931
		{"1798", false}, // 28.909
		{"1797", true},  // 28.887
	} {
		e := &Entry{}
		addTrial(t, e, "measured", "sex=F;age=40;measured-vo2max=40")
		addTrial(t, e, "run-12-minute", "distance="+c.distance)
		if s := Assess(e); hasFlag(s.Flags, FlagTestsDiffer) != c.flagged {
			t.Errorf("%s m (%.3f): flagged %v", c.distance, float64(s.Estimates[1].VO2), !c.flagged)
		}
	}
	// It does not take an age to see it.
	e := &Entry{}
	addTrial(t, e, "measured", "measured-vo2max=57")
	addTrial(t, e, "run-12-minute", "distance=1700")
	if s := Assess(e); !hasFlag(s.Flags, FlagTestsDiffer) {
		t.Errorf("without an age: flags %v", s.Flags)
	}
}

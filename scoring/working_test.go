package scoring_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	. "tenback/scoring"

	"tenback/scoring/fieldtests"
	"tenback/scoring/formula"
)

func TestWorkingOfAWalk(t *testing.T) {
	s := Assess(entryOf(t, "walk-1-mile", "sex=F;age=52;body-mass=130 lb;time=12:45;exercise-hr=147"))
	got := s.Best().Working()
	want := Working{
		Inputs: []WorkingInput{
			{"lb", BodyMass, "body mass", Q(130*0.45359237, Kilograms), "130 lb", "cell of body-mass"},
			{"age", Age, "age", Q(52, Years), "52 years", "cell of age"},
			{"sex", SexInput, "sex", Q(0, MaleOne), "0 male 1, female 0", "cell of sex"},
			{"T", Time, "time", Q(765, Seconds), "12.75 min", "cell of time"},
			{"HR", ExerciseHR, "heart rate at the end of the exercise", Q(147, BeatsPerMinute), "147 beats/min", "cell of exercise-hr"},
		},
		Steps: []WorkingStep{{
			Symbol:  "VO2max",
			Formula: "132.853 − 0.0769 × lb − 0.3877 × age + 6.315 × sex − 3.2649 × T − 0.1565 × HR",
			Numbers: "132.853 − 0.0769 × 130 − 0.3877 × 52 + 6.315 × 0 − 3.2649 × 12.75 − 0.1565 × 147",
			Value:   "38.06 mL/kg/min", Source: "kline1987",
		}},
	}
	if !slices.Equal(got.Inputs, want.Inputs) {
		t.Errorf("inputs\n%+v, want\n%+v", got.Inputs, want.Inputs)
	}
	if !slices.Equal(got.Steps, want.Steps) {
		t.Errorf("steps\n%+v, want\n%+v", got.Steps, want.Steps)
	}
}

// Steps, a look-up and a value as given, and a result in another unit.
func TestWorkingOfSteps(t *testing.T) {
	for _, c := range []struct {
		test, text string
		want       []string // "symbol: numbers = value"
	}{
		{"step-stage", "age=40;resting-hr=60;step-rate=24;bench-height=30;exercise-hr=130", []string{
			"VO2: 0.2 × 24 + 1.33 × 1.8 × 0.3 × 24 + 3.5 = 25.5368 mL/kg/min",
			"HRmax: 208 − 0.7 × 40 = 180 beats/min",
			"reserve: (130 − 60) / (180 − 60) = 0.583333",
			"VO2max: 3.5 + (25.5368 − 3.5) / 0.583333 = 41.28 mL/kg/min"}},
		{"step-stage", "age=40;resting-hr=60;max-hr=190;step-rate=24;bench-height=30;exercise-hr=130", []string{
			"VO2: 0.2 × 24 + 1.33 × 1.8 × 0.3 × 24 + 3.5 = 25.5368 mL/kg/min",
			"HRmax: as given = 190 beats/min",
			"reserve: (130 − 60) / (190 − 60) = 0.538462",
			"VO2max: 3.5 + (25.5368 − 3.5) / 0.538462 = 44.43 mL/kg/min"}},
		{"shuttle-20-m", "age=30;shuttle-level=7;shuttle-in-level=9", []string{
			"S: level 7 not finished (9 shuttles), so level 6 counts = 11 km/h",
			"VO2max: 31.025 + 3.238 × 11 − 3.248 × 18 + 0.1536 × 18 × 11 = 38.59 mL/kg/min"}},
	} {
		s := Assess(entryOf(t, c.test, c.text))
		var got []string
		for _, step := range s.Best().Working().Steps {
			got = append(got, step.Symbol+": "+step.Numbers+step.How.String()+" = "+step.Value)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", c.text, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
	s := Options{Fallback: fieldtests.WithoutExercise()}.Assess(personOf(t, "sex=M;age=40;body-mass=81;stature=180;resting-hr=65;activity-level=3"))
	w := s.Best().Working()
	if got := w.Steps[len(w.Steps)-1].Value; got != "11.7 MET = 40.95 mL/kg/min" {
		t.Errorf("value in MET: %q", got)
	}
}

// Whoever puts the printed numbers into a pocket calculator gets the printed
// result to half of its last digit, and every step on the way to the second
// decimal.
func TestWorkingCanBeRedone(t *testing.T) {
	redo := func(t *testing.T, step WorkingStep, tolerance float64) {
		t.Helper()
		f, err := formula.Compile(readable(step.Numbers), nil)
		if err != nil {
			t.Fatalf("%q: %v", step.Numbers, err)
		}
		printed, err := strconv.ParseFloat(strings.Fields(step.Value)[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Eval(nil); !near(got, printed, tolerance) {
			t.Fatalf("%s: %s = %.5f, printed %s", step.Symbol, step.Numbers, got, step.Value)
		}
	}
	for _, test := range fieldtests.All() {
		for _, eq := range test.Equations {
			t.Run(eq.ID, func(t *testing.T) {
				random, done := randomOf(t.Name()), 0
				for range 400 {
					result := Result{Input: Time}
					if len(test.Results) > 0 {
						result = test.Results[random.IntN(len(test.Results))]
					}
					e := drawPerson(random, test, eq, result)
					est, refusal := e.EstimateBy(eq)
					if refusal != nil {
						continue
					}
					done++
					w := est.Working()
					if len(w.Inputs) != len(eq.Vars) || len(w.Steps) != len(eq.Steps)+1 {
						t.Fatalf("%d inputs and %d steps shown", len(w.Inputs), len(w.Steps))
					}
					for _, step := range w.Steps[:len(w.Steps)-1] {
						if step.Formula != "" {
							redo(t, step, 0.005)
						} else if step.How.IsZero() {
							t.Fatalf("%s: nothing says where it comes from", step.Symbol)
						}
					}
					redo(t, w.Steps[len(w.Steps)-1], 0.0055)
				}
				if done == 0 {
					t.Error("never tried")
				}
			})
		}
	}
}

func TestResultText(t *testing.T) {
	for _, c := range []struct{ test, text, want string }{
		{"run-1.5-mile", "age=30;time=11:30", "11:30"},
		{"run-12-minute", "age=30;distance=2400", "2400 m"},
		{"shuttle-20-m", "age=30;shuttle-level=7", "level 7"},
		{"shuttle-20-m", "age=30;shuttle-level=7;shuttle-in-level=10", "level 7.10"},
		{"shuttle-20-m", "age=30;shuttle-laps=60", "60 laps"},
		{"shuttle-20-m", "age=30;shuttle-speed=11.5", "11.5 km/h"},
		{"measured", "age=30;measured-vo2max=45.2", "45.2 mL/kg/min"},
	} {
		s := Assess(entryOf(t, c.test, c.text))
		if got := s.Best().ResultText(); got != c.want {
			t.Errorf("%s: %q, want %q", c.text, got, c.want)
		}
	}
	fallback := Options{Fallback: fieldtests.WithoutExercise(), Equations: []string{"uth2004"}}.Assess(personOf(t, "sex=M;age=40;resting-hr=60"))
	if got := fallback.Best().ResultText(); got != "" {
		t.Errorf("without a test: %q", got)
	}
}

var squared = regexp.MustCompile(`([A-Za-z]+|[0-9.]+)²`)

// readable turns a printed formula back into what Compile reads.
func readable(printed string) string {
	plain := squared.ReplaceAllString(printed, "$1*$1")
	return strings.NewReplacer("×", "*", "−", "- ").Replace(plain)
}

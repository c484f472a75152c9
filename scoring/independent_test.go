package scoring

import (
	"math/rand/v2"
	"testing"
)

// retyped holds every equation a second time, as plain arithmetic typed from
// the catalogue of published equations and not from the declarations.
// in gives an input in the unit in which it is stored: kg, s, m, cm, beats/min,
// sex male 1.
var retyped = map[string]func(in func(Input) float64) float64{
	"measured":          func(in func(Input) float64) float64 { return in(MeasuredVO2) },
	"measured-absolute": func(in func(Input) float64) float64 { return in(MeasuredVO2Abs) * 1000 / in(BodyMass) },

	"run15-george1993": func(in func(Input) float64) float64 {
		return 88.02 + 3.716*in(SexInput) - 2.767*minutes(in) - 0.1656*in(BodyMass)
	},
	"run15-acsm": func(in func(Input) float64) float64 { return 483/minutes(in) + 3.5 },
	"run15-larsen2002-hr": func(in func(Input) float64) float64 {
		return 7.301*in(SexInput) + 100.162 - 1.273*minutes(in) - 0.156*in(ExerciseHR) - 0.164*in(BodyMass)
	},
	"run15-larsen2002": func(in func(Input) float64) float64 {
		return 7.707*in(SexInput) + 65.404 - 0.843*minutes(in) - 0.159*in(BodyMass)
	},
	"run12-cooper1968": func(in func(Input) float64) float64 { return in(Distance)/44.73 - 504.9/44.73 },
	"walk1-kline1987": func(in func(Input) float64) float64 {
		return 6.315*in(SexInput) + 132.853 - 3.2649*minutes(in) - 0.1565*in(ExerciseHR) - 0.3877*in(Age) - 0.0769*pounds(in)
	},
	"shuttle-leger1989": func(in func(Input) float64) float64 {
		return -27.439 + 6.0028*in(ShuttleSpeed)
	},
	"shuttle-leger1988": func(in func(Input) float64) float64 {
		s, a := in(ShuttleSpeed), in(Age)
		return 31.025 + s*(3.238+0.1536*a) - 3.248*a
	},
	"step41-mcardle1972-women": func(in func(Input) float64) float64 { return -0.1847*in(RecoveryHR) + 65.81 },
	"step41-mcardle-men":       func(in func(Input) float64) float64 { return -0.42*in(RecoveryHR) + 111.33 },
	"step-stage-hrr": func(in func(Input) float64) float64 {
		f, h := in(StepRate), in(BenchHeight)/100
		net := 0.2*f + 2.394*h*f
		return 3.5 + net*(in(MaxHR)-in(RestingHR))/(in(ExerciseHR)-in(RestingHR))
	},
}

func minutes(in func(Input) float64) float64 { return in(Time) / 60 }
func pounds(in func(Input) float64) float64  { return in(BodyMass) / 0.45359237 }

// usual bounds the random inputs to what a person could bring to a test.
// Inputs not named here are drawn from their whole range.
var usual = map[Input][2]float64{
	Age: {18, 80}, BodyMass: {40, 140}, RestingHR: {40, 90}, MaxHR: {150, 210},
	Time: {400, 1500}, Distance: {900, 4000}, ExerciseHR: {100, 149},
}

func TestEveryEquationAgainstASecondTyping(t *testing.T) {
	random := rand.New(rand.NewPCG(1987, 1993))
	for _, test := range Tests() {
		for _, eq := range test.Equations {
			t.Run(eq.ID, func(t *testing.T) {
				second, ok := retyped[eq.ID]
				if !ok {
					t.Fatal("type the equation a second time, from its paper, in retyped")
				}
				for range 500 {
					e := Entry{Trials: []Trial{{Test: test}}}
					drawn := map[Input]float64{}
					for in := Input(0); in < InputCount; in++ {
						info := in.Info()
						low, high := info.Min, info.Max
						if b, ok := usual[in]; ok {
							low, high = b[0], b[1]
						}
						x := low + random.Float64()*(high-low)
						if in == SexInput {
							x = float64(random.IntN(2))
						}
						drawn[in] = x
						e.Set(in, Q(x, info.Unit), "")
					}
					c := Case{entry: &e, trial: &e.Trials[0], equation: eq}
					// A look-up reads the trial's own values.
					for in := Input(0); in < InputCount; in++ {
						if !in.Info().Personal {
							e.Trials[0].Set(in, Q(drawn[in], in.Info().Unit), "")
						}
					}
					if refusal := c.fill(); refusal != nil {
						t.Fatal(refusal.Why)
					}
					want := second(func(in Input) float64 {
						x, ok := drawn[in]
						if !ok {
							t.Fatalf("%s was not drawn", in)
						}
						return x
					})
					// −27.439 and 6.0028 are rounded by up to half a digit.
					tolerance := 1e-9
					if eq.ID == "shuttle-leger1989" {
						tolerance = 0.002
					}
					if got := float64(c.value()); !near(got, want, tolerance) {
						t.Fatalf("%.6f, by the second typing %.6f, at %v", got, want, drawn)
					}
				}
			})
		}
	}
}

// The second typing names no equation that is gone.
func TestSecondTypingNamesDeclaredEquations(t *testing.T) {
	for id := range retyped {
		equationOf(t, id)
	}
}

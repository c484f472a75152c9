package fieldtests

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"tenback/scoring"
	"tenback/scoring/formula"
)

// The oxygen cost of steady exercise (mL/kg/min), resting uptake included.
// Source: acsm, as restated by Bushman 2020. Worked examples: 30 step cycles a
// minute on 12 in: 31.4; 24 on 15 in: 30.2; 62 kg at 450 kgm/min on a cycle:
// 20; walking 93.8 m/min up 10 %: 29.76.
const (
	stepCost  = "0.2*f + 1.33*1.8*h*f + 3.5" // f cycles/min, h metres
	cycleCost = "10.8*W/kg + 7"              // W watts, kg body mass
	walkCost  = "0.1*v + 1.8*v*g + 3.5"      // v m/min, g slope as a fraction
	runCost   = "0.2*v + 0.9*v*g + 3.5"
)

// stages are the loads and heart rates of a submaximal test with more than one
// stage. The bench height and the body mass stay the same throughout.
type stages struct {
	cost  func() *formula.Formula                         // of slots filled by load
	load  [4][]scoring.Input                              // inputs of each stage's load
	slots func(c *scoring.Case, load []float64) []float64 // load in the units of the cost
	held  []scoring.Input                                 // what every stage needs besides: bench height, body mass
}

var stageHR = [4]scoring.Input{scoring.ExerciseHR, scoring.StageHR2, scoring.StageHR3, scoring.StageHR4}

// count is the number of stages with both a load and a heart rate.
func (s *stages) count(c *scoring.Case) int {
	n := 0
	for i := range stageHR {
		if s.has(c, i) {
			n++
		}
	}
	return n
}

func (s *stages) has(c *scoring.Case, i int) bool {
	if _, ok := c.Get(stageHR[i]); !ok {
		return false
	}
	_, ok := c.Get(s.load[i][0])
	return ok
}

// incomplete refuses a stage with a heart rate and no load, and stages without what
// they share. A load without a heart rate is fine, because sheets hold planned loads.
func (s *stages) incomplete(c *scoring.Case) *scoring.Refusal {
	needs := s.held
	for i, hr := range stageHR {
		if _, ok := c.Get(hr); ok {
			needs = append(needs[:len(needs):len(needs)], s.load[i]...)
		}
	}
	for _, in := range needs {
		if _, ok := c.Get(in); !ok {
			return c.Missing(in)
		}
	}
	return nil
}

// points gives heart rate and oxygen cost of every stage.
func (s *stages) points(c *scoring.Case) (hr, vo2 []float64) {
	for i := range stageHR {
		if !s.has(c, i) {
			continue
		}
		load := make([]float64, len(s.load[i]))
		for j, in := range s.load[i] {
			if q, ok := c.Get(in); ok {
				load[j] = q.Amount
			}
		}
		q, _ := c.Get(stageHR[i])
		hr = append(hr, q.Amount)
		vo2 = append(vo2, s.cost().Eval(s.slots(c, load)))
	}
	return hr, vo2
}

// lineSteps are slope and intercept of the line of oxygen cost on heart rate. The
// intercept carries the line's standard error at maximum heart rate, from the scatter
// of three or more stages; for two stages 10 % of the value is assumed.
func (s *stages) lineSteps() []scoring.Step {
	line := func(c *scoring.Case) (a, b float64, how scoring.Said, hr, vo2 []float64, refusal *scoring.Refusal) {
		hr, vo2 = s.points(c)
		if !rises(hr, vo2) {
			return 0, 0, scoring.Said{}, nil, nil, c.Refuse(scoring.StageHR2, sayNoRise, sayCheckStages)
		}
		if slices.Max(hr)-slices.Min(hr) < leastSpread {
			return 0, 0, scoring.Said{}, nil, nil, c.Refuse(scoring.StageHR2, sayTooNear.With(scoring.Q(leastSpread, scoring.BeatsPerMinute)), sayWiderStages)
		}
		a, b = stat.LinearRegression(hr, vo2, nil, false)
		var points []string
		for i := range hr {
			points = append(points, fmt.Sprintf("(%.0f, %.2f)", hr[i], vo2[i]))
		}
		return a, b, sayLine.With(strings.Join(points, " ")), hr, vo2, nil
	}
	return []scoring.Step{
		{Symbol: "b", Name: "slope of the line", Unit: scoring.NoUnit, Source: "golding1989", Lookup: func(c *scoring.Case) (scoring.Found, *scoring.Refusal) {
			_, b, how, _, _, refusal := line(c)
			return scoring.Found{Value: b, How: how}, refusal
		}},
		{Symbol: "a", Name: "intercept of the line", Unit: scoring.MLPerKgMin, Source: "golding1989", Lookup: func(c *scoring.Case) (scoring.Found, *scoring.Refusal) {
			a, b, how, hr, vo2, refusal := line(c)
			if refusal != nil {
				return scoring.Found{}, refusal
			}
			top, _ := c.TopHR()
			return scoring.Found{Value: a, How: how, Error: lineError(a, b, top, hr, vo2)}, nil
		}},
	}
}

// leastSpread is the least distance (beats/min) from the first stage to the last, so that
// a beat does not tilt the line far. Our own bound.
const leastSpread = 20

// rises reports whether each higher load has a higher heart rate.
func rises(hr, vo2 []float64) bool {
	for i := range hr {
		for j := range hr {
			if vo2[i] < vo2[j] && hr[i] >= hr[j] {
				return false
			}
		}
	}
	return true
}

// lineError is the standard error of the line's value at x.
//
//	s √(1 + 1/n + (x − x̄)²/Σ(xᵢ − x̄)²),  s² = Σ(yᵢ − a − b xᵢ)²/(n − 2)
func lineError(a, b, x float64, xs, ys []float64) float64 {
	n := float64(len(xs))
	if n < 3 {
		return 0.10 * (a + b*x)
	}
	mean := stat.Mean(xs, nil)
	var residual, spread float64
	for i := range xs {
		r := ys[i] - a - b*xs[i]
		residual += r * r
		spread += (xs[i] - mean) * (xs[i] - mean)
	}
	return math.Sqrt(residual / (n - 2) * (1 + 1/n + (x-mean)*(x-mean)/spread))
}

// lineEquation extrapolates the line through two or more stages to the maximum
// heart rate. General error of such tests: 10-15 %.
func (s *stages) lineEquation(id string) *scoring.Equation {
	return &scoring.Equation{
		ID: id, Name: "straight line through two or more stages to maximum heart rate",
		Vars:    []scoring.Var{bind("age", scoring.Age, scoring.Years)},
		Steps:   append([]scoring.Step{scoring.MaxHRStep()}, s.lineSteps()...),
		Formula: "a + b*HRmax", NoTarget: true, // a change in one stage tilts the line
		Ages: scoring.Adults, Population: "general practice; 13 people of about 22 for stepping (Buckley 2004)",
		When: func(c *scoring.Case) *scoring.Refusal {
			if refusal := s.incomplete(c); refusal != nil {
				return refusal
			}
			if s.count(c) < 2 {
				return c.NotFor(sayOneStage)
			}
			return checkStage(c)
		},
		Error:       scoring.ErrorOfEstimate{Share: 0.05, Status: scoring.ErrorAssumed, Note: "error not published; 5% of the value is an assumption, to which the line's own error and that of a predicted maximum heart rate are added"},
		Correlation: "not published", Source: "golding1989", Status: "form seen in a textbook; 10-15% is given as the general error",
	}
}

// reserveStep is the share of the heart-rate reserve that one stage used.
func reserveStep() scoring.Step {
	return scoring.Step{Symbol: "reserve", Name: "share of heart-rate reserve used", Unit: scoring.NoUnit, Formula: "(HR - HRrest)/(HRmax - HRrest)", Source: "swain1997"}
}

// reserveLimit is our own, from 36 stages of the people of astrand1964: below half of the
// reserve the error is 24 % of the value, above it 17 %.
var reserveLimit = scoring.Limit{Symbol: "reserve", Min: 0.50, Max: 1.05, Refuse: true, Why: "one stage tells enough only from half of the heart-rate reserve"}

// checkReserve refuses a pulse below half of the reserve, in beats a minute.
func checkReserve(c *scoring.Case) *scoring.Refusal {
	pulse, has := c.Get(scoring.ExerciseHR)
	rest, hasRest := c.Get(scoring.RestingHR)
	top, hasTop := c.TopHR()
	least := rest.Amount + reserveLimit.Min*(top-rest.Amount)
	if !has || !hasRest || !hasTop || pulse.Amount >= least {
		return nil
	}
	return c.Refuse(scoring.ExerciseHR, sayEasyStage.With(pulse, scoring.Q(math.Ceil(least), scoring.BeatsPerMinute)), sayHarderStage)
}

// oneStage reads a single stage: its share of the heart-rate reserve is that of the
// uptake reserve.
func (s *stages) oneStage(id, name string, vars []scoring.Var, cost string, limits ...scoring.Limit) *scoring.Equation {
	return &scoring.Equation{
		ID: id, Name: name + " and heart-rate reserve, one stage",
		Vars: append(vars, bind("HR", scoring.ExerciseHR, scoring.BeatsPerMinute), bind("HRrest", scoring.RestingHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years)),
		Steps: []scoring.Step{
			{Symbol: "VO2", Name: "uptake of this exercise", Unit: scoring.MLPerKgMin, Formula: cost, Source: "acsm"},
			scoring.MaxHRStep(), reserveStep(),
		},
		Formula: "3.5 + (VO2 - 3.5)/reserve",
		Ages:    scoring.Adults, Population: "heart-rate reserve: 63 adults on a cycle, 50 on a treadmill; stepping cost: 55 adults of 19-35",
		When: func(c *scoring.Case) *scoring.Refusal {
			if refusal := s.incomplete(c); refusal != nil {
				return refusal
			}
			if s.count(c) > 1 {
				return c.NotFor(saySeveralStages)
			}
			if refusal := checkStage(c); refusal != nil {
				return refusal
			}
			return checkReserve(c)
		},
		Limits: append(limits, reserveLimit),
		Error:  stageError, Correlation: "within a person 0.99; between people not published", Source: "swain1997",
		Status: "both parts seen in abstracts; joining them is common practice",
	}
}

// Reasons and details.
var (
	sayNoRise        = phrases.Say("no-rise", "the heart rate does not rise with the load")
	sayTooNear       = phrases.Phrase("stages-too-near", "the stages lie less than {Spread} apart, so one beat would change the result by much")
	sayWiderStages   = phrases.Say("wider-stages", "repeat it with a harder last stage")
	sayCheckStages   = phrases.Say("check-stages", "check the heart rates and loads of the stages")
	sayOneStage      = phrases.Say("one-stage", "only one stage was done")
	sayEasyStage     = phrases.Phrase("easy-stage", "a pulse of {Rate} is too far from this person's maximum for one stage, which needs {Least} or more")
	sayHarderStage   = phrases.Say("harder-stage", "check the pulse; if it is right, repeat the test with a harder stage")
	saySeveralStages = phrases.Say("several-stages", "several stages were done, and a line through them says more")
	sayLine          = phrases.Phrase("line", "least squares through (heart rate, uptake) {Points}")
)

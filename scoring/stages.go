package scoring

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/stat"
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
	cost  *formula                                // of slots filled by load
	load  [4][]Input                              // inputs of each stage's load
	slots func(c *Case, load []float64) []float64 // load in the units of the cost
	held  []Input                                 // what every stage needs besides: bench height, body mass
}

var stageHR = [4]Input{ExerciseHR, StageHR2, StageHR3, StageHR4}

// count is the number of stages with both a load and a heart rate.
func (s *stages) count(c *Case) int {
	n := 0
	for i := range stageHR {
		if s.has(c, i) {
			n++
		}
	}
	return n
}

func (s *stages) has(c *Case, i int) bool {
	if _, ok := c.Get(stageHR[i]); !ok {
		return false
	}
	_, ok := c.Get(s.load[i][0])
	return ok
}

// incomplete refuses a stage whose heart rate is there and whose load is not,
// and stages without what holds for all of them. A load without a heart rate
// is no fault: sheets carry the loads that were planned.
func (s *stages) incomplete(c *Case) *Refusal {
	needs := s.held
	for i, hr := range stageHR {
		if _, ok := c.Get(hr); ok {
			needs = append(needs[:len(needs):len(needs)], s.load[i]...)
		}
	}
	for _, in := range needs {
		if _, ok := c.Get(in); !ok {
			return missing(c.trial.Test, in)
		}
	}
	return nil
}

// points gives heart rate and oxygen cost of every stage.
func (s *stages) points(c *Case) (hr, vo2 []float64) {
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
		vo2 = append(vo2, s.cost.eval(s.slots(c, load)))
	}
	return hr, vo2
}

// lineSteps are slope and intercept of the straight line of oxygen cost on
// heart rate. The intercept carries the line's own standard error at maximum
// heart rate: from the scatter of three or more stages; two stages have no
// scatter, so 10 % of the value is assumed.
func (s *stages) lineSteps() []Step {
	line := func(c *Case) (a, b float64, how Said, hr, vo2 []float64, refusal *Refusal) {
		hr, vo2 = s.points(c)
		a, b = stat.LinearRegression(hr, vo2, nil, false)
		var points []string
		for i := range hr {
			points = append(points, fmt.Sprintf("(%.0f, %.2f)", hr[i], vo2[i]))
		}
		if !(b > 0) || math.IsInf(b, 0) {
			return 0, 0, Said{}, nil, nil, c.refuse(StageHR2, sayNoRise.With(), sayCheckStages.With())
		}
		return a, b, sayLine.With(strings.Join(points, " ")), hr, vo2, nil
	}
	return []Step{
		{Symbol: "b", Name: "slope of the line", Unit: NoUnit, Source: "golding1989", Lookup: func(c *Case) (Found, *Refusal) {
			_, b, how, _, _, refusal := line(c)
			return Found{Value: b, How: how}, refusal
		}},
		{Symbol: "a", Name: "intercept of the line", Unit: MLPerKgMin, Source: "golding1989", Lookup: func(c *Case) (Found, *Refusal) {
			a, b, how, hr, vo2, refusal := line(c)
			if refusal != nil {
				return Found{}, refusal
			}
			top, _ := maxHR(c)
			return Found{Value: a, How: how, Error: lineError(a, b, top, hr, vo2)}, nil
		}},
	}
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
func (s *stages) lineEquation(id string) *Equation {
	return &Equation{
		ID: id, Name: "straight line through two or more stages to maximum heart rate",
		Vars:    []Var{{"age", Age, Years}},
		Steps:   append([]Step{maxHRStep()}, s.lineSteps()...),
		Formula: "a + b*HRmax", NoTarget: true, // a change in one stage tilts the line
		Ages: adults, Accepts: adults, Population: "general practice; 13 people of about 22 for stepping (Buckley 2004)",
		When: func(c *Case) *Refusal {
			if refusal := s.incomplete(c); refusal != nil {
				return refusal
			}
			if s.count(c) < 2 {
				return c.notFor(sayOneStage)
			}
			return checkStage(c)
		},
		Error:       ErrorOfEstimate{Share: 0.05, Status: ErrorAssumed, Note: "error not published; 5% of the value is an assumption, to which the line's own error and that of a predicted maximum heart rate are added"},
		Correlation: "not published", Source: "golding1989", Status: "form seen in a textbook; 10-15% is given as the general error",
	}
}

// reserveStep is the share of the heart-rate reserve that one stage used.
func reserveStep() Step {
	return Step{Symbol: "reserve", Name: "share of heart-rate reserve used", Unit: NoUnit, Formula: "(HR - HRrest)/(HRmax - HRrest)", Source: "swain1997"}
}

var reserveLimits = []Limit{
	{Symbol: "reserve", Min: 0.20, Max: 1.05, Refuse: true, Why: "the heart rate must lie well between rest and maximum"},
	{Symbol: "reserve", Min: 0.40, Max: 0.85, Why: "best between 0.40 and 0.85 of the heart-rate reserve (our own bounds)"},
}

// oneStage reads a single stage through the heart-rate reserve: its share of
// the reserve equals the share of the uptake reserve.
func (s *stages) oneStage(id, name string, vars []Var, cost string, limits ...Limit) *Equation {
	return &Equation{
		ID: id, Name: name + " and heart-rate reserve, one stage",
		Vars: append(vars, Var{"HR", ExerciseHR, BeatsPerMinute}, Var{"HRrest", RestingHR, BeatsPerMinute}, Var{"age", Age, Years}),
		Steps: []Step{
			{Symbol: "VO2", Name: "uptake of this exercise", Unit: MLPerKgMin, Formula: cost, Source: "acsm"},
			maxHRStep(), reserveStep(),
		},
		Formula: "3.5 + (VO2 - 3.5)/reserve",
		Ages:    adults, Accepts: adults, Population: "heart-rate reserve: 63 adults on a cycle, 50 on a treadmill; stepping cost: 55 adults of 19-35",
		When: func(c *Case) *Refusal {
			if refusal := s.incomplete(c); refusal != nil {
				return refusal
			}
			if s.count(c) > 1 {
				return c.notFor(saySeveralStages)
			}
			return checkStage(c)
		},
		Limits: append(limits, reserveLimits...),
		Error:  stageError, Correlation: "within a person 0.99; between people not published", Source: "swain1997",
		Status: "both parts seen in abstracts; joining them is common practice",
	}
}

package fieldtests

import (
	"math"

	"tenback/scoring"
	"tenback/scoring/reference"
)

var step41Pulse = scoring.Limit{Symbol: "HR", Min: 80, Max: 210, Refuse: true, Why: "no pulse for this test; it is the 15-second count times 4"}

var step41Cm = &scoring.Test{
	ID: "step-41-cm", Name: "3-minute step test (41.3 cm)",
	Names: []string{"3 minute step test", "3 min step test", "step test 41 cm", "41 cm step test", "3-min step"},
	Results: []scoring.Result{{Input: scoring.RecoveryHR, Column: "41 cm step recovery pulse", Headers: []string{"step test recovery heart rate", "step recovery HR", "3 min step pulse", "recovery heart rate", "recovery pulse"},
		Step: scoring.Q(4, scoring.BeatsPerMinute), Better: scoring.LowerIsBetter, Phrase: "a recovery pulse of %s beats/min"}},
	Suits:    "Young adults, many at once on gymnasium benches. The bench is high: not for short people, sore knees or unsteady ones.",
	Ceiling:  afterStepping,
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Bench of 41.3 cm. Metronome at 88 for women (22 cycles a minute), 96 for men (24). Step three minutes.",
		"Stay standing. Count the pulse from second 5 to second 20 after stopping and multiply by 4.",
	},
	Day: &scoring.Day{Say: "step", WarmUp: "recovery", Clock: "step-41-cm", AtOnce: 12, Minutes: 12, PerHelper: 3,
		Needs: "benches", PerStation: 3, Count: scoring.Count15, Cadence: []int{22, 24}},
	Choice: "The only equations for this bench. They have no term for age, so they stop at 35 (our own), and at the maximum pulse for the age.",
	Equations: []*scoring.Equation{
		{
			// Check value: a count of 33, so 132 beats/min, gives 41.43 (input from
			// a public teaching page, output worked out here).
			ID: "step41-mcardle1972-women", Name: "McArdle 1972, women",
			Vars:    []scoring.Var{bind("HR", scoring.RecoveryHR, scoring.BeatsPerMinute)},
			Formula: "65.81 - 0.1847*HR", Sex: scoring.Female,
			Ages: step41Ages, When: belowTop, Population: "41 college women; the ages are taken as 18-25, and used to 35",
			Limits: []scoring.Limit{step41Pulse},
			Error:  scoring.ForNewPeople(2.9, 41, 1), Correlation: "−0.75", Source: "mcardle1972",
			Retest: fromReliability(0.78, 3.3, "reliability of the recovery pulse 0.78 to 0.92",
				"the lower figure, with the 3.3 mL/kg/min by which estimates spread there (0.75 of 2.9/√(1 − 0.75²)); own arithmetic", "mcardle1972"),
			Outside: []scoring.Check{{People: 99, Who: "students of both sexes of about 22", Bias: -0.4, Source: "qcst-thieme"}},
			Status:  "error and correlation seen in the abstract; equation in many secondary texts",
		},
		{
			// Check value: 132 beats/min gives 55.89 (worked out here).
			ID: "step41-mcardle-men", Name: "McArdle textbook, men",
			Vars:    []scoring.Var{bind("HR", scoring.RecoveryHR, scoring.BeatsPerMinute)},
			Formula: "111.33 - 0.42*HR", Sex: scoring.Male,
			Ages: step41Ages, When: belowTop, Population: "college men; not part of the 1972 paper",
			Limits: []scoring.Limit{step41Pulse},
			Error:  scoring.AssumedError(), Correlation: "not published", Source: "mcardle-textbook",
			Status: "seen in many secondary texts; its origin is from memory",
		},
	},
	Sources: []scoring.Source{
		{Key: "mcardle-textbook", Citation: "McArdle WD, Katch FI, Katch VL. Exercise Physiology (textbook): the men's form, without a printed error."},
		{Key: "qcst-thieme", Citation: "Comparison of two step-test equations in 99 students, doi 10.1055/a-1310-3900 (abstract; authors not seen)."},
		{Key: "mcardle1972", Citation: "McArdle WD, Katch FI, Pechar GS, Jacobson L, Ruck S. Reliability and interrelationships between maximal oxygen intake, physical work capacity and step-test scores in college women. Med Sci Sports 1972;4(4):182-186."},
	},
}

// step41Ages are our own bounds: the equations have no term for age, and would call a
// woman of 80 with a slow recovery very fit.
var step41Ages = reference.Ages{Min: 18, Max: 35}

// belowTop refuses a recovery pulse above the maximum for the age.
func belowTop(c *scoring.Case) *scoring.Refusal {
	pulse, ok := c.Get(scoring.RecoveryHR)
	top, hasTop := c.TopHR()
	if ok && hasTop && pulse.Amount > top {
		return c.Refuse(scoring.RecoveryHR, sayAboveTop.With(pulse, scoring.Q(math.Round(top), scoring.BeatsPerMinute)), sayCountAgain)
	}
	return nil
}

var (
	sayAboveTop   = phrases.Phrase("recovery-above-top", "a pulse of {Rate} after stepping is above the maximum of about {Maximum}")
	sayCountAgain = phrases.Say("count-again", "check the pulse; count it again in a repeat of the test")
)

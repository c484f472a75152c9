package fieldtests

import (
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
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Bench of 41.3 cm. Metronome at 88 for women (22 cycles a minute), 96 for men (24). Step three minutes.",
		"Stay standing. Count the pulse from second 5 to second 20 after stopping and multiply by 4.",
	},
	Day: &scoring.Day{Say: "step", WarmUp: "recovery", Clock: "step-41-cm", AtOnce: 12, Minutes: 12, PerHelper: 3,
		Needs: "benches", PerStation: 3, Count: scoring.Count15, Cadence: []int{22, 24}},
	Equations: []*scoring.Equation{
		{
			// Check value: a count of 33, so 132 beats/min, gives 41.43 (input from
			// a public teaching page, output worked out here).
			ID: "step41-mcardle1972-women", Name: "McArdle 1972, women",
			Vars:    []scoring.Var{bind("HR", scoring.RecoveryHR, scoring.BeatsPerMinute)},
			Formula: "65.81 - 0.1847*HR", Sex: scoring.Female,
			Ages: reference.Ages{Min: 18, Max: 25}, Accepts: scoring.Adults, Population: "41 college women; the ages are taken as 18-25",
			Limits: []scoring.Limit{step41Pulse},
			Error:  scoring.ErrorOfEstimate{SEE: 2.9}, Correlation: "−0.75", Source: "mcardle1972",
			Retest: fromReliability(0.78, 3.3, "reliability of the recovery pulse 0.78 to 0.92",
				"the lower figure, with the 3.3 mL/kg/min by which estimates spread there (0.75 of 2.9/√(1 − 0.75²)); own arithmetic", "mcardle1972"),
			Status: "error and correlation seen in the abstract; equation in many secondary texts",
		},
		{
			// Check value: 132 beats/min gives 55.89 (worked out here).
			ID: "step41-mcardle-men", Name: "McArdle textbook, men",
			Vars:    []scoring.Var{bind("HR", scoring.RecoveryHR, scoring.BeatsPerMinute)},
			Formula: "111.33 - 0.42*HR", Sex: scoring.Male,
			Ages: reference.Ages{Min: 18, Max: 25}, Accepts: scoring.Adults, Population: "college men; not part of the 1972 paper",
			Limits: []scoring.Limit{step41Pulse},
			Error:  scoring.AssumedError(), Correlation: "not published", Source: "mcardle-textbook",
			Status: "seen in many secondary texts; its origin is from memory",
		},
	},
	Sources: []scoring.Source{
		{Key: "mcardle-textbook", Citation: "McArdle WD, Katch FI, Katch VL. Exercise Physiology (textbook): the men's form, without a printed error."},
		{Key: "mcardle1972", Citation: "McArdle WD, Katch FI, Pechar GS, Jacobson L, Ruck S. Reliability and interrelationships between maximal oxygen intake, physical work capacity and step-test scores in college women. Med Sci Sports 1972;4(4):182-186."},
	},
}

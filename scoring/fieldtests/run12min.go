package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var run12Minute = &scoring.Test{
	ID: "run-12-minute", Name: "12-minute run",
	Names: []string{"12 minute run", "12 min run", "12-min run", "twelve minute run", "12'"},
	Results: []scoring.Result{{Input: scoring.Distance, Column: "12 minute run distance (m)", Headers: []string{"12 minute run", "12 min run", "12 min distance", "12 minute distance"},
		Step: scoring.Q(10, scoring.Metres), Better: scoring.HigherIsBetter, Phrase: "%s m in 12 minutes"}},
	Suits:    "Adults used to running. Not advised for people of 40 and over who sit most of the day.",
	Exertion: scoring.AllOut,
	Protocol: []string{
		"Track or marked course; markers every 50 m make the distance easy to read.",
		"Warm up for ten minutes. Cover as much ground as you can in 12 minutes; walking is allowed.",
		"On the whistle everyone stops where they are. Write the distance in metres.",
	},
	Day: &scoring.Day{Say: "run-12-minute", WarmUp: "run", AtOnce: 15, Minutes: 30, PerHelper: 5,
		Needs: "markers", Laps: 9, RunFor: 12 * 60},
	Choice: "The only equation with a study. Its people were 17 to 52; below 1600 m most of the distance is walked (our own bound). Children are not read by it.",
	Equations: []*scoring.Equation{{
		// Worked example: 2800 m gives 51.31 (a public worked-example page).
		ID: "run12-cooper1968", Name: "Cooper 1968",
		Vars:    []scoring.Var{bind("d", scoring.Distance, scoring.Metres)},
		Formula: "(d - 504.9)/44.73",
		Ages:    reference.Ages{Min: 17, Max: 52}, Population: "115 men of the US Air Force, 17-52, most under 25",
		Limits: []scoring.Limit{
			{Symbol: "d", Min: 900, Max: 5000, Refuse: true, Why: "no distance for 12 minutes on foot"},
			{Symbol: "d", Min: 1600, Max: 5000, Refuse: true, Why: "no distance for 12 minutes at a run; less is partly walked"},
			{Symbol: "d", Min: 2250, Max: 5000, Why: "the study found it truest from 2250 m up"},
		},
		Error: scoring.AssumedError(), Correlation: "0.897", Source: "cooper1968",
		Status: "correlation and number seen in the abstract; equation in secondary texts",
		Notes:  []string{"made on men only; used for all, as is common practice (no source)"},
	}},
	Youth: true,
	Sources: []scoring.Source{
		{Key: "cooper1968", Citation: "Cooper KH. A means of assessing maximal oxygen intake. JAMA 1968;203(3):201-204."},
	},
}

package fieldtests

import "tenback/scoring"

var race = &scoring.Test{
	ID: "race", Name: "Race result",
	Names: []string{"race", "race time", "running race", "time trial"},
	Results: []scoring.Result{{Input: scoring.Time, Column: "Race time", Headers: []string{"race result"},
		Step: scoring.Q(1, scoring.Seconds), Better: scoring.LowerIsBetter, Phrase: "the same distance in %s"}},
	Also:     []scoring.Also{{Input: scoring.Distance, Column: "Race distance (m)", Headers: []string{"race distance"}}},
	Suits:    "Runners with a recent all-out race from 1500 m to the marathon. It rates running, economy included, and is no measured uptake.",
	Exertion: scoring.AllOut,
	Protocol: []string{
		"A measured course and an all-out effort in fair weather.",
		"Write the distance in metres and the time.",
	},
	Day: &scoring.Day{Say: "race", WarmUp: "run", AtOnce: 20, Minutes: 60, PerHelper: 10,
		Needs: "course"},
	Choice: "The only form in common use. It rates running, and no study gives its error.",
	Equations: []*scoring.Equation{{
		// Worked examples: 5000 m in 30:40 is index 30, in 18:22 index 55
		// (a public list; the formula gives 30.02 and 55.01).
		ID: "race-daniels-gilbert1979", Name: "Daniels and Gilbert 1979, running index",
		Vars: []scoring.Var{bind("d", scoring.Distance, scoring.Metres), bind("T", scoring.Time, scoring.Minutes)},
		Steps: []scoring.Step{
			{Symbol: "v", Name: "mean speed", Unit: scoring.MetresPerMinute, Formula: "d/T", Source: "daniels1979"},
			{Symbol: "VO2", Name: "oxygen cost at that speed", Unit: scoring.MLPerKgMin, Formula: "-4.60 + 0.182258*v + 0.000104*v*v", Source: "daniels1979"},
			{Symbol: "F", Name: "share of the maximum that can be held for that time", Unit: scoring.NoUnit,
				Formula: "0.8 + 0.1894393*exp(-0.012778*T) + 0.2989558*exp(-0.1932605*T)", Source: "daniels1979"},
		},
		Formula: "VO2/F",
		Ages:    scoring.Adults, Population: "runners; the book prints no study group",
		Limits: []scoring.Limit{
			{Symbol: "d", Min: 1500, Max: 42200, Refuse: true, Why: "made for races from 1500 m to the marathon"},
			{Symbol: "T", Min: 3.4, Max: 480, Refuse: true, Why: "no time for a race from 1500 m to the marathon"},
			{Symbol: "v", Min: 90, Max: 430, Refuse: true, Why: "no running speed: check distance and time"},
		},
		Error: scoring.AssumedError(), Correlation: "not published", Source: "daniels1979",
		Status: "seen alike in ten secondary texts", Remark: scoring.FlagIndex,
	}},
	Sources: []scoring.Source{
		{Key: "daniels1979", Citation: "Daniels J, Gilbert J. Oxygen Power: Performance Tables for Distance Runners. 1979."},
	},
}

package scoring

var _ = register(Test{
	ID: "race", Name: "Race result", Rank: 28,
	Names: []string{"race", "race time", "running race", "time trial"},
	Results: []Result{{Input: Time, Column: "Race time", Headers: []string{"race result", "finish time"},
		Step: Q(1, Seconds), Better: LowerIsBetter, Phrase: "the same distance in %s"}},
	Also:  []Also{{Distance, "Race distance (m)", []string{"race distance"}}},
	Suits: "Runners with a recent all-out race from 1500 m to the marathon. It rates running, economy included, and is no measured uptake.",
	Protocol: []string{
		"A measured course and an all-out effort in fair weather.",
		"Write the distance in metres and the time.",
	},
	Equations: []*Equation{{
		// Worked examples: 5000 m in 30:40 is index 30, in 18:22 index 55
		// (a public list; the formula gives 30.02 and 55.01).
		ID: "race-daniels-gilbert1979", Name: "Daniels and Gilbert 1979, running index",
		Vars: []Var{{"d", Distance, Metres}, {"T", Time, Minutes}},
		Steps: []Step{
			{Symbol: "v", Name: "mean speed", Unit: MetresPerMinute, Formula: "d/T", Source: "daniels1979"},
			{Symbol: "VO2", Name: "oxygen cost at that speed", Unit: MLPerKgMin, Formula: "-4.60 + 0.182258*v + 0.000104*v*v", Source: "daniels1979"},
			{Symbol: "F", Name: "share of the maximum that can be held for that time", Unit: NoUnit,
				Formula: "0.8 + 0.1894393*exp(-0.012778*T) + 0.2989558*exp(-0.1932605*T)", Source: "daniels1979"},
		},
		Formula: "VO2/F",
		Ages:    adults, Accepts: adults, Population: "runners; the book prints no study group",
		Limits: []Limit{
			{Symbol: "d", Min: 1500, Max: 42200, Refuse: true, Why: "made for races from 1500 m to the marathon"},
			{Symbol: "T", Min: 3.4, Max: 360, Refuse: true, Why: "no time for a race from 1500 m to the marathon"},
			{Symbol: "v", Min: 90, Max: 430, Refuse: true, Why: "no running speed: check distance and time"},
		},
		Error: assumed(), Correlation: "not published", Source: "daniels1979",
		Status: "seen alike in ten secondary texts", Remark: FlagIndex,
	}},
})

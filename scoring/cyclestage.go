package scoring

var cycleStages = &stages{
	cost: mustCompile(cycleCost, "W", "kg"),
	load: [4][]Input{{Power}, {Power2}, {Power3}, {Power4}},
	held: []Input{BodyMass},
	slots: func(c *Case, load []float64) []float64 {
		kg, _ := c.Get(BodyMass)
		return []float64{load[0], kg.Amount}
	},
}

var _ = register(Test{
	ID: "cycle-stage", Name: "Submaximal cycle test", Rank: 62,
	Names: []string{"cycle test", "submaximal cycle", "cycle ergometer", "bike test"},
	Extra: []Input{StageTime, StageHR2, Power2, StageHR3, Power3, StageHR4, Power4},
	Results: []Result{{Input: ExerciseHR, Column: "Cycle test pulse", Headers: []string{"cycle test heart rate", "cycle pulse", "cycle HR"},
		Step: Q(1, BeatsPerMinute), Better: LowerIsBetter, Phrase: "the same cycling at %s beats/min"}},
	Suits: "Adults for whom stepping or running is hard on the joints; needs a cycle that shows watts.",
	Protocol: []string{
		"Saddle so that the knee stays slightly bent. Hold one load at an even 50 to 60 turns a minute for at least three minutes.",
		"Heart rate in the last seconds of the stage. Two or three stages with rising load tell more than one; aim between 110 and 150 beats a minute.",
		"Write watts and heart rate of each stage, body mass and resting heart rate.",
	},
	Equations: []*Equation{
		cycleStages.lineEquation("cycle-line"),
		cycleStages.oneStage("cycle-hrr", "cycling cost", []Var{{"W", Power, Watts}, {"kg", BodyMass, Kilograms}}, cycleCost),
	},
})

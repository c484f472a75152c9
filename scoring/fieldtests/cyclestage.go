package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/formula"
)

var cycleStages = &stages{
	cost: formula.Lazy(cycleCost, "W", "kg"),
	load: [4][]scoring.Input{{scoring.Power}, {scoring.Power2}, {scoring.Power3}, {scoring.Power4}},
	held: []scoring.Input{scoring.BodyMass},
	slots: func(c *scoring.Case, load []float64) []float64 {
		kg, _ := c.Get(scoring.BodyMass)
		return []float64{load[0], kg.Amount}
	},
}

var cycleStage = &scoring.Test{
	ID: "cycle-stage", Name: "Submaximal cycle test",
	Names: []string{"cycle test", "submaximal cycle", "cycle ergometer", "bike test"},
	Extra: []scoring.Input{scoring.StageTime, scoring.StageHR2, scoring.Power2, scoring.StageHR3, scoring.Power3, scoring.StageHR4, scoring.Power4},
	Results: []scoring.Result{{Input: scoring.ExerciseHR, Column: "Cycle test pulse", Headers: []string{"cycle test heart rate", "cycle pulse", "cycle HR"},
		Step: scoring.Q(1, scoring.BeatsPerMinute), Better: scoring.LowerIsBetter, Phrase: "the same cycling at %s beats/min"}},
	Suits:    "Adults for whom stepping or running is hard on the joints; needs a cycle that shows watts.",
	Exertion: scoring.Submaximal,
	Cycle:    true,
	Protocol: []string{
		"Saddle so that the knee stays slightly bent. Hold one load at an even 50 to 60 turns a minute for at least three minutes.",
		"Heart rate in the last seconds of the stage. Two or three stages with rising load tell more than one; aim between 110 and 150 beats a minute.",
		"Write watts and heart rate of each stage, body mass and resting heart rate.",
	},
	Day: &scoring.Day{Say: "cycle", WarmUp: "stage", Clock: "stages", AtOnce: 2, Minutes: 20, PerHelper: 1,
		Needs: "cycles", PerStation: 1},
	Choice: stageChoice,
	Equations: []*scoring.Equation{
		cycleStages.lineEquation("cycle-line"),
		cycleStages.oneStage("cycle-hrr", "cycling cost", []scoring.Var{bind("W", scoring.Power, scoring.Watts), bind("kg", scoring.BodyMass, scoring.Kilograms)}, cycleCost),
	},
}

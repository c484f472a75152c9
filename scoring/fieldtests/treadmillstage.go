package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/formula"
)

// Belt speeds (m/min) up to which a stage is walked and from which it is run;
// in between the sheet must say. Source: acsm.
const (
	walkedUpTo = 100
	runFrom    = 134
)

var beltSpeeds = [4]scoring.Input{scoring.BeltSpeed, scoring.BeltSpeed2, scoring.BeltSpeed3, scoring.BeltSpeed4}

// gait returns whether stages were walked or run: by the sheet, else by their speeds;
// unsure where a speed does not decide.
func gait(c *scoring.Case) (walked, ran, unsure bool) {
	if q, ok := c.Get(scoring.Gait); ok {
		return q.Amount == scoring.GaitWalk, q.Amount == scoring.GaitRun, false
	}
	for _, in := range beltSpeeds {
		q, ok := c.Get(in)
		if !ok {
			continue
		}
		v := q.In(scoring.MetresPerMinute)
		walked = walked || v <= walkedUpTo
		ran = ran || v >= runFrom
		unsure = unsure || v > walkedUpTo && v < runFrom
	}
	return walked, ran, unsure
}

func treadmillStages(cost string) *stages {
	return &stages{
		cost: formula.Lazy(cost, "v", "g"),
		load: [4][]scoring.Input{{scoring.BeltSpeed, scoring.Grade}, {scoring.BeltSpeed2, scoring.Grade2}, {scoring.BeltSpeed3, scoring.Grade3}, {scoring.BeltSpeed4, scoring.Grade4}},
		slots: func(_ *scoring.Case, load []float64) []float64 {
			return []float64{scoring.Q(load[0], scoring.KmPerHour).In(scoring.MetresPerMinute), scoring.Q(load[1], scoring.Percent).In(scoring.Fraction)}
		},
	}
}

var treadmillVars = []scoring.Var{bind("v", scoring.BeltSpeed, scoring.MetresPerMinute), bind("g", scoring.Grade, scoring.Fraction)}

// forGait narrows a treadmill equation to walking or running stages.
func forGait(e *scoring.Equation, run bool) *scoring.Equation {
	other := e.When
	e.When = func(c *scoring.Case) *scoring.Refusal {
		walked, ran, unsure := gait(c)
		switch {
		case unsure:
			return c.Refuse(scoring.BeltSpeed, sayWalkOrRun, sayAddGait)
		case walked && ran:
			return c.Refuse(scoring.BeltSpeed, sayMixedGait, sayOneGait)
		case ran && !run:
			return c.NotFor(sayWasRun)
		case walked && run:
			return c.NotFor(sayWasWalked)
		}
		return other(c)
	}
	return e
}

var treadmillStage = &scoring.Test{
	ID: "treadmill-stage", Name: "Submaximal treadmill test",
	Names: []string{"treadmill test", "submaximal treadmill", "treadmill"},
	Extra: []scoring.Input{scoring.Gait, scoring.StageTime, scoring.StageHR2, scoring.BeltSpeed2, scoring.Grade2, scoring.StageHR3, scoring.BeltSpeed3, scoring.Grade3, scoring.StageHR4, scoring.BeltSpeed4, scoring.Grade4},
	Results: []scoring.Result{{Input: scoring.ExerciseHR, Column: "Treadmill test pulse", Headers: []string{"treadmill test heart rate", "treadmill pulse", "treadmill HR"},
		Step: scoring.Q(1, scoring.BeatsPerMinute), Better: scoring.LowerIsBetter, Phrase: "the same stage at %s beats/min"}},
	Suits:    "Adults used to a treadmill, at a pace below their maximum.",
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Warm up. Hold speed and slope for at least three minutes, hands off the rails.",
		"Heart rate in the last seconds of the stage. Two or three stages tell more than one.",
		"Write speed, slope in percent (0 for level) and heart rate of each stage, and the resting heart rate. Between 6 and 8 km/h also walk or run.",
	},
	Day: &scoring.Day{Say: "treadmill", WarmUp: "stage", Clock: "stages", AtOnce: 2, Minutes: 20, PerHelper: 1,
		Needs: "treadmills", PerStation: 1},
	Choice: stageChoice,
	Equations: []*scoring.Equation{
		forGait(treadmillStages(walkCost).lineEquation("treadmill-walk-line"), false),
		forGait(treadmillStages(runCost).lineEquation("treadmill-run-line"), true),
		forGait(treadmillStages(walkCost).oneStage("treadmill-walk-hrr", "walking cost", treadmillVars, walkCost), false),
		forGait(treadmillStages(runCost).oneStage("treadmill-run-hrr", "running cost", treadmillVars, runCost), true),
	},
}

// Reasons and details.
var (
	sayWalkOrRun = phrases.Say("walk-or-run", "at this speed the sheet must say whether it was walked or run")
	sayAddGait   = phrases.Say("add-gait", "add a column for walk or run")
	sayMixedGait = phrases.Say("mixed-gait", "some stages were walked and others run, and no line joins the two")
	sayOneGait   = phrases.Say("one-gait", "keep stages of one kind")
	sayWasRun    = phrases.Say("was-run", "it was run, and this is the cost of walking")
	sayWasWalked = phrases.Say("was-walked", "it was walked, and this is the cost of running")
)

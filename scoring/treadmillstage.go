package scoring

// Belt speeds (m/min) up to which a stage is walked and from which it is run;
// in between the sheet must say. Source: acsm.
const (
	walkedUpTo = 100
	runFrom    = 134
)

var beltSpeeds = [4]Input{BeltSpeed, BeltSpeed2, BeltSpeed3, BeltSpeed4}

// gait tells which of the stages were walked and which run: by the sheet, else
// by their speeds; unsure where a speed does not decide.
func gait(c *Case) (walked, ran, unsure bool) {
	if q, ok := c.Get(Gait); ok {
		return q.Amount == GaitWalk, q.Amount == GaitRun, false
	}
	for _, in := range beltSpeeds {
		q, ok := c.Get(in)
		if !ok {
			continue
		}
		v := q.In(MetresPerMinute)
		walked = walked || v <= walkedUpTo
		ran = ran || v >= runFrom
		unsure = unsure || v > walkedUpTo && v < runFrom
	}
	return walked, ran, unsure
}

func treadmillStages(cost string) *stages {
	return &stages{
		cost: mustCompile(cost, "v", "g"),
		load: [4][]Input{{BeltSpeed, Grade}, {BeltSpeed2, Grade2}, {BeltSpeed3, Grade3}, {BeltSpeed4, Grade4}},
		slots: func(_ *Case, load []float64) []float64 {
			return []float64{Q(load[0], KmPerHour).In(MetresPerMinute), Q(load[1], Percent).In(Fraction)}
		},
	}
}

var treadmillVars = []Var{{"v", BeltSpeed, MetresPerMinute}, {"g", Grade, Fraction}}

// forGait narrows a treadmill equation to walking or running stages.
func forGait(e *Equation, run bool) *Equation {
	other := e.When
	e.When = func(c *Case) *Refusal {
		walked, ran, unsure := gait(c)
		switch {
		case unsure:
			return c.refuse(BeltSpeed, sayWalkOrRun.With(), sayAddGait.With())
		case walked && ran:
			return c.refuse(BeltSpeed, sayMixedGait.With(), sayOneGait.With())
		case ran && !run:
			return c.notFor(sayWasRun)
		case walked && run:
			return c.notFor(sayWasWalked)
		}
		return other(c)
	}
	return e
}

var _ = register(Test{
	ID: "treadmill-stage", Name: "Submaximal treadmill test", Rank: 64,
	Names: []string{"treadmill test", "submaximal treadmill", "treadmill"},
	Extra: []Input{Gait, StageTime, StageHR2, BeltSpeed2, Grade2, StageHR3, BeltSpeed3, Grade3, StageHR4, BeltSpeed4, Grade4},
	Results: []Result{{Input: ExerciseHR, Column: "Treadmill test pulse", Headers: []string{"treadmill test heart rate", "treadmill pulse", "treadmill HR"},
		Step: Q(1, BeatsPerMinute), Better: LowerIsBetter, Phrase: "the same stage at %s beats/min"}},
	Suits: "Adults used to a treadmill, at a pace below their maximum.",
	Protocol: []string{
		"Warm up. Hold speed and slope for at least three minutes, hands off the rails.",
		"Heart rate in the last seconds of the stage. Two or three stages tell more than one.",
		"Write speed, slope in percent (0 for level) and heart rate of each stage, and the resting heart rate. Between 6 and 8 km/h also walk or run.",
	},
	Equations: []*Equation{
		forGait(treadmillStages(walkCost).lineEquation("treadmill-walk-line"), false),
		forGait(treadmillStages(runCost).lineEquation("treadmill-run-line"), true),
		forGait(treadmillStages(walkCost).oneStage("treadmill-walk-hrr", "walking cost", treadmillVars, walkCost), false),
		forGait(treadmillStages(runCost).oneStage("treadmill-run-hrr", "running cost", treadmillVars, runCost), true),
	},
})

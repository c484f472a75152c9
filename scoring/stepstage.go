package scoring

// steadyFrom is how long a stage should last for the heart rate to settle.
// Common practice, no source.
const steadyFromMinutes = 3

// shortStageShare is the share of the estimate by which a shorter stage widens
// its error: the heart rate is still rising then, by how much nobody knows.
// An assumption; no paper gives a figure.
const shortStageShare = 0.05

// checkStage flags a stage too short for a steady state and a predicted
// maximum heart rate.
func checkStage(c *Case) *Refusal {
	if q, ok := c.Get(StageTime); ok {
		if minutes := q.In(Minutes); minutes < steadyFromMinutes {
			c.unsettled = shortStageShare
			c.Flag(FlagShortStage, sayMinutes.With(trimmed(minutes)))
		}
	}
	if !c.entry.Has(MaxHR) {
		c.Flag(FlagMaxHRPredicted, sayGiveOrTake.With(Q(11, BeatsPerMinute)))
	}
	return nil
}

// stageError is the error of reading one submaximal stage, apart from that of
// the predicted maximum heart rate, which is added to it. No paper prints it;
// with the heart-rate part the whole comes out near the 10-15 % that is
// published for submaximal tests in general.
var stageError = ErrorOfEstimate{Share: 0.10, Status: ErrorAssumed, Note: "error not published; 10% of the value is an assumption, to which the error of a predicted maximum heart rate is added"}

var stepStages = &stages{
	cost: mustCompile(stepCost, "f", "h"),
	load: [4][]Input{{StepRate}, {StepRate2}, {StepRate3}, {StepRate4}},
	held: []Input{BenchHeight},
	slots: func(c *Case, load []float64) []float64 {
		h, _ := c.Get(BenchHeight)
		return []float64{load[0], h.In(Metres)}
	},
}

var _ = register(Test{
	ID: "step-stage", Name: "Step test on any bench", Rank: 60,
	Names: []string{"step test", "submaximal step test", "bench step", "2 minute step test 30 cm", "30 cm step test", "step stage"},
	Extra: []Input{StageTime, StageHR2, StepRate2, StageHR3, StepRate3, StageHR4, StepRate4},
	Results: []Result{{Input: ExerciseHR, Column: "Step test pulse", Headers: []string{"step test heart rate", "step pulse", "step HR", "bench step pulse"},
		Step: Q(1, BeatsPerMinute), Better: LowerIsBetter, Phrase: "the same stepping at %s beats/min"}},
	Suits: "Adults who should not go all-out; any bench from 4 to 40 cm, any pace from 12 to 30 cycles a minute.",
	Protocol: []string{
		"Measure the bench. Set a metronome at four times the cycles a minute (96 for 24). Step at least three minutes.",
		"Two minutes is short: the heart rate is still rising, so fitness reads too high.",
		"Heart rate in the last seconds of stepping by monitor, or pulse in the first ten seconds after.",
		"Write bench height, cycles a minute, minutes, this heart rate and the resting heart rate.",
	},
	Equations: []*Equation{
		retested(stepStages.lineEquation("step-line"),
			fromLimits(3.7, "95% limits of agreement ±3.7 mL/kg/min in 13 people of about 22", "buckley2004")),
		// Worked examples for the stepping cost: 30 cycles on 12 in (0.3048 m)
		// give 31.4; 24 cycles on 15 in give 30.2 (public protocol pages).
		stepStages.oneStage("step-stage-hrr", "stepping cost", []Var{{"f", StepRate, CyclesPerMinute}, {"h", BenchHeight, Metres}}, stepCost,
			Limit{Symbol: "f", Min: 12, Max: 30, Why: "the stepping cost was checked from 12 to 30 cycles a minute"},
			Limit{Symbol: "h", Min: 0.04, Max: 0.40, Why: "the stepping cost was checked from 4 to 40 cm"}),
	},
})

package scoring

import "fmt"

// steadyFrom is how long a stage should last for the heart rate to settle.
// Common practice, no source.
const steadyFromMinutes = 3

// checkStage flags a stage too short for a steady state and refuses a pulse
// that is no exercise pulse.
func checkStage(c *Case) string {
	if q, ok := c.Get(StageTime); ok {
		if minutes := q.In(Minutes); minutes < steadyFromMinutes {
			c.Flag(FlagShortStage, fmt.Sprintf("%s minutes", trimNumber(minutes, 1)))
		}
	}
	if !c.entry.Has(MaxHR) {
		c.Flag(FlagMaxHRPredicted, "±11 beats/min")
	}
	return ""
}

// stageError is the error of reading one submaximal stage, apart from that of
// the predicted maximum heart rate, which is added to it. No paper prints it;
// with the heart-rate part the whole comes out near the 10-15 % that is
// published for submaximal tests in general.
var stageError = ErrorOfEstimate{Share: 0.10, Status: ErrorAssumed, Note: "error not published; 10 % of the value is an assumption, to which the error of a predicted maximum heart rate is added"}

var _ = register(Test{
	ID: "step-stage", Name: "Step test on any bench", Rank: 60,
	Names: []string{"step test", "submaximal step test", "bench step", "2 minute step test 30 cm", "30 cm step test", "step stage"},
	Extra: []Input{StageTime},
	Results: []Result{{Input: ExerciseHR, Column: "Step test pulse", Headers: []string{"step test heart rate", "step pulse", "step HR", "bench step pulse"},
		Step: Q(1, BeatsPerMinute), Better: LowerIsBetter, Phrase: "the same stepping at %s beats/min"}},
	Suits: "Adults who should not go all-out; any bench from 4 to 40 cm, any pace from 12 to 30 cycles a minute.",
	Protocol: []string{
		"Measure the bench. Set a metronome at four times the cycles a minute (96 for 24). Step at least three minutes.",
		"Two minutes is short: the heart rate is still rising, so fitness reads too high.",
		"Heart rate in the last seconds of stepping by monitor, or pulse in the first ten seconds after.",
		"Write bench height, cycles a minute, minutes, this heart rate and the resting heart rate.",
	},
	Equations: []*Equation{{
		// Worked examples for the stepping cost: 30 cycles on 12 in (0.3048 m)
		// give 31.4; 24 cycles on 15 in give 30.2 (public protocol pages).
		ID: "step-stage-hrr", Name: "stepping cost and heart-rate reserve, one stage",
		Vars: []Var{{"f", StepRate, CyclesPerMinute}, {"h", BenchHeight, Metres}, {"HR", ExerciseHR, BeatsPerMinute},
			{"HRrest", RestingHR, BeatsPerMinute}, {"age", Age, Years}},
		Steps: []Step{
			{Symbol: "VO2", Name: "uptake of this stepping", Unit: MLPerKgMin, Formula: "0.2*f + 1.33*1.8*h*f + 3.5", Source: "acsm"},
			maxHRStep(),
			{Symbol: "reserve", Name: "share of heart-rate reserve used", Unit: NoUnit, Formula: "(HR - HRrest)/(HRmax - HRrest)", Source: "swain1997"},
		},
		Formula: "3.5 + (VO2 - 3.5)/reserve",
		Ages:    adults, Accepts: adults, Population: "stepping cost: 55 adults of 19-35; heart-rate reserve: 63 adults on a cycle",
		When: checkStage,
		Limits: []Limit{
			{Symbol: "reserve", Min: 0.20, Max: 1.05, Refuse: true, Why: "the heart rate must lie well between rest and maximum"},
			{Symbol: "f", Min: 12, Max: 30, Why: "the stepping cost was checked from 12 to 30 cycles a minute"},
			{Symbol: "h", Min: 0.04, Max: 0.40, Why: "the stepping cost was checked from 4 to 40 cm"},
			{Symbol: "reserve", Min: 0.40, Max: 0.85, Why: "best between 0.40 and 0.85 of the heart-rate reserve (our own bounds)"},
		},
		Error: stageError, Correlation: "within a person 0.99; between people not published", Source: "swain1997",
		Status: "both parts seen in abstracts; joining them is common practice",
	}},
})

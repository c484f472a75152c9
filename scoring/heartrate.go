package scoring

import "tenback/scoring/formula"

// tanaka predicts maximum heart rate from age in years.
//
//	HRmax = 208 − 0.7 age (beats/min)
//
// Its standard error is 11.4 beats/min in 762 adults (sarzynski2013).
// Worked example: age 30 gives 187.
//
// Source: tanaka2001.
const (
	tanaka      = "208 - 0.7*age"
	tanakaError = 11.4
)

var tanakaForm = formula.Lazy(tanaka, "age")

// MaxHRStep gives the maximum heart rate: the measured one if the sheet has
// it, else predicted from age.
func MaxHRStep() Step {
	return Step{Symbol: "HRmax", Name: "maximum heart rate", Unit: BeatsPerMinute,
		Instead: MaxHR, HasInst: true, Formula: tanaka, Error: tanakaError, Own: true, Source: "tanaka2001"}
}

// PredictedMaxHR is the maximum heart rate (beats/min) expected at an age in
// years, and its standard error.
//
// Source: tanaka2001; error sarzynski2013.
func PredictedMaxHR(age float64) (beatsPerMinute, standardError float64) {
	return tanakaForm().Eval([]float64{age}), tanakaError
}

// TopHR is the measured or predicted maximum heart rate; ok is false without
// either.
func (c *Case) TopHR() (beatsPerMinute float64, ok bool) {
	if q, ok := c.Get(MaxHR); ok {
		return q.Amount, true
	}
	age, ok := c.Get(Age)
	if !ok {
		return 0, false
	}
	bpm, _ := PredictedMaxHR(age.Amount)
	return bpm, true
}

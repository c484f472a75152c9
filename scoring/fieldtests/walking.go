package fieldtests

import (
	"math"

	"tenback/scoring"
)

// fastWalk is the speed (m/s) that a target may ask of a walker: up to 50 years 2.3, and
// 2.15 for a woman; with each year after 0.015 less, and 0.018. Our own bounds: near 2.2
// people begin to run, and over 8 m the fastest walk of the seventies is 2.1 in men and
// 1.7 in women (bohannon1997, from memory).
func fastWalk(e *scoring.Entry) (metresPerSecond float64, ok bool) {
	age, ok := e.Get(scoring.Age)
	after50 := math.Max(0, age.Amount-50)
	if e.Sex() == scoring.Female {
		return 2.15 - 0.018*after50, ok
	}
	return 2.3 - 0.015*after50, ok
}

// walkedIn is the ceiling of a walk over a distance in metres: its time.
func walkedIn(metres float64) func(e *scoring.Entry) (scoring.Quantity, bool) {
	return func(e *scoring.Entry) (scoring.Quantity, bool) {
		speed, ok := fastWalk(e)
		return scoring.Q(math.Ceil(metres/speed), scoring.Seconds), ok
	}
}

// walkedFor is the ceiling of a walk of so many seconds: its distance.
func walkedFor(seconds float64) func(e *scoring.Entry) (scoring.Quantity, bool) {
	return func(e *scoring.Entry) (scoring.Quantity, bool) {
		speed, ok := fastWalk(e)
		return scoring.Q(math.Floor(seconds*speed), scoring.Metres), ok
	}
}

// afterStepping is the ceiling of a recovery pulse: 30 beats/min above rest, and never
// under 90. Our own bounds.
func afterStepping(e *scoring.Entry) (scoring.Quantity, bool) {
	rest, _ := e.Get(scoring.RestingHR)
	return scoring.Q(math.Max(90, rest.Amount+30), scoring.BeatsPerMinute), true
}

// Higher returns a test that can show more than the one that was done, for a person who
// would have to walk too fast or step too easily: the same one with a harder stage, or
// one that is not all-out. It is false where none is known.
func Higher(s *scoring.Score) (*scoring.Test, bool) {
	best := s.Best()
	age, ok := s.Entry().Get(scoring.Age)
	if best == nil || !ok {
		return nil, false
	}
	if best.Test == stepStage || best.Test == cycleStage || best.Test == treadmillStage {
		return best.Test, true
	}
	p := suiting{entry: s.Entry(), years: age.Amount, medicine: s.Entry().Says(scoring.HeartRateDrug), gentle: needsGentle(s)}
	for _, t := range []*scoring.Test{cycleStage, stepStage, shuttle20M} {
		if t != best.Test && p.suits(t) {
			return t, true
		}
	}
	return nil, false
}

package change

import (
	"math"

	"tenback/scoring"
)

// Pace is one load held for some minutes, and the heart rate at it.
type Pace struct {
	Load []scoring.Quantity // speed; speed and slope; power; step cycles and bench height
	Rate scoring.Quantity   // beats/min
	kind paceKind
}

type paceKind uint8

const (
	fixedPace paceKind = iota // on foot, on any course
	onBelt
	onCycle
	onStep
)

// samePace is the relative tolerance within which two loads are the same. Common
// practice, no source.
const samePace = 0.02

// Paces returns an entry's loads with a heart rate: the person's fixed pace and the
// stages of submaximal tests.
func Paces(e *scoring.Entry) []Pace {
	var all []Pace
	if speed, ok := e.Get(scoring.PaceSpeed); ok {
		if rate, ok := e.Get(scoring.PaceHR); ok {
			all = append(all, Pace{Load: []scoring.Quantity{speed}, Rate: rate, kind: fixedPace})
		}
	}
	for i := range e.Trials {
		for _, s := range stages {
			if p, ok := paceOf(e, &e.Trials[i], s); ok {
				all = append(all, p)
			}
		}
	}
	return all
}

// stage is the inputs of a load and of the heart rate at it.
type stage struct {
	kind paceKind
	load []scoring.Input
	rate scoring.Input
}

// stages are those of all submaximal tests.
var stages = []stage{
	{onBelt, []scoring.Input{scoring.BeltSpeed, scoring.Grade}, scoring.ExerciseHR},
	{onBelt, []scoring.Input{scoring.BeltSpeed2, scoring.Grade2}, scoring.StageHR2},
	{onBelt, []scoring.Input{scoring.BeltSpeed3, scoring.Grade3}, scoring.StageHR3},
	{onBelt, []scoring.Input{scoring.BeltSpeed4, scoring.Grade4}, scoring.StageHR4},
	{onCycle, []scoring.Input{scoring.Power}, scoring.ExerciseHR},
	{onCycle, []scoring.Input{scoring.Power2}, scoring.StageHR2},
	{onCycle, []scoring.Input{scoring.Power3}, scoring.StageHR3},
	{onCycle, []scoring.Input{scoring.Power4}, scoring.StageHR4},
	{onStep, []scoring.Input{scoring.StepRate, scoring.BenchHeight}, scoring.ExerciseHR},
	{onStep, []scoring.Input{scoring.StepRate2, scoring.BenchHeight}, scoring.StageHR2},
	{onStep, []scoring.Input{scoring.StepRate3, scoring.BenchHeight}, scoring.StageHR3},
	{onStep, []scoring.Input{scoring.StepRate4, scoring.BenchHeight}, scoring.StageHR4},
}

// paceOf returns the pace of a stage from the trial, or else the person.
func paceOf(e *scoring.Entry, trial *scoring.Trial, s stage) (Pace, bool) {
	get := func(in scoring.Input) (scoring.Quantity, bool) {
		if q, ok := trial.Get(in); ok {
			return q, true
		}
		return e.Get(in)
	}
	rate, ok := get(s.rate)
	if !ok {
		return Pace{}, false
	}
	p := Pace{Rate: rate, kind: s.kind}
	for _, in := range s.load {
		q, ok := get(in)
		if !ok {
			return Pace{}, false
		}
		p.Load = append(p.Load, q)
	}
	return p, true
}

// same reports whether two paces are one load.
func (p Pace) same(q Pace) bool {
	if p.kind != q.kind || len(p.Load) != len(q.Load) {
		return false
	}
	for i := range p.Load {
		a, b := p.Load[i].Amount, q.Load[i].Amount
		if math.Abs(a-b) > samePace*max(a, b) {
			return false
		}
	}
	return true
}

// PulseShare, of the rate, and PulseElsewhere, in beats/min, are the parts of the
// day-to-day error of one heart rate at a fixed load.
//
// Published: 1.1 to 1.4 % in 44 people on five days running, at one time of day
// (lamberts2004); the upper figure is used. The 2 beats/min for what a season varies
// (temperature, time of day, caffeine, counting by hand) are an assumption.
const (
	PulseShare     = 0.014
	PulseElsewhere = 2.0
)

// largeDrop is the fall (beats/min) from which a lower heart rate at the same
// pace is a large gain. Common practice, no source.
const largeDrop = 20

// PulseError is the standard error in beats/min of one heart rate at a fixed
// load.
func PulseError(rate float64) float64 { return math.Hypot(PulseShare*rate, PulseElsewhere) }

// PulseChange is the change of the heart rate at one load; a fall is a gain.
type PulseChange struct {
	Pace       Pace // as on the later date
	Before     scoring.Quantity
	Difference float64 // beats/min, later less earlier
	SE         float64
	Fall       float64 // chance that the rate really fell
	Smallest   float64 // the smallest difference that counts, beats/min
	Verdict    Verdict // of the rate: RealFall is a gain
	Large      bool    // a real fall of 20 or more
}

// ComparePulse compares the heart rates at shared loads; none if either entry names a
// medicine that changes the heart rate.
func ComparePulse(earlier, later *scoring.Entry) []PulseChange {
	for _, e := range []*scoring.Entry{earlier, later} {
		if e.Says(scoring.HeartRateDrug) {
			return nil
		}
	}
	var all []PulseChange
	before := Paces(earlier)
	for _, now := range Paces(later) {
		for _, then := range before {
			if now.same(then) {
				all = append(all, pulseChange(then, now))
				break
			}
		}
	}
	return all
}

func pulseChange(then, now Pace) PulseChange {
	p := PulseChange{Pace: now, Before: then.Rate, Difference: now.Rate.Amount - then.Rate.Amount,
		SE: math.Hypot(PulseError(then.Rate.Amount), PulseError(now.Rate.Amount))}
	rise := standardNormal.CDF(p.Difference / p.SE)
	p.Fall, p.Smallest, p.Verdict = 1-rise, smallest*p.SE, verdict(rise)
	p.Large = p.Verdict == RealFall && p.Difference <= -largeDrop
	return p
}

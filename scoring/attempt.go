package scoring

import (
	"math"
	"slices"
)

// ByPulse reports whether a pulse of the test decides its result: the preferred equation
// reads one.
func (t *Test) ByPulse() bool {
	var inputs []Input
	for _, r := range t.Results {
		inputs = append(inputs, r.Input)
	}
	for _, e := range t.Equations[:min(1, len(t.Equations))] {
		inputs = append(inputs, e.Inputs()...)
	}
	return slices.ContainsFunc(inputs, func(in Input) bool { return !in.Info().Personal && in.Info().Unit == BeatsPerMinute })
}

// Supersedes reports whether an attempt counts in place of an earlier one at the
// same test: the better result does. In a test by pulse a lower pulse may come from
// an easier try, and the first try is often high from excitement, so the later one
// counts unless it lacks a pulse. Common practice, no source.
func (t *Trial) Supersedes(earlier *Trial) bool {
	if t.Test.ByPulse() {
		for in := range InputCount {
			if inputs[in].Unit == BeatsPerMinute && earlier.Has(in) && !t.Has(in) {
				return false
			}
		}
		return true
	}
	mine, _ := t.ResultOf()
	theirs, ok := earlier.ResultOf()
	if !ok || mine.Input != theirs.Input {
		return !ok
	}
	p, q := t.amounts(mine.Input), earlier.amounts(mine.Input)
	for i := range p {
		if p[i] != q[i] {
			return (p[i] > q[i]) == (mine.Better == HigherIsBetter)
		}
	}
	return false
}

// amounts returns a result, then the shuttles done in its level; a whole level is
// more than any part of it.
func (t *Trial) amounts(result Input) [2]float64 {
	q, _ := t.Get(result)
	shuttles := math.Inf(1)
	if done, ok := t.Get(ShuttleInLevel); ok {
		shuttles = done.Amount
	}
	return [2]float64{q.Amount, shuttles}
}

// SameResult reports whether two attempts at one test have the same result.
func (t *Trial) SameResult(other *Trial) bool {
	mine, _ := t.ResultOf()
	theirs, _ := other.ResultOf()
	return mine.Input == theirs.Input && t.amounts(mine.Input) == other.amounts(mine.Input)
}

// flagAttempt remarks on a trial that is one of several attempts.
func (c *Case) flagAttempt() {
	switch t := c.trial; {
	case t.Attempts < 2:
	case t.Test.ByPulse():
		c.Flag(FlagAttempt, sayLastAttempt.With(t.Attempt, t.Attempts))
	default:
		c.Flag(FlagAttempt, sayBetterAttempt.With(t.Attempt, t.Attempts))
	}
}

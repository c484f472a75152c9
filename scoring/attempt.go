package scoring

import "math"

// ByPulse reports whether every equation of the test reads a heart rate.
func (t *Test) ByPulse() bool {
	for _, e := range t.Equations {
		if !e.ByPulse() {
			return false
		}
	}
	return len(t.Equations) > 0
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

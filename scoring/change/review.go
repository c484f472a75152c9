package change

import "time"

// Review compares one date of a person with the dates before it.
type Review struct {
	Line []Dated // the dates up to this one, rising; this one is the last
	// Comparison is with the last comparable date; nil without one.
	Comparison *Comparison
	Pulse      []PulseChange  // at the loads of this date and the last date that shares one
	Resting    *RestingChange // nil where there are not two dates with a rate
	Goals      []Progress     // of adults of known sex
	InAYear    *InAYear
}

// ReviewOf reviews the last date of a line of rising dates; nil for a single one.
func ReviewOf(line []Dated) *Review {
	n := len(line) - 1
	if n < 1 {
		return nil
	}
	r := &Review{Line: line}
	now := line[n]
	for i := n - 1; i >= 0 && r.Comparison == nil; i-- {
		if c, err := Compare(line[i], now); err == nil {
			c.practise(line[:i])
			r.Comparison = &c
		}
	}
	for i := n - 1; i >= 0 && r.Pulse == nil; i-- {
		r.Pulse = ComparePulse(line[i].Score.Entry(), now.Score.Entry())
	}
	if resting, ok := ReadResting(line); ok {
		r.Resting = &resting
	}
	if c := r.Comparison; c != nil && len(now.Score.Adults) == 1 {
		// By the numbers that are compared, so that a change of test is no progress.
		earlier := now.Score.Best().VO2 - c.Difference
		r.Goals, r.InAYear = ReadGoals(&now.Score.Adults[0], earlier, now.Score.Best().VO2, now.Score.Entry())
	}
	return r
}

// practise adds what practice alone may have brought, if no earlier date had the
// test.
func (c *Comparison) practise(before []Dated) {
	if c.Basis != ByRetest || c.Earlier.Equation.Retest.Practice == 0 {
		return
	}
	for _, d := range before {
		for i := range d.Score.Estimates {
			if d.Score.Estimates[i].Test == c.Earlier.Test {
				return
			}
		}
	}
	c.Practice = c.Earlier.Equation.Retest.Practice
}

// Since returns the date that the review compares with.
func (r *Review) Since() time.Time {
	if r.Comparison != nil {
		return r.Comparison.From
	}
	return r.Line[len(r.Line)-2].Day
}

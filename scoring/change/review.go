package change

import "time"

// Review is all that is said of one date of a person in the light of the dates
// before it.
type Review struct {
	Line []Dated // the dates up to this one, rising; this one is the last
	// Comparison is the change of VO2max since the last date that can be
	// compared; nil if there is none.
	Comparison *Comparison
	Pulse      []PulseChange  // at the loads of this date and the last date that shares one
	Resting    *RestingChange // nil where there are not two dates with a rate
	Goals      []Progress     // of adults of known sex
	InAYear    *InAYear
}

// ReviewOf reads the last date of a line, whose dates must rise; nil if there is
// no earlier one.
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

// practise notes what practice alone may have added, if none of the dates before
// the two had the test.
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

// Since is the date that the review compares with: that of the change, else the
// one before.
func (r *Review) Since() time.Time {
	if r.Comparison != nil {
		return r.Comparison.From
	}
	return r.Line[len(r.Line)-2].Day
}

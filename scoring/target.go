package scoring

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// Target is a result in the test that was done, in whole steps of that test.
// The zero Target says that no result of the test gets there.
type Target struct {
	Result   *Result // one of the test's; nil if not OK
	Quantity Quantity
	OK       bool
}

// String puts the target in the test's own terms; empty if there is none.
func (t Target) String() string {
	if !t.OK {
		return ""
	}
	var value string
	switch t.Quantity.Unit {
	case Seconds:
		value = Clock(time.Duration(t.Quantity.Amount) * time.Second)
	default:
		value = trimNumber(t.Quantity.Amount, 1)
	}
	return fmt.Sprintf(t.Result.Phrase, value)
}

// seeker looks for a better result of the same test, all other inputs unchanged.
type seeker struct {
	had    Case        // with the result replaced
	put    replacement // what replaces it
	result *Result     // one of the test's
	start  float64     // the first candidate
	step   float64     // to the next better one
	steps  int         // how many there are after the first; negative if it is too good already
	tried  []trying
}

// trying is a candidate with the estimate that it gives; ok is false where the
// equation refuses it.
type trying struct {
	n  int
	v  VO2
	ok bool
}

// seeker returns nil where no result of the test can be named. It is kept, because
// what was tried for one target serves the others.
func (e *Estimate) seeker() *seeker {
	if e.sought != nil {
		return e.sought
	}
	result, ok := e.trial.ResultOf()
	if !ok || result.Step.Amount == 0 || e.Equation.NoTarget || e.noTargets {
		return nil
	}
	info := result.Input.Info()
	now, _ := e.trial.Get(result.Input)
	step := result.Step.In(info.Unit)
	// Start at the person's own result, rounded to a whole step on the easier side.
	start := math.Floor(now.Amount/step) * step
	edge := info.Max
	if result.Better == LowerIsBetter {
		start = math.Ceil(now.Amount/step) * step
		edge = info.Min
	}
	if test := e.trial.Test; test.Ceiling != nil {
		if best, ok := test.Ceiling(e.entry); ok && best.Unit.Converts(info.Unit) {
			edge = best.In(info.Unit)
		}
	}
	of := slices.IndexFunc(e.trial.Test.Results, func(r Result) bool { return r.Input == result.Input })
	s := &seeker{result: &e.trial.Test.Results[of], start: start, step: float64(result.Better) * step, steps: int(math.Floor((edge - start) * float64(result.Better) / step)),
		tried: make([]trying, 0, 16), had: newCase(e.entry, e.trial, e.Equation)}
	s.put.Input = result.Input
	s.had.instead = &s.put
	e.sought = s
	return s
}

// at is the n-th candidate.
func (s *seeker) at(n int) Quantity { return Q(s.start+s.step*float64(n), s.result.Input.Info().Unit) }

// try tries the n-th candidate.
func (s *seeker) try(n int) trying {
	t := trying{n: n}
	t.v, t.ok = s.had.with(s.at(n))
	s.tried = append(s.tried, t)
	return t
}

// target returns the easiest result, in whole steps of the test, at which the
// estimate meets the wish, which must be monotonic in VO2max.
//
// It bisects over all steps: the result meets the wish and one step less does not.
// Candidates tried for another wish are not tried again.
func (s *seeker) target(wish func(VO2) bool) Target {
	if s == nil {
		return Target{}
	}
	met := func(t trying) bool { return !t.ok || wish(t.v) }
	from, to := 0, max(0, s.steps+1) // the first that meets it, or one behind the last
	var first trying                 // the one at to
	for _, t := range s.tried {
		if !met(t) {
			from = max(from, t.n+1)
		} else if t.n < to {
			to, first = t.n, t
		}
	}
	for from < to {
		t := s.try(int(uint(from+to) >> 1))
		if met(t) {
			to, first = t.n, t
		} else {
			from = t.n + 1
		}
	}
	if to > s.steps || !first.ok {
		return Target{}
	}
	return Target{s.result, s.at(to), true}
}

// with gives the estimate had the result been another. ok is false where the
// equation refuses it.
func (c *Case) with(q Quantity) (v VO2, ok bool) {
	c.instead.Quantity = q
	if c.fill() != nil {
		return 0, false
	}
	for i, l := range c.equation.Limits {
		x := c.slots[c.program.limits[i].slot]
		applies := l.Refuse && (l.Sex == SexUnspecified || l.Sex == c.entry.Sex())
		if applies && (x < l.Min || x > l.Max) {
			return 0, false
		}
	}
	return c.value(), true
}

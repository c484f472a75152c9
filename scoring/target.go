package scoring

import (
	"fmt"
	"math"
	"slices"
	"sort"
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

// target finds the easiest result, in whole steps of the test, at which the
// estimate meets the wish, all other inputs held as they are. The wish must be
// monotonic in VO2max: once met, met by everything higher.
//
// Every step that counts is searched by bisection, so that the result reaches
// the wish and one step less does not.
func (e *Estimate) target(wish func(VO2) bool) Target {
	result, ok := e.trial.ResultOf()
	if !ok || result.Step.Amount == 0 || e.Equation.NoTarget {
		return Target{}
	}
	info := result.Input.Info()
	now, _ := e.trial.Get(result.Input)
	step := result.Step.In(info.Unit)
	direction := float64(result.Better)
	// The first candidate is the person's own result rounded to a whole step
	// on the easier side.
	start := math.Floor(now.Amount/step) * step
	edge := info.Max
	if result.Better == LowerIsBetter {
		start = math.Ceil(now.Amount/step) * step
		edge = info.Min
	}
	steps := int(math.Abs(edge-start) / step)
	at := func(n int) Quantity { return Q(start+direction*step*float64(n), info.Unit) }
	had := Case{entry: e.entry, trial: e.trial, equation: e.Equation, instead: &replacement{Input: result.Input}}
	n := sort.Search(steps+1, func(n int) bool {
		v, ok := had.with(at(n))
		return !ok || wish(v)
	})
	if n > steps {
		return Target{}
	}
	if v, ok := had.with(at(n)); !ok || !wish(v) {
		return Target{}
	}
	of := slices.IndexFunc(e.trial.Test.Results, func(r Result) bool { return r.Input == result.Input })
	return Target{&e.trial.Test.Results[of], at(n), true}
}

// with gives the estimate had the result been another. ok is false where the
// equation refuses it.
func (c *Case) with(q Quantity) (v VO2, ok bool) {
	c.instead.Quantity = q
	if c.fill() != nil {
		return 0, false
	}
	for _, l := range c.equation.Limits {
		x := c.slots[c.equation.slots[l.Symbol]]
		applies := l.Refuse && (l.Sex == SexUnspecified || l.Sex == c.entry.Sex())
		if applies && (x < l.Min || x > l.Max) {
			return 0, false
		}
	}
	return c.value(), true
}

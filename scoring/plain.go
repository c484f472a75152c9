package scoring

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// InputByID finds an input by its short name.
func InputByID(id string) (Input, bool) {
	for in := Input(0); in < InputCount; in++ {
		if inputs[in].ID == id {
			return in, true
		}
	}
	return 0, false
}

// UnitBySymbol finds a unit by its symbol, such as "mL/kg/min".
func UnitBySymbol(symbol string) (Unit, bool) {
	for u := Unit(0); u < unitCount; u++ {
		if units[u].symbol == symbol {
			return u, true
		}
	}
	return NoUnit, false
}

// ParseQuantity reads a value in the plain form of a worked example: a number
// with or without a unit ("130 lb"), a time ("12:45"), "F" or "M", "all-out"
// or "steady". It is strict; what people type into sheets is another matter.
func ParseQuantity(in Input, text string) (Quantity, error) {
	words := map[Input][]string{SexInput: {"F", "M"}, Effort: {"steady", "all-out"}}
	switch {
	case words[in] != nil:
		if i := slices.Index(words[in], text); i >= 0 {
			return Q(float64(i), inputs[in].Unit), nil
		}
		return Quantity{}, fmt.Errorf("%s %q is none of %q", in, text, words[in])
	case strings.Contains(text, ":"):
		var seconds float64
		for field := range strings.SplitSeq(text, ":") {
			x, err := strconv.ParseFloat(field, 64)
			if err != nil {
				return Quantity{}, err
			}
			seconds = 60*seconds + x
		}
		return Q(seconds, Seconds), nil
	}
	number, symbol, hasUnit := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return Quantity{}, err
	}
	unit := inputs[in].Unit
	if hasUnit {
		var known bool
		if unit, known = UnitBySymbol(symbol); !known {
			return Quantity{}, fmt.Errorf("no unit %q", symbol)
		}
	}
	if !unit.Converts(inputs[in].Unit) {
		return Quantity{}, fmt.Errorf("%s is not measured in %s", in, unit)
	}
	return Q(x, unit), nil
}

// EstimateBy reads the entry's first trial with one equation of its test,
// whether or not that is the default choice.
func (e *Entry) EstimateBy(eq *Equation) (Estimate, *Refusal) {
	return estimate(e, &e.Trials[0], eq)
}

// StepValue works out one step of an equation for the entry's first trial,
// from just the inputs that enter it.
func (e *Entry) StepValue(eq *Equation, symbol string) (Quantity, error) {
	c := Case{entry: e, trial: &e.Trials[0], equation: eq}
	for i, v := range eq.Vars {
		c.slots[i] = math.NaN()
		if q, ok := c.Get(v.Input); ok {
			c.slots[i] = q.In(v.Unit)
		}
	}
	for i, s := range eq.Steps {
		slot := len(eq.Vars) + i
		c.slots[slot] = math.NaN()
		if s.Lookup == nil {
			c.slots[slot] = eq.stepForms[i].eval(c.slots[:])
		} else if found, refusal := s.Lookup(&c); refusal == nil {
			c.slots[slot] = found.Value
		}
		if s.Symbol == symbol {
			if math.IsNaN(c.slots[slot]) {
				return Quantity{}, fmt.Errorf("an input of %s is missing", symbol)
			}
			return Q(c.slots[slot], s.Unit), nil
		}
	}
	return Quantity{}, fmt.Errorf("%s has no step %s", eq.ID, symbol)
}

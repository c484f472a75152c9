package scoring

import (
	"fmt"
	"math"
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

// EstimateBy reads the entry's first trial with one equation of its test,
// whether or not that is the default choice.
func (e *Entry) EstimateBy(eq *Equation) (Estimate, *Refusal) {
	return new(Case).estimate(e, &e.Trials[0], eq)
}

// StepValue works out one step of an equation for the entry's first trial,
// from just the inputs that enter it.
func (e *Entry) StepValue(eq *Equation, symbol string) (Quantity, error) {
	c := newCase(e, &e.Trials[0], eq)
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
			c.slots[slot] = c.program.steps[i].Eval(c.slots[:])
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

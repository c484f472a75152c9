package scoring

import (
	"fmt"
	"math"
	"strings"
)

// Working is an estimate worked out line by line, so that a reader can redo it
// on paper.
type Working struct {
	Inputs []WorkingInput
	Steps  []WorkingStep // the last one gives VO2max
}

// WorkingInput is one number put in.
type WorkingInput struct {
	Symbol string
	Input  Input
	Name   string
	Read   Quantity // as read from the sheet
	Used   string   // in the unit of the equation
	Cell   string
}

// WorkingStep is one line of arithmetic.
type WorkingStep struct {
	Symbol  string
	Formula string // as printed in the paper; empty for a look-up
	Numbers string // the same with the numbers put in
	How     Said   // of a look-up: how it was found
	Value   string // with its unit
	Source  string // bibliography key
}

// workingNumber writes a number with enough digits for a line to be redone to
// the printed digit: four decimals, and at least six significant figures.
func workingNumber(x float64) string {
	decimals := 4
	for size := math.Abs(x); size < 10 && size > 0 && decimals < 9; size *= 10 {
		decimals++
	}
	return trimNumber(x, decimals)
}

// Working shows how the estimate was worked out.
func (e *Estimate) Working() Working {
	eq := e.Equation
	c := newCase(e.entry, e.trial, eq)
	if c.fill() != nil {
		return Working{} // an Estimate exists only where this succeeded
	}
	var w Working
	for i, v := range eq.Vars {
		read, _ := c.Get(v.Input)
		used := workingNumber(c.slots[i])
		if v.Unit != NoUnit {
			used += " " + v.Unit.String()
		}
		w.Inputs = append(w.Inputs, WorkingInput{v.Symbol, v.Input, v.Input.Info().Name, read, used, c.cellOf(v.Input)})
	}
	number := func(symbol string) string { return workingNumber(c.slots[c.program.slots[symbol]]) }
	for i, s := range eq.Steps {
		slot := len(eq.Vars) + i
		step := WorkingStep{Symbol: s.Symbol, Source: s.Source, Value: strings.TrimRight(number(s.Symbol)+" "+s.Unit.String(), " ")}
		switch f := c.program.steps[i]; {
		case !c.explained(slot).IsZero():
			step.How = c.explained(slot)
		case f != nil:
			step.Formula, step.Numbers = f.String(), f.With(number)
		}
		w.Steps = append(w.Steps, step)
	}
	result := c.program.result.Eval(c.slots[:])
	last := WorkingStep{Symbol: "VO2max", Formula: c.program.result.String(), Numbers: c.program.result.With(number),
		Value: trimNumber(result, 2) + " " + eq.OutUnit().String(), Source: eq.Source}
	if eq.OutUnit() != MLPerKgMin {
		last.Value += " = " + trimNumber(float64(e.VO2), 2) + " " + MLPerKgMin.String()
	}
	w.Steps = append(w.Steps, last)
	return w
}

// Trial returns what the estimate was made from.
func (e *Estimate) Trial() *Trial { return e.trial }

// ResultText is the trial's result as people write it, such as "11:30" or
// "level 7.10".
func (e *Estimate) ResultText() string {
	in, q, shuttle, ok := e.trial.Reached()
	switch {
	case !ok:
		return ""
	case in == ShuttleLevel && shuttle >= 0:
		return fmt.Sprintf("level %.0f.%d", q.Amount, shuttle)
	case in == ShuttleLevel:
		return fmt.Sprintf("level %.0f", q.Amount)
	}
	return q.String()
}

// Reached is what the person reached in the test, and in which of its ways it is
// written. shuttle is how many were done in the last level; -1 if that is not
// known, or of another test. ok is false where the test has no result.
func (t *Trial) Reached() (in Input, q Quantity, shuttle int, ok bool) {
	result, ok := t.ResultOf()
	if !ok {
		return 0, Quantity{}, -1, false
	}
	q, _ = t.Get(result.Input)
	shuttle = -1
	if done, has := t.Get(ShuttleInLevel); has && result.Input == ShuttleLevel {
		shuttle = int(done.Amount)
	}
	return result.Input, q, shuttle, true
}

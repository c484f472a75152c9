package scoring

import "tenback/scoring/reference"

// What tests of the declarations reach for.
const UnitCount = unitCount

var (
	TrimNumber = trimNumber
	Compile    = (*Equation).compile
	Differ     = differ
)

// ValueBy computes an equation without asking whom it is for.
func (e *Entry) ValueBy(eq *Equation) (VO2, *Refusal) {
	c := newCase(e, &e.Trials[0], eq)
	if refusal := c.fill(); refusal != nil {
		return 0, refusal
	}
	return c.value(), nil
}

// StepBy looks up a step of an equation.
func (e *Entry) StepBy(eq *Equation, step int) (Found, *Refusal) {
	c := newCase(e, &e.Trials[0], eq)
	return eq.Steps[step].Lookup(&c)
}

// Factor is the unit in the first one of its dimension.
func (u Unit) Factor() float64 { return units[u].factor }

// Short is the remark without details.
func (c FlagCode) Short() string { return flagInfo[c].short }

// Placed is an estimate of an entry beside the default tables.
func Placed(e *Entry, est Estimate) Score {
	s := Score{entry: e, Estimates: []Estimate{est}}
	s.place(&s.Estimates[0], reference.DefaultAdults(est.Test.Cycle), reference.YouthTables[0])
	return s
}

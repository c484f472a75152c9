package scoring

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"tenback/scoring/formula"
	"tenback/scoring/reference"
)

// Test is a field test as declared: how its result is written down, how it is
// run, and the equations that read it.
type Test struct {
	ID    string // stable short name: `tenback tests ID`
	Name  string // for people
	Names []string
	// Names are other ways in which sheets name the test, for a Test column.

	Extra []Input // inputs that its conditions or look-ups read besides the equations' own

	Results  []Result // ways of writing the result; the first is the preferred one
	Suits    string   // whom it suits, one sentence
	Protocol []string // how to run it, one step a line
	Exertion Exertion // how hard it is by design
	Youth    bool     // offered for people under 18
	Measured bool     // a laboratory value, no estimate
	Cycle    bool     // done on a cycle, where most people reach less than on foot

	Also     []Also // columns of this test alone, besides its result
	Fallback bool   // an estimate without exercise, made only on request
	// Norm reads the result against a table of its own, without a VO2max.
	Norm func(sex Sex, years int, result Quantity) (NormReading, bool)

	// Ceiling is the best result that a target may ask of a person, in the result's own
	// unit; ok is false where the input's bounds are enough.
	Ceiling func(e *Entry) (best Quantity, ok bool)

	// LowerLimit is the result that nearly all healthy people of the person's age, sex and
	// size reach; ok is false where none is known.
	LowerLimit func(e *Entry) (limit Quantity, ok bool)

	Equations []*Equation // the first that applies is used
	Choice    string      // why these and no others, with the source or "our own"
	Day       *Day        // how a group is tested; nil where it cannot be
	Sources   []Source    // of this test alone; the others are in package fieldtests
}

// Also is a column for one more input of a test.
type Also struct {
	Input   Input
	Column  string
	Headers []string
}

// Result is one way of writing down what a test gave.
type Result struct {
	Input   Input
	Column  string   // header of this result in a roster with a column per test
	Headers []string // other headers for it
	Step    Quantity // smallest step that the test can be done in, for targets
	Better  Direction
	Phrase  string // how a target is put, with %s for the value: "1.5 miles in %s"
}

// Direction says which way a result improves.
type Direction int8

// The directions.
const (
	LowerIsBetter  Direction = -1
	HigherIsBetter Direction = 1
)

// Equation turns a test's result into VO2max.
type Equation struct {
	ID      string
	Name    string // author and year, and the form
	Vars    []Var
	Steps   []Step
	Formula string // gives VO2max; the text that is printed and computed
	Out     Unit   // unit of the formula's value; NoUnit means mL/kg/min

	Sex        Sex            // the one sex it is for, or SexUnspecified for both
	Ages       reference.Ages // used for people of these ages, and no others
	Population string
	Limits     []Limit
	// When returns why the equation does not apply to this case, or nil.
	When func(c *Case) *Refusal

	// Choice marks an equation that is used only when named in Options.
	Choice bool

	Error       ErrorOfEstimate
	Outside     []Check // by other people than those the equation was made on
	Retest      *Retest // how far two tests of one person differ; nil without a study
	Correlation string
	Source      string // bibliography key
	Status      string // how the coefficients were checked
	Notes       []string
	NoTarget    bool     // not turned back into a result to reach
	Remark      FlagCode // set on every estimate of this equation, unless zero

	once    sync.Once
	program program // see ready
}

// Var binds a symbol of the formula to an input, in the unit of the paper.
type Var struct {
	Symbol string
	Input  Input
	Unit   Unit
}

// Step is a quantity worked out before the formula.
type Step struct {
	Symbol string
	Name   string
	Unit   Unit
	// Instead is an input that replaces the step where the sheet has it.
	Instead Input
	HasInst bool
	Formula string // or Lookup
	// Lookup gives the value, its standard error, and how it was found.
	Lookup func(c *Case) (Found, *Refusal)
	Error  float64 // standard error of the step's value, in Unit
	// Own marks an error that is the person's own, so that it cancels between two
	// tests, such as that of a maximum heart rate predicted from age.
	Own    bool
	Source string
}

// Found is what a look-up gives.
type Found struct {
	Value float64 // in the step's unit
	Error float64 // standard error of the value, in the same unit
	How   Said    // how it was found
}

// Limit is a bound on a symbol's value.
type Limit struct {
	Symbol   string
	Min, Max float64 // in the symbol's unit
	Sex      Sex     // applies to this sex only, or to all
	Refuse   bool    // no score outside; else a flag and a wider range
	Why      string  // completes "is outside ... to ...: "
}

// ErrorStatus says where an error of estimate comes from.
type ErrorStatus uint8

// The kinds of error figures.
const (
	ErrorPublished ErrorStatus = iota
	ErrorAssumed               // never published; our stated assumption
)

// ErrorOfEstimate is the standard error of estimate (SEE) of an equation.
type ErrorOfEstimate struct {
	SEE     VO2     // fixed part
	Share   float64 // or a share of the estimate
	LPerMin float64 // or an error in L/min, divided by the body mass
	// Curve gives the error at a value, as CurveText prints it; nil without one.
	Curve     func(VO2) VO2
	CurveText string
	Status    ErrorStatus
	Note      string
}

// AssumedSEE is the standard error (mL/kg/min) used where a paper prints none: our
// assumption, toward the wide end of those published for field tests (2.8 to 6.2).
// On the 31 men of testdata/evidence 3.5 + 483/t has a root mean square error of 3.8.
const AssumedSEE VO2 = 5.0

// AssumedError is the error of an equation whose paper prints none.
func AssumedError() ErrorOfEstimate {
	return ErrorOfEstimate{SEE: AssumedSEE, Status: ErrorAssumed, Note: "error not published; 5.0 is an assumption"}
}

// ForNewPeople is the error that a regression on people with some terms will have in new
// people of the same kind, from its standard error in its own people.
//
//	SEE √((n − 2)(n + 1)/((n − k − 2) n))
//
// Source: the expected error of cross-validation, after Stein and Darlington (from memory).
func ForNewPeople(see VO2, people, terms int) ErrorOfEstimate {
	n, k := float64(people), float64(terms)
	return ErrorOfEstimate{SEE: see * VO2(math.Sqrt((n-2)*(n+1)/((n-k-2)*n))),
		Note: fmt.Sprintf("%s in the study's own %d people, widened for new ones", trimNumber(float64(see), 2), people)}
}

// Check is what a study of other people found of an equation.
type Check struct {
	People int
	Who    string
	Bias   VO2    // mean of estimated less measured
	SD     VO2    // of that difference; 0 where it is not printed
	Source string // bibliography key
}

// At returns the standard error (mL/kg/min) at an estimate of a person of that body mass, which
// counts only for errors in L/min and is clamped to the input's bounds.
func (e ErrorOfEstimate) At(v VO2, kg float64) VO2 {
	if e.Curve != nil {
		return e.Curve(v)
	}
	if e.LPerMin > 0 {
		return VO2(1000 * e.LPerMin / max(inputs[BodyMass].Min, min(kg, inputs[BodyMass].Max)))
	}
	return e.SEE + VO2(e.Share)*v
}

func (e ErrorOfEstimate) String() string {
	size := fmt.Sprintf("±%s mL/kg/min", trimNumber(float64(e.SEE), 2))
	if e.Share > 0 {
		size = fmt.Sprintf("±%s %% of the value", trimNumber(e.Share*100, 1))
	}
	if e.LPerMin > 0 {
		size = fmt.Sprintf("±%s L/min", trimNumber(e.LPerMin, 3))
	}
	if e.Curve != nil {
		size = "±" + e.CurveText + " mL/kg/min"
	}
	if e.Status == ErrorAssumed {
		size += " (assumed: error not published)"
	}
	return size
}

// program is an equation made ready to compute.
type program struct {
	slots   map[string]int // of the symbols: the variables, then the steps
	steps   []*formula.Formula
	result  *formula.Formula
	limits  []compiledLimit
	byPulse bool
}

type compiledLimit struct {
	slot int
	why  *Phrase
}

// ready compiles the equation on first use. A faulty declaration panics; a test
// compiles every equation.
func (e *Equation) ready() *program {
	e.once.Do(func() {
		if err := e.compile(); err != nil {
			panic(fmt.Sprintf("scoring: equation %s: %v", e.ID, err))
		}
	})
	return &e.program
}

func (e *Equation) compile() error {
	p := program{slots: map[string]int{}}
	for _, v := range e.Vars {
		if !v.Unit.Converts(v.Input.Info().Unit) {
			return fmt.Errorf("%s: %s does not convert to %s", v.Symbol, v.Input, v.Unit)
		}
		p.slots[v.Symbol] = len(p.slots)
	}
	var err error
	for _, s := range e.Steps {
		var form *formula.Formula
		if s.Formula != "" {
			if form, err = formula.Compile(s.Formula, p.slots); err != nil {
				return err
			}
		}
		p.steps = append(p.steps, form)
		p.slots[s.Symbol] = len(p.slots)
	}
	if len(p.slots) > maxSlots {
		return fmt.Errorf("%d symbols, at most %d", len(p.slots), maxSlots)
	}
	for _, l := range e.Limits {
		slot, ok := p.slots[l.Symbol]
		if !ok {
			return fmt.Errorf("limit on unknown symbol %s", l.Symbol)
		}
		p.limits = append(p.limits, compiledLimit{slot, l.Phrase()})
	}
	p.byPulse = slices.ContainsFunc(e.Inputs(), func(in Input) bool { return inputs[in].Unit == BeatsPerMinute })
	p.result, err = formula.Compile(e.Formula, p.slots)
	e.program = p
	return err
}

// OutUnit returns the unit of the formula's value.
func (e *Equation) OutUnit() Unit {
	if e.Out == NoUnit {
		return MLPerKgMin
	}
	return e.Out
}

// Printed is the formula as shown to people.
func (e *Equation) Printed() string { return "VO2max = " + e.ready().result.String() }

// PrintedStep is a step's formula as shown to people, or what it looks up.
func (e *Equation) PrintedStep(i int) string {
	if f := e.ready().steps[i]; f != nil {
		return e.Steps[i].Symbol + " = " + f.String()
	}
	return e.Steps[i].Symbol + " = " + e.Steps[i].Name
}

// Inputs lists what the equation is fed with.
func (e *Equation) Inputs() []Input {
	var all []Input
	for _, v := range e.Vars {
		all = append(all, v.Input)
	}
	for _, s := range e.Steps {
		if s.HasInst {
			all = append(all, s.Instead)
		}
	}
	return all
}

// ResultOf returns the way of writing the result that the trial used.
func (t *Trial) ResultOf() (Result, bool) {
	for _, r := range t.Test.Results {
		if t.Has(r.Input) {
			return r, true
		}
	}
	return Result{}, false
}

// ages is the range of ages that the test's equations take between them, unasked.
func (t *Test) ages() reference.Ages {
	all := reference.Ages{Min: Adults.Max}
	for _, e := range t.Equations {
		if !e.Choice {
			all = reference.Ages{Min: min(all.Min, e.Ages.Min), Max: max(all.Max, e.Ages.Max)}
		}
	}
	return all
}

// TakesAge reports whether an equation that is used unasked takes an age.
func (t *Test) TakesAge(years float64) bool {
	return slices.ContainsFunc(t.Equations, func(e *Equation) bool { return !e.Choice && e.Takes(years) })
}

// Takes reports whether the equation is used at an age.
func (e *Equation) Takes(years float64) bool { return e.Ages.Contains(reference.WholeYears(years)) }

// evidence ranks where the error comes from: 0 from other people than the study's own, 1
// from the study, 2 assumed.
func (e *Equation) evidence() int {
	switch {
	case slices.ContainsFunc(e.Outside, func(c Check) bool { return c.SD > 0 }):
		return 0
	case e.Error.Status == ErrorAssumed:
		return 2
	}
	return 1
}

// ByPulse reports whether the equation reads a heart rate.
func (e *Equation) ByPulse() bool { return e.ready().byPulse }

// Needs lists the inputs beyond the result that the test's equations can use.
func (t *Test) Needs() []Input {
	var all []Input
	for _, e := range t.Equations {
		for _, in := range e.Inputs() {
			isResult := slices.ContainsFunc(t.Results, func(r Result) bool { return r.Input == in })
			if !isResult && !slices.Contains(all, in) {
				all = append(all, in)
			}
		}
	}
	for _, a := range t.Also {
		if !slices.Contains(all, a.Input) {
			all = append(all, a.Input)
		}
	}
	for _, in := range t.Extra {
		if !slices.Contains(all, in) {
			all = append(all, in)
		}
	}
	return all
}

// Source is an entry of the bibliography.
type Source struct {
	Key      string
	Citation string
}

package scoring

import (
	"math"

	"tenback/scoring/reference"
)

// maxSlots bounds the symbols of one equation, so that a case needs no heap.
const maxSlots = 12

// Case is one equation tried on one trial of one person.
type Case struct {
	entry    *Entry
	trial    *Trial
	equation *Equation
	program  *program
	slots    [maxSlots]float64
	stepErr  [maxSlots]float64 // standard error of each step's value
	how      []Said            // how each slot's value was found; nil while there is nothing to say
	flags    []Flag
	instead  *replacement // of the trial's result, while a target is sought
}

func newCase(e *Entry, trial *Trial, eq *Equation) Case {
	return Case{entry: e, trial: trial, equation: eq, program: eq.ready()}
}

// replacement is a result put in place of the one in the sheet.
type replacement struct {
	Input    Input
	Quantity Quantity
}

// Refusal says why a trial could not be scored, where, and what would help.
type Refusal struct {
	Test    *Test
	Input   Input  // the input at fault
	Cell    string // where it was read; empty if it is missing
	Why     Said
	Fix     Said
	Missing bool   // the input is absent rather than wrong
	Doubt   *Doubt // of the entry: why the input is not believed; nil without one
	// OtherTest means that no value is wrong: the person needs another test.
	OtherTest  bool
	ResultCell string         // where the trial's result was read
	NotForAge  bool           // the equation or table is for other ages
	Waits      bool           // no value is wrong: a column waits for an answer
	ages       reference.Ages // of the equation that is not for the person's age
	// Beyond means that the result may be right and is out of the equation's reach.
	Beyond bool
}

// Get looks an input up: the trial's own value first, then the person's.
func (c *Case) Get(in Input) (Quantity, bool) {
	if c.instead != nil {
		if c.instead.Input == in {
			return c.instead.Quantity, true
		}
		if in == ShuttleInLevel { // a target is a level finished
			return Quantity{}, false
		}
	}
	if q, ok := c.trial.Get(in); ok {
		return q, true
	}
	return c.entry.Get(in)
}

// cellOf returns the address that an input was read from.
func (c *Case) cellOf(in Input) string {
	if c.trial.Has(in) {
		return c.trial.Cell(in)
	}
	return c.entry.Cell(in)
}

// Flag adds a remark to the estimate. Flags are dropped while searching for a target.
func (c *Case) Flag(code FlagCode, detail Said) {
	if c.instead != nil {
		return
	}
	c.flags = append(c.flags, Flag{Code: code, Detail: detail})
}

// Refuse returns a refusal about an input, at its cell.
func (c *Case) Refuse(in Input, why, fix Said) *Refusal {
	return &Refusal{Test: c.trial.Test, Input: in, Cell: c.cellOf(in), Why: why, Fix: fix}
}

// NotFor returns the refusal of an equation that is not meant for what was done.
func (c *Case) NotFor(why Said) *Refusal { return &Refusal{Test: c.trial.Test, Why: why} }

// Missing returns the refusal for an input that is not there.
func (c *Case) Missing(in Input) *Refusal { return missing(c.trial.Test, in) }

// Did reports whether the trial itself, rather than the person, has the input.
func (c *Case) Did(in Input) bool { return c.trial.Has(in) }

// Person returns what is known of the person.
func (c *Case) Person() *Entry { return c.entry }

// fill puts every variable and step into its slot.
func (c *Case) fill() *Refusal {
	e := c.equation
	for i, v := range e.Vars {
		q, ok := c.Get(v.Input)
		if !ok {
			return missing(c.trial.Test, v.Input)
		}
		c.slots[i] = q.In(v.Unit)
	}
	for i, s := range e.Steps {
		slot := len(e.Vars) + i
		if s.HasInst {
			if q, ok := c.Get(s.Instead); ok {
				c.slots[slot] = q.In(s.Unit)
				c.explain(slot, AsGiven)
				continue
			}
		}
		c.stepErr[slot] = s.Error
		if s.Lookup == nil {
			c.slots[slot] = c.program.steps[i].Eval(c.slots[:])
			continue
		}
		found, refusal := s.Lookup(c)
		if refusal != nil {
			return refusal
		}
		c.slots[slot], c.stepErr[slot] = found.Value, found.Error
		c.explain(slot, found.How)
	}
	return nil
}

// explain records how a slot's value was found.
func (c *Case) explain(slot int, how Said) {
	if c.how == nil {
		if how.IsZero() || c.instead != nil {
			return
		}
		c.how = make([]Said, maxSlots) // few cases need it, and it is large
	}
	c.how[slot] = how
}

// explained returns how a slot's value was found, if there is anything to say.
func (c *Case) explained(slot int) Said {
	if c.how == nil {
		return Said{}
	}
	return c.how[slot]
}

func missing(t *Test, in Input) *Refusal {
	return &Refusal{Test: t, Input: in, Missing: true, Why: sayNeeds.With(t, in), Fix: sayAddColumn.With(in)}
}

// value computes VO2max from the slots, in mL/kg/min.
func (c *Case) value() VO2 {
	return VO2(Q(c.program.result.Eval(c.slots[:]), c.equation.OutUnit()).In(MLPerKgMin))
}

// fromSteps propagates the steps' standard errors to the result, added in
// quadrature; own is the part that is the person's own.
func (c *Case) fromSteps() (all, own VO2) {
	var sum, owned float64
	first := len(c.equation.Vars)
	for slot := first; slot < first+len(c.equation.Steps); slot++ {
		if c.stepErr[slot] == 0 {
			continue
		}
		moved := *c
		moved.slots[slot] += c.stepErr[slot]
		for later := slot + 1; later < first+len(c.equation.Steps); later++ {
			if f := c.program.steps[later-first]; f != nil && c.explained(later).IsZero() {
				moved.slots[later] = f.Eval(moved.slots[:])
			}
		}
		d := float64(moved.value() - c.value())
		sum += d * d
		if c.equation.Steps[slot-first].Own {
			owned += d * d
		}
	}
	return VO2(math.Sqrt(sum)), VO2(math.Sqrt(owned))
}

// outsideLeast is added to the error (mL/kg/min, in quadrature) where an equation may be
// outside what it was checked on. Our assumption; no study gives a figure.
const outsideLeast VO2 = 1

// agelessTo is the age up to which an equation for adults must reach to read someone of
// unknown age. Our own bound.
const agelessTo = 50

// estimate tries an equation on a trial. What the case held before is lost.
func (c *Case) estimate(e *Entry, trial *Trial, eq *Equation) (Estimate, *Refusal) {
	*c = newCase(e, trial, eq)
	if eq.Sex != SexUnspecified && e.Sex() != eq.Sex {
		if e.Sex() == SexUnspecified {
			return Estimate{}, missing(trial.Test, SexInput)
		}
		return Estimate{}, c.Refuse(SexInput, sayOtherSex.With(), Said{})
	}
	var notAsDone *Refusal
	if eq.When != nil {
		if notAsDone = eq.When(c); notAsDone != nil && notAsDone.Fix.IsZero() {
			return Estimate{}, notAsDone // meant for something else, whatever the age
		}
	}
	if refusal := c.checkAge(); refusal != nil {
		return Estimate{}, refusal
	}
	if c.program.byPulse && !trial.Test.Measured && e.Says(HeartRateDrug) {
		if answer, _ := e.Get(HeartRateDrug); answer.Amount == Unclear {
			return Estimate{}, c.Refuse(HeartRateDrug, sayUnclear.With(), sayYesOrNo.With())
		}
		refusal := c.Refuse(HeartRateDrug, sayMedicine.With(), sayByTime.With())
		refusal.OtherTest = true
		return Estimate{}, refusal
	}
	if e.HealthUnread != "" && !trial.Test.Measured && (c.program.byPulse || trial.Test.Exertion == AllOut) {
		return Estimate{}, &Refusal{Test: trial.Test, Cell: e.HealthUnread, Waits: true, Why: sayHealthUnread.With(), Fix: sayWhatAsked.With()}
	}
	if notAsDone != nil {
		return Estimate{}, notAsDone
	}
	if refusal := c.fill(); refusal != nil {
		return Estimate{}, refusal
	}
	est := Estimate{Test: trial.Test, Equation: eq, entry: e, trial: trial}
	for i, l := range eq.Limits {
		slot := c.program.limits[i].slot
		x := c.slots[slot]
		if (l.Sex != SexUnspecified && l.Sex != e.Sex()) || (x >= l.Min && x <= l.Max) {
			continue
		}
		unit, input := eq.symbol(slot)
		why := sayOutside.With(Q(x, unit), Q(l.Min, unit), Q(l.Max, unit), c.program.limits[i].why.With())
		if l.Refuse {
			refusal := c.Refuse(input, why, sayCheckValue.With())
			refusal.Beyond = trial.Test.HasResult(input)
			return Estimate{}, refusal
		}
		c.Flag(FlagOutsideLimits, why)
		est.Outside = outsideLeast
	}
	est.VO2 = c.value()
	if least := VO2(inputs[MeasuredVO2].Min); !(est.VO2 >= least && est.VO2 <= VO2(inputs[MeasuredVO2].Max)) {
		result, _ := trial.ResultOf()
		refusal := c.Refuse(result.Input, sayCannotBe.With(trial.Test, Q(math.Round(float64(est.VO2)), MLPerKgMin)), sayCheckResult.With())
		if est.VO2 < least && !trial.Test.Measured {
			refusal.Why, refusal.Beyond = sayTooLow.With(trial.Test, Q(math.Round(float64(est.VO2)), MLPerKgMin)), true
		}
		return Estimate{}, refusal
	}
	if !e.Has(Age) && eq.Ages.Max < Adults.Max {
		est.Outside = outsideLeast // unknown, so perhaps
	}
	mass, _ := e.Get(BodyMass)
	est.SEE = eq.Error.At(est.VO2, mass.Amount)
	est.FromSteps, est.FromOwn = c.fromSteps()
	est.SD = VO2(math.Sqrt(float64(est.SEE*est.SEE + est.FromSteps*est.FromSteps + est.Outside*est.Outside)))
	c.flagAttempt()
	if eq.Remark != 0 {
		c.Flag(eq.Remark, Said{})
	}
	if eq.Error.Status == ErrorAssumed {
		c.Flag(FlagErrorAssumed, Said{})
	}
	est.Flags = c.flags
	return est, nil
}

// checkAge refuses a person outside the equation's ages. Someone of unknown age is read
// only by an equation for adults in general, of a test without a form for the young.
func (c *Case) checkAge() *Refusal {
	e, eq, test := c.entry, c.equation, c.trial.Test
	age, ok := e.Get(Age)
	switch {
	case ok && eq.Takes(age.Amount), eq.Ages == Everybody:
		return nil
	case ok:
		result, _ := c.trial.ResultOf()
		return &Refusal{Test: test, Input: Age, Cell: c.trial.Cell(result.Input), OtherTest: true, NotForAge: true, ages: eq.Ages,
			Why: sayNotForAge.With(test, reference.WholeYears(age.Amount)), Fix: sayTestForAge.With(eq.Ages)}
	case e.MayBeChild, eq.Ages.Min < oldestYouth, eq.Ages.Max < agelessTo, test.ages().Min < oldestYouth,
		e.YearsAtMost > 0 && reference.WholeYears(e.YearsAtMost) < eq.Ages.Min:
		return missing(test, Age)
	}
	return nil
}

// oldestYouth is the age in completed years of the oldest people under 18.
const oldestYouth = 17

// symbol returns a slot's unit and the input to look at when it is wrong.
func (e *Equation) symbol(slot int) (Unit, Input) {
	if slot < len(e.Vars) {
		return e.Vars[slot].Unit, e.Vars[slot].Input
	}
	s := e.Steps[slot-len(e.Vars)]
	return s.Unit, s.Instead
}

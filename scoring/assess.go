package scoring

import (
	"cmp"
	"math"
	"slices"

	"tenback/scoring/order"
	"tenback/scoring/reference"
)

// Estimate is VO2max as one equation reads one trial, with its error.
type Estimate struct {
	Test     *Test
	Equation *Equation
	VO2      VO2 // the centre, mL/kg/min
	SD       VO2 // whole standard error: the three below in quadrature

	SEE       VO2 // the equation's own standard error of estimate
	FromSteps VO2 // from inputs that are themselves predicted, such as maximum heart rate
	FromOwn   VO2 // the part of FromSteps that is the person's own and the same each time
	Outside   VO2 // for leaving the range that the equation was checked on
	Flags     []Flag

	entry     *Entry
	trial     *Trial
	noTargets bool    // nothing to reach before somebody has talked to the person
	sought    *seeker // see seeker; nil until the first target
}

// Likely is the range that holds about two chances in three: one standard
// error to each side.
func (e *Estimate) Likely() (low, high VO2) { return e.VO2 - e.SD, e.VO2 + e.SD }

// Valid reports whether the person is inside what the equation was checked on.
func (e *Estimate) Valid() bool { return e.Outside == 0 }

// Measured reports whether the value was measured in a laboratory.
func (e *Estimate) Measured() bool { return e.Test.Measured }

// Score is everything read from one Entry.
type Score struct {
	Estimates []Estimate // the headline first; empty if nothing could be scored
	Refused   []Refusal  // trials that could not be scored
	Adults    []Standing // against the adult tables: one, or two where sex is not given
	Youth     []HealthLine
	Norms     []NormReading   // tests read against norms of their own
	Resting   *RestingReading // nil if no resting heart rate is given
	Flags     []Flag          // the gravest first

	entry  *Entry
	advice Advice
	doubts *Entry // the entry with its doubted values
}

// Best returns the headline estimate; nil if nothing could be scored.
func (s *Score) Best() *Estimate {
	if len(s.Estimates) == 0 {
		return nil
	}
	return &s.Estimates[0]
}

// Entry returns what the score was made from, without doubted values.
func (s *Score) Entry() *Entry { return s.entry }

// IsYouth reports whether a person of that decimal age is under 18.
func IsYouth(age float64) bool { return reference.WholeYears(age) < 18 }

// nearTop is the uptake from which every field estimate runs less true.
// Common practice, no source.
const nearTop VO2 = 55

// Options change how an entry is scored. The zero Options are the defaults.
type Options struct {
	// Equations names equations, by ID, that are used for their test in place
	// of the default choice.
	Equations []string
	// Fallback are tests without exercise, tried on people for whom nothing else
	// scores; such estimates are of a lower grade and marked so.
	Fallback []*Test
	// Adults and Youth are the tables to read against; nil for the defaults, which for
	// adults is a table of cycle tests after a test on a cycle.
	Adults *reference.GroupTable
	Youth  *reference.YouthTable
}

// Assess scores an entry with the default options.
func Assess(e *Entry) Score { return Options{}.Assess(e) }

// Assess scores an entry. It never fails: what could not be scored is in
// Refused with the reason, and the rest is read as far as it goes. Doubted values
// count as absent.
//
// Each trial gives at most one estimate. Among several a measured value comes first,
// then those that are inside what their equation was checked on. An error found on other
// people comes before a study's own, and that before an assumed one, because they do not
// compare; then the smaller standard error, then the order of the sheet.
func (o Options) Assess(e *Entry) Score {
	s := o.Estimates(e)
	s.screen()
	s.checkLab()
	s.readResting()
	for i := range s.Estimates {
		e := &s.Estimates[i]
		e.noTargets = s.SeeClinicianFirst() || s.advice == NotAllOut && e.Test.Exertion == AllOut
	}
	if best := s.Best(); best != nil {
		s.place(best, cmp.Or(o.Adults, reference.DefaultAdults(best.Test.Cycle)), cmp.Or(o.Youth, reference.YouthTables[0]))
		s.doubt(best)
		s.checkLow()
	}
	s.collectFlags()
	return s
}

// Estimates makes and orders the estimates of a score. It reads them against no table,
// which takes most of the time.
func (o Options) Estimates(e *Entry) Score {
	s := Score{entry: e.believed(), doubts: e}
	var c Case // one for all equations, because it is large
	for i := range s.entry.Trials {
		s.try(&c, &s.entry.Trials[i], o)
	}
	s.refuseDoubted(e)
	if len(s.Estimates) == 0 {
		s.fallBack(&c, o)
	}
	slices.SortStableFunc(s.Estimates, func(a, b Estimate) int {
		return cmp.Or(
			order.TrueFirst(a.Measured(), b.Measured()),
			order.TrueFirst(a.Valid(), b.Valid()),
			cmp.Compare(a.Equation.evidence(), b.Equation.evidence()),
			cmp.Compare(a.SD, b.SD))
	})
	return s
}

// try reads a trial by the first equation of its test, in the order declared, that
// applies to the person and finds its inputs. A value that is wrong, doubted or waits
// for an answer ends the search, because another equation would only hide it.
func (s *Score) try(c *Case, trial *Trial, o Options) {
	if trial.Test.Norm != nil {
		s.readNorm(trial)
		return
	}
	var refusals []*Refusal
	for _, eq := range o.choose(trial.Test) {
		est, refusal := c.estimate(s.entry, trial, eq)
		if refusal == nil {
			s.Estimates = append(s.Estimates, est)
			return
		}
		stop := s.doubted(refusal) || !refusal.passes()
		refusals = append(refusals, refusal)
		if stop {
			break
		}
	}
	if len(refusals) == 0 {
		refusals = append(refusals, &Refusal{Test: trial.Test, Why: sayOnlyNamed.With(trial.Test), Fix: sayNameOne.With()})
	}
	refusal := *mostTelling(refusals)
	if result, ok := trial.ResultOf(); ok {
		refusal.ResultCell = trial.Cell(result.Input)
	}
	s.Refused = append(s.Refused, refusal)
}

// passes reports whether the next equation of the test may read the trial.
func (r *Refusal) passes() bool {
	return r.Fix.IsZero() || r.NotForAge || r.Missing || r.Input == HeartRateDrug
}

// choose returns the equations of a test that the options name, else all that are
// not by choice only.
func (o Options) choose(t *Test) []*Equation {
	named := slices.ContainsFunc(t.Equations, func(e *Equation) bool { return slices.Contains(o.Equations, e.ID) })
	if !named && !slices.ContainsFunc(t.Equations, func(e *Equation) bool { return e.Choice }) {
		return t.Equations
	}
	var chosen []*Equation
	for _, e := range t.Equations {
		if named && slices.Contains(o.Equations, e.ID) || !named && !e.Choice {
			chosen = append(chosen, e)
		}
	}
	return chosen
}

// fallBack estimates without an exercise test.
func (s *Score) fallBack(c *Case, o Options) {
	for _, t := range o.Fallback {
		trial := &Trial{Test: t}
		for _, eq := range o.choose(t) {
			if est, refusal := c.estimate(s.entry, trial, eq); refusal == nil {
				s.Estimates = append(s.Estimates, est)
				break
			}
		}
	}
}

// readNorm reads the result of a test that has norms of its own and no VO2max.
func (s *Score) readNorm(trial *Trial) {
	result, _ := trial.ResultOf()
	q, _ := trial.Get(result.Input)
	age, ok := s.entry.Get(Age)
	sex := s.entry.Sex()
	if !ok || sex == SexUnspecified {
		in := Age
		if ok {
			in = SexInput
		}
		refusal := missing(trial.Test, in)
		s.doubted(refusal)
		s.Refused = append(s.Refused, *refusal)
		return
	}
	reading, ok := trial.Test.Norm(sex, reference.WholeYears(age.Amount), q)
	if !ok {
		s.Refused = append(s.Refused, Refusal{Test: trial.Test, Input: Age, Cell: trial.Cell(result.Input), OtherTest: true, NotForAge: true,
			Why: sayNoNorms.With(trial.Test), Fix: sayOtherTest.With()})
		return
	}
	reading.Test = trial.Test
	s.Norms = append(s.Norms, reading)
}

// mostTelling returns the refusal that the organiser can act on: a wrong value
// before a missing one, either before "not for this age", then "does not apply". What
// is said of ages holds for all equations that were refused for them.
func mostTelling(refusals []*Refusal) *Refusal {
	rank := func(r *Refusal) int {
		switch {
		case r.Fix.IsZero():
			return 3
		case r.NotForAge:
			return 2
		case r.Missing:
			return 1
		}
		return 0
	}
	r := slices.MinFunc(refusals, func(a, b *Refusal) int { return cmp.Compare(rank(a), rank(b)) })
	if r.NotForAge && r.ages != (reference.Ages{}) {
		r.Fix = otherAges(refusals)
	}
	return r
}

// otherAges names the ages that equations of a test are for, which refused a person for
// the age.
func otherAges(refusals []*Refusal) Said {
	var all []reference.Ages
	for _, r := range refusals {
		if r.NotForAge {
			all = append(all, r.ages)
		}
	}
	slices.SortFunc(all, func(a, b reference.Ages) int { return cmp.Compare(a.Min, b.Min) })
	joined := all[:1]
	for _, a := range all[1:] {
		if last := &joined[len(joined)-1]; a.Min <= last.Max+1 {
			last.Max = max(last.Max, a.Max)
		} else {
			joined = append(joined, a)
		}
	}
	if len(joined) > 1 {
		return sayTestForAges.With(joined[0], joined[1])
	}
	return sayTestForAge.With(joined[0])
}

// place reads the headline against the tables.
func (s *Score) place(best *Estimate, adults *reference.GroupTable, youth *reference.YouthTable) {
	age, ok := s.entry.Get(Age)
	if !ok {
		s.Flags = append(s.Flags, Flag{Code: FlagAgeMissing})
		return
	}
	sexes := []Sex{Female, Male}
	if sex := s.entry.Sex(); sex != SexUnspecified {
		sexes = []Sex{sex}
	} else {
		s.Flags = append(s.Flags, Flag{Code: FlagSexMissing})
	}
	years := reference.WholeYears(age.Amount)
	for _, sex := range sexes {
		if IsYouth(age.Amount) {
			if line, ok := youth.Line(sex, years); ok {
				s.Youth = append(s.Youth, best.againstLine(sex, line, youth.ID))
			}
			continue
		}
		if row, ok := adults.Row(sex, years); ok {
			s.Adults = append(s.Adults, best.standing(row, years))
			if years < row.Ages.Min {
				s.Flags = append(s.Flags, Flag{Code: FlagYoungestRow})
			}
		}
	}
	if len(s.Adults)+len(s.Youth) == 0 {
		s.Flags = append(s.Flags, Flag{Code: FlagNoTable})
	}
	for _, st := range s.Adults {
		if years >= IndependenceFrom && best.VO2-best.SD < st.Independence {
			s.Flags = append(s.Flags, Flag{Code: FlagIndependence})
			break
		}
	}
}

// doubt flags a headline that is very high, or that other tests contradict.
func (s *Score) doubt(best *Estimate) {
	if best.VO2 >= nearTop && !best.Measured() {
		s.Flags = append(s.Flags, Flag{Code: FlagNearTop})
	}
	for i := range s.Estimates[1:] {
		other := &s.Estimates[1+i]
		if other.trial == best.trial {
			continue
		}
		if differ(best, other) {
			s.Flags = append(s.Flags, Flag{FlagTestsDiffer, sayTestGave.With(other.Test, Number{float64(other.VO2), 1})})
		}
	}
}

// differ reports whether two estimates are further apart than 95 % of chance
// differences between them.
func differ(a, b *Estimate) bool {
	return math.Abs(float64(a.VO2-b.VO2)) > 1.96*math.Hypot(float64(a.SD), float64(b.SD))
}

// collectFlags joins the headline's flags to the score's, the gravest first.
func (s *Score) collectFlags() {
	if best := s.Best(); best != nil {
		s.Flags = append(s.Flags, best.Flags...)
	}
	slices.SortStableFunc(s.Flags, func(a, b Flag) int {
		return cmp.Or(-cmp.Compare(a.Code.Severity(), b.Code.Severity()), cmp.Compare(a.Code, b.Code))
	})
	s.Flags = slices.Compact(s.Flags)
}

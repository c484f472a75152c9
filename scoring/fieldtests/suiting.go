package fieldtests

import (
	"cmp"
	"slices"

	"tenback/scoring"
	"tenback/scoring/order"
	"tenback/scoring/reference"
)

// suitingMost bounds the tests that are named.
const suitingMost = 2

// Suiting returns the tests that suit a person in place of those that gave no number,
// the best first; none for an unknown age. done lists the tests of the person's
// roster, because these can be done there.
func Suiting(s *scoring.Score, done []*scoring.Test) []*scoring.Test {
	e := s.Entry()
	age, ok := e.Get(scoring.Age)
	if !ok {
		return nil
	}
	p := suiting{entry: e, years: age.Amount, medicine: e.Says(scoring.HeartRateDrug), gentle: needsGentle(s)}
	allOut := func(t scoring.Trial) bool { return t.Test.Exertion == scoring.AllOut }
	p.easy = p.gentle || !scoring.IsYouth(p.years) && !slices.ContainsFunc(e.Trials, allOut)
	var suit []*scoring.Test
	for _, t := range All() {
		failed := slices.ContainsFunc(s.Refused, func(r scoring.Refusal) bool { return r.Test == t && (r.NotForAge || r.Beyond) })
		if !failed && p.suits(t) {
			suit = append(suit, t)
		}
	}
	slices.SortStableFunc(suit, func(a, b *scoring.Test) int {
		return cmp.Or(
			p.easierFirst(p.gentle, a, b),
			order.TrueFirst(slices.Contains(done, a), slices.Contains(done, b)),
			p.easierFirst(p.easy, a, b),
			order.TrueFirst(!measuresPulse(a), !measuresPulse(b)),
			order.TrueFirst(!byPulse(a), !byPulse(b)),
			order.TrueFirst(p.sameResult(a), p.sameResult(b)))
	})
	return suit[:min(suitingMost, len(suit))]
}

// needsGentle reports whether something asks for a test that is not all-out: a reason to
// talk first, a condition that a clinician has cleared, or an adult's result too low
// for its equation.
func needsGentle(s *scoring.Score) bool {
	asks := func(in scoring.Input) bool { return s.Entry().Says(in) }
	beyond := func(r scoring.Refusal) bool { return r.Beyond && !s.Entry().MayBeYoung() } // children can walk in a run
	return s.Advice() >= scoring.NotAllOut || s.SeeClinicianFirst() ||
		slices.ContainsFunc([]scoring.Input{scoring.HeartRateDrug, scoring.KnownDisease, scoring.Pregnant}, asks) ||
		slices.ContainsFunc(s.Refused, beyond)
}

// suiting is what matters of a person for the choice of a test.
type suiting struct {
	entry    *scoring.Entry
	years    float64
	medicine bool // no test by pulse
	gentle   bool // no all-out test
	easy     bool // not used to all-out tests
}

// suits reports whether the person can do the test and something can be read from it.
func (p *suiting) suits(t *scoring.Test) bool {
	youth := scoring.IsYouth(p.years)
	switch {
	case t.Day == nil, youth && !t.Youth, p.gentle && t.Exertion == scoring.AllOut:
		return false
	case t.Norm != nil:
		_, ok := t.Norm(p.entry.Sex(), reference.WholeYears(p.years), scoring.Q(1, t.Results[0].Input.Info().Unit))
		return ok && p.entry.Sex() != scoring.SexUnspecified
	case p.medicine && t.Exertion == scoring.OwnPace && !measuresPulse(t):
		return t.TakesAge(p.years) // its result says something by itself
	}
	return slices.ContainsFunc(t.Equations, func(e *scoring.Equation) bool {
		needsSex := slices.ContainsFunc(e.Vars, func(v scoring.Var) bool { return v.Input == scoring.SexInput })
		sex := p.entry.Sex()
		return !e.Choice && e.Takes(p.years) && !(p.medicine && e.ByPulse()) &&
			(sex != scoring.SexUnspecified && (e.Sex == sex || e.Sex == scoring.SexUnspecified) || e.Sex == scoring.SexUnspecified && !needsSex)
	})
}

func (p *suiting) easierFirst(matters bool, a, b *scoring.Test) int {
	if !matters {
		return 0
	}
	return cmp.Compare(a.Exertion, b.Exertion)
}

// sameResult reports whether a test has the kind of result of one that was done.
func (p *suiting) sameResult(t *scoring.Test) bool {
	return slices.ContainsFunc(p.entry.Trials, func(tr scoring.Trial) bool { return t.HasResult(tr.Test.Results[0].Input) })
}

// byPulse reports whether the equations that are used unasked all read a heart rate.
func byPulse(t *scoring.Test) bool {
	return t.Norm == nil && !slices.ContainsFunc(t.Equations, func(e *scoring.Equation) bool { return !e.Choice && !e.ByPulse() })
}

// measuresPulse reports whether a pulse is taken during or after the test.
func measuresPulse(t *scoring.Test) bool {
	return t.Day.Count != scoring.PulseCount{} || slices.ContainsFunc(t.Also, func(a scoring.Also) bool { return a.Input == scoring.ExerciseHR })
}

// Advice returns what to do about a refusal, with the tests that suit the person, which
// may be none. ask is set where a clinician must agree first.
func Advice(r *scoring.Refusal, suit []*scoring.Test, ask bool) scoring.Said {
	if len(suit) == 0 || !r.OtherTest && !r.Beyond {
		return r.Fix
	}
	advice := sayTest.With(suit[0])
	if len(suit) > 1 {
		advice = sayTests.With(suit[0], suit[1])
	}
	if ask {
		advice = sayIfAgreed.With(advice)
	}
	if r.Beyond {
		return sayIfRight.With(r.Fix, advice)
	}
	return advice
}

var (
	sayTest     = phrases.Phrase("suiting-test", "use a test that suits this person, such as the {First}")
	sayTests    = phrases.Phrase("suiting-tests", "use a test that suits this person, such as the {First} or the {Second}")
	sayIfAgreed = phrases.Phrase("if-agreed", "{Advice}, if a clinician agrees")
	sayIfRight  = phrases.Phrase("if-right", "{Check}; if it is right, {Advice}")
)

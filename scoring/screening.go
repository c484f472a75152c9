package scoring

import (
	"cmp"
	"slices"
	"unicode/utf8"

	"tenback/scoring/reference"
)

// Advice is what holds for a person until somebody has talked to them.
type Advice uint8

// The kinds of advice, the gravest last.
const (
	OnlyTalk       Advice = iota // talk before the test
	NotAllOut                    // no all-out test today
	ClinicianFirst               // a clinician before another test or hard exercise
)

// Said returns the advice in a few words.
func (a Advice) Said() Said { return adviceSaid[a] }

// Reason is why somebody should talk to a person before a test.
type Reason struct {
	Input  Input
	Why    Said // private: it may hold an answer about health
	Cell   string
	Advice Advice
}

// screening declares what each answer leads to, the gravest first. Someone cleared by
// a clinician is not held back for what the clinician knew of.
var screening = []struct {
	input  Input
	advice Advice
	always bool // holds for cleared people too
	why    *Phrase
}{
	{Symptoms, ClinicianFirst, true, sayInput},           // riebe2015
	{KnownDisease, ClinicianFirst, false, sayInput},      // riebe2015
	{Insulin, ClinicianFirst, false, sayInput},           // riebe2015
	{HeartRateDrug, ClinicianFirst, false, sayInput},     // common practice, no source
	{FamilySuddenDeath, ClinicianFirst, false, sayInput}, // maron2014
	{Pregnant, ClinicianFirst, false, sayInput},          // common practice, no source
	{RecentIllness, NotAllOut, true, sayInput},           // common practice, no source
	{RecentOperation, NotAllOut, false, sayInput},        // common practice, no source
	{SickleCellTrait, NotAllOut, false, sayInput},        // nata2007
	{Asthma, OnlyTalk, true, sayInhaler},                 // common practice, no source
}

// The lines of blood pressure at rest: pelliccia2021 for adults, flynn2017 for youth,
// and a third, from which no test is done: common practice, no source.
var pressureLines = []struct {
	input                Input
	youth, adult, noTest float64
}{{SystolicBP, 140, 160, 180}, {DiastolicBP, 90, 100, 110}}

const (
	restingLineFrom = 16 // years; common practice, no source
	inactiveFrom    = 40 // years; common practice, no source
	// fastestYears is an age of the table of resting pulse with the highest limits.
	fastestYears = 8
)

// TalkFirst returns why somebody should talk to the person before a test, the gravest
// reason first. An unclear answer counts as yes, and a doubted value is not used.
func (e *Entry) TalkFirst() []Reason {
	e = e.believed()
	var all []Reason
	cleared := e.Says(Cleared)
	for _, s := range screening {
		known := cleared && !s.always
		for _, n := range e.Notes {
			switch {
			case n.Kind != s.input:
			case n.DuringTest:
				all = append(all, Reason{n.Kind, sayNotedInTest.With(n.Kind, Quoted(n.Text)), n.Cell, ClinicianFirst})
			case n.Past && !e.Says(n.Kind):
				all = append(all, Reason{n.Kind, sayNoted.With(n.Kind, Quoted(n.Text)), n.Cell, OnlyTalk})
			case !known:
				all = append(all, Reason{n.Kind, sayNoted.With(n.Kind, Quoted(n.Text)), n.Cell, s.advice})
			}
		}
		cell := e.Cell(s.input)
		noted := slices.ContainsFunc(e.Notes, func(n DangerNote) bool { return n.Kind == s.input && n.Cell == cell })
		if e.Says(s.input) && !known && !noted {
			all = append(all, Reason{s.input, e.answered(s.input, s.why), cell, s.advice})
		}
	}
	for _, low := range e.lowResults() {
		all = append(all, Reason{low.result.Input, low.said, low.trial.Cell(low.result.Input), OnlyTalk})
	}
	all = append(all, e.pressureReasons()...)
	all = append(all, e.restingReasons()...)
	if in, ok := e.inactive(); ok && !cleared {
		all = append(all, Reason{in, sayInput.With(Inactive), e.Cell(in), NotAllOut})
	}
	slices.SortStableFunc(all, func(a, b Reason) int { return -cmp.Compare(a.Advice, b.Advice) })
	return all
}

// OnlyUnclear reports whether nothing but unclear answers asks for a clinician.
func (e *Entry) OnlyUnclear() bool {
	return !slices.ContainsFunc(e.TalkFirst(), func(r Reason) bool {
		answer, _ := e.Get(r.Input)
		noted := slices.ContainsFunc(e.Notes, func(n DangerNote) bool { return n.Kind == r.Input })
		return r.Advice == ClinicianFirst && (noted || answer.Amount != Unclear || !inputs[r.Input].YesNo)
	})
}

// plainYes is the most letters of a plain yes in the languages known.
const plainYes = 5

// answered says an answer that counts as yes; why is for a plain yes.
func (e *Entry) answered(in Input, why *Phrase) Said {
	answer, _ := e.Get(in)
	text := e.Text(in)
	switch {
	case answer.Amount == Unclear && text != "":
		return sayNotClearWords.With(in, Quoted(text))
	case answer.Amount == Unclear:
		return sayNotClear.With(in)
	case utf8.RuneCountInString(text) > plainYes:
		return sayNoted.With(in, Quoted(text))
	}
	return why.With(in)
}

// pressureReasons returns the gravest that the blood pressure gives, if any.
func (e *Entry) pressureReasons() (gravest []Reason) {
	age, known := e.Get(Age)
	youth := known && IsYouth(age.Amount) || !known && e.MayBeChild
	for _, l := range pressureLines {
		line := l.adult
		if youth {
			line = l.youth
		}
		q, ok := e.Get(l.input)
		switch {
		case !ok || q.Amount < line:
		case q.Amount >= l.noTest:
			return []Reason{{l.input, sayNoTest.With(l.input, q), e.Cell(l.input), ClinicianFirst}}
		case gravest == nil:
			gravest = []Reason{{l.input, sayAgain.With(l.input, q), e.Cell(l.input), ClinicianFirst}}
		}
	}
	return gravest
}

// restingReasons reads the resting heart rate. Children's hearts beat faster, so
// their line is the highest percentile of their age.
func (e *Entry) restingReasons() []Reason {
	rate, ok := e.Get(RestingHR)
	if !ok {
		return nil
	}
	age, known := e.Get(Age)
	if known && age.Amount >= restingLineFrom || !known && !e.MayBeChild {
		if rate.Amount < RestingClinicalHigh {
			return nil
		}
		return []Reason{{RestingHR, sayInputIs.With(RestingHR, rate), e.Cell(RestingHR), ClinicianFirst}}
	}
	years := fastestYears
	if known {
		years = reference.WholeYears(age.Amount)
	}
	top := 0.0
	for _, sex := range []Sex{Female, Male} {
		if given := e.Sex(); given == sex || given == SexUnspecified {
			value, _ := reference.RestingValue(sex, years, 97.5)
			top = max(top, value)
		}
	}
	if top == 0 || rate.Amount <= top {
		return nil
	}
	return []Reason{{RestingHR, sayFastForAge.With(RestingHR, rate), e.Cell(RestingHR), NotAllOut}}
}

// inactive reports whether someone of an age at which that matters is inactive, and
// which input says so.
func (e *Entry) inactive() (in Input, ok bool) {
	if age, known := e.Get(Age); !known || age.Amount < inactiveFrom {
		return 0, false
	}
	if e.Says(Inactive) {
		return Inactive, true
	}
	for _, in := range []Input{ActivityRating, ActivityLevel} {
		if q, ok := e.Get(in); ok && q.Amount <= 1 { // the lowest steps of both
			return in, true
		}
	}
	return 0, false
}

// screen flags the reasons for a clinician. A flag names the question, never the
// answer, because others may read it.
func (s *Score) screen() {
	for _, r := range s.entry.TalkFirst() {
		s.advice = max(s.advice, r.Advice)
		if r.Advice != ClinicianFirst {
			continue
		}
		f := Flag{FlagSeeClinician, sayInput.With(r.Input)}
		if r.Input == RestingHR {
			f = Flag{Code: FlagRestingHigh}
		}
		if !slices.Contains(s.Flags, f) {
			s.Flags = append(s.Flags, f)
		}
	}
	if s.entry.Says(HeartRateDrug) {
		s.Flags = append(s.Flags, Flag{Code: FlagHeartRateDrug})
	}
}

// Advice returns the gravest advice of [Entry.TalkFirst]; OnlyTalk if there is none.
func (s *Score) Advice() Advice { return s.advice }

// SeeClinicianFirst reports whether a clinician should see the person before another
// test or hard exercise. Such a person gets no target and no training range.
func (s *Score) SeeClinicianFirst() bool {
	return slices.ContainsFunc(s.Flags, func(f Flag) bool { return f.Code.Severity() == Clinician })
}

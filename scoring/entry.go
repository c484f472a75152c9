package scoring

import (
	"errors"
	"slices"
	"time"

	"tenback/scoring/reference"
)

type (
	// Sex is the reference tables' own type.
	Sex = reference.Sex
	// VO2 is oxygen uptake in mL/kg/min, the reference tables' own type.
	VO2 = reference.VO2
)

// The values of Sex.
const (
	SexUnspecified = reference.Unspecified
	Female         = reference.Female
	Male           = reference.Male
)

// Entry is all that is known of one person on one test day.
type Entry struct {
	Values           // the person's own: age, body mass, resting heart rate ...
	Born   time.Time // zero if not given
	Tested time.Time // zero if not given
	// YearsAtMost bounds an unknown age on the test day; 0 if nothing is known.
	YearsAtMost float64
	MayBeChild  bool    // someone of unknown age in a school is not scored as an adult
	Trials      []Trial // the field tests done, in the order of the sheet
	// Mornings counts the mornings whose median the resting heart rate is; 0 for a
	// single reading.
	Mornings int
	Notes    []DangerNote // in the order of the sheet
	Doubts   []Doubt      // the values that are not believed
	// HealthUnread is the header cell of a column that asks about health and is not
	// understood; empty if there is none.
	HealthUnread string
}

// Trial is one field test done, with its own values.
type Trial struct {
	Test *Test
	Values
	// Attempt is which of several Attempts this is, counted from 1; both are 0 for
	// the only one.
	Attempt, Attempts int
}

// Clip frees unused capacity of a complete entry.
func (e *Entry) Clip() {
	e.clip()
	e.Notes = slices.Clip(e.Notes)
	for i := range e.Trials {
		e.Trials[i].clip()
	}
}

// SetSex stores the sex, if given.
func (e *Entry) SetSex(s Sex, cell string) {
	switch s {
	case Female:
		e.Set(SexInput, Q(0, MaleOne), cell)
	case Male:
		e.Set(SexInput, Q(1, MaleOne), cell)
	}
}

// Sex returns the person's sex; SexUnspecified if not given.
func (e *Entry) Sex() Sex {
	q, ok := e.Get(SexInput)
	switch {
	case !ok:
		return SexUnspecified
	case q.Amount == 1:
		return Male
	}
	return Female
}

// DangerNote is free text of a row that speaks of a danger to health.
type DangerNote struct {
	Cell, Text string
	Kind       Input // the health question that it may answer with yes
	DuringTest bool  // the danger showed in this test
	Past       bool  // no longer so, or not always
}

// Suspect makes an answer unclear that is not a yes, because a text in a cell speaks
// of it. A medicine is a yes; one of the past leaves a no as it is.
func (e *Entry) Suspect(in Input, past bool, cell string) {
	answer := Unclear
	switch {
	case e.Says(in) || in == HeartRateDrug && past && e.Has(in):
		return
	case in == HeartRateDrug && !past:
		answer = Yes
	}
	e.Set(in, Q(answer, NoUnit), cell)
}

// Says reports whether a yes-or-no question was answered with yes. Caution decides
// an unclear answer: it is a yes, but clears nobody, gives no consent and confirms no
// value.
func (e *Entry) Says(in Input) bool {
	q, ok := e.Get(in)
	if in.Permits() {
		return ok && q.Amount == Yes
	}
	return ok && q.Amount != No
}

// MayBeYoung reports whether the person is under 18, or may be as far as is known.
func (e *Entry) MayBeYoung() bool {
	if age, known := e.Get(Age); known {
		return IsYouth(age.Amount)
	}
	return e.MayBeChild || e.YearsAtMost > 0 && IsYouth(e.YearsAtMost)
}

// ErrBornAfterTest is returned by AgeOn for a birth after the test.
var ErrBornAfterTest = errors.New("the date of birth is after the test date")

// AgeOn returns the decimal age in years on a day: whole birthdays, plus the share
// of the current year of life. A birth on 29 February counts as 1 March in other
// years.
func AgeOn(born, day time.Time) (years float64, err error) {
	if day.Before(born) {
		return 0, ErrBornAfterTest
	}
	whole := day.Year() - born.Year()
	last := born.AddDate(whole, 0, 0)
	if last.After(day) {
		whole--
		last = born.AddDate(whole, 0, 0)
	}
	next := born.AddDate(whole+1, 0, 0)
	return float64(whole) + day.Sub(last).Hours()/next.Sub(last).Hours(), nil
}

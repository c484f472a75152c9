package starter

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates/wording"
	"tenback/workbook/roster"
)

// kindsOf lists the kinds of test that suit adults of a setting, by the first word of
// the test's ID: submaximal tests at work; runs and laboratory tests in a squad.
var kindsOf = map[roster.Setting][]string{
	roster.Workplace: {"walk", "step", "cycle"},
	roster.Squad:     {"run", "jog", "race", "shuttle", "treadmill", "measured"},
}

// offered reports whether a test is scored by default.
func offered(t *scoring.Test) bool {
	byDefault := slices.ContainsFunc(t.Equations, func(e *scoring.Equation) bool { return !e.Choice })
	return !t.Fallback && (byDefault || t.Norm != nil)
}

// testsOf lists the field tests that a setting uses.
func testsOf(s roster.Setting) []*scoring.Test {
	var all []*scoring.Test
	for _, t := range fieldtests.All() {
		kind, _, _ := strings.Cut(t.ID, "-")
		suits := slices.Contains(kindsOf[s], kind)
		if s == roster.School {
			suits = t.Youth && !t.Measured
		}
		if suits && offered(t) {
			all = append(all, t)
		}
	}
	return all
}

// hasOwn reports whether an input of a test has a column of the test's own.
func hasOwn(t *scoring.Test, in scoring.Input) bool {
	return slices.ContainsFunc(t.Also, func(a scoring.Also) bool { return a.Input == in })
}

// field is one column of a starter roster, with its test if it serves only one.
type field struct {
	header string
	input  scoring.Input
	test   *scoring.Test
	result bool
}

// fieldsOf lists the columns for tests: of each its preferred result and what
// belongs to it alone, then what several tests share. Later stages of tests in
// stages are left to those who add them.
func (w *sheetWords) fieldsOf(tests []*scoring.Test) []field {
	var own, shared []field
	for _, t := range tests {
		r := t.Results[0]
		own = append(own, field{w.Column(t, r.Input), r.Input, t, true})
		for _, a := range t.Also {
			own = append(own, field{w.Column(t, a.Input), a.Input, t, false})
		}
		for _, in := range t.Needs() {
			info := in.Info()
			alone := hasOwn(t, in)
			known := slices.ContainsFunc(shared, func(f field) bool { return f.input == in })
			if !info.Personal && !alone && !known && in.Stage() == 1 {
				shared = append(shared, field{header: w.inputHeader(in), input: in})
			}
		}
	}
	return append(own, shared...)
}

// personalInputs lists what the tests use of the person beyond age and sex and
// what the roster asks of everyone.
func personalInputs(tests []*scoring.Test) []scoring.Input {
	all := []scoring.Input{scoring.BodyMass, scoring.RestingHR}
	for _, t := range tests {
		for _, in := range t.Needs() {
			if info := in.Info(); info.Personal && !info.YesNo && in != scoring.SexInput && in != scoring.Age && !slices.Contains(all, in) {
				all = append(all, in)
			}
		}
	}
	slices.Sort(all)
	return all
}

// screeningOf lists the questions that everyone of a setting answers before a test.
func screeningOf(s roster.Setting) []scoring.Input {
	all := []scoring.Input{scoring.Consent, scoring.Symptoms, scoring.KnownDisease, scoring.HeartRateDrug, scoring.Insulin, scoring.Asthma,
		scoring.RecentIllness, scoring.FamilySuddenDeath}
	switch s {
	case roster.School:
		all = append(all, scoring.SickleCellTrait)
	case roster.Squad:
		all = append(all, scoring.SickleCellTrait, scoring.Pregnant)
	default:
		all = append(all, scoring.Pregnant, scoring.Inactive, scoring.SystolicBP, scoring.DiastolicBP)
	}
	return append(all, scoring.Cleared)
}

// inputHeader is the header of a column for an input: its name, and its unit
// where that is not in the name already.
func (w *sheetWords) inputHeader(in scoring.Input) string {
	header := wording.Capital(w.Input(in))
	switch unit := in.Info().Unit; unit {
	case scoring.Kilograms, scoring.Centimetres, scoring.Metres, scoring.Watts, scoring.KmPerHour, scoring.Percent, scoring.BeatsPerMinute, scoring.MillimetresOfMercury:
		header += " (" + w.Unit(unit) + ")"
	}
	return header
}

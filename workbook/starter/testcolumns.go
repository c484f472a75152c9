package starter

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/workbook/roster"
)

// TestColumn is a column of a roster that takes something of a test.
type TestColumn struct {
	Header string
	Input  scoring.Input
}

// TestColumns lists the columns for one test in the order of a starter roster,
// but the test's own come first: its result, what goes with the result, and
// what the test shares with others; then the later stages, which a starter
// roster leaves to those who use them; last, of the person, what the test's
// equations need and can be measured on the day. Headers are in the given words,
// or in English where there are none.
func TestColumns(t *scoring.Test, words *templates.Set) []TestColumn {
	w := wordsOf(words)
	var all []TestColumn
	for _, f := range w.fieldsOf([]*scoring.Test{t}) {
		all = append(all, TestColumn{f.header, f.input})
	}
	for _, in := range t.Needs() {
		if in.Stage() > 1 {
			all = append(all, TestColumn{w.inputHeader(in), in})
		}
	}
	for _, in := range []scoring.Input{scoring.BodyMass, scoring.Stature, scoring.RestingHR} {
		if neededByDefault(t, in) {
			all = append(all, TestColumn{w.inputHeader(in), in})
		}
	}
	return all
}

// neededByDefault reports whether an equation that is used by default takes the input.
func neededByDefault(t *scoring.Test, in scoring.Input) bool {
	return slices.ContainsFunc(t.Equations, func(e *scoring.Equation) bool {
		return !e.Choice && slices.Contains(e.Inputs(), in)
	})
}

// ResultTests lists the tests that the roster has a column for the result of,
// or results of, in the order of listings.
func ResultTests(r *roster.Roster) []*scoring.Test {
	var all []*scoring.Test
	for _, t := range fieldtests.All() {
		if slices.ContainsFunc(r.Sheets, func(s *roster.Sheet) bool { return takes(s, t) }) {
			all = append(all, t)
		}
	}
	return all
}

func takes(s *roster.Sheet, t *scoring.Test) bool {
	column := slices.ContainsFunc(s.Columns, func(c roster.Column) bool {
		m := c.Meaning
		return m.Test == t && (m.Role == roster.Minutes || m.Role == roster.Result || m.Role == roster.InputData && t.HasResult(m.Input))
	})
	return column || slices.ContainsFunc(s.Rows, func(r roster.Row) bool {
		return slices.ContainsFunc(r.Entry.Trials, func(tr scoring.Trial) bool { return tr.Test == t })
	})
}

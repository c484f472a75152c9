// Package heading recognises the meaning of a sheet's texts: headers of columns,
// names of tests, and the day, sex or test in a title.
package heading

import (
	"slices"
	"strings"
	"unicode"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// Heading is the meaning of a header.
type Heading struct {
	roster.Meaning
	Style   cell.TimeStyle
	Unclear scoring.Said // why numbers without a unit can't be read; zero if they can
	Morning bool         // one of several resting heart rates
}

// Match recognises a header; ok is false if it is not known.
func Match(header string) (h Heading, ok bool) { return known().match(header) }

// TestNamed finds the test of a name, as in a column for tests.
func TestNamed(name string) (t *scoring.Test, ok bool) { return known().testNamed(name) }

// Nearest finds the known header that a text is a typing error of. There is none
// for a text that is known itself.
func Nearest(text string) (header string, ok bool) { return known().nearest(text) }

// NearestTest finds the name of the test that a text is a typing error of.
func NearestTest(text string) (name string, ok bool) { return known().nearestTest(text) }

// match tries a header as it is, as a question in a form, and in two languages.
func (v *vocabulary) match(header string) (Heading, bool) {
	if h, ok := v.matchOne(header); ok {
		return h, true
	}
	if asked := withoutQuestion(header); asked != "" {
		if h, ok := v.matchOne(asked); ok {
			return h, true
		}
	}
	return v.matchLanguages(header)
}

// matchOne recognises a header in one language.
func (v *vocabulary) matchOne(header string) (Heading, bool) {
	base, hints := splitHeader(header)
	for _, form := range []string{header, withoutParentheses(header), base} {
		if !cell.HasLetters(form) && form != header {
			continue
		}
		if found := v.words[Key(form)]; len(found) > 0 {
			return withHints(found, hints), true
		}
	}
	if m, ok := v.besideTest(base); ok {
		return withHints([]roster.Meaning{m}, hints), true
	}
	if m, ok := unitAlone(base); ok {
		return Heading{Meaning: m}, true
	}
	if rest, ok := withoutOccasion(base); ok {
		if found := v.words[Key(rest)]; len(found) > 0 && found[0].Role == roster.InputData {
			return withHints(found, hints), true
		}
	}
	if rest, ok := withoutSeries(base); ok {
		if found := v.words[Key(rest)]; len(found) > 0 {
			h := withHints(found, hints)
			h.Morning = isResting(h.Meaning)
			return h, true
		}
	}
	if rest, ok := withoutMorning(base); ok {
		if found := v.words[Key(rest)]; len(found) > 0 && isResting(found[0]) {
			h := withHints(found, hints)
			h.Morning = true
			return h, true
		}
	}
	return matchRace(header, hints)
}

// unitAlone recognises Min and Sec, the headers of a time in two cells.
func unitAlone(base string) (roster.Meaning, bool) {
	switch u, _ := cell.UnitOf(base); u {
	case scoring.Minutes:
		return roster.Meaning{Role: roster.Minutes, Input: scoring.Time, Unit: scoring.Minutes, UnitGiven: true}, true
	case scoring.Seconds:
		return roster.Meaning{Role: roster.SecondsOf, Input: scoring.Time, Unit: scoring.Seconds, UnitGiven: true}, true
	}
	return roster.Meaning{}, false
}

// withoutSeries removes a leading "week 3".
func withoutSeries(base string) (string, bool) {
	words := strings.Fields(base)
	if len(words) < 3 || !slices.Contains([]string{"week", "wk", "session", "trial", "day", "woche", "semaine", "semana"}, words[0]) ||
		strings.Trim(words[1], "0123456789") != "" {
		return "", false
	}
	return strings.Join(words[2:], " "), true
}

func isResting(m roster.Meaning) bool {
	return m.Role == roster.InputData && m.Input == scoring.RestingHR
}

// mornings holds words for the mornings of a week.
var mornings = []string{"day", "morning", "no", "mon", "tue", "wed", "thu", "fri", "sat", "sun",
	"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "tag", "jour", "dia", "morgen", "matin"}

// withoutMorning removes a trailing "day 3", "3" or "Mon".
func withoutMorning(base string) (string, bool) {
	words := strings.FieldsFunc(base, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("_-,.:;#", r) })
	n := len(words)
	for n > 1 && (strings.Trim(words[n-1], "0123456789") == "" || slices.Contains(mornings, words[n-1])) {
		n--
	}
	return strings.Join(words[:n], " "), n < len(words)
}

// fillers are words between a test and what was measured in it.
var fillers = map[string]bool{"after": true, "at": true, "the": true, "end": true, "of": true, "final": true, "finish": true,
	"in": true, "for": true, "during": true, "exercise": true, "post": true, "last": true, "test": true}

// besideTest recognises a test's name before or behind a word for something
// measured in it, such as "1-mile walk HR" or "effort of the 1.5 mile run".
func (v *vocabulary) besideTest(base string) (roster.Meaning, bool) {
	words := strings.FieldsFunc(base, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("_-/:,;", r) })
	if len(words) > 12 {
		return roster.Meaning{}, false
	}
	for i := 1; i < len(words); i++ {
		for _, parts := range [][2][]string{{words[:i], words[i:]}, {words[i:], words[:i]}} {
			t := v.testBeside(parts[0])
			if t == nil {
				continue
			}
			if m, ok := v.measuredIn(t, parts[1]); ok {
				return m, true
			}
		}
	}
	return roster.Meaning{}, false
}

func (v *vocabulary) testBeside(words []string) *scoring.Test {
	for _, list := range [][]string{words, withoutFillers(words)} {
		key := Key(strings.Join(list, " "))
		if t, ok := v.tests[key]; ok {
			return t
		}
		if t, ok := v.short[key]; ok {
			return t
		}
	}
	return nil
}

func withoutFillers(words []string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return fillers[w] })
}

// measuredIn finds the input of a test that some words mean.
func (v *vocabulary) measuredIn(t *scoring.Test, words []string) (roster.Meaning, bool) {
	for _, list := range [][]string{words, withoutFillers(words)} {
		for _, m := range v.words[Key(strings.Join(list, " "))] {
			in := m.Input
			switch {
			case m.Test != nil && m.Test != t:
				continue
			case m.Role == roster.HeartRate && t.Takes(scoring.ExerciseHR):
				in = scoring.ExerciseHR
			case m.Role == roster.HeartRate && t.Takes(scoring.RecoveryHR):
				in = scoring.RecoveryHR
			case m.Role == roster.LevelPart && t.Takes(scoring.ShuttleLevel):
				in = scoring.ShuttleLevel
			case m.Role == roster.ShuttlePart && t.Takes(scoring.ShuttleInLevel):
				in = scoring.ShuttleInLevel
			case m.Role == roster.Result && in == scoring.InputCount && len(t.Results) > 0:
				in = t.Results[0].Input
			case m.Role != roster.Result && m.Role != roster.InputData && m.Role != roster.LevelPart && m.Role != roster.ShuttlePart:
				continue
			}
			if in < scoring.InputCount && !in.Info().Personal && t.Takes(in) {
				return roster.Meaning{Role: roster.InputData, Input: in, Test: t}, true
			}
		}
	}
	return roster.Meaning{}, false
}

// IsShuttlePart reports whether a column beside a level may hold the shuttles
// done in it. A column of shuttles alone holds those of the whole run.
func IsShuttlePart(m roster.Meaning, header string) bool {
	return m.Role == roster.ShuttlePart || m.Input == scoring.ShuttleLaps && Key(header) == "shuttles"
}

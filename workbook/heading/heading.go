// Package heading recognises the meaning of a sheet's texts: headers of columns,
// names of tests, and the day, sex or test in a title.
package heading

import (
	"slices"
	"strings"

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
	Choices []string     // known headers that the header may mean, where it is Unclear

	Attempt int    // number of the attempt; 0 if the header names none
	Best    bool   // the best of several attempts
	Term    string // day, month, season or term, folded; may be empty
	Weak    bool   // the test is only the usual one; a title wins

	activity class // of a heart rate without a test
}

// Fits reports whether a heart rate without a test may be of this one, as "walk
// pulse" may be of any walk.
func (h Heading) Fits(t *scoring.Test) bool { return h.activity&known().activity[t] != 0 }

// Match recognises a header; ok is false if it is not known.
func Match(header string) (h Heading, ok bool) { return known().match(header) }

// TestNamed finds the test of a name, as in a column for tests, and the distance
// of a race in metres.
func TestNamed(name string) (m roster.Meaning, ok bool) { return known().testNamed(name) }

// Nearest finds the known header that a text is a typing error of. There is none
// for a text that is known itself.
func Nearest(text string) (header string, ok bool) { return known().nearest(text) }

// NearestTest finds the name of the test that a text is a typing error of.
func NearestTest(text string) (name string, ok bool) { return known().nearestTest(text) }

// match tries a header as a whole, which decides exceptions, then by its parts.
func (v *vocabulary) match(header string) (Heading, bool) {
	if found := v.whole[Key(header)]; len(found) > 0 {
		return Heading{Meaning: found[0]}, true
	}
	above, own := "", header
	if at := strings.LastIndex(header, Under); at >= 0 {
		above, own = header[:at], header[at+len(Under):]
	}
	own, day := withoutDate(own)
	if day == "" {
		above, day = withoutDate(above)
	}
	ps := v.lexicon.parse(own)
	if found := v.whole[Key(own)]; len(found) > 0 {
		ps = []piece{{sense: sense{class: core, meanings: found}, raw: own}}
	}
	if len(ps) == 0 && (day == "" || above == "") {
		return Heading{}, false
	}
	h, ok := v.compose(append(context(v.lexicon.parse(above)), ps...))
	h.unitInPhrase(own)
	if ok && day != "" {
		h.Term = strings.TrimSpace(h.Term + " " + day)
	}
	return h, ok
}

// withoutDate cuts the day of a test out of a header.
func withoutDate(header string) (rest, day string) {
	if !strings.ContainsAny(header, "0123456789") {
		return header, ""
	}
	folded := cell.Fold(shorten(header))
	for _, found := range Dates(cell.Raw{Kind: cell.Text, Text: header}) {
		if before, after, ok := strings.Cut(folded, found.Text); ok {
			return before + " " + after, found.Text
		}
	}
	return header, ""
}

// Under separates a header from one that stands over it and others.
const Under = " > "

// context returns the pieces of a header over others that may matter to those:
// all but unknown ones.
func context(ps []piece) []piece {
	return slices.DeleteFunc(ps, func(p piece) bool {
		return p.part && p.is(other) || p.is(unknown|owner|person|guardian|elsePerson|doctor) || len(p.meanings) > 0 && !holdsAmount(p.meanings[0]) && p.meanings[0].Role != roster.HeartRate && p.meanings[0].Role != roster.LevelPart
	})
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

func isResting(m roster.Meaning) bool {
	return m.Role == roster.InputData && m.Input == scoring.RestingHR
}

// IsShuttlePart reports whether a column beside a level may hold the shuttles
// done in it. A column of shuttles alone holds those of the whole run.
func IsShuttlePart(m roster.Meaning, header string) bool {
	own := header[strings.LastIndex(header, Under)+1:]
	own = Key(strings.TrimLeft(own, "> "))
	return m.Role == roster.ShuttlePart || m.Input == scoring.ShuttleInLevel && m.Role == roster.InputData ||
		m.Input == scoring.ShuttleLaps && own == "shuttles" || own == "navette" || own == "navettes"
}

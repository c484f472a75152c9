package heading

import (
	"strconv"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// TestIn finds the one test that a title names, whatever else it says.
func TestIn(text string) (found roster.Meaning, several bool) {
	folded := cell.Fold(shorten(text))
	for _, form := range titleDates {
		folded = form().ReplaceAllString(folded, " ") // because "12 May" is not 12 minutes
	}
	v := known()
	ps := v.lexicon.parse(folded)
	d := v.whatWasDone(ps)
	d.find(v)
	if d.test == nil {
		for i := range ps {
			for _, m := range ps[i].meanings {
				if m.Test != nil && m.Test.HasResult(m.Input) {
					d.clash = d.clash || d.test != nil && d.test != m.Test
					d.test = m.Test
				}
			}
		}
	}
	switch t := d.test; {
	case d.clash:
		return roster.Meaning{}, true
	case t != nil && t.Measured:
		return roster.Meaning{}, false
	case t != nil && t != Race && len(t.Results) > 0:
		m := roster.Meaning{Test: t}
		for _, metres := range d.metres {
			if t.HasResult(scoring.Distance) && metres >= 50 && metres <= 1000 {
				m.LapMetres = metres
			}
		}
		return m, false
	case len(d.metres) > 0 && d.activity&run != 0:
		if h := raceOf(d.metres[0], true); h.Test != nil {
			return roster.Meaning{Test: h.Test, Distance: h.Distance}, len(d.metres) > 1
		}
	}
	return roster.Meaning{}, false
}

// blockWords is the most words of a line that heads some people; longer ones are
// notes.
const blockWords = 6

// BlockTest finds the test that a line over some people names. A distance alone is
// that of a race.
func BlockTest(text string) roster.Meaning {
	if len(strings.Fields(text)) > blockWords {
		return roster.Meaning{}
	}
	m, several := TestIn(text)
	if m.Test != nil || several {
		return m
	}
	v := known()
	if d := v.whatWasDone(v.lexicon.parse(cell.Fold(text))); d.activity&^run == 0 && len(d.metres) == 1 && len(d.seconds) == 0 {
		if h := raceOf(d.metres[0], true); h.Test != nil {
			return roster.Meaning{Test: h.Test, Distance: h.Distance}
		}
	}
	return roster.Meaning{}
}

// NameOf returns a name of a test, with the distance of a race, that [TestNamed]
// understands; empty for none.
func NameOf(m roster.Meaning) string {
	switch {
	case m.Test == nil:
		return ""
	case m.Distance > 0:
		return strconv.FormatFloat(m.Distance, 'f', -1, 64) + " m race"
	}
	return m.Test.Name
}

// MoreExact reports whether test a is a form of what b is any form of: the step
// test on a bench of 41 cm, of one on any bench.
func MoreExact(a, b *scoring.Test) bool {
	v := known()
	return a != nil && b != nil && a != b && b.ID == "step-stage" && v.activity[a]&v.activity[b] != 0
}

package workbook

import (
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
)

// longestTestName is how many words of a title are looked at together.
const longestTestName = 6

// testOfSheet finds the one test that the lines above the header name, or else
// the name of the sheet; a zero Meaning where it is none or several.
func (rd *reader) testOfSheet(sheet string, above []headRow) Meaning {
	var found Meaning
	for _, row := range above {
		for _, c := range row.cells {
			if c.Kind != cell.Text || len(c.Text) > maxHeader {
				continue
			}
			m, several := rd.testIn(c.Text)
			if several || m.Test != nil && found.Test != nil && m != found {
				return Meaning{}
			}
			if m.Test != nil {
				found = m
			}
		}
	}
	if found.Test == nil {
		found, _ = rd.testIn(sheet)
	}
	return found
}

// testIn finds the test that some words of a text name, the longest first.
func (rd *reader) testIn(text string) (found Meaning, several bool) {
	folded := cell.Fold(shorten(text, maxHeader))
	for _, form := range titleDates {
		folded = form.ReplaceAllString(folded, " ") // lest "12 May" be 12 minutes
	}
	words := strings.FieldsFunc(folded, func(r rune) bool {
		return strings.ContainsRune(" ,;:()[]|/_", r)
	})
	words = withoutWord(words, "-")
	for i := 0; i < len(words); {
		step := 1
		for n := min(longestTestName, len(words)-i); n > 0; n-- {
			m, ok := rd.testCalled(strings.Join(words[i:i+n], " "))
			if !ok {
				continue
			}
			if found.Test != nil && m != found {
				return Meaning{}, true
			}
			found, step = m, n
			break
		}
		i += step
	}
	return found, false
}

func withoutWord(words []string, word string) []string {
	var kept []string
	for _, w := range words {
		if w != word {
			kept = append(kept, w)
		}
	}
	return kept
}

// testCalled is the test of exactly that name. A measured value and a race
// without its distance are no field test that a whole sheet is of.
func (rd *reader) testCalled(name string) (Meaning, bool) {
	if !hasLetters(name) {
		return Meaning{}, false
	}
	if t, ok := rd.words.testNamed(name); ok && len(t.Results) > 0 && t != fieldtests.Measured && t != race {
		return Meaning{Test: t}, true
	}
	if _, told, ok := raceDistance(name); ok && told {
		if h, _ := matchRace(name, nil); h.Test != nil {
			return Meaning{Test: h.Test, Distance: h.Distance}, true
		}
	}
	return Meaning{}, false
}

// takeSheetTest makes a result of no test one of the sheet's test.
func (sr *sheetReader) takeSheetTest(c *sheetColumn) bool {
	t := sr.named.Test
	in := inputFor(c, t)
	if t == nil || !isResultOf(t, in) {
		return false
	}
	m := Meaning{Role: InputData, Input: in, Test: t, Distance: sr.named.Distance, Unit: c.Meaning.Unit, UnitGiven: c.Meaning.UnitGiven}
	if c.Meaning.Role == Minutes {
		m.Role = Minutes
	}
	if m.Unit == scoring.NoUnit {
		m.Unit = in.Info().Unit
	}
	c.Meaning = m
	sr.columnProblem(c, false, fixReadAsResult, readAsResult.With(t))
	return true
}

// cutSecondList finds a second list of people beside the first, with the same
// columns again, and keeps it from being mixed up with the first.
func (sr *sheetReader) cutSecondList() {
	before := map[Meaning]bool{}
	for at, c := range sr.columns {
		m := Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if isPerson(m.Role) && before[m] && sr.repeatsFrom(at, before) {
			sr.columnProblem(c, true, fixSecondList, secondList)
			for _, d := range sr.columns[at:] {
				if d.Meaning.Role != Ours {
					d.Meaning = Meaning{Role: Other}
				}
			}
			return
		}
		before[m] = true
	}
}

// repeatsFrom tells whether a column from place at on says of people what one
// before it says.
func (sr *sheetReader) repeatsFrom(at int, before map[Meaning]bool) bool {
	for _, c := range sr.columns[at:] {
		m := Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if before[m] && !isPerson(m.Role) && m.Role != Unknown && m.Role != Ours && m.Role != Other {
			return true
		}
	}
	return false
}

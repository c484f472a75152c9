package heading

import (
	"strings"

	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// longestTestName is the number of words of a title tried together.
const longestTestName = 6

// TestIn finds the one test that a title names; the longest name counts.
func TestIn(text string) (found roster.Meaning, several bool) {
	folded := cell.Fold(shorten(text))
	for _, form := range titleDates {
		folded = form().ReplaceAllString(folded, " ") // because "12 May" is not 12 minutes
	}
	words := strings.FieldsFunc(folded, func(r rune) bool {
		return strings.ContainsRune(" ,;:()[]|/_", r)
	})
	words = withoutWord(words, "-")
	for i := 0; i < len(words); {
		step := 1
		for n := min(longestTestName, len(words)-i); n > 0; n-- {
			m, ok := testCalled(strings.Join(words[i:i+n], " "))
			if !ok {
				continue
			}
			if found.Test != nil && m != found {
				return roster.Meaning{}, true
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

// testCalled returns the test of exactly that name. A measured value, or a race
// without its distance, is no test of a whole sheet.
func testCalled(name string) (roster.Meaning, bool) {
	if !cell.HasLetters(name) {
		return roster.Meaning{}, false
	}
	if t, ok := known().testNamed(name); ok && len(t.Results) > 0 && t != fieldtests.Measured && t != Race {
		return roster.Meaning{Test: t}, true
	}
	if _, told, ok := raceDistance(name); ok && told {
		if h, _ := matchRace(name, nil); h.Test != nil {
			return roster.Meaning{Test: h.Test, Distance: h.Distance}, true
		}
	}
	return roster.Meaning{}, false
}

package heading

import (
	"strings"
	"sync"
	"unicode"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// Naming returns a known header in English that means what a column holds; empty
// if there is none.
func Naming(m roster.Meaning) string {
	switch {
	case m.Role == roster.InputData && m.Test != nil:
		return scoring.Header{Test: m.Test, Input: m.Input}.String()
	case m.Role == roster.InputData:
		return m.Input.Info().Name
	case m.Role == roster.Name || m.Role == roster.Birth || m.Role == roster.TestDate:
		return roster.Meaning{Role: m.Role}.String()
	}
	return ""
}

// tellingMost is how many kinds of columns a word may be of to say something.
const tellingMost = 6

// kind is a meaning without its test and unit.
type kind struct {
	role  roster.Role
	input scoring.Input
}

// telling holds the meanings of known headers by each of their words, of words
// that few kinds of columns have.
var telling = sync.OnceValue(func() map[string][]roster.Meaning {
	kinds, all := map[string]map[kind]bool{}, map[string][]roster.Meaning{}
	v := known()
	for _, s := range v.texts {
		for _, m := range v.words[s.key] {
			for _, w := range wordsOf(s.text) {
				if kinds[w] == nil {
					kinds[w] = map[kind]bool{}
				}
				k := kind{m.Role, m.Input}
				if !kinds[w][k] {
					kinds[w][k] = true
				}
				all[w] = append(all[w], m)
			}
		}
	}
	for w, of := range kinds {
		if len(of) > tellingMost {
			delete(all, w)
		}
	}
	return all
})

// Related returns the meanings of known headers that share a telling word with a
// header that is not known.
func Related(header string) (all []roster.Meaning) {
	for _, w := range wordsOf(header) {
		all = append(all, telling()[w]...)
	}
	return all
}

// wordsOf returns the words of three letters and more.
func wordsOf(text string) []string {
	var all []string
	for _, w := range strings.FieldsFunc(cell.Fold(shorten(text)), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if len(w) >= 3 {
			all = append(all, w)
		}
	}
	return all
}

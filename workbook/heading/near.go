package heading

import "github.com/agnivade/levenshtein"

// Slips returns how many letters of a word of n letters may be wrong in a typing
// error; common practice, no source.
func Slips(n int) int {
	switch {
	case n < 5 || n > 40:
		return 0
	case n < 8:
		return 1
	case n < 14:
		return 2
	}
	return 3
}

func (v *vocabulary) nearestTest(text string) (name string, ok bool) {
	key := Key(text)
	return nearestOf(v.testTexts, key, Slips(len([]rune(key))))
}

func (v *vocabulary) nearest(text string) (known string, ok bool) {
	key := Key(text)
	if len(v.words[key]) > 0 {
		return "", false
	}
	return nearestOf(v.texts, key, Slips(len([]rune(key))))
}

// nearestOf finds the first of the spellings closest to a key, at most so many
// letters away.
func nearestOf(known []spelling, key string, most int) (text string, ok bool) {
	if most == 0 {
		return "", false
	}
	best := most + 1
	for _, s := range known {
		// A letter has up to four bytes.
		if d := len(s.key) - len(key); d > 4*most || d < -4*most {
			continue
		}
		if d := levenshtein.ComputeDistance(key, s.key); d < best {
			best, text = d, s.text
		}
	}
	return text, best <= most
}

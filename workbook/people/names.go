package people

import (
	"math/bits"
	"slices"
	"strings"
	"unicode"

	"github.com/agnivade/levenshtein"

	"tenback/workbook/cell"
	"tenback/workbook/heading"
)

// nameKey is a normalised name: its words sorted, without case and accents. Names
// that differ only in invisible characters share the visible key.
type nameKey struct{ visible, exact string }

func nameKeyOf(name string) nameKey {
	words := strings.FieldsFunc(cell.Fold(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r)
	})
	slices.Sort(words)
	visible := strings.Join(words, " ")
	exact := visible
	for _, r := range name {
		if r >= 0x80 && unicode.Is(unicode.Cf, r) {
			exact += string(r)
		}
	}
	return nameKey{visible, exact}
}

// idKey returns an ID without case, leading zeros, blanks and invisible characters,
// which get lost in typing or copying.
func idKey(id string) string {
	key := strings.TrimLeft(strings.ReplaceAll(cell.Fold(id), " ", ""), "0")
	if key == "" {
		return "0"
	}
	return key
}

// letterSet is a bit set of the letters of a text, modulo 64.
type letterSet uint64

func lettersOf(text string) (set letterSet) {
	for _, r := range text {
		set |= 1 << (r % 64)
	}
	return set
}

// near reports whether two texts may be nearlySame: a slip changes at most two
// letters, and leaving out a word adds none.
func (s letterSet) near(other letterSet) bool {
	return bits.OnesCount64(uint64(s^other)) <= 2*slipsMost || s&^other == 0 || other&^s == 0
}

// slipsMost is how many slips of the hand make two names nearlySame, at most.
const slipsMost = 2

// nearlySame reports whether two normalised names may be one with a typing slip
// or a word left out. "Sample A" and "Sample B" are not: a word of
// one or two letters, or with a digit, is there to tell people apart.
func nearlySame(a, b string) bool {
	one, two := strings.Fields(a), strings.Fields(b)
	shared := 0
	for i := len(one) - 1; i >= 0; i-- {
		if at := slices.Index(two, one[i]); at >= 0 {
			one, two = slices.Delete(one, i, i+1), slices.Delete(two, at, at+1)
			shared++
		}
	}
	if len(one) == 0 || len(two) == 0 {
		return shared >= 2
	}
	for _, w := range append(slices.Clone(one), two...) {
		if len([]rune(w)) < 3 || strings.ContainsFunc(w, unicode.IsDigit) {
			return false
		}
	}
	x, y := strings.Join(one, " "), strings.Join(two, " ")
	return levenshtein.ComputeDistance(x, y) <= max(1, min(slipsMost, heading.Slips(min(len([]rune(a)), len([]rune(b))))))
}

package cell

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// marks maps the many signs for primes, quotes and dashes to the ones that
// the parsers know. It runs before compatibility folding, which would tear
// some of them into a space and an accent.
var marks = strings.NewReplacer(
	"’", "'", "‘", "'", "´", "'", "`", "'", "′", "'", "ʹ", "'", "ʼ", "'", "＇", "'", "‵", "'",
	"″", `"`, "“", `"`, "”", `"`, "„", `"`, "＂", `"`, "〃", `"`, "''", `"`, "′′", `"`, "’’", `"`,
	"−", "-", "–", "-", "—", "-", "‐", "-", "‑", "-", "﹣", "-", "－", "-",
	"\u00ad", "", "\u200b", "", "\u200c", "", "\u200d", "", "\u200e", "", "\u200f", "", "\ufeff", "",
	"\u061c", "", "\u202a", "", "\u202b", "", "\u202c", "", "\u202d", "", "\u202e", "", "\u2066", "", "\u2067", "", "\u2068", "", "\u2069", "",
)

// Clean gives a cell's text the one form that the parsers read: full-width
// signs as plain ones, all kinds of space as one blank, all kinds of prime,
// quote and dash as ', " and -, nothing invisible, no blanks around it.
func Clean(s string) string {
	if isPlain(s) {
		return s
	}
	return clean(s)
}

// clean is Clean for any text.
func clean(s string) string {
	s = marks.Replace(strings.ToValidUTF8(s, " "))
	s = marks.Replace(norm.NFKC.String(s)) // superscripts unfold into signs of the list
	s = strings.ReplaceAll(s, "''", `"`)   // which may come to stand side by side
	return strings.Join(strings.FieldsFunc(s, isGap), " ")
}

// isGap tells what counts as a blank: space of all kinds, and signs that would act
// on a screen or printer.
func isGap(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }

// isPlain tells that Clean has nothing to do, for the usual texts: it knows
// only ASCII and the letters of isPlainLetter.
func isPlain(s string) bool {
	space := true
	for i, r := range s {
		switch {
		case r >= 0x7f && !isPlainLetter(r), r < ' ', r == '`', r == '\'' && strings.HasPrefix(s[i+1:], "'"):
			return false
		case r == ' ' && space:
			return false
		}
		space = r == ' '
	}
	return s == "" || !space
}

// isPlainLetter tells letters beyond ASCII of the most usual names, none of which
// Clean changes: Latin with the marks of European languages, Greek and Cyrillic.
func isPlainLetter(r rune) bool {
	switch {
	case r >= 'À' && r <= 'ž':
		return r != '×' && r != '÷' && r != 'Ĳ' && r != 'ĳ' && r != 'Ŀ' && r != 'ŀ' && r != 'ŉ'
	case r >= 'Έ' && r <= 'ώ', r >= 'Ѐ' && r <= 'џ':
		return unicode.IsLetter(r)
	}
	return false
}

// praise is a mark or a word behind a result that takes nothing from it: a
// star, a personal or a season's best.
var praise = Pattern(` ?(?:[*!]{1,3}|\(?(?:pb|pr|sb)\)?)$`)

// withoutPraise takes such a mark off a lower-case result.
func withoutPraise(s string) string {
	at := praise().FindStringIndex(s)
	if at == nil || at[0] == 0 || s[at[0]-1] < '0' || s[at[0]-1] > '9' {
		return s
	}
	return s[:at[0]]
}

// Fold is Clean in lower case without accents, for comparing words.
func Fold(s string) string {
	s = strings.ToLower(Clean(s))
	if folded, ok := foldLatin(s); ok {
		return folded
	}
	return fold(s)
}

// fold takes the accents off a text in lower case.
func fold(s string) string {
	s = letters.Replace(s)
	var b strings.Builder
	for _, r := range norm.NFD.String(s) {
		// The two kana voicing marks change the letter, unlike accents.
		if unicode.Is(unicode.Mn, r) && r != '\u3099' && r != '\u309a' {
			continue
		}
		b.WriteRune(r)
	}
	return norm.NFC.String(b.String())
}

// The letters that foldLatin knows beyond ASCII.
const firstLatin, lastLatin = 'ß', 'ž'

// foldedLatin are those letters without accents, each as fold has it.
var foldedLatin = sync.OnceValue(func() (all [lastLatin - firstLatin + 1]string) {
	for i := range all {
		all[i] = fold(string(firstLatin + rune(i)))
	}
	return all
})

// foldLatin is fold for texts of ASCII and the letters it knows; ok is false for
// others.
func foldLatin(s string) (folded string, ok bool) {
	plain := true
	for _, r := range s {
		if r >= 0x80 {
			plain = false
			if r < firstLatin || r > lastLatin {
				return "", false
			}
		}
	}
	if plain {
		return s, true
	}
	table := foldedLatin()
	out := make([]byte, 0, len(s))
	for _, r := range s {
		if r < 0x80 {
			out = append(out, byte(r))
		} else {
			out = append(out, table[r-firstLatin]...)
		}
	}
	return string(out), true
}

// letters replaces those that do not decompose into a letter and an accent.
var letters = strings.NewReplacer("ł", "l", "ø", "o", "đ", "d", "ß", "ss", "æ", "ae", "œ", "oe", "ı", "i", "ð", "d", "þ", "th")

package cell

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// marks maps the many primes, quotes and dashes to the ones that the parsers
// know. It runs before compatibility folding, which would split some of them into
// a space and an accent.
var marks = strings.NewReplacer(
	"’", "'", "‘", "'", "´", "'", "`", "'", "′", "'", "ʹ", "'", "ʼ", "'", "＇", "'", "‵", "'",
	"″", `"`, "“", `"`, "”", `"`, "„", `"`, "＂", `"`, "〃", `"`, "''", `"`, "′′", `"`, "’’", `"`,
	"−", "-", "–", "-", "—", "-", "‐", "-", "‑", "-", "﹣", "-", "－", "-",
	"\u00ad", "", "\u200b", "", "\u200c", "", "\u200d", "", "\u200e", "", "\u200f", "", "\ufeff", "",
	"\u061c", "", "\u202a", "", "\u202b", "", "\u202c", "", "\u202d", "", "\u202e", "", "\u2066", "", "\u2067", "", "\u2068", "", "\u2069", "",
)

// Clean returns the form of a text that the parsers read: full-width characters
// become plain ones, any space a blank, any prime, quote or dash one of ', " and
// -. Invisible characters and outer blanks are dropped.
func Clean(s string) string {
	if isPlain(s) {
		return s
	}
	return clean(s)
}

func clean(s string) string {
	s = marks.Replace(strings.ToValidUTF8(s, " "))
	s = marks.Replace(norm.NFKC.String(s)) // superscripts unfold into characters of the list
	s = strings.ReplaceAll(s, "''", `"`)   // two may have become neighbours
	return strings.Join(strings.FieldsFunc(s, isGap), " ")
}

// isGap reports whether r counts as a blank: space of any kind, or a control
// character.
func isGap(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }

// isPlain reports whether Clean would not change s. It knows ASCII and the
// letters of isPlainLetter only.
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

// isPlainLetter reports whether r is a letter beyond ASCII that Clean keeps:
// Latin with the accents of European languages, Greek or Cyrillic.
func isPlainLetter(r rune) bool {
	switch {
	case r >= 'À' && r <= 'ž':
		return r != '×' && r != '÷' && r != 'Ĳ' && r != 'ĳ' && r != 'Ŀ' && r != 'ŀ' && r != 'ŉ'
	case r >= 'Έ' && r <= 'ώ', r >= 'Ѐ' && r <= 'џ':
		return unicode.IsLetter(r)
	}
	return false
}

// praise is a mark or a word behind a result that does not change it: a star, a
// personal or a season's best.
var praise = Pattern(` ?(?:[*!]{1,3}|\(?(?:pb|pr|sb)\)?)$`)

// withoutPraise removes such a mark from a lower-case result.
func withoutPraise(s string) string {
	at := praise().FindStringIndex(s)
	if at == nil || at[0] == 0 || s[at[0]-1] < '0' || s[at[0]-1] > '9' {
		return s
	}
	return s[:at[0]]
}

// Fold returns s as [Clean] does, in lower case and without accents, to compare
// words.
func Fold(s string) string {
	s = strings.ToLower(Clean(s))
	if folded, ok := foldLatin(s); ok {
		return folded
	}
	return fold(s)
}

// fold removes the accents from a lower-case text.
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

// foldedLatin holds those letters as fold returns them.
var foldedLatin = sync.OnceValue(func() (all [lastLatin - firstLatin + 1]string) {
	for i := range all {
		all[i] = fold(string(firstLatin + rune(i)))
	}
	return all
})

// foldLatin is a fast fold; ok is false if s has a character that it does not
// know.
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

// letters replaces the letters that do not decompose into a letter and an accent.
var letters = strings.NewReplacer("ł", "l", "ø", "o", "đ", "d", "ß", "ss", "æ", "ae", "œ", "oe", "ı", "i", "ð", "d", "þ", "th")

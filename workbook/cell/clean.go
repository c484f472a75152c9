package cell

import (
	"regexp"
	"strings"
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
)

// Clean gives a cell's text the one form that the parsers read: full-width
// signs as plain ones, all kinds of space as one blank, all kinds of prime,
// quote and dash as ', " and -, nothing invisible, no blanks around it.
func Clean(s string) string {
	if isPlain(s) {
		return s
	}
	s = marks.Replace(strings.ToValidUTF8(s, " "))
	s = marks.Replace(norm.NFKC.String(s)) // superscripts unfold into signs of the list
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r)
	}), " ")
}

// isPlain tells that Clean has nothing to do.
func isPlain(s string) bool {
	space := true
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c < ' ' || c >= 0x7f || c == '`' || c == '\'' && i+1 < len(s) && s[i+1] == '\'' {
			return false
		}
		if c == ' ' && space {
			return false
		}
		space = c == ' '
	}
	return s == "" || !space
}

// praise is a mark or a word behind a result that takes nothing from it: a
// star, a personal or a season's best.
var praise = regexp.MustCompile(` ?(?:[*!]{1,3}|\(?(?:pb|pr|sb)\)?)$`)

// withoutPraise takes such a mark off a lower-case result.
func withoutPraise(s string) string {
	at := praise.FindStringIndex(s)
	if at == nil || at[0] == 0 || s[at[0]-1] < '0' || s[at[0]-1] > '9' {
		return s
	}
	return s[:at[0]]
}

// Fold is Clean in lower case without accents, for comparing words.
func Fold(s string) string {
	s = strings.ToLower(Clean(s))
	ascii := true
	for i := 0; i < len(s) && ascii; i++ {
		ascii = s[i] < 0x80
	}
	if ascii {
		return s
	}
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

// letters replaces those that do not decompose into a letter and an accent.
var letters = strings.NewReplacer("ł", "l", "ø", "o", "đ", "d", "ß", "ss", "æ", "ae", "œ", "oe", "ı", "i", "ð", "d", "þ", "th")

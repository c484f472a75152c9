package heading

import (
	"regexp"
	"strings"
	"unicode"

	"tenback/workbook/cell"
)

// token is a word, a number or a sign of a header.
type token struct {
	text       string // folded
	start, end int    // in the folded header
	number     bool
	ordinal    bool // such as 2nd
	inside     bool // in parentheses
}

// tokens is a header taken apart.
type tokens struct {
	folded string
	list   []token
}

var (
	// numberToken matches 12, 1.5, 3.000 and 2 000, with the ending of an ordinal.
	numberToken = regexp.MustCompile(`^(\d{1,3}(?: \d{3})+|\d+(?:[.,]\d+)?|[.,]\d+)(?:(st|nd|rd|th|ere|er|eme)\b|([ºª]))?`)
	capitals    = regexp.MustCompile(`\b(HR|FC|HF|TF)(\p{Ll}{3,})`)
	fourths     = regexp.MustCompile(`(\d) ([13])/([24])\b`)
	camel       = regexp.MustCompile(`(\p{Ll})(\p{Lu}\p{Ll})`)
	// eastUnit matches a unit between a number and a word without a blank.
	eastUnit  = regexp.MustCompile(`^(?:公里|千米|英里|キロ|メートル|分钟|分鐘|分間|厘米|公尺|米|秒|分|미터|킬로미터|분|초|m(?:\p{Han}|\p{Hangul}|\p{Katakana})|km(?:\p{Han}|\p{Hangul}|\p{Katakana}))`)
	fractions = strings.NewReplacer("½", ".5", "¼", ".25", "¾", ".75")
)

// tokenise takes a header apart: at blanks and punctuation, between letters and
// digits, and where a capital begins a word within one.
func tokenise(header string) tokens {
	header = fourths.ReplaceAllStringFunc(fractions.Replace(shorten(header)), func(s string) string {
		return s[:1] + map[string]string{"1/2": ".5", "1/4": ".25", "3/4": ".75"}[s[2:]]
	})
	header = capitals.ReplaceAllString(camel.ReplaceAllString(header, "$1 $2"), "$1 $2")
	t := tokens{folded: cell.Fold(header)}
	depth := 0
	for i := 0; i < len(t.folded); {
		rest := t.folded[i:]
		if m := numberToken.FindStringSubmatch(rest); m != nil {
			t.list = append(t.list, token{text: strings.Replace(strings.ReplaceAll(m[1], " ", ""), ",", ".", 1), start: i, end: i + len(m[0]), number: true, ordinal: m[2]+m[3] != "", inside: depth > 0})
			i += len(m[0])
			continue
		}
		n := 0 // bytes of letters
		for _, r := range rest {
			if !unicode.IsLetter(r) && !unicode.IsMark(r) {
				break
			}
			n += len(string(r))
		}
		if k := len(t.list); k > 0 && t.list[k-1].number && t.list[k-1].end == i {
			if unit := eastUnit.FindString(rest[:n]); unit != "" {
				n = len(strings.TrimRightFunc(unit, func(r rune) bool { return unit[0] < 0x80 && r >= 0x80 }))
			}
		}
		if n > 0 {
			t.list = append(t.list, token{text: rest[:n], start: i, end: i + n, inside: depth > 0})
			i += n
			continue
		}
		r := []rune(rest)[0]
		switch {
		case strings.ContainsRune("([{（【〔", r):
			depth++
		case strings.ContainsRune(")]}）】〕", r):
			depth = max(0, depth-1)
		case r == '\'' && (len(t.list) == 0 || !t.list[len(t.list)-1].number):
		case r == '#' && i+1 < len(t.folded) && unicode.IsDigit(rune(t.folded[i+1])): // attempt #2
		case strings.ContainsRune(`#%№°'"`, r):
			t.list = append(t.list, token{text: string(r), start: i, end: i + len(string(r)), inside: depth > 0})
		}
		i += len(string(r))
	}
	return t
}

// raw returns the text from one token to another.
func (t *tokens) raw(from, to int) string { return t.folded[t.list[from].start:t.list[to-1].end] }

// joined returns the texts of some tokens without anything between them, as they
// are looked up.
func (t *tokens) joined(from, to int) string {
	if to == from+1 {
		return t.list[from].text
	}
	var b strings.Builder
	for _, k := range t.list[from:to] {
		if k.text != "'" {
			b.WriteString(k.text)
		}
	}
	return b.String()
}

// spaced returns the texts of some tokens with blanks between them.
func (t *tokens) spaced(from, to int) string {
	var all []string
	for _, k := range t.list[from:to] {
		all = append(all, k.text)
	}
	return strings.Join(all, " ")
}

// eastern reports whether a word is written without blanks between its parts.
func eastern(word string) bool {
	for _, r := range word {
		return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul)
	}
	return false
}

package heading

import (
	"strings"
	"unicode"

	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// leadIn matches how forms begin a question.
var leadIn = cell.Pattern(`^(?:(?:what(?:'s| is| was| are)|please|enter|state|select|give|choose|write|indicate|your|my|the|` +
	`quel(?:le)? (?:est|etait)|votre|ton|ta|indiquez|wie (?:ist|lautet|war)|dein|deine|ihr|ihre|bitte|` +
	`cual (?:es|fue)|tu|su|indica|indique|qual e|o seu|a sua|qual era|il tuo|la tua|wat is|je|jouw|uw|vad ar|din|ditt)\s+)+`)

// withoutQuestion removes the words and marks of a question; it returns "" if
// there are none.
func withoutQuestion(header string) string {
	s := strings.Trim(cell.Fold(shorten(header)), "?*:¿ .")
	asked := strings.TrimSpace(leadIn().ReplaceAllString(s, ""))
	asked = strings.ReplaceAll(asked, "?", " ")
	if asked == cell.Fold(header) {
		return ""
	}
	return asked
}

// matchLanguages recognises a header that says the same in two languages. Parts
// in one script must all be known and agree; of two scripts one may be unknown.
func (v *vocabulary) matchLanguages(header string) (Heading, bool) {
	header = shorten(header)
	if east, west := scripts(header); east != "" && west != "" {
		a, okA := v.matchOne(east)
		b, okB := v.matchOne(west)
		switch {
		case okA && okB:
			return agreed(a, b)
		case okA:
			return a, true
		case okB:
			return b, true
		}
	}
	parts := strings.FieldsFunc(header, func(r rune) bool { return strings.ContainsRune("/|\n\r", r) })
	if len(parts) < 2 || len(parts) > 4 {
		return Heading{}, false
	}
	all, ok := v.matchOne(parts[0])
	for _, part := range parts[1:] {
		if !ok {
			return Heading{}, false
		}
		h, known := v.matchOne(part)
		if !known {
			return Heading{}, false
		}
		all, ok = agreed(all, h)
	}
	return all, ok
}

// agreed merges two headings of the same meaning: a unit wins over none, a whole
// name over a part of it, a list number over an ID.
func agreed(a, b Heading) (Heading, bool) {
	switch {
	case a.Role == roster.Name && (b.Role == roster.GivenName || b.Role == roster.FamilyName):
		return a, true
	case b.Role == roster.Name && (a.Role == roster.GivenName || a.Role == roster.FamilyName):
		return b, true
	case a.Role == roster.ID && b.Role == roster.ListNumber:
		return b, true
	case a.Role == roster.ListNumber && b.Role == roster.ID:
		return a, true
	case a.Role != b.Role || a.Input != b.Input || a.Distance != b.Distance:
		return Heading{}, false
	case a.Test != b.Test && a.Test != nil && b.Test != nil:
		return Heading{}, false
	case b.UnitGiven || a.Test == nil && b.Test != nil:
		return b, true
	}
	return a, true
}

// scripts separates the words in Chinese, Japanese and Korean scripts from the
// others.
func scripts(header string) (east, west string) {
	var e, w strings.Builder
	eastern := false
	for i, r := range header {
		letter := unicode.IsLetter(r)
		if letter || unicode.IsDigit(r) && i == 0 {
			eastern = unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul)
		}
		to := &w
		if eastern {
			to = &e
		}
		to.WriteRune(r)
	}
	trim := func(s string) string { return strings.Trim(s, " /|\n\r-–,;:·・　") }
	return trim(e.String()), trim(w.String())
}

package heading

import (
	"strings"
	"unicode"

	"tenback/workbook/cell"
)

// Key returns what is compared of a header: letters and digits without case and
// accents. A dot between digits stays, because 1.5 is not 15.
func Key(s string) string {
	folded := []rune(cell.Fold(shorten(s)))
	var b strings.Builder
	for i, r := range folded {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), unicode.IsMark(r), r == '%':
			b.WriteRune(r)
		case r == '#':
			b.WriteString("no")
		case r == '/' && len(folded) == 3:
			b.WriteRune(r) // H/F is a sex, HF a heart rate
		case (r == '.' || r == ',') && i > 0 && i+1 < len(folded) && unicode.IsDigit(folded[i-1]) && unicode.IsDigit(folded[i+1]):
			b.WriteByte('.')
		}
	}
	return b.String()
}

// MaxLen is the number of bytes of a header that are considered.
const MaxLen = 200

func shorten(s string) string {
	if len(s) > MaxLen {
		return strings.ToValidUTF8(s[:MaxLen], "")
	}
	return s
}

func withoutParentheses(s string) string {
	base, _ := cutParentheses(cell.Fold(shorten(s)))
	return base
}

// cutParentheses separates a text from what is in parentheses of any kind.
func cutParentheses(s string) (base string, inside []string) {
	var out, in strings.Builder
	depth := 0
	for _, r := range s {
		switch {
		case strings.ContainsRune("([{（【〔", r):
			depth++
			out.WriteByte(' ')
		case strings.ContainsRune(")]}）】〕", r):
			if depth > 0 {
				depth--
			}
			if depth == 0 {
				inside = append(inside, strings.TrimSpace(in.String()))
				in.Reset()
			}
		case depth > 0:
			in.WriteRune(r)
		default:
			out.WriteRune(r)
		}
	}
	if in.Len() > 0 {
		inside = append(inside, strings.TrimSpace(in.String()))
	}
	return strings.TrimSpace(out.String()), inside
}

func isFeet(word string) bool { return word == "ft" || word == "feet" || word == "foot" }

// isStones reports whether word means stones, which need a second number as feet
// do.
func isStones(word string) bool { return word == "st" || word == "stone" || word == "stones" }

package cell

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tenback/scoring"
)

// Label returns a text that names something, such as a person or a class. A
// number that is a name keeps the leading zeros that its format shows.
func Label(r Raw) string {
	switch r.Kind {
	case Error, Uncached:
		return ""
	case Number:
		return numberLabel(r)
	}
	if isPlain(r.Text) {
		return r.Text
	}
	return label(r.Text)
}

func label(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToValidUTF8(s, "�"), isGap), " ")
}

func numberLabel(r Raw) string {
	x, d := storedNumber(r)
	if d != nil || x > 1e15 || x < -1e15 {
		return r.Text
	}
	s := trim(x)
	if whole, decimals, _ := strings.Cut(s, "."); decimals == "" && x >= 0 && r.Format.Class == Plain {
		return strings.Repeat("0", max(0, int(r.Format.Zeros)-len(whole))) + whole
	}
	return s
}

// Display returns a cell about as the sheet shows it, at most 40 characters long.
func Display(r Raw, date1904 bool) string {
	s := Clean(r.Text)
	if r.Kind == Number {
		x, d := storedNumber(r)
		switch {
		case d != nil:
		case r.Format.IsTime() && x >= 0 && x < 100:
			s = scoring.Clock(seconds(x * 86400))
		case r.Format.IsTemporal():
			if t, ok := serialDate(x, date1904); ok {
				s = t.Format(time.DateOnly)
			}
		case r.Format.Class == Plain && r.Format.Decimals > 0 && r.Format.Decimals <= 3:
			s = strconv.FormatFloat(x, 'f', int(r.Format.Decimals), 64)
		default:
			s = trim(x)
		}
	}
	if len(s) > 40 && utf8.RuneCountInString(s) > 40 {
		s = string([]rune(s)[:39]) + "…"
	}
	return s
}

// HasLetters reports whether a text has a letter of any script.
func HasLetters(s string) bool { return strings.ContainsFunc(s, unicode.IsLetter) }

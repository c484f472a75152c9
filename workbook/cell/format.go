package cell

import (
	"strings"

	"tenback/scoring"
)

// Format is what a number format reveals about its cells.
type Format struct {
	Class    FormatClass
	Decimals uint8        // decimals shown by a Plain format
	Zeros    uint8        // least number of digits before the decimals, as in 00000
	Seconds  bool         // a Clock that shows seconds
	Unit     scoring.Unit // unit that the format shows behind the number, as in 0.0 "min"
	Word     bool         // shows a word that is no unit
}

// FormatClass groups number formats.
type FormatClass uint8

// The classes of number format.
const (
	General   FormatClass = iota
	Plain                 // a number with fixed decimals
	PerCent               // shown times 100
	Date                  // a day
	Clock                 // hours, minutes, maybe seconds: h:mm, h:mm:ss, [h]:mm
	Stopwatch             // minutes and seconds without hours: mm:ss, [mm]:ss, mm:ss.0
	DayTime               // a day and a time
	AsText                // @
)

// IsTime reports whether the format shows a time without a day.
func (f Format) IsTime() bool { return f.Class == Clock || f.Class == Stopwatch }

// IsTemporal reports whether the format shows a day or a time.
func (f Format) IsTemporal() bool { return f.Class >= Date && f.Class <= DayTime }

// ParseFormat parses a number format code, such as "h:mm:ss" or "0.00". Unknown
// codes are General.
func ParseFormat(code string) Format {
	if len(code) > 1024 {
		return Format{}
	}
	bare, literal := bareFormat(code)
	unit, known := UnitOf(literal) // most show none
	word := !known && HasLetters(literal)
	f := Format{Unit: unit}
	has := func(chars string) bool { return strings.ContainsAny(bare, chars) }
	switch {
	case strings.Contains(bare, "general") || bare == "":
		f.Word = word
		return f
	case strings.Contains(bare, "e+") || strings.Contains(bare, "e-"):
		f.Class = Plain
		return f
	case has("yde"), has("m") && !has("hs"):
		f.Class = Date
		if has("hs") {
			f.Class = DayTime
		}
		return f
	case has("h"):
		f.Class, f.Seconds = Clock, has("s")
		return f
	case has("s"):
		f.Class = Stopwatch
		return f
	case has("%"):
		f.Class = PerCent
		return f
	case has("@"):
		f.Class = AsText
		return f
	}
	if !has("0#?") {
		return f
	}
	f.Class, f.Word = Plain, word
	whole, decimals, _ := strings.Cut(bare, ".")
	f.Decimals = uint8(min(strings.Count(decimals, "0"), 30))
	f.Zeros = uint8(min(strings.Count(whole, "0"), 30))
	return f
}

// bareFormat returns the first section of a format code in lower case, without
// quoted text, escapes, fillers and brackets; a bracket such as [h] or [mm] keeps
// its letters. literal is the quoted text.
func bareFormat(code string) (bare, literal string) {
	var b, quoted strings.Builder
	for i := 0; i < len(code); i++ {
		switch c := code[i]; c {
		case '"':
			end := strings.IndexByte(code[i+1:], '"')
			if end < 0 {
				return b.String(), quoted.String()
			}
			quoted.WriteString(code[i+1 : i+1+end])
			i += end + 1
		case '\\', '_', '*':
			i++
		case '[':
			end := strings.IndexByte(code[i:], ']')
			if end < 0 {
				return b.String(), quoted.String()
			}
			inside := strings.ToLower(code[i+1 : i+end])
			if inside != "" && strings.Trim(inside, inside[:1]) == "" && strings.Contains("hms", inside[:1]) {
				b.WriteString(inside)
			}
			i += end
		case ';':
			return strings.TrimSpace(b.String()), quoted.String()
		default:
			b.WriteString(strings.ToLower(string(c)))
		}
	}
	bare = strings.TrimSpace(b.String())
	bare = strings.ReplaceAll(bare, "am/pm", "")
	return strings.ReplaceAll(bare, "a/p", ""), quoted.String()
}

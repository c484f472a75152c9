package kit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Brand is the look of an organisation's pages. The zero Brand is no one's.
type Brand struct {
	Organisation string // in the head and as the author; may be empty
	Contact      string // whom to ask, in the foot; may be empty
	Logo         *Logo  // nil for none
	Accent       Accent // of headings and rules
}

// Accent is a colour dark enough for text on white. The zero Accent is petrol.
type Accent struct {
	colour Colour
	given  bool
}

// accentContrast is the least contrast of text to its background.
//
// Source: W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3.
const accentContrast = 4.5

// ParseAccent parses a colour of the form #RRGGBB or #RGB, with or without the
// sign. It rejects colours with a contrast to white of less than 4.5 to 1.
func ParseAccent(text string) (Accent, error) {
	digits := strings.TrimPrefix(strings.TrimSpace(text), "#")
	if len(digits) == 3 {
		var twice strings.Builder
		for _, d := range digits {
			twice.WriteRune(d)
			twice.WriteRune(d)
		}
		digits = twice.String()
	}
	v, err := strconv.ParseUint(digits, 16, 32)
	if err != nil || len(digits) != 6 {
		return Accent{}, fmt.Errorf("%q is no colour; write it as # and six digits, such as #0C4A58", text)
	}
	c := Colour{int(v >> 16), int(v >> 8 & 0xff), int(v & 0xff)}
	if ratio := contrast(c.linear(), White.linear()); ratio < accentContrast {
		return Accent{}, fmt.Errorf("%q is too light for text: its contrast to white is %.1f to 1, and %.1f is the least; take a darker shade",
			text, math.Floor(10*ratio)/10, accentContrast)
	}
	return Accent{c, true}, nil
}

// On returns the accent for text on a field, or ink where the accent is too
// light.
func (a Accent) On(field Colour) Colour {
	c := a.or(Petrol)
	if contrast(c.linear(), field.linear()) < accentContrast {
		return Ink
	}
	return c
}

// or returns the accent, or c if none was given.
func (a Accent) or(c Colour) Colour {
	if a.given {
		return a.colour
	}
	return c
}

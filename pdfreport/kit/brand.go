package kit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Brand is how the pages of an organisation look. The zero Brand is that of no
// one.
type Brand struct {
	Organisation string // named at the head and as the author; may be empty
	Contact      string // a line at the foot: whom to ask; may be empty
	Logo         *Logo  // nil for none
	Accent       Accent // of headings and rules; the zero Accent is the program's own
}

// Accent is a colour that is dark enough for text on white.
type Accent struct {
	colour Colour
	given  bool
}

// accentContrast is the least contrast of text to what it stands on.
//
// Source: W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3.
const accentContrast = 4.5

// ParseAccent reads a colour in the form #RRGGBB or #RGB, with or without the
// sign. A colour with a contrast to white of less than 4.5 to 1 is an error.
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

// On is the accent where text stands on a field of the given colour: ink where
// the accent is too light there.
func (a Accent) On(field Colour) Colour {
	c := a.or(Petrol)
	if contrast(c.linear(), field.linear()) < accentContrast {
		return Ink
	}
	return c
}

// or is the accent, or another colour where none was given.
func (a Accent) or(c Colour) Colour {
	if a.given {
		return a.colour
	}
	return c
}

package pdfreport

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
	colour colour
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
	c := colour{int(v >> 16), int(v >> 8 & 0xff), int(v & 0xff)}
	if ratio := contrast(c.linear(), paper.linear()); ratio < accentContrast {
		return Accent{}, fmt.Errorf("%q is too light for text: its contrast to white is %.1f to 1, and %.1f is the least; take a darker shade",
			text, math.Floor(10*ratio)/10, accentContrast)
	}
	return Accent{c, true}, nil
}

// on is the accent where text stands on a field of the given colour: ink where
// the accent is too light there.
func (a Accent) on(field colour) colour {
	c := a.or(petrol)
	if contrast(c.linear(), field.linear()) < accentContrast {
		return ink
	}
	return c
}

// or is the accent, or another colour where none was given.
func (a Accent) or(c colour) colour {
	if a.given {
		return a.colour
	}
	return c
}

// The head of the page where an organisation is named.
const (
	logoHeightMost = 29.0
	logoWidthMost  = 110.0
	logoGap        = 8.0
	ownerLinesMost = 3
	ownerSizeLeast = 7.6
)

// owner draws the logo and the organisation's name at the right of the head, over
// the rule at y+16.5, in the room that the title leaves.
func (c *layout) owner(titleWidth float64) func(s *sheet, x, y float64) {
	room := c.width - titleWidth - 2*gutter
	var logoWidth, logoHeight float64
	if c.brand.Logo != nil {
		logoWidth, logoHeight = c.brand.Logo.fit(logoWidthMost, logoHeightMost)
		room -= logoWidth + logoGap
	}
	look := face{size: sizeBody, weight: bold, colour: ink, dense: true}
	var lines []line
	if c.organisation != "" {
		for ; look.size >= ownerSizeLeast; look.size -= 0.8 {
			lines = breakLines(c.organisation, bold, room/look.size)
			if len(lines) <= 2 {
				break
			}
		}
		look.size = max(look.size, ownerSizeLeast)
		lines = breakLines(c.organisation, bold, room/look.size)
		if len(lines) > ownerLinesMost {
			lines = limitLines(lines, ownerLinesMost)
			lines[ownerLinesMost-1].width += textWidth("…", bold)
		}
	}
	return func(s *sheet, x, y float64) {
		right := x + c.width
		if c.brand.Logo != nil {
			s.image(c.brand.Logo, right-logoWidth, y+12.5-logoHeight, logoWidth, logoHeight)
			right -= logoWidth + logoGap
		}
		for i, l := range lines {
			base := y + 10 - float64(len(lines)-1-i)*look.leading()
			s.line(right-l.width*look.size, base, l, look)
		}
	}
}

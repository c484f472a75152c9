// Package kit draws: fonts, text, boxes, charts, the palette, and the head and
// foot of reports. It knows no results.
//
// Blocks are laid out first, when only their heights are known. [Flow] shares
// them out over pages, and a [Sheet] then draws them.
//
// # Fonts
//
// Text is drawn with single-byte fonts that were prepared once (fonts/make.py),
// because reading a TrueType font for each document costs many times the page.
// One code page covers the page's words and most European names. Others are
// added only to documents whose names need them. A character that no code page
// has is drawn as a box and named in the [Report].
package kit

import (
	"math"
)

// Colour is red, green and blue, 0 to 255 each.
type Colour struct{ R, G, B int }

// The palette is ink on paper, petrol for amounts and copper for the reader.
// Copper and petrol differ in hue and lightness for every kind of colour vision,
// and tests check that. Colour alone carries no meaning: groups have names, the
// reader a diamond, and reached goals a tick.
var (
	Ink       = Colour{34, 38, 43}
	Soft      = Colour{84, 92, 100}   // secondary text
	Hairline  = Colour{196, 203, 207} // rules and ticks
	White     = Colour{255, 255, 255}
	Mist      = Colour{243, 246, 247} // fields behind text
	Petrol    = Colour{12, 74, 88}    // headings
	Copper    = Colour{158, 72, 20}   // the reader
	CopperTwo = Colour{246, 226, 211} // the reader's likely range
)

// GroupTones are the tones of the five groups, from low to high.
var GroupTones = [...]Colour{{229, 238, 240}, {186, 212, 218}, {131, 176, 186}, {66, 128, 143}, {15, 78, 93}}

// Type sizes in points, and leading as a share of the size. The finest is for
// sources where a page lacks space.
const (
	SizeFine    = 6.7
	SizeSmall   = 7.6
	SizeBody    = 9.2
	SizeHeading = 12.5
	sizeName    = 21.0
	SizeNumber  = 46.0
	leading     = 1.36

	denseLeading = 1.2
)

// Margins and gaps, in points.
const (
	MarginSide   = 48.0
	MarginTop    = 40.0
	MarginBottom = 42.0 // contains the foot only
	Gutter       = 18.0
	BlockGap     = 13.0 // between blocks, at least
	blockGapMost = 27.0 // at most
	CloseGap     = 10.0 // where a little space is missing
	TightGap     = 7.0  // where much is missing
)

// rgb is red, green and blue as linear light, 0 to 1.
type rgb [3]float64

// linear converts a colour channel, 0 to 255.
func linear(channel int) float64 {
	c := float64(channel) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

func (c Colour) linear() rgb { return rgb{linear(c.R), linear(c.G), linear(c.B)} }

// luminance returns the relative luminance.
//
// Source: W3C, Web Content Accessibility Guidelines 2.1, relative luminance.
func (c rgb) luminance() float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// contrast returns the contrast ratio of two colours, 1 to 21.
func contrast(a, b rgb) float64 {
	high, low := a.luminance(), b.luminance()
	if high < low {
		high, low = low, high
	}
	return (high + 0.05) / (low + 0.05)
}

package kit

import "math"

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

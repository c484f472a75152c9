package pdfreport

import (
	"math"
	"strconv"
)

// The sheet writes what stands on a page itself, in PDF's operators, and hands it
// to the library when the page is done or something else is to be drawn by that:
// the library's functions take a tenth of the time of a document, for they make a
// text of every number and of every line, and let the page grow by them.

// How exactly numbers are written, in decimals.
const (
	pointDecimals  = 2 // of a point
	curveDecimals  = 3 // of a point, for the corners and bends of shapes
	colourDecimals = 3 // of the most there is of a colour
)

// contents is a part of what stands on a page.
type contents struct{ bytes []byte }

// op writes an operator after its operands.
func (c *contents) op(operator string, decimals int, operands ...float64) {
	for _, x := range operands {
		c.bytes = append(appendFixed(c.bytes, x, decimals), ' ')
	}
	c.bytes = append(append(c.bytes, operator...), '\n')
}

// colour tells a colour to the operator for grey or that for all.
func (c *contents) colour(of colour, grey, full string) {
	const most = 255
	if of.r == of.g && of.g == of.b {
		c.op(grey, colourDecimals, float64(of.r)/most)
		return
	}
	c.op(full, colourDecimals, float64(of.r)/most, float64(of.g)/most, float64(of.b)/most)
}

// font tells the font, by its name in the document.
func (c *contents) font(name string, size float64) {
	c.bytes = append(c.bytes, "BT /"...)
	c.bytes = append(append(c.bytes, name...), ' ')
	c.bytes = append(appendFixed(c.bytes, size, pointDecimals), " Tf ET\n"...)
}

// text shows codes as they come from encode.
func (c *contents) text(x, y float64, codes string) {
	c.bytes = append(c.bytes, "BT "...)
	c.bytes = append(appendFixed(c.bytes, x, pointDecimals), ' ')
	c.bytes = append(appendFixed(c.bytes, y, pointDecimals), " Td ("...)
	c.bytes = append(append(c.bytes, codes...), ") Tj ET\n"...)
}

// appendFixed writes a number with so many decimals, as strconv does in several
// times the time. That is left what is so nearly halfway between two such numbers
// that multiplying could put it on the other side, and what is on no page.
func appendFixed(b []byte, x float64, decimals int) []byte {
	const (
		most      = 1e9
		tooNearly = 1e-6 // multiplying is wrong by less, up to most
	)
	scale := int64(1)
	for range decimals {
		scale *= 10
	}
	scaled := x * float64(scale)
	below := math.Floor(scaled)
	if !(math.Abs(scaled) < most) || math.Abs(scaled-below-0.5) < tooNearly {
		return strconv.AppendFloat(b, x, 'f', decimals, 64)
	}
	n := int64(below)
	if scaled-below > 0.5 {
		n++
	}
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/scale, 10)
	if decimals > 0 {
		b = append(b, '.')
	}
	for n %= scale; scale > 1; n %= scale {
		scale /= 10
		b = append(b, byte('0'+n/scale))
	}
	return b
}

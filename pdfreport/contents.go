package pdfreport

import (
	"bytes"
	"io"
	"math"
	"strconv"
)

// The sheet writes what stands on a page itself, in PDF's operators: the library's
// functions took a fifth of the time of a document, for they make a text of every
// number and of every line, and let the page grow by them. What the library has of
// a page is what it draws itself, logos and changes of scale, and marks where a
// part of the contents belongs, which the press puts there.

// How exactly numbers are written, in decimals.
const (
	pointDecimals  = 2 // of a point
	curveDecimals  = 5 // of a point, for the corners and bends of shapes
	colourDecimals = 3 // of the most there is of a colour
)

// contents is what stands on the pages of a document, in parts.
type contents struct {
	bytes []byte
	ends  []int // of the parts, in bytes
}

// reset forgets all parts, for another document.
func (c *contents) reset() { c.bytes, c.ends = c.bytes[:0], c.ends[:0] }

// partMark begins the line of a mark, a comment in PDF; the part's number follows.
const partMark = "%part "

// close ends a part and gives the mark for it; ok is false if there is nothing in
// it.
func (c *contents) close() (mark string, ok bool) {
	n := len(c.ends)
	if n > 0 && c.ends[n-1] == len(c.bytes) || len(c.bytes) == 0 {
		return "", false
	}
	c.ends = append(c.ends, len(c.bytes))
	return partMark + strconv.Itoa(n), true
}

// write writes a page with the parts in place of their marks.
func (c *contents) write(w io.Writer, page []byte) error {
	for line := range bytes.Lines(page) {
		if digits, isMark := bytes.CutPrefix(line, []byte(partMark)); isMark {
			n, err := strconv.Atoi(string(bytes.TrimSpace(digits)))
			if err != nil || n < 0 || n >= len(c.ends) {
				return errLayout
			}
			start := 0
			if n > 0 {
				start = c.ends[n-1]
			}
			line = c.bytes[start:c.ends[n]]
		}
		if _, err := w.Write(line); err != nil {
			return err
		}
	}
	return nil
}

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

package person

import (
	"tenback/pdfreport/kit"
)

// The reader's value is drawn above a scale.
const (
	youLabelHeight = 13.0
	bandHeight     = 6.0
	diamondRadius  = 5.2
	// youHeight is the height of the label, the band and the space below it.
	youHeight = youLabelHeight + 2*diamondRadius + 3
)

// you returns a function that draws the reader's value as a diamond on the band
// of the likely range. It carries the value down across the scale, which is
// between scaleTop and scaleBottom.
func (c *page) you(a kit.Axis, value, low, high float64) (draw func(s *kit.Sheet, x, y, scaleTop, scaleBottom float64)) {
	text := kit.Labelled(a.At(value), c.Say("scale.you", kit.Words{"Value": value}), kit.BodyFace.With(kit.Bold).In(kit.Copper))
	ends := [2]string{c.Language.Number(low, 1), c.Language.Number(high, 1)}
	text = kit.Spread([]kit.Label{text}, 0, a.Width)[0]
	return func(s *kit.Sheet, x, y, scaleTop, scaleBottom float64) {
		s.WriteCentred(x+text.At, y+8.5, text.Text, text.Face)
		middle := y + youLabelHeight + diamondRadius
		from, to, at := x+a.At(low), x+a.At(high), x+a.At(value)
		s.Box(from, middle-bandHeight/2, to-from, bandHeight, kit.CopperTwo)
		for _, end := range []float64{from, to} {
			s.Rule(end, middle-bandHeight/2-1, end, middle+bandHeight/2+1, kit.Copper, 1.1)
			s.Dashed(end, middle+bandHeight/2+1, end, scaleBottom, kit.Copper, 0.7)
		}
		s.Rule(at, middle, at, scaleBottom, kit.White, 3)
		s.Rule(at, middle, at, scaleBottom, kit.Copper, 1.4)
		kit.Diamond(s, at, middle, diamondRadius, kit.Copper)
		s.WriteRight(from-4, middle+2.7, ends[0], kit.SmallFace)
		s.Write(to+4, middle+2.7, ends[1], kit.SmallFace)
	}
}

// roomForEnds is the share of the range to keep free at each side for the numbers
// at the ends of the band.
const roomForEnds = 0.09

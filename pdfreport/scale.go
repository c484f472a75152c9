package pdfreport

// axis maps values to places along a width, in points from its left edge.
type axis struct{ lo, hi, width float64 }

func (a axis) at(v float64) float64 { return (v - a.lo) / (a.hi - a.lo) * a.width }

// label is a text that wants to stand centred at a place.
type label struct {
	at, width float64
	text      string
	face      face
}

// spread moves labels sideways, as little as a simple rule can, until they lie
// between 0 and end and at least gap apart. They keep their order.
func spread(labels []label, gap, end float64) []label {
	placed := append([]label(nil), labels...)
	edge := 0.0
	for i := range placed {
		l := &placed[i]
		l.at = max(l.at, edge+l.width/2)
		edge = l.at + l.width/2 + gap
	}
	edge = end
	for i := len(placed) - 1; i >= 0; i-- {
		l := &placed[i]
		l.at = min(l.at, edge-l.width/2)
		edge = l.at - l.width/2 - gap
	}
	return placed
}

// labelled makes a label with its width measured.
func labelled(at float64, text string, f face) label {
	return label{at, textWidth(text, f.weight) * f.size, text, f}
}

// The drawing of the reader's value above a scale.
const (
	youLabelHeight = 13.0
	bandHeight     = 6.0
	diamondRadius  = 5.2
	// youHeight is what the label, the band and the room under it take.
	youHeight = youLabelHeight + 2*diamondRadius + 3
)

// you draws the reader's value as a diamond on the band of the likely range,
// with the ends of the range written beside it. scaleTop and scaleBottom are
// where the scale under it lies; the value is carried down across it.
func (c *page) you(a axis, value, low, high float64) (draw func(s *sheet, x, y, scaleTop, scaleBottom float64)) {
	text := labelled(a.at(value), c.say("scale.you", words{"Value": value}), bodyFace.with(bold).in(copper))
	ends := [2]string{c.language.Number(low, 1), c.language.Number(high, 1)}
	text = spread([]label{text}, 0, a.width)[0]
	return func(s *sheet, x, y, scaleTop, scaleBottom float64) {
		s.writeCentred(x+text.at, y+8.5, text.text, text.face)
		middle := y + youLabelHeight + diamondRadius
		from, to, at := x+a.at(low), x+a.at(high), x+a.at(value)
		s.box(from, middle-bandHeight/2, to-from, bandHeight, copperTwo)
		for _, end := range []float64{from, to} {
			s.rule(end, middle-bandHeight/2-1, end, middle+bandHeight/2+1, copper, 1.1)
			s.dashed(end, middle+bandHeight/2+1, end, scaleBottom, copper, 0.7)
		}
		s.rule(at, middle, at, scaleBottom, paper, 3)
		s.rule(at, middle, at, scaleBottom, copper, 1.4)
		s.diamond(at, middle, diamondRadius, copper)
		s.writeRight(from-4, middle+2.7, ends[0], smallFace)
		s.write(to+4, middle+2.7, ends[1], smallFace)
	}
}

// roomForEnds is the share of the range that must be kept free at each side
// for the numbers at the ends of the band.
const roomForEnds = 0.09

package kit

import (
	"github.com/go-pdf/fpdf"
)

// Diamond fills a diamond with a white edge, which sets it off from what is
// beneath.
func Diamond(s *Sheet, x, y, radius float64, c Colour) {
	shape := func(r float64) []fpdf.PointType {
		return []fpdf.PointType{{X: x, Y: y - r}, {X: x + r, Y: y}, {X: x, Y: y + r}, {X: x - r, Y: y}}
	}
	s.setFill(White)
	s.Pdf.Polygon(shape(radius+1.6), "F")
	s.setFill(c)
	s.Pdf.Polygon(shape(radius), "F")
}

// Tick draws a check mark in a box with its top left corner at x, y.
func Tick(s *Sheet, x, y, size float64, c Colour) {
	s.setStroke(c, size*0.17)
	s.Pdf.SetLineCapStyle("round")
	s.Pdf.SetLineJoinStyle("round")
	s.Pdf.MoveTo(x+size*0.08, y+size*0.55)
	s.Pdf.LineTo(x+size*0.36, y+size*0.84)
	s.Pdf.LineTo(x+size*0.92, y+size*0.16)
	s.Pdf.DrawPath("D")
	s.Pdf.SetLineCapStyle("butt")
	s.Pdf.SetLineJoinStyle("miter")
}

// Ring draws an open circle.
func Ring(s *Sheet, x, y, radius float64, c Colour, width float64) {
	s.setStroke(c, width)
	s.setFill(White)
	s.Pdf.Circle(x, y, radius, "FD")
}

// Arrowhead fills a small triangle at x, y that points right, or left if length
// is negative.
func Arrowhead(s *Sheet, x, y, length float64, c Colour) {
	s.setFill(c)
	s.Pdf.Polygon([]fpdf.PointType{{X: x, Y: y - 2.6}, {X: x + length, Y: y}, {X: x, Y: y + 2.6}}, "F")
}

// Axis maps values to places along a width, in points from its left edge.
type Axis struct{ Lo, Hi, Width float64 }

// At returns the place of a value.
func (a Axis) At(v float64) float64 { return (v - a.Lo) / (a.Hi - a.Lo) * a.Width }

// Label is a text to be centred at a place.
type Label struct {
	At, Width float64
	Text      string
	Face      Face
}

// Spread moves labels sideways until they are between 0 and end and at least gap
// apart, in the same order.
func Spread(labels []Label, gap, end float64) []Label {
	placed := append([]Label(nil), labels...)
	edge := 0.0
	for i := range placed {
		l := &placed[i]
		l.At = max(l.At, edge+l.Width/2)
		edge = l.At + l.Width/2 + gap
	}
	edge = end
	for i := len(placed) - 1; i >= 0; i-- {
		l := &placed[i]
		l.At = min(l.At, edge-l.Width/2)
		edge = l.At - l.Width/2 - gap
	}
	return placed
}

// Labelled returns a label and measures its width.
func Labelled(at float64, text string, f Face) Label {
	return Label{at, TextWidth(text, f.Weight) * f.Size, text, f}
}

// StripHeight and TickLength are heights of a scale's parts, in points.
const (
	StripHeight = 20.0
	TickLength  = 3.0
)

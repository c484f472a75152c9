package kit

import "github.com/go-pdf/fpdf"

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

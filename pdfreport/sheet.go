package pdfreport

import (
	"strconv"

	"github.com/go-pdf/fpdf"
)

// sheet draws on a document, in points from the top left corner.
type sheet struct {
	pdf    *fpdf.Fpdf
	loaded [][weightCount]bool // by code page
	runs   []run               // kept between texts to spare memory, as is
	op     []byte              // what is written of one

	// What the document was last told; the library carries it from page to page.
	page   uint8
	face   face
	fill   colour
	stroke colour
	width  float64 // of strokes
}

// unset is no colour, so the first one asked for is always told.
var unset = colour{-1, -1, -1}

func newSheet(pdf *fpdf.Fpdf) *sheet {
	return &sheet{pdf: pdf, loaded: make([][weightCount]bool, len(fonts().pages)),
		face: face{colour: unset}, fill: unset, stroke: unset, width: -1}
}

// smaller draws with everything scaled around the top left corner of the type
// area. Nothing may be drawn on the page after it.
func (s *sheet) smaller(scale float64, draw func()) {
	if scale == 1 {
		draw()
		return
	}
	s.pdf.TransformBegin()
	s.pdf.TransformScaleXY(100*scale, marginSide, marginTop)
	draw()
	s.pdf.TransformEnd()
}

// use selects a code page, loading it into the document at first use.
func (s *sheet) use(page uint8, f face) {
	p := &fonts().pages[page]
	if !s.loaded[page][f.weight] {
		s.pdf.AddFontFromBytes(p.family, f.weight.style(), p.standIn[f.weight], nil)
		s.loaded[page][f.weight] = true
	}
	if s.face.size != f.size || s.face.weight != f.weight || s.page != page {
		s.pdf.SetFont(p.family, f.weight.style(), f.size)
	}
	s.setFill(f.colour)
	s.page, s.face = page, f
}

// line writes a line with its baseline at y.
func (s *sheet) line(x, y float64, l line, f face) {
	for _, part := range l.spans {
		x = s.print(x, y, part.runs, f.with(part.weight))
	}
}

// write writes a text from x on the baseline y and returns where it ends.
func (s *sheet) write(x, y float64, text string, f face) (end float64) {
	s.runs = encode(s.runs[:0], text, f.weight)
	return s.print(x, y, s.runs, f)
}

// print writes runs, one after another. The library's own way with texts took
// three times as long, and a page has hundreds of them.
func (s *sheet) print(x, y float64, runs []run, f face) (end float64) {
	_, height := s.pdf.GetPageSize()
	for _, r := range runs {
		s.use(r.page, f)
		op := append(s.op[:0], "BT "...)
		op = strconv.AppendFloat(op, x, 'f', 2, 64)
		op = append(op, ' ')
		op = strconv.AppendFloat(op, height-y, 'f', 2, 64)
		op = append(op, " Td ("...)
		op = append(op, r.codes...)
		s.op = append(op, ") Tj ET"...)
		s.pdf.RawWriteStr(string(s.op))
		x += r.width * f.size
	}
	return x
}

// writeCentred writes a text around x.
func (s *sheet) writeCentred(x, y float64, text string, f face) {
	s.write(x-textWidth(text, f.weight)*f.size/2, y, text, f)
}

// writeRight writes a text that ends at x.
func (s *sheet) writeRight(x, y float64, text string, f face) {
	s.write(x-textWidth(text, f.weight)*f.size, y, text, f)
}

func (s *sheet) setFill(c colour) {
	if s.fill != c {
		s.pdf.SetFillColor(c.r, c.g, c.b)
		s.fill = c
	}
}

func (s *sheet) setStroke(c colour, width float64) {
	if s.stroke != c {
		s.pdf.SetDrawColor(c.r, c.g, c.b)
		s.stroke = c
	}
	if s.width != width {
		s.pdf.SetLineWidth(width)
		s.width = width
	}
}

// box fills a rectangle.
func (s *sheet) box(x, y, w, h float64, c colour) {
	s.setFill(c)
	s.pdf.Rect(x, y, w, h, "F")
}

// frame draws the outline of a rectangle.
func (s *sheet) frame(x, y, w, h float64, c colour, width float64) {
	s.setStroke(c, width)
	s.pdf.Rect(x, y, w, h, "D")
}

// rule draws a straight line.
func (s *sheet) rule(x1, y1, x2, y2 float64, c colour, width float64) {
	s.setStroke(c, width)
	s.pdf.Line(x1, y1, x2, y2)
}

// dashed draws a dashed line.
func (s *sheet) dashed(x1, y1, x2, y2 float64, c colour, width float64) {
	s.pdf.SetDashPattern([]float64{2.4, 2}, 0)
	s.rule(x1, y1, x2, y2, c, width)
	s.pdf.SetDashPattern(nil, 0)
}

// diamond fills a square standing on its corner, with a paper-white edge that
// keeps it apart from what lies beneath.
func (s *sheet) diamond(x, y, radius float64, c colour) {
	shape := func(r float64) []fpdf.PointType {
		return []fpdf.PointType{{X: x, Y: y - r}, {X: x + r, Y: y}, {X: x, Y: y + r}, {X: x - r, Y: y}}
	}
	s.setFill(paper)
	s.pdf.Polygon(shape(radius+1.6), "F")
	s.setFill(c)
	s.pdf.Polygon(shape(radius), "F")
}

// area fills a shape with the given corners.
func (s *sheet) area(corners []fpdf.PointType, c colour) {
	s.setFill(c)
	s.pdf.Polygon(corners, "F")
}

// tick draws a check mark in a box of the given size, its top left corner at
// x, y.
func (s *sheet) tick(x, y, size float64, c colour) {
	s.setStroke(c, size*0.17)
	s.pdf.SetLineCapStyle("round")
	s.pdf.SetLineJoinStyle("round")
	s.pdf.MoveTo(x+size*0.08, y+size*0.55)
	s.pdf.LineTo(x+size*0.36, y+size*0.84)
	s.pdf.LineTo(x+size*0.92, y+size*0.16)
	s.pdf.DrawPath("D")
	s.pdf.SetLineCapStyle("butt")
	s.pdf.SetLineJoinStyle("miter")
}

// ring draws an open circle.
func (s *sheet) ring(x, y, radius float64, c colour, width float64) {
	s.setStroke(c, width)
	s.setFill(paper)
	s.pdf.Circle(x, y, radius, "FD")
}

// arrowhead fills a small triangle at x, y that points right, or left where
// length is negative.
func (s *sheet) arrowhead(x, y, length float64, c colour) {
	s.setFill(c)
	s.pdf.Polygon([]fpdf.PointType{{X: x, Y: y - 2.6}, {X: x + length, Y: y}, {X: x, Y: y + 2.6}}, "F")
}

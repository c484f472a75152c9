package kit

import (
	"strconv"

	"github.com/go-pdf/fpdf"
)

// Sheet draws on a document, in points from the top left corner.
type Sheet struct {
	Pdf    *fpdf.Fpdf
	loaded [][weightCount]bool // by code page
	runs   []run               // reused buffer
	op     []byte              // reused buffer

	// State of the document, which the library carries from page to page.
	page   uint8
	face   Face
	fill   Colour
	stroke Colour
	width  float64 // of strokes
}

// unset differs from every colour.
var unset = Colour{-1, -1, -1}

// NewSheet returns a sheet for a document.
func NewSheet(pdf *fpdf.Fpdf) *Sheet {
	return &Sheet{Pdf: pdf, loaded: make([][weightCount]bool, len(fonts().pages)),
		face: Face{Colour: unset}, fill: unset, stroke: unset, width: -1}
}

// Smaller scales what draw draws around the top left corner of the type area.
// Nothing may be drawn on the page after it.
func (s *Sheet) Smaller(scale float64, draw func()) {
	if scale == 1 {
		draw()
		return
	}
	s.Pdf.TransformBegin()
	s.Pdf.TransformScaleXY(100*scale, MarginSide, MarginTop)
	draw()
	s.Pdf.TransformEnd()
}

// use selects a code page and embeds its font at first use.
func (s *Sheet) use(page uint8, f Face) {
	p := &fonts().pages[page]
	if !s.loaded[page][f.Weight] {
		s.Pdf.AddFontFromBytes(p.family, f.Weight.style(), p.standIn[f.Weight], nil)
		s.loaded[page][f.Weight] = true
	}
	if s.face.Size != f.Size || s.face.Weight != f.Weight || s.page != page {
		s.Pdf.SetFont(p.family, f.Weight.style(), f.Size)
	}
	s.setFill(f.Colour)
	s.page, s.face = page, f
}

// Line writes a line with its baseline at y.
func (s *Sheet) Line(x, y float64, l Line, f Face) {
	for _, part := range l.spans {
		x = s.print(x, y, part.runs, f.With(part.weight))
	}
}

// Write writes a text from x on the baseline y and returns its end.
func (s *Sheet) Write(x, y float64, text string, f Face) (end float64) {
	s.runs = encode(s.runs[:0], text, f.Weight)
	return s.print(x, y, s.runs, f)
}

// print writes runs, one after another. It bypasses the library's text functions,
// which took three times as long.
func (s *Sheet) print(x, y float64, runs []run, f Face) (end float64) {
	_, height := s.Pdf.GetPageSize()
	for _, r := range runs {
		s.use(r.page, f)
		op := append(s.op[:0], "BT "...)
		op = strconv.AppendFloat(op, x, 'f', 2, 64)
		op = append(op, ' ')
		op = strconv.AppendFloat(op, height-y, 'f', 2, 64)
		op = append(op, " Td ("...)
		op = append(op, r.codes...)
		s.op = append(op, ") Tj ET"...)
		s.Pdf.RawWriteStr(string(s.op))
		x += r.width * f.Size
	}
	return x
}

// WriteCentred centres a text at x.
func (s *Sheet) WriteCentred(x, y float64, text string, f Face) {
	s.Write(x-TextWidth(text, f.Weight)*f.Size/2, y, text, f)
}

// WriteRight writes a text that ends at x.
func (s *Sheet) WriteRight(x, y float64, text string, f Face) {
	s.Write(x-TextWidth(text, f.Weight)*f.Size, y, text, f)
}

func (s *Sheet) setFill(c Colour) {
	if s.fill != c {
		s.Pdf.SetFillColor(c.R, c.G, c.B)
		s.fill = c
	}
}

func (s *Sheet) setStroke(c Colour, width float64) {
	if s.stroke != c {
		s.Pdf.SetDrawColor(c.R, c.G, c.B)
		s.stroke = c
	}
	if s.width != width {
		s.Pdf.SetLineWidth(width)
		s.width = width
	}
}

// Box fills a rectangle.
func (s *Sheet) Box(x, y, w, h float64, c Colour) {
	s.setFill(c)
	s.Pdf.Rect(x, y, w, h, "F")
}

// Frame draws the outline of a rectangle.
func (s *Sheet) Frame(x, y, w, h float64, c Colour, width float64) {
	s.setStroke(c, width)
	s.Pdf.Rect(x, y, w, h, "D")
}

// Rule draws a line.
func (s *Sheet) Rule(x1, y1, x2, y2 float64, c Colour, width float64) {
	s.setStroke(c, width)
	s.Pdf.Line(x1, y1, x2, y2)
}

// Dashed draws a dashed line.
func (s *Sheet) Dashed(x1, y1, x2, y2 float64, c Colour, width float64) {
	s.Pdf.SetDashPattern([]float64{2.4, 2}, 0)
	s.Rule(x1, y1, x2, y2, c, width)
	s.Pdf.SetDashPattern(nil, 0)
}

// Area fills a polygon.
func (s *Sheet) Area(corners []fpdf.PointType, c Colour) {
	s.setFill(c)
	s.Pdf.Polygon(corners, "F")
}

package pdfreport

import (
	"io"
	"math"

	"codeberg.org/go-pdf/fpdf"
)

// sheet draws on a document, in points from the top left corner.
type sheet struct {
	pdf      *fpdf.Fpdf
	fonts    *fontSet
	loaded   [][weightCount]bool // by code page
	runs     []run               // kept between texts to spare memory
	press    *press
	contents *contents // of the pages, in the press
	height   float64   // of the page

	// What the page was last told.
	page   uint8
	face   face
	fill   colour
	stroke colour
	width  float64 // of strokes
}

// unset is no colour, so the first one asked for is always told.
var unset = colour{-1, -1, -1}

func newSheet(pdf *fpdf.Fpdf, fonts *fontSet) *sheet {
	p := takePress()
	return &sheet{pdf: pdf, fonts: fonts, loaded: make([][weightCount]bool, len(fonts.pages)), press: p, contents: &p.contents}
}

// addPage begins a page of the document's size.
func (s *sheet) addPage() {
	s.flush()
	s.pdf.AddPage()
	s.begin()
}

// addPageOf begins a page of another size.
func (s *sheet) addPageOf(size fpdf.SizeType) {
	s.flush()
	s.pdf.AddPageFormat("P", size) // the size alone tells which side is up
	s.begin()
}

// begin readies the sheet for a page that has been told nothing.
func (s *sheet) begin() {
	_, s.height = s.pdf.GetPageSize()
	s.page, s.face, s.fill, s.stroke, s.width = 0, face{}, unset, unset, -1
}

// flush marks the place of what was drawn on the page since the last time, before
// the library draws something.
func (s *sheet) flush() {
	if mark, ok := s.contents.close(); ok {
		s.pdf.RawWriteStr(mark)
	}
}

// output writes the document, its pages packed if so wished, and ends the use of
// the sheet. Nothing is written of a document that can't be finished.
func (s *sheet) output(w io.Writer, pack bool) error {
	s.flush()
	p := s.press
	defer p.giveBack()
	if err := s.pdf.Output(&p.doc); err != nil {
		return err
	}
	if err := p.finish(pack); err != nil {
		return err
	}
	_, err := w.Write(p.out.Bytes())
	return err
}

// smaller draws with everything scaled around the top left corner of the type
// area. Nothing may be drawn on the page after it.
func (s *sheet) smaller(scale float64, draw func()) {
	if scale == 1 {
		draw()
		return
	}
	s.flush()
	s.pdf.TransformBegin()
	s.pdf.TransformScaleXY(100*scale, marginSide, marginTop)
	draw()
	s.flush()
	s.pdf.TransformEnd()
}

// use selects a code page, loading it into the document at first use.
func (s *sheet) use(page uint8, f face) {
	p := &s.fonts.pages[page]
	if !s.loaded[page][f.weight] {
		s.pdf.AddFontFromBytes(p.family, f.weight.style(), p.standIn[f.weight], nil)
		s.loaded[page][f.weight] = true
	}
	if s.face.size != f.size || s.face.weight != f.weight || s.page != page {
		s.contents.font(p.fontName[f.weight], f.size)
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
	s.runs = s.fonts.encode(s.runs[:0], text, f.weight)
	return s.print(x, y, s.runs, f)
}

// print writes runs, one after another.
func (s *sheet) print(x, y float64, runs []run, f face) (end float64) {
	for _, r := range runs {
		s.use(r.page, f)
		s.contents.text(x, s.height-y, r.codes)
		x += r.width * f.size
	}
	return x
}

// writeCentred writes a text around x.
func (s *sheet) writeCentred(x, y float64, text string, f face) {
	s.write(x-s.fonts.width(text, f.weight)*f.size/2, y, text, f)
}

// writeRight writes a text that ends at x.
func (s *sheet) writeRight(x, y float64, text string, f face) {
	s.write(x-s.fonts.width(text, f.weight)*f.size, y, text, f)
}

func (s *sheet) setFill(c colour) {
	if s.fill != c {
		s.contents.colour(c, "g", "rg")
		s.fill = c
	}
}

func (s *sheet) setStroke(c colour, width float64) {
	if s.stroke != c {
		s.contents.colour(c, "G", "RG")
		s.stroke = c
	}
	if s.width != width {
		s.contents.op("w", pointDecimals, width)
		s.width = width
	}
}

// box fills a rectangle.
func (s *sheet) box(x, y, w, h float64, c colour) {
	s.setFill(c)
	s.contents.op("re f", pointDecimals, x, s.height-y, w, -h)
}

// frame draws the outline of a rectangle.
func (s *sheet) frame(x, y, w, h float64, c colour, width float64) {
	s.setStroke(c, width)
	s.contents.op("re S", pointDecimals, x, s.height-y, w, -h)
}

// rule draws a straight line.
func (s *sheet) rule(x1, y1, x2, y2 float64, c colour, width float64) {
	s.setStroke(c, width)
	s.from(x1, y1)
	s.contents.op("l S", pointDecimals, x2, s.height-y2)
}

// dashed draws a dashed line.
func (s *sheet) dashed(x1, y1, x2, y2 float64, c colour, width float64) {
	s.contents.op("[2.4 2] 0 d", 0)
	s.rule(x1, y1, x2, y2, c, width)
	s.contents.op("[] 0 d", 0)
}

// diamond fills a square standing on its corner, with a paper-white edge that
// keeps it apart from what lies beneath.
func (s *sheet) diamond(x, y, radius float64, c colour) {
	shape := func(r float64) []corner { return []corner{{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}} }
	s.area(shape(radius+1.6), paper)
	s.area(shape(radius), c)
}

// corner is where sides of a shape meet.
type corner struct{ x, y float64 }

// area fills a shape with the given corners.
func (s *sheet) area(corners []corner, c colour) {
	s.setFill(c)
	s.path(curveDecimals, corners)
	s.contents.op("l f", curveDecimals, corners[0].x, s.height-corners[0].y) // for it began less exactly
}

// path goes through corners, for an operator that draws it.
func (s *sheet) path(decimals int, corners []corner) {
	s.from(corners[0].x, corners[0].y)
	for _, c := range corners[1:] {
		s.contents.op("l", decimals, c.x, s.height-c.y)
	}
}

// from begins a path.
func (s *sheet) from(x, y float64) { s.contents.op("m", pointDecimals, x, s.height-y) }

// tick draws a check mark in a box of the given size, its top left corner at
// x, y.
func (s *sheet) tick(x, y, size float64, c colour) {
	s.setStroke(c, size*0.17)
	s.contents.op("1 J 1 j", 0) // round ends and bends
	s.path(pointDecimals, []corner{{x + size*0.08, y + size*0.55}, {x + size*0.36, y + size*0.84}, {x + size*0.92, y + size*0.16}})
	s.contents.op("S", 0)
	s.contents.op("0 J 0 j", 0)
}

// arcs is how many curves make a circle, each of a cubic polynomial, and arcReach
// how far its inner points stand out from its ends, as a share of the radius.
const (
	arcs     = 6
	arcReach = 2 * math.Pi / arcs / 3
)

// ring draws an open circle.
func (s *sheet) ring(x, y, radius float64, c colour, width float64) {
	s.setStroke(c, width)
	s.setFill(paper)
	s.from(x+radius, y)
	y = s.height - y
	sin, cos := 0.0, 1.0
	for i := range arcs {
		nextSin, nextCos := math.Sincos(2 * math.Pi * float64(i+1) / arcs)
		s.contents.op("c", curveDecimals, x+radius*(cos-arcReach*sin), y+radius*(sin+arcReach*cos),
			x+radius*(nextCos+arcReach*nextSin), y+radius*(nextSin-arcReach*nextCos), x+radius*nextCos, y+radius*nextSin)
		sin, cos = nextSin, nextCos
	}
	s.contents.op("B", 0)
}

// arrowhead fills a small triangle at x, y that points right, or left where
// length is negative.
func (s *sheet) arrowhead(x, y, length float64, c colour) {
	s.area([]corner{{x, y - 2.6}, {x + length, y}, {x, y + 2.6}}, c)
}

package pdfreport

import (
	"io"
	"slices"
	"strings"

	"github.com/go-pdf/fpdf"

	"tenback/templates"
)

// The looks of the papers of a test day: black on white and large enough to
// read at arm's length outdoors.
var (
	dayBody    = face{size: 10.4, colour: ink, dense: true}
	daySmall   = face{size: 8.2, colour: ink, dense: true}
	dayHead    = face{size: 8, weight: bold, colour: ink, dense: true} // of columns
	dayHeading = face{size: 11.5, weight: bold, colour: ink}
	dayTitle   = face{size: 19, weight: bold, colour: ink}
	dayFoot    = face{size: 7.6, colour: ink}
)

// The grid of the papers, in points.
const (
	dayMargin  = 40.0 // room for the holes of a binder
	dayTop     = 32.0
	dayBottom  = 36.0
	dayGap     = 9.0
	dayPadding = 7.0
	// writeHeight is the least height of a line to be written on: 8.5 mm.
	writeHeight = 24.1
	headRoom    = 4.0 // between the heads of columns
	thin        = 0.5
	thick       = 1.1
)

// papers is what the papers of a test day have in common.
type papers struct {
	*speaker               // shared by pages of either orientation,
	cleaner       *cleaner // and so is this
	title         string
	program       string
	page          fpdf.SizeType
	width, height float64 // of the type area
	compress      bool
}

// sheetOfPaper is a page: its size and what is drawn in its type area.
type sheetOfPaper struct {
	size  fpdf.SizeType
	block block
}

func newPapers(paper Paper, language *templates.Set, program string, o options) *papers {
	says := o.speaker(language)
	p := &papers{speaker: &says, cleaner: &cleaner{}, compress: o.compress}
	p.setPage(paper.size())
	p.program = p.clean(program)
	return p
}

func (p *papers) setPage(width, height float64) {
	p.page = fpdf.SizeType{Wd: width, Ht: height}
	p.width, p.height = width-2*dayMargin, height-dayTop-dayBottom
}

// landscape is the same for pages that lie on their side.
func (p *papers) landscape() *papers {
	turned := *p
	turned.setPage(p.page.Ht, p.page.Wd)
	return &turned
}

// sheets puts blocks on pages of the current size.
func (p *papers) sheets(blocks []block) []sheetOfPaper {
	var all []sheetOfPaper
	for _, b := range blocks {
		all = append(all, sheetOfPaper{p.page, b})
	}
	return all
}

// clean makes a text from a sheet fit to draw.
func (p *papers) clean(text string) string { return p.cleaner.apart(text) }

// write makes a document of the pages, with dates that are always the same.
func (p *papers) write(w io.Writer, pages []sheetOfPaper) (Report, error) {
	if p.err != nil {
		return Report{}, p.err
	}
	pdf := about{page: p.page, title: p.title, author: p.program, program: p.program, lang: p.language.Lang()}.open()
	s := newSheet(pdf)
	for i, page := range pages {
		pdf.AddPageFormat("P", page.size) // the size alone tells which side is up
		page.block.draw(s, dayMargin, dayTop)
		y := page.size.Ht - 18
		s.write(dayMargin, y, p.program, dayFoot)
		s.writeCentred(page.size.Wd/2, y, p.title, dayFoot)
		s.writeRight(page.size.Wd-dayMargin, y, p.say("foot.page", words{"Page": i + 1, "Pages": len(pages)}), dayFoot)
	}
	if p.err != nil {
		return Report{}, p.err
	}
	if err := output(w, pdf, p.compress); err != nil {
		return Report{}, err
	}
	return Report{Pages: len(pages), Replaced: p.cleaner.replaced}, nil
}

// share sets blocks on as few pages as hold them, in order.
func (p *papers) share(blocks []block) []block {
	var parts []part
	for _, b := range blocks {
		if len(b) > 0 {
			parts = append(parts, part{block: b})
		}
	}
	pages, _ := flow(parts, p.height, p.height, dayGap)
	var all []block
	for _, page := range pages {
		var joined block
		for i, b := range page {
			if i > 0 {
				joined = append(joined, space(dayGap))
			}
			joined = append(joined, b...)
		}
		all = append(all, joined)
	}
	return all
}

// heading is a line over a part.
func headed(text string, width float64) block {
	return block{textPiece(breakLines(text, bold, width/dayHeading.size), dayHeading, width, left), space(2)}
}

// numbered sets lines with their numbers before them.
func numbered(lines []string, look face, width float64) block {
	const indent = 15.0
	var b block
	for i, text := range lines {
		if i > 0 {
			b = append(b, space(2.5))
		}
		lines := textPiece(breakLines(text, look.weight, (width-indent)/look.size), look, width, left)
		number := whole(i + 1)
		b = append(b, piece{lines.height, func(s *sheet, x, y float64) {
			s.write(x, y+look.baseline(), number, look.with(bold))
			lines.draw(s, x+indent, y)
		}})
	}
	return b
}

// ticked sets the items of a list with a square to tick before each.
func ticked(text string, look face, width float64) block {
	const indent, square = 15.0, 8.5
	var b block
	for item := range strings.SplitSeq(text, "\n") {
		lines := textPiece(breakMarked(strings.TrimPrefix(item, "- "), look.weight, (width-indent)/look.size), look, width, left)
		b = append(b, piece{lines.height, func(s *sheet, x, y float64) {
			s.frame(x, y+look.baseline()-square+1, square, square, ink, thin)
			lines.draw(s, x+indent, y)
		}}, space(4))
	}
	return b
}

// framed draws a frame of a line width around a block that is given the width
// inside, and makes it at least so high.
func framed(width, stroke, least float64, inside func(width float64) block) block {
	inner := inside(width - 2*dayPadding)
	height := max(inner.height()+2*dayPadding, least)
	return block{{height, func(s *sheet, x, y float64) {
		s.frame(x, y, width, height, ink, stroke)
		inner.draw(s, x+dayPadding, y+dayPadding)
	}}}
}

// pair sets two framed blocks of one height side by side.
func (p *papers) pair(stroke float64, one, other func(width float64) block) block {
	width := (p.width - dayGap) / 2
	least := 0.0
	for _, inside := range []func(float64) block{one, other} {
		least = max(least, framed(width, stroke, 0, inside).height())
	}
	return block{beside(column{0, framed(width, stroke, least, one)}, column{width + dayGap, framed(width, stroke, least, other)})}
}

// field is a place to write on, with its name before it.
type field struct {
	name  string
	width float64
}

// fields sets places to write on side by side, on one line.
func fields(all []field) piece {
	return piece{writeHeight, func(s *sheet, x, y float64) {
		base := y + writeHeight - 4
		for _, f := range all {
			end := s.write(x, base, f.name, daySmall)
			s.rule(end+4, base+2, x+f.width-8, base+2, ink, thin)
			x += f.width
		}
	}}
}

// whenAndWhere has room for the date, the place and the leader of a test day.
func (p *papers) whenAndWhere() piece {
	return fields([]field{{p.say("day.date", nil), p.width * 0.25}, {p.say("day.place", nil), p.width * 0.40}, {p.say("day.leader", nil), p.width*0.35 + 8}})
}

// grid is a small table of the given column widths to read from: its head,
// then rows, each a thin line under it.
func grid(head []string, rows [][]string, widths []float64) block {
	const rowHeight = 16.0
	look, total := face{size: 10.4, colour: ink}, 0.0
	for _, w := range widths {
		total += w
	}
	b := block{columnHeads(head, widths, nil)}
	for _, row := range rows {
		b = append(b, piece{rowHeight, func(s *sheet, x, y float64) {
			at := x
			for i, text := range row {
				l := look
				if i == 0 {
					l.weight = bold
				}
				s.writeCentred(at+widths[i]/2, y+11.6, text, l)
				at += widths[i]
			}
			s.rule(x, y+rowHeight, x+total, y+rowHeight, hairline, thin)
		}})
	}
	return b
}

// hair keeps a width that just fits from being a little too small.
const hair = 0.01

// headWidth is the width of a column that breaks no word of its head, at least
// the given one.
func headWidth(head string, least float64) float64 {
	for word := range strings.FieldsSeq(head) {
		least = max(least, textWidth(word, bold)*dayHead.size+headRoom+hair)
	}
	return least
}

// columnHeads sets the heads of columns at the foot of a row as high as the
// tallest needs, with a line under it. Those at the left edge of their columns
// are named by their places.
func columnHeads(head []string, widths []float64, atLeft []int) piece {
	var all []piece
	total, height := 0.0, 0.0
	for i, text := range head {
		a := centre
		if slices.Contains(atLeft, i) {
			a = left
		}
		look := fitting(text, dayHead, widths[i]-headRoom)
		t := textPiece(breakLines(text, bold, (widths[i]-headRoom)/look.size), look, widths[i], a)
		all = append(all, t)
		total += widths[i]
		height = max(height, t.height)
	}
	height += 4
	return piece{height, func(s *sheet, x, y float64) {
		at := x
		for i, t := range all {
			t.draw(s, at, y+height-2-t.height)
			at += widths[i]
		}
		s.rule(x, y+height, x+total, y+height, ink, thick)
	}}
}

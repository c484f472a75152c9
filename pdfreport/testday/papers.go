package testday

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/go-pdf/fpdf"

	"tenback/pdfreport/kit"
	"tenback/templates"
)

// The papers are black on white and large enough to read at arm's length
// outdoors.
var (
	dayBody    = kit.Face{Size: 10.4, Colour: kit.Ink, Dense: true}
	daySmall   = kit.Face{Size: 8.2, Colour: kit.Ink, Dense: true}
	dayHead    = kit.Face{Size: 8, Weight: kit.Bold, Colour: kit.Ink, Dense: true} // of columns
	dayHeading = kit.Face{Size: 11.5, Weight: kit.Bold, Colour: kit.Ink}
	dayTitle   = kit.Face{Size: 19, Weight: kit.Bold, Colour: kit.Ink}
	dayFoot    = kit.Face{Size: 7.6, Colour: kit.Ink}
)

// Dimensions of the papers, in points.
const (
	dayMargin  = 40.0 // leaves space for a binder's holes
	dayTop     = 32.0
	dayBottom  = 36.0
	dayGap     = 9.0
	dayPadding = 7.0
	// writeHeight is the least height of a line to write on: 8.5 mm.
	writeHeight = 24.1
	headRoom    = 4.0 // between the heads of columns
	thin        = 0.5
	thick       = 1.1
)

// papers is shared by all papers of a test day.
type papers struct {
	*kit.Speaker               // shared by both orientations
	cleaner       *kit.Cleaner // shared by both orientations
	title         string
	program       string
	page          fpdf.SizeType
	width, height float64 // of the type area
}

// sheetOfPaper is a page and the contents of its type area.
type sheetOfPaper struct {
	size  fpdf.SizeType
	block kit.Block
}

func newPapers(paper kit.Paper, language *templates.Set, program string) *papers {
	p := &papers{Speaker: &kit.Speaker{Language: language}, cleaner: &kit.Cleaner{}}
	p.setPage(paper.Size())
	p.program = p.clean(program)
	return p
}

func (p *papers) setPage(width, height float64) {
	p.page = fpdf.SizeType{Wd: width, Ht: height}
	p.width, p.height = width-2*dayMargin, height-dayTop-dayBottom
}

// landscape returns p for landscape pages.
func (p *papers) landscape() *papers {
	turned := *p
	turned.setPage(p.page.Ht, p.page.Wd)
	return &turned
}

// sheets puts each block on a page.
func (p *papers) sheets(blocks []kit.Block) []sheetOfPaper {
	var all []sheetOfPaper
	for _, b := range blocks {
		all = append(all, sheetOfPaper{p.page, b})
	}
	return all
}

func (p *papers) clean(text string) string { return p.cleaner.Apart(text) }

// write writes the pages as a document with fixed dates.
func (p *papers) write(w io.Writer, pages []sheetOfPaper) (kit.Report, error) {
	pdf := kit.About{Page: p.page, Title: p.title, Author: p.program, Program: p.program, Lang: p.Language.Lang()}.Open()
	s := kit.NewSheet(pdf)
	for i, page := range pages {
		pdf.AddPageFormat("P", page.size) // the size has the orientation
		page.block.Draw(s, dayMargin, dayTop)
		y := page.size.Ht - 18
		s.Write(dayMargin, y, p.program, dayFoot)
		s.WriteCentred(page.size.Wd/2, y, p.title, dayFoot)
		s.WriteRight(page.size.Wd-dayMargin, y, p.Say("foot.page", kit.Words{"Page": i + 1, "Pages": len(pages)}), dayFoot)
	}
	if p.Err != nil {
		return kit.Report{}, p.Err
	}
	return kit.Report{Pages: len(pages), Replaced: p.cleaner.Replaced}, kit.Output(w, pdf, true)
}

// share sets blocks on as few pages as possible, in order.
func (p *papers) share(blocks []kit.Block) []kit.Block {
	var parts []kit.Part
	for _, b := range blocks {
		if len(b) > 0 {
			parts = append(parts, kit.Part{Block: b})
		}
	}
	pages, _ := kit.Flow(parts, p.height, p.height, dayGap)
	var all []kit.Block
	for _, page := range pages {
		var joined kit.Block
		for i, b := range page {
			if i > 0 {
				joined = kit.Stack(joined, kit.Space(dayGap))
			}
			joined = kit.Stack(joined, b)
		}
		all = append(all, joined)
	}
	return all
}

// titled sets the title of a paper and a text at the right.
func titled(title, right string, width float64) kit.Block {
	return kit.Draw(dayTitle.Leading(), func(s *kit.Sheet, x, y float64) {
		s.Write(x, y+dayTitle.Baseline(), title, dayTitle)
		s.WriteRight(x+width, y+dayTitle.Baseline(), right, dayBody)
	})
}

// headed sets a heading.
func headed(text string, width float64) kit.Block {
	return kit.Stack(kit.Lines(kit.BreakLines(text, kit.Bold, width/dayHeading.Size), dayHeading, width, kit.Left), kit.Space(2))
}

// numbered sets a numbered list.
func numbered(lines []string, look kit.Face, width float64) kit.Block {
	const indent = 15.0
	var b kit.Block
	for i, text := range lines {
		if i > 0 {
			b = kit.Stack(b, kit.Space(2.5))
		}
		lines := kit.Lines(kit.BreakLines(text, look.Weight, (width-indent)/look.Size), look, width, kit.Left)
		number := strconv.Itoa(i + 1)
		b = kit.Stack(b, kit.Draw(lines.Height(), func(s *kit.Sheet, x, y float64) {
			s.Write(x, y+look.Baseline(), number, look.With(kit.Bold))
			lines.Draw(s, x+indent, y)
		}))
	}
	return b
}

// ticked sets a list with a square to tick before each item.
func ticked(text string, look kit.Face, width float64) kit.Block {
	const indent, square = 15.0, 8.5
	var b kit.Block
	for item := range strings.SplitSeq(text, "\n") {
		lines := kit.Lines(kit.BreakMarked(strings.TrimPrefix(item, "- "), look.Weight, (width-indent)/look.Size), look, width, kit.Left)
		b = kit.Stack(b, kit.Draw(lines.Height(), func(s *kit.Sheet, x, y float64) {
			s.Frame(x, y+look.Baseline()-square+1, square, square, kit.Ink, thin)
			lines.Draw(s, x+indent, y)
		}), kit.Space(4))
	}
	return b
}

// framed draws a frame around a block, at least as high as least. inside gets the
// width within.
func framed(width, stroke, least float64, inside func(width float64) kit.Block) kit.Block {
	inner := inside(width - 2*dayPadding)
	height := max(inner.Height()+2*dayPadding, least)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		s.Frame(x, y, width, height, kit.Ink, stroke)
		inner.Draw(s, x+dayPadding, y+dayPadding)
	})
}

// pair sets two framed blocks of one height side by side.
func (p *papers) pair(stroke float64, one, other func(width float64) kit.Block) kit.Block {
	width := (p.width - dayGap) / 2
	least := 0.0
	for _, inside := range []func(float64) kit.Block{one, other} {
		least = max(least, framed(width, stroke, 0, inside).Height())
	}
	return kit.Beside(kit.At(0, framed(width, stroke, least, one)), kit.At(width+dayGap, framed(width, stroke, least, other)))
}

// field is a line to write on, after its name.
type field struct {
	name  string
	width float64
}

// fields sets lines to write on side by side.
func fields(all []field) kit.Block {
	return kit.Draw(writeHeight, func(s *kit.Sheet, x, y float64) {
		base := y + writeHeight - 4
		for _, f := range all {
			end := s.Write(x, base, f.name, daySmall)
			s.Rule(end+4, base+2, x+f.width-8, base+2, kit.Ink, thin)
			x += f.width
		}
	})
}

// whenAndWhere sets lines for the date, the place and the leader.
func (p *papers) whenAndWhere() kit.Block {
	return fields([]field{{p.Say("day.date", nil), p.width * 0.25}, {p.Say("day.place", nil), p.width * 0.40}, {p.Say("day.leader", nil), p.width*0.35 + 8}})
}

// grid sets a small table with a thin line under each row.
func grid(head []string, rows [][]string, widths []float64) kit.Block {
	const rowHeight = 16.0
	look, total := kit.Face{Size: 10.4, Colour: kit.Ink}, 0.0
	for _, w := range widths {
		total += w
	}
	b := columnHeads(head, widths, nil)
	for _, row := range rows {
		b = kit.Stack(b, kit.Draw(rowHeight, func(s *kit.Sheet, x, y float64) {
			at := x
			for i, text := range row {
				l := look
				if i == 0 {
					l.Weight = kit.Bold
				}
				s.WriteCentred(at+widths[i]/2, y+11.6, text, l)
				at += widths[i]
			}
			s.Rule(x, y+rowHeight, x+total, y+rowHeight, kit.Hairline, thin)
		}))
	}
	return b
}

// headWidth returns a column width that breaks no word of its head, at least the
// given one.
func headWidth(head string, least float64) float64 {
	for word := range strings.FieldsSeq(head) {
		least = max(least, kit.TextWidth(word, kit.Bold)*dayHead.Size+headRoom+kit.Hair)
	}
	return least
}

// columnHeads sets the heads of columns on a common base with a line under it.
// atLeft lists the left-aligned ones.
func columnHeads(head []string, widths []float64, atLeft []int) kit.Block {
	var all []kit.Block
	total, height := 0.0, 0.0
	for i, text := range head {
		a := kit.Pick(slices.Contains(atLeft, i), kit.Left, kit.Centre)
		look := kit.Fitting(text, dayHead, widths[i]-headRoom)
		t := kit.Lines(kit.BreakLines(text, kit.Bold, (widths[i]-headRoom)/look.Size), look, widths[i], a)
		all = append(all, t)
		total += widths[i]
		height = max(height, t.Height())
	}
	height += 4
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		at := x
		for i, t := range all {
			t.Draw(s, at, y+height-2-t.Height())
			at += widths[i]
		}
		s.Rule(x, y+height, x+total, y+height, kit.Ink, thick)
	})
}

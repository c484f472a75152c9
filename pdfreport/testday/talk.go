package testday

import (
	"io"
	"slices"

	"tenback/pdfreport/kit"
	"tenback/templates"
)

// Talk is the input of the confidential list of people to talk to before a test.
type Talk struct {
	Roster  string // file name
	People  []Talked
	Paper   kit.Paper
	Words   *templates.Set
	Program string
}

// Talked is one person of the list.
type Talked struct {
	Sheet, Cells string
	Name, Group  string
	Reasons      []string
	Advice       string
	Outcome      string // empty for lines to write on
}

// The most lines of a text, and the most reasons of a person: so many fit on a page.
const talkLinesMost, talkReasonsMost = 4, 9

// WriteTalk writes the list as a PDF in landscape. The same input gives the same
// bytes.
func WriteTalk(w io.Writer, t Talk) (report kit.Report, err error) {
	defer kit.AsError(&err, "list of people to talk to")
	if len(t.People) == 0 {
		return kit.Report{}, ErrNobodyListed
	}
	p := &talkList{newPapers(t.Paper, t.Words, t.Program).landscape(), t}
	p.title = p.Say("day.talk", nil)
	return p.write(w, p.sheets(p.pages()))
}

type talkList struct {
	*papers
	Talk
}

// pages sets the people below the heading on each page.
func (p *talkList) pages() (pages []kit.Block) {
	widths := p.widths()
	heads := columnHeads([]string{p.Say("day.name", nil), p.Say("day.talk.where", nil), p.Say("day.talk.why", nil), p.Say("day.talk.until", nil), p.Say("day.talk.outcome", nil)},
		widths, []int{0, 1, 2, 3, 4})
	first := kit.Stack(p.head(), kit.Space(4), kit.Paragraphs(p.Say("day.talk.advice", nil), daySmall, p.width), kit.Space(6), heads)
	further := kit.Stack(p.head(), kit.Space(6), heads)
	note := kit.Stack(kit.Space(6), kit.Paragraphs(p.Say("day.talk.private", nil), daySmall, p.width))
	page := first
	empty := true
	for _, t := range p.People {
		row := p.row(widths, t)
		if !empty && page.Height()+row.Height()+note.Height() > p.height {
			pages = append(pages, slices.Concat(page, note))
			page = further
		}
		page, empty = kit.Stack(page, row), false
	}
	return append(pages, slices.Concat(page, note))
}

// widths of the columns: name, place, reasons, advice, outcome.
func (p *talkList) widths() []float64 {
	w := []float64{0.18 * p.width, 0.11 * p.width, 0.33 * p.width, 0.13 * p.width, 0}
	w[4] = p.width - w[0] - w[1] - w[2] - w[3]
	return w
}

// head sets the title with the mark that the list is confidential.
func (p *talkList) head() kit.Block {
	mark := kit.CutText(p.Say("day.talk.confidential", nil), kit.Bold, p.width/2/dayHeading.Size)
	const room = 6.0
	return kit.Stack(kit.Draw(dayTitle.Leading(), func(s *kit.Sheet, x, y float64) {
		s.Write(x, y+dayTitle.Baseline(), p.title, dayTitle)
		width := kit.TextWidth(mark, kit.Bold) * dayHeading.Size
		s.Frame(x+p.width-width-2*room, y+2, width+2*room, dayTitle.Leading()-4, kit.Ink, thick)
		s.Write(x+p.width-width-room, y+dayTitle.Baseline()-2, mark, dayHeading)
	}), kit.Paragraphs(kit.Unmarked(p.clean(p.Roster)), daySmall, p.width))
}

// row sets one person, with two lines to write on at least.
func (p *talkList) row(widths []float64, t Talked) kit.Block {
	set := func(i int, text string, look kit.Face) kit.Block {
		width := widths[i] - headRoom
		return kit.Lines(kit.LimitLines(kit.BreakLines(p.clean(text), look.Weight, width/look.Size), talkLinesMost), look, width, kit.Left)
	}
	name := kit.Stack(set(0, t.Name, dayBody.With(kit.Bold)), set(0, t.Group, daySmall))
	var reasons kit.Block
	for i, r := range t.Reasons {
		if i == talkReasonsMost {
			r = "…"
		}
		if i > talkReasonsMost {
			break
		}
		reasons = kit.Stack(reasons, set(2, r, dayBody.At(9.4)))
	}
	cells := []kit.Block{name, kit.Stack(set(1, t.Sheet, daySmall), set(1, t.Cells, daySmall.With(kit.Bold))), reasons, set(3, t.Advice, dayBody.At(9.4).With(kit.Bold)), set(4, t.Outcome, dayBody.At(9.4))}
	height := 2 * writeHeight
	for _, c := range cells {
		height = max(height, c.Height()+8)
	}
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		at := x
		for i, c := range cells {
			c.Draw(s, at, y+4)
			at += widths[i]
		}
		left := x + p.width - widths[4]
		if t.Outcome == "" {
			for line := y + writeHeight; line < y+height-2; line += writeHeight {
				s.Rule(left, line, x+p.width, line, kit.Hairline, thin)
			}
		}
		s.Rule(x, y+height, x+p.width, y+height, kit.Ink, thin)
	})
}

package testday

import (
	"errors"
	"io"
	"slices"
	"strconv"

	"tenback/pdfreport/kit"
	"tenback/scoring/fieldtests"
	"tenback/templates"
)

// cardsOnPage is the number of runners that one helper can watch.
const cardsOnPage = 4

type lapCards struct{ *recording }

// pages returns the lap cards of the shuttle run: all shuttles of all levels, to
// strike out one by one.
func (q lapCards) pages() []kit.Block {
	note := kit.Paragraphs(q.Say("day.cards", nil), daySmall, q.width)
	width := (q.width - 2*kit.Gutter) / 2
	height := (q.height - note.Height() - 4 - kit.Gutter) / 2
	var all []kit.Block
	twins := q.twins()
	for _, l := range q.People {
		who := q.Say("day.card.row", kit.Words{"Row": l.Row})
		for _, text := range []string{l.Group, l.Sheet} {
			if text = q.clean(text); text != "" {
				who += " · " + text
				break
			}
		}
		all = append(all, q.card(q.label(l, twins), who, width, height))
	}
	for i := range q.Blank {
		if len(q.People) == 0 {
			all = append(all, q.card("", q.Say("day.card.number", kit.Words{"Row": i + 1}), width, height))
		}
	}
	var pages []kit.Block
	for four := range slices.Chunk(all, cardsOnPage) {
		page := kit.Stack(slices.Clone(note), kit.Space(4))
		for two := range slices.Chunk(four, 2) {
			var side []kit.Column
			for i, card := range two {
				side = append(side, kit.At(float64(i)*(width+2*kit.Gutter), card))
			}
			page = kit.Stack(page, kit.Beside(side...), kit.Space(kit.Gutter))
		}
		pages = append(pages, page)
	}
	return pages
}

func (q lapCards) card(name, who string, width, height float64) kit.Block {
	const nameHeight, headHeight, footHeight = 30.0, 11.0, 27.0
	const levelWidth, sumWidth = 25.0, 25.0
	counts := fieldtests.ShuttlesInLevels(q.ShuttleStart)
	most := slices.Max(counts)
	cell := (width - levelWidth - sumWidth) / float64(most)
	row := (height - nameHeight - headHeight - footHeight) / float64(len(counts))
	small := kit.Face{Size: 7, Colour: kit.Ink}
	look := kit.Largest(name, dayHeading, width, dayHeading.Size, 10, 8.6)
	name = kit.CutText(name, kit.Bold, width/look.Size)
	who = kit.CutText(who, kit.Regular, width/small.Size)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		if name == "" {
			end := s.Write(x, y+16, q.Say("day.name", nil), daySmall)
			s.Rule(end+4, y+18, x+width, y+18, kit.Ink, thin)
		}
		s.Write(x, y+14, name, look)
		s.Write(x, y+26, who, small)
		y += nameHeight
		s.Write(x, y+8, q.Say("day.card.level", nil), small.With(kit.Bold))
		s.WriteRight(x+width, y+8, q.Say("day.card.sum", nil), small.With(kit.Bold))
		y += headHeight
		sum := 0
		for i, n := range counts {
			top := y + float64(i)*row
			base := top + row/2 + 2.6
			s.WriteRight(x+levelWidth-9, base, strconv.Itoa(i+1), kit.Face{Size: 9, Weight: kit.Bold, Colour: kit.Ink})
			for shuttle := range n {
				left := x + levelWidth + float64(shuttle)*cell
				s.Frame(left, top, cell, row, kit.Ink, 0.35)
				s.WriteCentred(left+cell/2, base, strconv.Itoa(shuttle+1), small)
			}
			sum += n
			s.WriteRight(x+width, base, strconv.Itoa(sum), small)
		}
		base := y + float64(len(counts))*row + footHeight - 5
		end := s.Write(x, base, q.Say("day.card.last", nil), daySmall)
		s.Rule(end+4, base+2, x+width*0.46, base+2, kit.Ink, thin)
		end = s.Write(x+width*0.5, base, q.Say("day.card.shuttles", nil), daySmall)
		s.Rule(end+4, base+2, x+width, base+2, kit.Ink, thin)
	})
}

// Slips is the input of slips of paper that tell people the passwords of their
// pages.
type Slips struct {
	People  []Slip // in the order of the sheets
	Paper   kit.Paper
	Words   *templates.Set
	Program string // name and version
}

// Slip is for one person.
type Slip struct {
	Name     string
	File     string // of the page
	Password string // generated, 14 characters
}

// ErrNoSlips is returned for no people.
var ErrNoSlips = errors.New("no people who need a password")

const (
	slipColumns = 2
	slipRows    = 6
)

// WriteSlips writes the slips as a PDF. The same input gives the same bytes.
func WriteSlips(w io.Writer, s Slips) (report kit.Report, err error) {
	defer kit.AsError(&err, "slips")
	if len(s.People) == 0 {
		return kit.Report{}, ErrNoSlips
	}
	q := newPapers(s.Paper, s.Words, s.Program)
	q.title = q.Say("slip.title", nil)
	width, height := q.width/slipColumns, q.height/slipRows
	var pages []kit.Block
	for sheetful := range slices.Chunk(s.People, slipColumns*slipRows) {
		var page kit.Block
		for row := range slices.Chunk(sheetful, slipColumns) {
			var side []kit.Column
			for i, slip := range row {
				side = append(side, kit.At(float64(i)*width, q.slip(slip, width, height)))
			}
			page = kit.Stack(page, kit.Beside(side...))
		}
		pages = append(pages, page)
	}
	return q.write(w, q.sheets(pages))
}

// slip sets one slip, with dashed lines to cut along.
func (p *papers) slip(slip Slip, width, height float64) kit.Block {
	const padding = 13.0
	inner := width - 2*padding
	look := dayHeading.With(kit.Bold)
	name := kit.CutText(p.clean(slip.Name), kit.Bold, inner/look.Size)
	file := p.Say("slip.file", kit.Words{"File": p.clean(slip.File)})
	text := kit.Paragraphs(p.Say("slip.how", nil), daySmall, inner)
	password := kit.Face{Size: 17, Weight: kit.Bold, Colour: kit.Ink}
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		s.Dashed(x, y, x+width, y, kit.Soft, thin)
		s.Dashed(x, y+height, x+width, y+height, kit.Soft, thin)
		s.Dashed(x, y, x, y+height, kit.Soft, thin)
		s.Dashed(x+width, y, x+width, y+height, kit.Soft, thin)
		x += padding
		s.Write(x, y+20, name, look)
		s.Write(x, y+33, kit.CutText(file, kit.Regular, inner/daySmall.Size), daySmall)
		s.Write(x, y+60, slip.Password, password)
		text.Draw(s, x, y+70)
	})
}

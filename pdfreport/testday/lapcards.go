package testday

import (
	"slices"

	"tenback/pdfreport/kit"
	"tenback/scoring/fieldtests"
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
			s.WriteRight(x+levelWidth-9, base, whole(i+1), kit.Face{Size: 9, Weight: kit.Bold, Colour: kit.Ink})
			for shuttle := range n {
				left := x + levelWidth + float64(shuttle)*cell
				s.Frame(left, top, cell, row, kit.Ink, 0.35)
				s.WriteCentred(left+cell/2, base, whole(shuttle+1), small)
			}
			sum += n
			s.WriteRight(x+width, base, whole(sum), small)
		}
		base := y + float64(len(counts))*row + footHeight - 5
		end := s.Write(x, base, q.Say("day.card.last", nil), daySmall)
		s.Rule(end+4, base+2, x+width*0.46, base+2, kit.Ink, thin)
		end = s.Write(x+width*0.5, base, q.Say("day.card.shuttles", nil), daySmall)
		s.Rule(end+4, base+2, x+width, base+2, kit.Ink, thin)
	})
}

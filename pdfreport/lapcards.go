package pdfreport

import (
	"slices"

	"tenback/scoring/fieldtests"
)

// cardsOnPage is as many runners as one helper can watch.
const cardsOnPage = 4

type lapCards struct{ *recording }

// pages are the lap cards of the shuttle run: for each runner all shuttles of
// all levels, to strike out one by one.
func (q lapCards) pages() []block {
	note := paragraphs(q.say("day.cards", nil), daySmall, q.width)
	width := (q.width - 2*gutter) / 2
	height := (q.height - note.height() - 4 - gutter) / 2
	var all []block
	twins := q.twins()
	for _, l := range q.People {
		who := q.say("day.card.row", words{"Row": l.Row})
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
			all = append(all, q.card("", q.say("day.card.number", words{"Row": i + 1}), width, height))
		}
	}
	var pages []block
	for four := range slices.Chunk(all, cardsOnPage) {
		page := append(slices.Clone(note), space(4))
		for two := range slices.Chunk(four, 2) {
			var side []column
			for i, card := range two {
				side = append(side, column{float64(i) * (width + 2*gutter), card})
			}
			page = append(page, beside(side...), space(gutter))
		}
		pages = append(pages, page)
	}
	return pages
}

// card is one runner's card.
func (q lapCards) card(name, who string, width, height float64) block {
	const nameHeight, headHeight, footHeight = 30.0, 11.0, 27.0
	const levelWidth, sumWidth = 25.0, 25.0
	counts := fieldtests.ShuttlesInLevels(q.ShuttleStart)
	most := slices.Max(counts)
	cell := (width - levelWidth - sumWidth) / float64(most)
	row := (height - nameHeight - headHeight - footHeight) / float64(len(counts))
	small := face{size: 7, colour: ink}
	look := largest(name, dayHeading, width, dayHeading.size, 10, 8.6)
	name = cutText(name, bold, width/look.size)
	who = cutText(who, regular, width/small.size)
	return block{{height, func(s *sheet, x, y float64) {
		if name == "" {
			end := s.write(x, y+16, q.say("day.name", nil), daySmall)
			s.rule(end+4, y+18, x+width, y+18, ink, thin)
		}
		s.write(x, y+14, name, look)
		s.write(x, y+26, who, small)
		y += nameHeight
		s.write(x, y+8, q.say("day.card.level", nil), small.with(bold))
		s.writeRight(x+width, y+8, q.say("day.card.sum", nil), small.with(bold))
		y += headHeight
		sum := 0
		for i, n := range counts {
			top := y + float64(i)*row
			base := top + row/2 + 2.6
			s.writeRight(x+levelWidth-9, base, whole(i+1), face{size: 9, weight: bold, colour: ink})
			for shuttle := range n {
				left := x + levelWidth + float64(shuttle)*cell
				s.frame(left, top, cell, row, ink, 0.35)
				s.writeCentred(left+cell/2, base, whole(shuttle+1), small)
			}
			sum += n
			s.writeRight(x+width, base, whole(sum), small)
		}
		base := y + float64(len(counts))*row + footHeight - 5
		end := s.write(x, base, q.say("day.card.last", nil), daySmall)
		s.rule(end+4, base+2, x+width*0.46, base+2, ink, thin)
		end = s.write(x+width*0.5, base, q.say("day.card.shuttles", nil), daySmall)
		s.rule(end+4, base+2, x+width, base+2, ink, thin)
	}}}
}

package summary

import (
	"tenback/pdfreport/kit"
)

// passage is a part of the summary. A page break may come between its rows only,
// which then continue under again.
type passage struct {
	head  kit.Block
	rows  []kit.Block
	again kit.Block
	foot  kit.Block
}

func (s passage) empty() bool { return len(s.head) == 0 }

// block returns the rows from to to with what surrounds them.
func (s passage) block(from, to int) kit.Block {
	var b kit.Block
	if from == 0 {
		b = kit.Stack(b, s.head)
	} else {
		b = kit.Stack(b, s.again)
	}
	b = kit.Stack(b, kit.Stack(s.rows[from:to]...))
	if to == len(s.rows) {
		b = kit.Stack(b, s.foot)
	}
	return b
}

const (
	// A passage is broken only with so many rows on each side, or if it is
	// higher than a page.
	rowsTogether = 3
	// roomToLeave is the share of a page that may stay empty to keep a passage
	// whole.
	roomToLeave = 0.15
	passageGap  = 15.0
	// scrapMost is the share of the last page that is too little for a sheet of
	// paper.
	scrapMost = 0.25
)

// closerGaps are tried in turn to save a last page with a scrap on it.
var closerGaps = [...]float64{12, 9, 7}

// pour sets passages on pages of the given height, a little closer if the last
// page would have next to nothing.
func pour(passages []passage, height float64) []kit.Block {
	pages := pourSpaced(passages, height, passageGap)
	last := len(pages) - 1
	if last == 0 || pages[last].Height() > scrapMost*height {
		return pages
	}
	for _, gap := range closerGaps {
		if fewer := pourSpaced(passages, height, gap); len(fewer) < len(pages) {
			return fewer
		}
	}
	return pages
}

// pourSpaced sets passages on pages of the given height. A passage moves to the
// next page as a whole if that leaves little space empty.
func pourSpaced(passages []passage, height, gap float64) []kit.Block {
	var pages []kit.Block
	var page kit.Block
	turn := func() {
		pages, page = append(pages, page), nil
	}
	room := func() float64 {
		rest := height - page.Height()
		if len(pages) > 0 {
			rest -= kit.ContinuedHeight
		}
		if len(page) > 0 {
			rest -= gap
		}
		return rest
	}
	put := func(b kit.Block) {
		if len(page) > 0 {
			page = kit.Stack(page, kit.Space(gap))
		}
		page = kit.Stack(page, b)
	}
	for _, p := range passages {
		last := len(p.rows)
		for from := 0; ; {
			if whole := p.block(from, last); whole.Height() <= room() || len(page) == 0 && last-from <= rowsTogether {
				put(whole)
				break
			}
			to := from
			for to < last && p.block(from, to+1).Height() <= room() {
				to++
			}
			to = min(to, last-rowsTogether)
			fitsOne := from == 0 && p.block(0, last).Height() <= height-kit.ContinuedHeight
			if to-from < rowsTogether && len(page) == 0 {
				to = from + rowsTogether // another page gains nothing
			}
			if to-from >= rowsTogether && !(fitsOne && room() < roomToLeave*height) {
				put(p.block(from, to))
				from = to
			}
			turn()
		}
	}
	return append(pages, page)
}

package pdfreport

import "tenback/templates"

// pagesMost is how many pages a report should have: one sheet of paper. Where
// there is more to say, drawings and sentences that repeat what stands elsewhere
// are left out, one after another, the parts move closer together, and at last
// everything is drawn smaller.
const pagesMost = 2

// sparing is a set of what is left out or made smaller to save room.
type sparing uint16

const (
	spareGap         sparing = 1 << iota // parts a little closer
	spareDecadeChart                     // the table says the same
	spareSmallPrint                      // smaller sources; no advice on laboratories, no goal that the table has
	spareRestingScale
	spareOutlook
	spareAir
	spareComparison // with what is usual for the size; how heart rates feel; years ahead where the sex is not given
	spareTargets    // results to reach where the sex is not given
	spareEnd
)

func (c *composer) spares(what sparing) bool {
	c.asked |= what
	return c.spare&what != 0
}

// chapter is a part that can be laid out, with how it came out before.
type chapter struct {
	lay   func() block
	early bool // see part
	laid  []laying
}

// laying is a block with all that its looks hung on, besides the person.
type laying struct {
	scale          float64
	asked, answers sparing // what was asked of c.spares, and what of it was so
	block          block
}

// layOut lays a chapter out, or gives it as it came out before where nothing that
// it asks about has changed: a crowded page is tried in a dozen ways, most of
// which matter to one chapter.
func (c *composer) layOut(ch *chapter) block {
	for _, l := range ch.laid {
		if l.scale == c.scale && l.answers == c.spare&l.asked {
			return l.block
		}
	}
	c.asked = 0
	b := ch.lay()
	ch.laid = append(ch.laid, laying{c.scale, c.asked, c.spare & c.asked, b})
	return b
}

// Where nothing is left to spare, everything is drawn smaller, in steps down to
// the smallest scale at which people still read.
const (
	scaleStep  = 0.03
	scaleLeast = 0.78
)

// denseScale is the scale of pages for a squad, which read many of them.
const denseScale = 0.92

// dense tells whether the page is set closer, with what a coach looks for first.
func (c *composer) dense() bool { return c.audience == templates.Squad }

// fit shares the parts out over at most pagesMost pages with the given room. What
// is spared on the way comes back, the last first, where something else made
// room for it.
func (c *composer) fit(room float64) (pages [][]block, gaps []float64) {
	width := c.width
	if c.dense() {
		c.scale = denseScale
	}
	chapters := c.chapters()
	share := func() ([][]block, []float64) {
		gap := blockGap
		switch {
		case c.spares(spareAir) || c.dense():
			gap = tightGap
		case c.spares(spareGap):
			gap = closeGap
		}
		c.width = width / c.scale
		pages, gaps := flow(c.parts(chapters), room/c.scale, room/c.scale-continuedHeight, gap)
		if c.dense() {
			for i := range gaps {
				gaps[i] = min(gaps[i], blockGap)
			}
		}
		return pages, gaps
	}
	pages, gaps = share()
	for what := spareGap; len(pages) > pagesMost && what < spareEnd; what <<= 1 {
		c.spare |= what
		pages, gaps = share()
	}
	if len(pages) > pagesMost {
		for len(pages) > pagesMost && c.scale-scaleStep >= scaleLeast {
			c.scale -= scaleStep
			pages, gaps = share()
		}
		return pages, gaps
	}
	for what := spareEnd >> 1; what > 0; what >>= 1 {
		if !c.spares(what) {
			continue
		}
		c.spare &^= what
		if more, moreGaps := share(); len(more) <= pagesMost {
			pages, gaps = more, moreGaps
		} else {
			c.spare |= what
		}
	}
	return pages, gaps
}

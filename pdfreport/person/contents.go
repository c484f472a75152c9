package person

import (
	"tenback/pdfreport/kit"
	"tenback/templates"
)

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

// spares reports whether what is left out. A chapter may read what is left out
// only here, because its memo goes by the answers.
func (c *page) spares(what sparing) bool {
	c.asked |= what
	return c.spare&what != 0
}

// chapter is a part of the page.
type chapter interface {
	// lay returns nil if the chapter has nothing to say.
	lay() kit.Block
}

// memo lays out a chapter and keeps the outcomes: a crowded page is tried in a
// dozen ways, most of which matter to one chapter only.
type memo struct {
	chapter
	early bool // see part
	laid  []laying
}

// laying is a block and what it depends on besides the person.
type laying struct {
	scale          float64
	asked, answers sparing // flags read, and those that were set
	block          kit.Block
}

// layOn returns the chapter's block, from an earlier call where nothing that the
// chapter read has changed.
func (m *memo) layOn(c *page) kit.Block {
	for _, l := range m.laid {
		if l.scale == c.Scale && l.answers == c.spare&l.asked {
			return l.block
		}
	}
	c.asked = 0
	b := m.lay()
	m.laid = append(m.laid, laying{c.Scale, c.asked, c.spare & c.asked, b})
	return b
}

// contents is the chapters of a page, in the order of reading.
type contents struct {
	*page
	chapters  []*memo
	fullWidth float64 // of the type area at full scale
}

func newContents(p *page) *contents {
	c := &contents{page: p, fullWidth: p.Width}
	c.add(false, headChapter{p}, clinicianChapter{p})
	switch {
	case p.norm != nil:
		c.add(false, normHeadlineChapter{p}, normChapter{p})
		c.add(true, changeChapter{p})
		c.add(false, restingChapter{p})
		c.add(true, trainingChapter{p}, nextChapter{p}, cautionsChapter{p})
		c.add(false, normMethodChapter{methodChapter{p}}, sourcesChapter{p})
		return c
	case p.youth:
		c.add(false, headlineChapter{p}, testsChapter{p}, changeChapter{p}, healthLineChapter{p})
		c.add(true, growthChapter{p}, helpsChapter{p})
		c.add(false, restingChapter{p})
		c.add(true, labChapter{p}, cautionsChapter{p})
	default:
		c.add(false, headlineChapter{p}, testsChapter{p}, changeChapter{p}, standingChapter{p}, decadesChapter{p})
		if p.dense() {
			c.add(true, trainingChapter{p}, labChapter{p}, restingChapter{p}, olderChapter{p})
		} else {
			c.add(true, olderChapter{p}, restingChapter{p}, trainingChapter{p}, labChapter{p})
		}
		c.add(true, nextChapter{p}, cautionsChapter{p})
	}
	c.add(false, methodChapter{p}, sourcesChapter{p})
	return c
}

func (c *contents) add(early bool, all ...chapter) {
	for _, ch := range all {
		c.chapters = append(c.chapters, &memo{chapter: ch, early: early})
	}
}

// parts lays the chapters out and drops those that have nothing to say.
func (c *contents) parts() []kit.Part {
	var kept []kit.Part
	for _, m := range c.chapters {
		if b := m.layOn(c.page); len(b) > 0 {
			kept = append(kept, kit.Part{Block: b, Early: m.early})
		}
	}
	return kept
}

// Where nothing is left to spare, everything is drawn smaller, in steps down to
// the smallest scale at which people still read.
const (
	scaleStep  = 0.03
	scaleLeast = 0.78
)

// denseScale is the scale of pages for a squad, which reads many of them.
const denseScale = 0.92

// dense reports whether the page is set closer, with what a coach looks for first.
func (c *facts) dense() bool { return c.audience == templates.Squad }

// share lays out the chapters and shares them out over pages, with the gap
// between the chapters of each.
func (c *contents) share() (pages [][]kit.Block, gaps []float64) {
	gap := kit.BlockGap
	switch {
	case c.spares(spareAir) || c.dense():
		gap = kit.TightGap
	case c.spares(spareGap):
		gap = kit.CloseGap
	}
	_, height := c.Paper.Size()
	room := height - kit.MarginTop - kit.MarginBottom
	c.Width = c.fullWidth / c.Scale
	pages, gaps = kit.Flow(c.parts(), room/c.Scale, room/c.Scale-kit.ContinuedHeight, gap)
	if c.dense() {
		for i := range gaps {
			gaps[i] = min(gaps[i], kit.BlockGap)
		}
	}
	return pages, gaps
}

// fit shares the chapters out over at most pagesMost pages where that can be
// done. It then restores what was left out, the last first, where that still fits.
func (c *contents) fit() (pages [][]kit.Block, gaps []float64) {
	if c.dense() {
		c.Scale = denseScale
	}
	pages, gaps = c.share()
	for what := spareGap; len(pages) > pagesMost && what < spareEnd; what <<= 1 {
		c.spare |= what
		pages, gaps = c.share()
	}
	if len(pages) > pagesMost {
		for len(pages) > pagesMost && c.Scale-scaleStep >= scaleLeast {
			c.Scale -= scaleStep
			pages, gaps = c.share()
		}
		return pages, gaps
	}
	for what := spareEnd >> 1; what > 0; what >>= 1 {
		if !c.spares(what) {
			continue
		}
		c.spare &^= what
		if more, moreGaps := c.share(); len(more) <= pagesMost {
			pages, gaps = more, moreGaps
		} else {
			c.spare |= what
		}
	}
	return pages, gaps
}

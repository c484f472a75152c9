package person

import (
	"tenback/pdfreport/kit"
	"tenback/templates"
)

// pagesMost is the number of pages a report should have: one sheet of paper.
// Where there is more to say, repetitions are left out one after another, then
// the chapters move closer together, and then everything is drawn smaller.
const pagesMost = 2

// sparing is a set of things left out or made smaller to save space.
type sparing uint16

const (
	spareGap         sparing = 1 << iota // chapters a little closer
	spareDecadeChart                     // the table has the same
	spareSmallPrint                      // smaller sources; no advice on laboratories; no goal that the table has
	spareRestingScale
	spareOutlook
	spareAir
	spareComparison // with the usual value for the size; how heart rates feel; years ahead if sex is missing
	spareTargets    // results to reach if sex is missing; how hard the test may be
	spareEnd
)

// spares reports whether what is left out. A chapter must read this only here,
// because its memo goes by the answers.
func (c *page) spares(what sparing) bool {
	c.asked |= what
	return c.spare&what != 0
}

// chapter is a part of the page.
type chapter interface {
	// lay returns nil if the chapter has nothing to say.
	lay() kit.Block
}

// memo lays out a chapter and caches the results: a crowded page is tried in a
// dozen ways, and most of them change one chapter only.
type memo struct {
	chapter
	early bool // see kit.Part
	laid  []laying
}

// laying is a block and all that it depends on besides the person.
type laying struct {
	scale          float64
	asked, answers sparing // flags read during layout, and those that were set
	block          kit.Block
}

// layOn returns a cached block if nothing that the chapter read has changed.
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

// contents holds the chapters of a page, in reading order.
type contents struct {
	*page
	chapters  []*memo
	fullWidth float64 // of the type area at full scale
}

func newContents(p *page) *contents {
	c := &contents{page: p, fullWidth: p.Width}
	c.add(false, headChapter{p}, clinicianChapter{p})
	switch {
	case p.unscored():
		c.add(false, whyChapter{p}, doNowChapter{p}, changeChapter{p}, restingChapter{p}, trainingChapter{p})
		if p.youth {
			c.add(true, helpsChapter{p})
		} else {
			c.add(true, nextChapter{p})
		}
		c.add(true, labChapter{p}, cautionsChapter{p}, sourcesChapter{p})
		return c
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

// parts lays out the chapters and drops empty ones.
func (c *contents) parts() []kit.Part {
	var kept []kit.Part
	for _, m := range c.chapters {
		if b := m.layOn(c.page); len(b) > 0 {
			kept = append(kept, kit.Part{Block: b, Early: m.early})
		}
	}
	return kept
}

// As a last resort everything is drawn smaller, in steps, as far as people can
// still read it.
const (
	scaleStep  = 0.03
	scaleLeast = 0.78
)

// denseScale is the scale of pages for a squad.
const denseScale = 0.92

// dense reports whether the page is set closer, for a coach who reads many.
func (c *facts) dense() bool { return c.audience == templates.Squad }

// share lays out the chapters and shares them out over pages. It returns the gap
// between the chapters of each page.
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

// fit shares the chapters out over pagesMost pages if possible. It then restores
// what was left out, the last first, where that still fits.
func (c *contents) fit() (pages [][]kit.Block, gaps []float64) {
	if c.dense() {
		c.Scale = denseScale
	}
	most := pagesMost
	if c.unscored() {
		most = 1 // if that goes without drawing it smaller
	}
	pages, gaps = c.share()
	for what := spareGap; len(pages) > most && what < spareEnd; what <<= 1 {
		c.spare |= what
		pages, gaps = c.share()
	}
	most = max(most, min(len(pages), pagesMost))
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
		if more, moreGaps := c.share(); len(more) <= most {
			pages, gaps = more, moreGaps
		} else {
			c.spare |= what
		}
	}
	return pages, gaps
}

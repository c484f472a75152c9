package person

import (
	"time"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/reference"
	"tenback/templates"
)

// facts holds what the chapters ask about the person.
type facts struct {
	score    *scoring.Score
	adults   []standing           // of the score
	best     *scoring.Estimate    // nil for someone without one
	norm     *scoring.NormReading // where best is nil; nil for a page without a number
	suits    []*scoring.Test      // what the person could do in place of what gave no number
	review   *change.Review       // nil without earlier tests
	years    int                  // whole years; -1 if unknown
	youth    bool                 // under 18, or perhaps so
	audience templates.Audience
}

// standing is a [scoring.Standing] with its decades, worked out once.
type standing struct {
	scoring.Standing
	decades []scoring.Decade
}

func factsOf(p Person) facts {
	f := facts{score: p.Score, best: p.Score.Best(), suits: p.Suits, review: p.Review, years: -1, audience: p.Audience, youth: p.Score.Entry().MayBeYoung()}
	if age, ok := p.Score.Entry().Get(scoring.Age); ok {
		f.years = reference.WholeYears(age.Amount)
	}
	if f.best == nil && len(p.Score.Norms) > 0 {
		f.norm = &p.Score.Norms[0]
	}
	for _, st := range p.Score.Adults {
		f.adults = append(f.adults, standing{st, st.Decades()})
	}
	return f
}

// sexes returns the person's sex, or both if it is missing.
func (c *facts) sexes() []scoring.Sex {
	if sex := c.score.Entry().Sex(); sex != scoring.SexUnspecified {
		return []scoring.Sex{sex}
	}
	return []scoring.Sex{scoring.Female, scoring.Male}
}

// page is shared by the chapters: the layout, the person's facts, and what is
// left out to save space.
type page struct {
	kit.Layout
	facts
	group    string
	tested   time.Time
	problems []Problem
	spare    sparing // left out
	asked    sparing // read by the chapter being laid out
}

func newPage(p Person) *page {
	// The name comes first, because a document takes few code pages besides the
	// core one.
	c := &page{Layout: kit.NewLayout(p.Words.For(p.Audience), p.Name), facts: factsOf(p), tested: p.Tested, problems: p.Problems}
	c.group = c.Clean.Text(p.Group)
	c.Furnish(p.Paper, p.Brand, p.Program)
	return c
}

// forYouth returns the block's variant for people under 18.
func (c *facts) forYouth(key string) string {
	if c.youth {
		return "youth." + key
	}
	return key
}

// one formats a number with one decimal.
func (c *page) one(x scoring.VO2) string { return c.Language.Number(float64(x), 1) }

// padding returns that of panels.
func (c *page) padding() float64 {
	if c.spares(spareAir) {
		return 4
	}
	return kit.PanelPadding
}

// The reader's value is drawn above a scale.
const (
	youLabelHeight = 13.0
	bandHeight     = 6.0
	diamondRadius  = 5.2
	// youHeight is the height of the label, the band and the space below it.
	youHeight = youLabelHeight + 2*diamondRadius + 3
)

// you returns a function that draws the reader's value as a diamond on the band
// of the likely range. It carries the value down across the scale, which is
// between scaleTop and scaleBottom.
func (c *page) you(a kit.Axis, value, low, high float64) (draw func(s *kit.Sheet, x, y, scaleTop, scaleBottom float64)) {
	text := kit.Labelled(a.At(value), c.Say("scale.you", kit.Words{"Value": value}), kit.BodyFace.With(kit.Bold).In(kit.Copper))
	ends := [2]string{c.Language.Number(low, 1), c.Language.Number(high, 1)}
	text = kit.Spread([]kit.Label{text}, 0, a.Width)[0]
	return func(s *kit.Sheet, x, y, scaleTop, scaleBottom float64) {
		s.WriteCentred(x+text.At, y+8.5, text.Text, text.Face)
		middle := y + youLabelHeight + diamondRadius
		from, to, at := x+a.At(low), x+a.At(high), x+a.At(value)
		s.Box(from, middle-bandHeight/2, to-from, bandHeight, kit.CopperTwo)
		for _, end := range []float64{from, to} {
			s.Rule(end, middle-bandHeight/2-1, end, middle+bandHeight/2+1, kit.Copper, 1.1)
			s.Dashed(end, middle+bandHeight/2+1, end, scaleBottom, kit.Copper, 0.7)
		}
		s.Rule(at, middle, at, scaleBottom, kit.White, 3)
		s.Rule(at, middle, at, scaleBottom, kit.Copper, 1.4)
		kit.Diamond(s, at, middle, diamondRadius, kit.Copper)
		s.WriteRight(from-4, middle+2.7, ends[0], kit.SmallFace)
		s.Write(to+4, middle+2.7, ends[1], kit.SmallFace)
	}
}

// roomForEnds is the share of the range to keep free at each side for the numbers
// at the ends of the band.
const roomForEnds = 0.09

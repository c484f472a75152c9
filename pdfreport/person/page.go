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
	best     *scoring.Estimate    // nil for someone with a reading against norms only
	norm     *scoring.NormReading // set if best is nil
	review   *change.Review       // nil without earlier tests
	years    int                  // whole years; -1 if unknown
	youth    bool
	audience templates.Audience
}

// standing is a [scoring.Standing] with its decades, worked out once.
type standing struct {
	scoring.Standing
	decades []scoring.Decade
}

func factsOf(p Person) facts {
	f := facts{score: p.Score, best: p.Score.Best(), review: p.Review, years: -1, audience: p.Audience}
	if age, ok := p.Score.Entry().Get(scoring.Age); ok {
		f.years = reference.WholeYears(age.Amount)
		f.youth = scoring.IsYouth(age.Amount)
	}
	if f.best == nil {
		f.norm = &p.Score.Norms[0]
	}
	for _, st := range p.Score.Adults {
		f.adults = append(f.adults, standing{st, st.Decades()})
	}
	return f
}

// sexes returns the person's sex, or both if it is missing.
func (f *facts) sexes() []scoring.Sex {
	if sex := f.score.Entry().Sex(); sex != scoring.SexUnspecified {
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

// one formats a number with one decimal.
func (c *page) one(x scoring.VO2) string { return c.Language.Number(float64(x), 1) }

// padding returns that of panels.
func (c *page) padding() float64 {
	if c.spares(spareAir) {
		return 4
	}
	return kit.PanelPadding
}

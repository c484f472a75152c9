package person

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

// estimates lists the estimates of a person, the headline first.
func (c *facts) estimates() []*scoring.Estimate {
	var all []*scoring.Estimate
	for i := range c.score.Estimates {
		all = append(all, &c.score.Estimates[i])
	}
	return all
}

type testsChapter struct{ *page }

// lay sets a person's tests side by side and says whether they agree.
func (c testsChapter) lay() kit.Block {
	firsts := c.estimates()
	if len(firsts) < 2 && len(c.score.Norms) == 0 {
		return nil
	}
	heading := kit.Pick(len(firsts) < 2, "tests.heading.other", "tests.heading")
	b := c.Heading(heading)
	if len(firsts) > 1 {
		b = kit.Stack(b, c.testStrips(firsts), kit.Space(4))
		agree := kit.Pick(meet(firsts), "tests.agree", "tests.near")
		if c.flagged(scoring.FlagTestsDiffer) {
			agree = "tests.differ"
		}
		b = kit.Stack(b, c.Text(c.Say("tests.first", nil)+" "+c.Say(agree, nil)))
	}
	var norms []string
	for i := range c.score.Norms {
		norms = append(norms, c.normLine(&c.score.Norms[i]))
	}
	return kit.Stack(b, c.Text(strings.Join(norms, "\n")))
}

// meet reports whether the likely ranges all meet that of the first.
func meet(estimates []*scoring.Estimate) bool {
	low, high := estimates[0].Likely()
	return !slices.ContainsFunc(estimates[1:], func(e *scoring.Estimate) bool {
		from, to := e.Likely()
		return from > high || to < low
	})
}

// normLine says a result read against norms in a sentence.
func (c *page) normLine(n *scoring.NormReading) string {
	return c.Say("tests.norm", kit.Words{"Test": c.Declared().Test(n.Test), "Count": n.Result.Amount, "Mean": n.Mean,
		"Sex": sexWord(c.score.Entry().Sex()), "Ages": c.ages(n.Ages)})
}

const (
	testNameWidth  = 190.0
	testValueWidth = 34.0
	testRow        = 17.0
)

// testStrips draws each test's value and likely range on one axis, the headline
// in the reader's colour.
func (c testsChapter) testStrips(firsts []*scoring.Estimate) kit.Block {
	first, last := firsts[0].Likely()
	for _, e := range firsts {
		low, high := e.Likely()
		first, last = min(first, low), max(last, high)
	}
	room := roomForEnds * (last - first)
	a := kit.Axis{Lo: float64(first - room), Hi: float64(last + room), Width: c.Width - testNameWidth - testValueWidth}
	type row struct {
		name            string
		value           string
		at, from, to    float64
		lowest, highest string
	}
	var rows []row
	for _, e := range firsts {
		name := c.Declared().Test(e.Test)
		if !e.Measured() { // whose value is beside it
			name = c.Declared().TestAndResult(e.Trial())
		}
		low, high := e.Likely()
		rows = append(rows, row{kit.CutText(name, kit.Bold, (testNameWidth-8)/kit.SizeBody), c.one(e.VO2),
			a.At(float64(e.VO2)), a.At(float64(low)), a.At(float64(high)), c.one(low), c.one(high)})
	}
	return kit.Draw(float64(len(rows))*testRow, func(s *kit.Sheet, x, y float64) {
		for i, r := range rows {
			look, mark, band := kit.BodyFace, kit.Petrol, kit.GroupTones[0]
			if i == 0 {
				look, mark, band = kit.BodyFace.With(kit.Bold), kit.Copper, kit.CopperTwo
			}
			middle := y + (float64(i)+0.5)*testRow
			base := middle + 3.2
			s.Write(x, base, r.name, look)
			s.WriteRight(x+testNameWidth+testValueWidth-10, base, r.value, look.In(mark))
			left := x + testNameWidth + testValueWidth
			s.Box(left+r.from, middle-bandHeight/2, r.to-r.from, bandHeight, band)
			for _, end := range []float64{r.from, r.to} {
				s.Rule(left+end, middle-bandHeight/2-1, left+end, middle+bandHeight/2+1, mark, 1.1)
			}
			kit.Diamond(s, left+r.at, middle, 4.2, mark)
			s.WriteRight(left+r.from-4, middle+2.7, r.lowest, kit.SmallFace)
			s.Write(left+r.to+4, middle+2.7, r.highest, kit.SmallFace)
		}
	})
}

func (c testsChapter) cites() []string {
	var keys []string
	if len(c.score.Norms) > 0 {
		keys = append(keys, "rikli-jones")
	}
	for _, e := range c.estimates() {
		if e.Measured() {
			continue
		}
		for _, step := range e.Working().Steps {
			keys = append(keys, step.Source)
		}
	}
	return keys
}

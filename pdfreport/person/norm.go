package person

import (
	"math"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

// These chapters are for someone whose only test is read against norms of its own
// and gives no VO2max.

type normHeadlineChapter struct{ *page }

// lay sets the count, the usual range, and what they mean.
func (c normHeadlineChapter) lay() kit.Block {
	n := c.norm
	label, number, unit := c.Say("norm.number", nil), c.Language.Number(n.Result.Amount, 0), c.Say("norm.unit", nil)
	usual := c.Say("norm.range", kit.Words{"Low": n.Mean - n.SD, "High": n.Mean + n.SD})
	figure := c.figure(label, number, unit, usual)
	textWidth := c.Width - headlineColumn - kit.PanelInset
	text := kit.Paragraphs(c.Say("norm.meaning", kit.Words{"Count": n.Result.Amount}), kit.BodyFace, textWidth)
	return kit.Beside(kit.At(0, figure), kit.At(headlineColumn+kit.PanelInset, text))
}

// normKeys are the blocks for a count below, within and above one standard
// deviation of the mean, by NormReading.Average plus one.
var normKeys = [...]string{"norm.below", "norm.within", "norm.above"}

type normChapter struct{ *page }

// lay compares the count with people of the same sex and age group, and with
// those who stayed independent.
func (c normChapter) lay() kit.Block {
	n := c.norm
	slots := kit.Words{"Sex": sexWord(c.score.Entry().Sex()), "Ages": c.ages(n.Ages), "Mean": n.Mean, "SD": n.SD,
		"Low": n.Mean - n.SD, "High": n.Mean + n.SD, "Line": n.Independence, "Gap": math.Abs(n.Result.Amount - n.Independence)}
	b := kit.Stack(c.Heading("norm.heading"), c.Text(c.Say("norm.place", slots)+" "+c.Say(normKeys[n.Average()+1], slots)), kit.Space(5),
		c.normScale(n), kit.Space(4), kit.Paragraphs(c.Say("norm.source", nil), kit.SmallFace, c.Width), kit.Space(3.5))
	key := kit.Pick(n.Result.Amount < n.Independence, "norm.independent.below", "norm.independent.reached")
	return kit.Stack(b, c.Text(c.Say(key, slots)))
}

// normScale draws the count over the spread of people of the same sex and age
// group, with their mean and the line of independent living.
func (c normChapter) normScale(n *scoring.NormReading) kit.Block {
	count := n.Result.Amount
	low, high := n.Mean-n.SD, n.Mean+n.SD
	a := kit.Axis{Lo: math.Max(0, math.Min(n.Mean-3*n.SD, count-8)), Hi: math.Max(n.Mean+3*n.SD, count+8), Width: c.Width}
	you := kit.Spread([]kit.Label{kit.Labelled(a.At(count), c.Say("norm.you", kit.Words{"Count": count}), kit.BodyFace.With(kit.Bold).In(kit.Copper))}, 0, a.Width)[0]
	look := kit.BodyFace.With(kit.Bold).In(kit.Petrol)
	marks := []kit.Label{
		kit.Labelled(a.At(n.Mean), c.Say("norm.mark.mean", kit.Words{"Mean": n.Mean}), look),
		kit.Labelled(a.At(n.Independence), c.Say("norm.mark.line", kit.Words{"Line": n.Independence}), look),
	}
	at := []float64{n.Mean, n.Independence}
	switch {
	case n.Independence == n.Mean:
		marks = []kit.Label{kit.Labelled(a.At(n.Mean), c.Say("norm.mark.both", kit.Words{"Mean": n.Mean}), look)}
		at = at[:1]
	case n.Independence < n.Mean:
		marks[0], marks[1] = marks[1], marks[0]
		at[0], at[1] = at[1], at[0]
	}
	marks = kit.Spread(marks, 10, a.Width)
	ends := []kit.Label{c.endLabel(a, low, count, -1), c.endLabel(a, high, count, 1)}
	const bar, drop = 14.0, 9.0
	const youRow = youLabelHeight + 2*diamondRadius
	return kit.Draw(youRow+bar+drop+13, func(s *kit.Sheet, x, y float64) {
		top := y + youRow
		s.Box(x, top, a.Width, bar, kit.GroupTones[0])
		s.Box(x+a.At(low), top, a.At(high)-a.At(low), bar, kit.GroupTones[1])
		for i, v := range at {
			s.Rule(x+a.At(v), top-3, x+a.At(v), top+bar+3, kit.Petrol, 1.6)
			s.Rule(x+a.At(v), top+bar+3, x+marks[i].At, top+bar+drop, kit.Petrol, 0.7)
			s.WriteCentred(x+marks[i].At, top+bar+drop+8.5, marks[i].Text, marks[i].Face)
		}
		for _, l := range ends {
			s.WriteCentred(x+l.At, top+bar/2+2.7, l.Text, l.Face)
		}
		s.WriteCentred(x+you.At, y+8.5, you.Text, you.Face)
		s.Rule(x+a.At(count), top-diamondRadius, x+a.At(count), top+bar, kit.White, 3)
		s.Rule(x+a.At(count), top-diamondRadius, x+a.At(count), top+bar, kit.Copper, 1.4)
		kit.Diamond(s, x+a.At(count), top-diamondRadius-0.5, diamondRadius, kit.Copper)
	})
}

// endLabel labels an end of the usual range: beyond it, or within the range if
// the reader's line would cross it. side is -1 for the lower end and 1 for the
// upper one.
func (c normChapter) endLabel(a kit.Axis, end, count, side float64) kit.Label {
	l := kit.Labelled(0, c.Language.Number(end, 0), kit.SmallFace.In(kit.Ink))
	const inset = 4.0
	l.At = a.At(end) + side*(l.Width/2+inset)
	if math.Abs(l.At-a.At(count)) < l.Width/2+inset {
		l.At = a.At(end) - side*(l.Width/2+inset)
	}
	return l
}

type normMethodChapter struct{ methodChapter }

// lay shows the basis of the reading.
func (c normMethodChapter) lay() kit.Block {
	n := c.norm
	b := c.Heading("norm.method.heading")
	c.methodRow(&b, "method.test", c.Declared().Test(n.Test))
	c.methodRow(&b, "norm.method.norms", c.Say("norm.method.table", kit.Words{"Sex": sexWord(c.score.Entry().Sex()),
		"Ages": c.ages(n.Ages), "Mean": n.Mean, "SD": n.SD, "Line": n.Independence}))
	c.methodRow(&b, "method.sure", c.Say("norm.method.sure", nil))
	c.remarkRow(&b)
	return b
}

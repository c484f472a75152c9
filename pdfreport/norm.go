package pdfreport

import (
	"math"

	"tenback/scoring"
)

// The page of someone who did a test that is read against norms of its own and
// gives no VO2max.

type normHeadlineChapter struct{ *page }

// normHeadline is the count, the usual range, and what they mean.
func (c normHeadlineChapter) lay() block {
	n := c.norm
	label, number, unit := c.say("norm.number", nil), c.language.Number(n.Result.Amount, 0), c.say("norm.unit", nil)
	usual := c.say("norm.range", words{"Low": n.Mean - n.SD, "High": n.Mean + n.SD})
	figure := c.figure(label, number, unit, usual)
	textWidth := c.width - headlineColumn - panelInset
	text := paragraphs(c.say("norm.meaning", words{"Count": n.Result.Amount}), bodyFace, textWidth)
	return block{beside(column{0, figure}, column{headlineColumn + panelInset, text})}
}

// normKeys are the words for a count below, within and above one standard
// deviation of the mean, by NormReading.Average plus one.
var normKeys = [...]string{"norm.below", "norm.within", "norm.above"}

type normChapter struct{ *page }

// normStanding sets the count against people of the same sex and age group, and
// against what those counted who stayed independent.
func (c normChapter) lay() block {
	n := c.norm
	slots := words{"Sex": sexWord(c.score.Entry().Sex()), "Ages": c.ages(n.Ages), "Mean": n.Mean, "SD": n.SD,
		"Low": n.Mean - n.SD, "High": n.Mean + n.SD, "Line": n.Independence, "Gap": math.Abs(n.Result.Amount - n.Independence)}
	b := append(c.heading("norm.heading"), c.text(c.say("norm.place", slots)+" "+c.say(normKeys[n.Average()+1], slots))...)
	b = append(b, space(5), c.normScale(n), space(4))
	b = append(b, paragraphs(c.say("norm.source", nil), smallFace, c.width)...)
	b = append(b, space(3.5))
	key := "norm.independent.reached"
	if n.Result.Amount < n.Independence {
		key = "norm.independent.below"
	}
	return append(b, c.text(c.say(key, slots))...)
}

// normScale draws the count over the spread of people of the same sex and age
// group, with their mean and the line of independent living.
func (c normChapter) normScale(n *scoring.NormReading) piece {
	count := n.Result.Amount
	low, high := n.Mean-n.SD, n.Mean+n.SD
	a := axis{math.Max(0, math.Min(n.Mean-3*n.SD, count-8)), math.Max(n.Mean+3*n.SD, count+8), c.width}
	you := spread([]label{labelled(a.at(count), c.say("norm.you", words{"Count": count}), bodyFace.with(bold).in(copper))}, 0, a.width)[0]
	look := bodyFace.with(bold).in(petrol)
	marks := []label{
		labelled(a.at(n.Mean), c.say("norm.mark.mean", words{"Mean": n.Mean}), look),
		labelled(a.at(n.Independence), c.say("norm.mark.line", words{"Line": n.Independence}), look),
	}
	at := []float64{n.Mean, n.Independence}
	switch {
	case n.Independence == n.Mean:
		marks = []label{labelled(a.at(n.Mean), c.say("norm.mark.both", words{"Mean": n.Mean}), look)}
		at = at[:1]
	case n.Independence < n.Mean:
		marks[0], marks[1] = marks[1], marks[0]
		at[0], at[1] = at[1], at[0]
	}
	marks = spread(marks, 10, a.width)
	ends := []label{c.endLabel(a, low, count, -1), c.endLabel(a, high, count, 1)}
	const bar, drop = 14.0, 9.0
	const youRow = youLabelHeight + 2*diamondRadius
	return piece{youRow + bar + drop + 13, func(s *sheet, x, y float64) {
		top := y + youRow
		s.box(x, top, a.width, bar, groupTones[0])
		s.box(x+a.at(low), top, a.at(high)-a.at(low), bar, groupTones[1])
		for i, v := range at {
			s.rule(x+a.at(v), top-3, x+a.at(v), top+bar+3, petrol, 1.6)
			s.rule(x+a.at(v), top+bar+3, x+marks[i].at, top+bar+drop, petrol, 0.7)
			s.writeCentred(x+marks[i].at, top+bar+drop+8.5, marks[i].text, marks[i].face)
		}
		for _, l := range ends {
			s.writeCentred(x+l.at, top+bar/2+2.7, l.text, l.face)
		}
		s.writeCentred(x+you.at, y+8.5, you.text, you.face)
		s.rule(x+a.at(count), top-diamondRadius, x+a.at(count), top+bar, paper, 3)
		s.rule(x+a.at(count), top-diamondRadius, x+a.at(count), top+bar, copper, 1.4)
		s.diamond(x+a.at(count), top-diamondRadius-0.5, diamondRadius, copper)
	}}
}

// endLabel is the number at an end of the usual range: beyond the end, or within
// the range where the reader's line would run through it. side is -1 for the
// lower end and 1 for the upper one.
func (c normChapter) endLabel(a axis, end, count, side float64) label {
	l := labelled(0, c.language.Number(end, 0), smallFace.in(ink))
	const inset = 4.0
	l.at = a.at(end) + side*(l.width/2+inset)
	if math.Abs(l.at-a.at(count)) < l.width/2+inset {
		l.at = a.at(end) - side*(l.width/2+inset)
	}
	return l
}

type normMethodChapter struct{ methodChapter }

// normMethod shows what the reading rests on.
func (c normMethodChapter) lay() block {
	n := c.norm
	b := c.heading("norm.method.heading")
	c.methodRow(&b, "method.test", c.declared().Test(n.Test))
	c.methodRow(&b, "norm.method.norms", c.say("norm.method.table", words{"Sex": sexWord(c.score.Entry().Sex()),
		"Ages": c.ages(n.Ages), "Mean": n.Mean, "SD": n.SD, "Line": n.Independence}))
	c.methodRow(&b, "method.sure", c.say("norm.method.sure", nil))
	var others string
	for i := range c.score.Norms[1:] {
		others += c.normLine(&c.score.Norms[1+i]) + " "
	}
	c.methodRow(&b, "method.others", others)
	c.remarkRow(&b)
	return b
}

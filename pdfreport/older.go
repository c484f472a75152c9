package pdfreport

import (
	"math"
	"strings"

	"tenback/scoring"
)

// independenceFrom is the age in whole years from which the part on living
// independently is shown.
const independenceFrom = 60

// independence sets the number against what living on one's own asks for.
func (c *composer) independence() block {
	if c.years < independenceFrom || len(c.score.Adults) == 0 {
		return nil
	}
	b := c.heading("older.heading")
	low, high := c.best.Likely()
	var lines []refLine
	texts := []string{c.say("older.intro", nil)}
	buildUp := false
	for _, st := range c.score.Adults {
		key, margin := "older.above", c.best.VO2-st.Independence
		switch {
		case margin < 0:
			key, buildUp = "older.below", true
		case low < st.Independence:
			key, buildUp = "older.close", true
		}
		slots := words{"Sex": sexWord(st.Sex), "Line": float64(st.Independence), "Margin": math.Abs(float64(margin))}
		texts = append(texts, c.say(key, slots))
		label := c.say("older.line", words{"Line": float64(st.Independence)})
		if len(c.score.Adults) > 1 {
			label = c.say("older.line.sex", words{"Sex": sexWord(st.Sex), "Line": float64(st.Independence)})
		}
		lines = append(lines, refLine{float64(st.Independence), label})
	}
	if buildUp {
		texts = append(texts, c.say("older.build-up", nil))
	}
	b = append(b, c.text(strings.Join(texts, " "))...)
	b = append(b, space(2))
	b = append(b, c.text(c.say("older.decline", nil))...)
	if c.spare >= spareOlderScale {
		return b
	}
	return append(b, space(4), c.lineScale(axisAround(lines, low, high, c.width), lines))
}

// refLine is a line that a value is read against.
type refLine struct {
	at   float64
	text string
}

// axisAround spans lines and likely range with room at both sides.
func axisAround(lines []refLine, low, high scoring.VO2, width float64) axis {
	lo, hi := float64(low), float64(high)
	for _, l := range lines {
		lo, hi = min(lo, l.at), max(hi, l.at)
	}
	room := max(6, 0.18*(hi-lo))
	return axis{max(0, lo-room), hi + room, width}
}

// lineScale draws the likely range over an axis with one or two lines.
func (c *composer) lineScale(a axis, lines []refLine) piece {
	low, high := c.best.Likely()
	drawYou := c.you(a, float64(c.best.VO2), float64(low), float64(high))
	var labels []label
	for _, l := range lines {
		labels = append(labels, c.labelled(a.at(l.at), l.text, bodyFace.with(bold).in(petrol)))
	}
	if len(labels) == 2 && labels[0].at > labels[1].at {
		labels[0], labels[1] = labels[1], labels[0]
		lines = []refLine{lines[1], lines[0]}
	}
	labels = spread(labels, 8, 0, a.width)
	const bar = 9.0
	return piece{youHeight + bar + tickLength + 13, func(s *sheet, x, y float64) {
		top := y + youHeight
		s.box(x, top, a.width, bar, groupTones[0])
		from := a.at(lines[len(lines)-1].at)
		s.box(x+from, top, a.width-from, bar, groupTones[2])
		if len(lines) == 2 {
			first := a.at(lines[0].at)
			s.box(x+first, top, from-first, bar, groupTones[1])
		}
		drawYou(s, x, y, top, top+bar)
		for i, l := range lines {
			at := x + a.at(l.at)
			s.rule(at, top-4, at, top+bar+tickLength, petrol, 2)
			s.writeCentred(x+labels[i].at, top+bar+tickLength+9.5, labels[i].text, labels[i].face)
		}
	}}
}

package pdfreport

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var decadeKeys = [...]string{"decades.own", "decades.younger-1", "decades.younger-2"}

// decadeLabelWidth is the column that names the decades.
const decadeLabelWidth = 112.0

// decades sets the number against people one and two decades younger, as a
// chart and as a table; one of each where the sex is not given.
func (c *composer) decades() block {
	if len(c.score.Adults) == 0 {
		return nil
	}
	heading, intro := "decades.heading", "decades.intro"
	if len(c.score.Adults[0].Decades) == 1 {
		heading, intro = "decades.heading.own", "decades.intro.own"
	}
	b := append(c.heading(heading), c.text(c.say(intro, nil))...)
	for _, st := range c.score.Adults {
		if len(c.score.Adults) > 1 {
			title := c.say("standing.table", words{"Sex": sexWord(st.Sex), "Ages": c.ages(st.Decades[0].Ages)})
			b = append(b, space(5), textPiece(c.fonts.breakLines(plain(title, bold), c.width/sizeBody), bodyFace.with(bold), c.width, left))
		}
		b = append(b, space(4))
		if len(st.Decades) > 1 {
			b = append(b, c.decadeChart(st), space(4))
		}
		b = append(b, c.decadeTable(st)...)
	}
	return b
}

const (
	thinStrip    = 11.0
	chartRow     = thinStrip + 13
	openingMark  = 6.0
	chartMarkGap = 1.5
)

// decadeChart draws the groups of each decade one under another on one axis,
// with the reader's value across all of them.
func (c *composer) decadeChart(st scoring.Standing) piece {
	a := c.groupAxis(st.Decades, c.width-decadeLabelWidth)
	value := float64(c.best.VO2)
	low, high := c.best.Likely()
	var labels []piece
	for i, d := range st.Decades {
		text := c.say(decadeKeys[i], words{"Ages": c.ages(d.Ages)})
		labels = append(labels, textPiece(c.fonts.breakLines(spans(text, regular), decadeLabelWidth/sizeBody), bodyFace, decadeLabelWidth, left))
	}
	height := float64(len(st.Decades)) * chartRow
	return piece{height, func(s *sheet, x, y float64) {
		right := x + decadeLabelWidth
		s.box(right+a.at(float64(low)), y, a.at(float64(high))-a.at(float64(low)), height, copperTwo)
		for i, d := range st.Decades {
			top := y + float64(i)*chartRow + chartRow - thinStrip
			labels[i].draw(s, x, top+thinStrip/2-bodyFace.leading()/2)
			drawStrip(s, a, d, right, top, thinStrip)
			for _, goal := range d.Goals {
				at := right + a.at(float64(goal.VO2))
				if goal.Reached {
					s.tick(at-openingMark/2, top-openingMark-chartMarkGap-1, openingMark, petrol)
				} else {
					s.ring(at, top-openingMark/2-chartMarkGap, openingMark/2-0.6, soft, 0.9)
				}
			}
		}
		at := right + a.at(value)
		s.rule(at, y, at, y+height, paper, 3)
		s.rule(at, y, at, y+height, copper, 1.4)
		s.diamond(at, y+2, 3.6, copper)
	}}
}

// decadeTable gives the values, what is reached, the gaps, and the gaps in the
// terms of the test that was done.
func (c *composer) decadeTable(st scoring.Standing) block {
	cell := (c.width - decadeLabelWidth) / float64(len(reference.Groups())-1)
	textWidth := cell - 8
	var b block
	var head []string
	for _, g := range reference.Groups()[1:] {
		head = append(head, c.groupName(g))
	}
	b = append(b, piece{13, func(s *sheet, x, y float64) {
		for i, name := range head {
			s.write(x+decadeLabelWidth+float64(i)*cell, y+9, name, bodyFace.with(bold).in(petrol))
		}
		s.rule(x, y+13, x+c.width, y+13, hairline, 0.7)
	}})
	for i, d := range st.Decades {
		text := c.say(decadeKeys[i], words{"Ages": c.ages(d.Ages)})
		columns := []column{{0, c.fonts.paragraphs(text, bodyFace, decadeLabelWidth-6)}}
		for j, goal := range d.Goals {
			columns = append(columns, column{decadeLabelWidth + float64(j)*cell, c.goalCell(goal, textWidth)})
		}
		b = append(b, space(3), beside(columns...), piece{3, func(s *sheet, x, y float64) {
			s.rule(x, y+3, x+c.width, y+3, hairline, 0.7)
		}})
	}
	return b
}

// goalCell is one cell: the value, and whether it is reached or what is
// missing.
func (c *composer) goalCell(goal scoring.Goal, width float64) block {
	value := c.one(goal.VO2)
	if goal.Reached {
		reached := c.say("decades.reached", nil)
		return block{{bodyFace.leading(), func(s *sheet, x, y float64) {
			base := y + s.fonts.baseline(bodyFace)
			end := s.write(x, base, value, bodyFace.with(bold))
			s.tick(end+5, base-6.4, 6.8, petrol)
			s.write(end+15, base, reached, smallFace)
		}}}
	}
	gap := c.say("decades.gap", words{"Gap": float64(goal.Gap)})
	b := block{{bodyFace.leading(), func(s *sheet, x, y float64) {
		base := y + s.fonts.baseline(bodyFace)
		end := s.write(x, base, value, bodyFace)
		s.ring(end+8.4, base-3, 2.5, soft, 0.9)
		s.write(end+15, base, gap, smallFace)
	}}}
	inTest := typeset(goal.InTest.String())
	if inTest == "" && !c.best.Measured() {
		inTest = c.say("decades.beyond", nil)
	}
	return append(b, c.fonts.paragraphs(inTest, smallFace, width)...)
}

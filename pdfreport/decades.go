package pdfreport

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var decadeKeys = [...]string{"decades.own", "decades.younger-1", "decades.younger-2"}

// decadeLabelWidth is the column that names the decades.
const decadeLabelWidth = 112.0

type decadesChapter struct{ *page }

// decades sets the number against people one and two decades younger, as a
// chart and as a table; one of each where the sex is not given.
func (c decadesChapter) lay() block {
	if len(c.adults) == 0 {
		return nil
	}
	heading, intro := "decades.heading", "decades.intro"
	if len(c.adults[0].decades) == 1 {
		heading, intro = "decades.heading.own", "decades.intro.own"
	}
	text := c.say(intro, nil)
	if c.targetRows(c.adults[0], c.width) != nil {
		text += " " + c.say("decades.by-test", nil)
	}
	b := append(c.heading(heading), c.text(text)...)
	for _, st := range c.adults {
		if len(c.adults) > 1 {
			title := c.say("standing.table", words{"Sex": sexWord(st.Sex), "Ages": c.ages(st.decades[0].Ages)})
			b = append(b, space(5), textPiece(breakLines(title, bold, c.width/sizeBody), bodyFace.with(bold), c.width, left))
		}
		b = append(b, space(4))
		if len(st.decades) > 1 && !c.spares(spareDecadeChart) {
			b = append(b, c.decadeChart(st), space(7))
		}
		b = append(b, c.decadeTable(st)...)
	}
	return b
}

const (
	thinStrip    = 11.0
	chartHead    = 7.0 // room for the diamond
	chartRow     = thinStrip + 13
	openingMark  = 6.0
	chartMarkGap = 1.5
)

// decadeChart draws the groups of each decade one under another on one axis,
// with the reader's value across all of them.
func (c decadesChapter) decadeChart(st standing) piece {
	a := c.groupAxis(st.decades, c.width-decadeLabelWidth)
	value := float64(c.best.VO2)
	low, high := c.best.Likely()
	var labels []piece
	for i, d := range st.decades {
		text := c.say(decadeKeys[i], words{"Ages": c.ages(d.Ages)})
		labels = append(labels, textPiece(breakMarked(text, regular, decadeLabelWidth/sizeBody), bodyFace, decadeLabelWidth, left))
	}
	height := chartHead + float64(len(st.decades))*chartRow
	return piece{height, func(s *sheet, x, y float64) {
		right := x + decadeLabelWidth
		head, y, height := y, y+chartHead, height-chartHead
		s.box(right+a.at(float64(low)), y, a.at(float64(high))-a.at(float64(low)), height, copperTwo)
		for i, d := range st.decades {
			top := y + float64(i)*chartRow + chartRow - thinStrip
			labels[i].draw(s, x, top+thinStrip/2-bodyFace.leading()/2)
			drawStrip(s, a, d, right, top, thinStrip)
		}
		for _, end := range []scoring.VO2{low, high} {
			at := right + a.at(float64(end))
			s.dashed(at, y, at, y+height, copper, 0.7)
		}
		at := right + a.at(value)
		s.rule(at, y, at, y+height, paper, 3)
		s.rule(at, head+4, at, y+height, copper, 1.4)
		s.diamond(at, head+4, 4, copper)
		for i, d := range st.decades {
			top := y + float64(i)*chartRow + chartRow - thinStrip
			for _, goal := range d.Goals {
				drawOpening(s, right+a.at(float64(goal.VO2)), top-chartMarkGap, goal.Reached)
			}
		}
	}}
}

// drawOpening marks the opening of a group just above y: a tick if it is
// reached, else a ring. A patch of paper keeps it clear of lines behind it.
func drawOpening(s *sheet, x, y float64, reached bool) {
	s.box(x-openingMark/2-1, y-openingMark-1.5, openingMark+2, openingMark+1.5, paper)
	if reached {
		s.tick(x-openingMark/2, y-openingMark-1, openingMark, petrol)
		return
	}
	s.ring(x, y-openingMark/2, openingMark/2-0.6, soft, 0.9)
}

// headLinesMost is how many lines the name of a group may take in the head of
// the table.
const headLinesMost = 2

// decadeTable gives the values, what is reached, the gaps, and the gaps in the
// terms of the test that was done.
func (c decadesChapter) decadeTable(st standing) block {
	cell := (c.width - decadeLabelWidth) / float64(len(reference.Groups())-1)
	textWidth := cell - 8
	byTest := c.targetRows(st, textWidth)
	phrase := c.longPhrase(st, textWidth)
	var b block
	var head []column
	look := c.labelFace(paper)
	for i, g := range reference.Groups()[1:] {
		name := limitLines(breakLines(c.groupName(st.Table, g), bold, textWidth/look.size), headLinesMost)
		head = append(head, column{decadeLabelWidth + float64(i)*cell, block{textPiece(name, look, textWidth, left)}})
	}
	b = append(b, beside(head...), piece{1, func(s *sheet, x, y float64) {
		s.rule(x, y+0.5, x+c.width, y+0.5, hairline, 0.7)
	}})
	for i, d := range st.decades {
		text := c.say(decadeKeys[i], words{"Ages": c.ages(d.Ages)})
		columns := []column{{0, paragraphs(text, bodyFace, decadeLabelWidth-6)}}
		for j, goal := range d.Goals {
			content := c.goalCell(goal, textWidth, phrase != "")
			if byTest != nil {
				content = content[:1] // the tests say the rest
			}
			columns = append(columns, column{decadeLabelWidth + float64(j)*cell, content})
		}
		b = append(b, space(3), beside(columns...))
		if byTest != nil {
			b = append(b, byTest[i]...)
		}
		b = append(b, piece{3, func(s *sheet, x, y float64) {
			s.rule(x, y+3, x+c.width, y+3, hairline, 0.7)
		}})
	}
	if phrase != "" && byTest == nil {
		b = append(b, space(3))
		b = append(b, paragraphs(c.say("decades.phrase", words{"Phrase": phrase}), smallFace, c.width)...)
	}
	return b
}

// longPhrase finds out whether the results to reach are too long for a cell. If
// so, the cells have their numbers alone, and phrase is the words around them,
// with an ellipsis for the number, to be said once under the table.
func (c decadesChapter) longPhrase(st standing, width float64) (phrase string) {
	for _, d := range st.decades {
		for _, goal := range d.Goals {
			text := c.inTest(goal)
			if text == "" || textWidth(text, regular)*sizeSmall <= width {
				continue
			}
			return c.declared().Phrase(c.best.Test, goal.InTest.Result.Input, "…")
		}
	}
	return ""
}

// goalCell is one cell: the value, and whether it is reached or what is
// missing; numbers alone where the words around them are said elsewhere.
func (c decadesChapter) goalCell(goal scoring.Goal, width float64, alone bool) block {
	value := c.one(goal.VO2)
	if goal.Reached {
		return block{c.valueCell(value, bold, true, c.say("decades.reached", nil))}
	}
	b := block{c.valueCell(value, regular, false, c.say("decades.gap", words{"Gap": float64(goal.VO2.Tenths() - c.best.VO2.Tenths())}))}
	inTest := c.inTest(goal)
	if alone && inTest != "" {
		inTest = c.declared().TargetValue(goal.InTest)
	}
	turnsBack := !c.best.Measured() && !c.best.Test.Fallback && !c.best.Equation.NoTarget
	if inTest == "" && turnsBack && c.tellsTargets() {
		inTest = c.say("decades.beyond", nil)
	}
	return append(b, paragraphs(inTest, smallFace, width)...)
}

// tellsTargets tells whether goals are put in terms of the test: not to someone
// who should see a clinician before another test.
func (c *page) tellsTargets() bool {
	return !c.clinicianFirst() && !(len(c.adults) > 1 && c.spares(spareTargets))
}

// inTest is the result in the person's test that reaches a goal.
func (c *page) inTest(goal scoring.Goal) string {
	if !c.tellsTargets() {
		return ""
	}
	return c.declared().Target(c.best.Test, goal.InTest)
}

// valueCell is a value with its mark and a word.
func (c decadesChapter) valueCell(value string, w weight, reached bool, word string) piece {
	look := bodyFace.with(w)
	return piece{look.leading(), func(s *sheet, x, y float64) {
		base := y + look.baseline()
		end := s.write(x, base, value, look)
		if reached {
			s.tick(end+5, base-6.4, 6.8, petrol)
		} else {
			s.ring(end+8.4, base-3, 2.5, soft, 0.9)
		}
		s.write(end+15, base, word, smallFace)
	}}
}

package person

import (
	"slices"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

var decadeKeys = [...]string{"decades.own", "decades.younger-1", "decades.younger-2"}

// decadeLabelWidth is the width of the column that names the decades.
const decadeLabelWidth = 112.0

type decadesChapter struct{ *page }

// lay compares the number with people one and two decades younger, as a chart and
// as a table; one of each per sex if the sex is missing. Someone who should see a
// clinician first gets no such goals.
func (c decadesChapter) lay() kit.Block {
	if len(c.adults) == 0 || c.score.SeeClinicianFirst() {
		return nil
	}
	heading, intro := "decades.heading", "decades.intro"
	if len(c.adults[0].decades) == 1 {
		heading, intro = "decades.heading.own", "decades.intro.own"
	}
	text := c.Say(intro, nil)
	if c.targetRows(c.adults[0], c.Width) != nil {
		text += " " + c.Say("decades.by-test", nil)
	}
	b := kit.Stack(c.Heading(heading), c.Text(text))
	for _, st := range c.adults {
		if len(c.adults) > 1 {
			title := c.Say("standing.table", kit.Words{"Sex": sexWord(st.Sex), "Ages": c.ages(st.decades[0].Ages)})
			b = kit.Stack(b, kit.Space(5), kit.Lines(kit.BreakLines(title, kit.Bold, c.Width/kit.SizeBody), kit.BodyFace.With(kit.Bold), c.Width, kit.Left))
		}
		b = kit.Stack(b, kit.Space(4))
		if len(st.decades) > 1 && !c.spares(spareDecadeChart) {
			b = kit.Stack(b, c.decadeChart(st), kit.Space(7))
		}
		b = kit.Stack(b, c.decadeTable(st))
	}
	return b
}

const (
	thinStrip    = 11.0
	chartHead    = 7.0 // for the diamond
	chartRow     = thinStrip + 13
	openingMark  = 6.0
	chartMarkGap = 1.5
)

// decadeChart draws the groups of each decade on one axis, with the reader's
// value across all of them.
func (c decadesChapter) decadeChart(st standing) kit.Block {
	a := c.groupAxis(st.decades, c.Width-decadeLabelWidth)
	value := float64(c.best.VO2)
	low, high := c.best.Likely()
	var labels []kit.Block
	for _, d := range st.decades {
		text := c.Say(decadeKeys[d.Younger], kit.Words{"Ages": c.ages(d.Ages)})
		labels = append(labels, kit.Lines(kit.BreakMarked(text, kit.Regular, decadeLabelWidth/kit.SizeBody), kit.BodyFace, decadeLabelWidth, kit.Left))
	}
	height := chartHead + float64(len(st.decades))*chartRow
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		right := x + decadeLabelWidth
		head, y, height := y, y+chartHead, height-chartHead
		s.Box(right+a.At(float64(low)), y, a.At(float64(high))-a.At(float64(low)), height, kit.CopperTwo)
		for i, d := range st.decades {
			top := y + float64(i)*chartRow + chartRow - thinStrip
			labels[i].Draw(s, x, top+thinStrip/2-kit.BodyFace.Leading()/2)
			drawStrip(s, a, d, right, top, thinStrip)
		}
		for _, end := range []scoring.VO2{low, high} {
			at := right + a.At(float64(end))
			s.Dashed(at, y, at, y+height, kit.Copper, 0.7)
		}
		at := right + a.At(value)
		s.Rule(at, y, at, y+height, kit.White, 3)
		s.Rule(at, head+4, at, y+height, kit.Copper, 1.4)
		kit.Diamond(s, at, head+4, 4, kit.Copper)
		for i, d := range st.decades {
			top := y + float64(i)*chartRow + chartRow - thinStrip
			for _, goal := range d.Goals {
				drawOpening(s, right+a.At(float64(goal.VO2)), top-chartMarkGap, goal.Reached)
			}
		}
	})
}

// drawOpening marks the opening of a group just above y: a tick if it is reached,
// else a ring. White behind it covers lines.
func drawOpening(s *kit.Sheet, x, y float64, reached bool) {
	s.Box(x-openingMark/2-1, y-openingMark-1.5, openingMark+2, openingMark+1.5, kit.White)
	if reached {
		kit.Tick(s, x-openingMark/2, y-openingMark-1, openingMark, kit.Petrol)
		return
	}
	kit.Ring(s, x, y-openingMark/2, openingMark/2-0.6, kit.Soft, 0.9)
}

// headLinesMost bounds the name of a group in the head of the table.
const headLinesMost = 2

// decadeTable sets the values, what is reached, and the gaps, also in terms of
// the test.
func (c decadesChapter) decadeTable(st standing) kit.Block {
	cell := (c.Width - decadeLabelWidth) / float64(len(reference.Groups())-1)
	textWidth := cell - 8
	byTest := c.targetRows(st, textWidth)
	phrase := c.longPhrase(st, textWidth)
	var b kit.Block
	var head []kit.Column
	look := c.LabelFace(kit.White)
	for i, g := range reference.Groups()[1:] {
		name := kit.LimitLines(kit.BreakLines(c.groupName(st.Table, g), kit.Bold, textWidth/look.Size), headLinesMost)
		head = append(head, kit.At(decadeLabelWidth+float64(i)*cell, kit.Lines(name, look, textWidth, kit.Left)))
	}
	b = kit.Stack(b, kit.Beside(head...), kit.Draw(1, func(s *kit.Sheet, x, y float64) {
		s.Rule(x, y+0.5, x+c.Width, y+0.5, kit.Hairline, 0.7)
	}))
	for i, d := range st.decades {
		text := c.Say(decadeKeys[d.Younger], kit.Words{"Ages": c.ages(d.Ages)})
		columns := []kit.Column{kit.At(0, kit.Paragraphs(text, kit.BodyFace, decadeLabelWidth-6))}
		for j, goal := range d.Goals {
			content := c.goalCell(goal, textWidth, phrase != "")
			if byTest != nil {
				content = content[:1] // the tests say the rest
			}
			columns = append(columns, kit.At(decadeLabelWidth+float64(j)*cell, content))
		}
		b = kit.Stack(b, kit.Space(3), kit.Beside(columns...))
		if byTest != nil {
			b = kit.Stack(b, byTest[i])
		}
		b = kit.Stack(b, kit.Draw(3, func(s *kit.Sheet, x, y float64) {
			s.Rule(x, y+3, x+c.Width, y+3, kit.Hairline, 0.7)
		}))
	}
	if text := c.beyondWords(st); text != "" && byTest == nil {
		b = kit.Stack(b, kit.Space(3), kit.Paragraphs(text, kit.SmallFace, c.Width))
	}
	if phrase != "" && byTest == nil {
		b = kit.Stack(b, kit.Space(3), kit.Paragraphs(c.Say("decades.phrase", kit.Words{"Phrase": phrase}), kit.SmallFace, c.Width))
	}
	return b
}

// longPhrase returns the words around the results to reach if these are too long
// for a cell. They are then said once under the table, with an ellipsis for the
// number.
func (c decadesChapter) longPhrase(st standing, width float64) (phrase string) {
	for _, d := range st.decades {
		for _, goal := range d.Goals {
			text := c.inTest(goal)
			if text == "" || kit.TextWidth(text, kit.Regular)*kit.SizeSmall <= width {
				continue
			}
			return c.Declared().Phrase(c.best.Test, goal.InTest.Result.Input, "…")
		}
	}
	return ""
}

// goalCell sets the value and whether it is reached or what is missing. If alone
// is set, the result to reach has no words around it.
func (c decadesChapter) goalCell(goal scoring.Goal, width float64, alone bool) kit.Block {
	value := c.one(goal.VO2)
	if goal.Reached {
		return c.valueCell(value, kit.Bold, true, c.Say("decades.reached", nil))
	}
	b := c.valueCell(value, kit.Regular, false, c.Say("decades.gap", kit.Words{"Gap": float64(goal.VO2.Tenths() - c.best.VO2.Tenths())}))
	inTest := c.inTest(goal)
	if alone && inTest != "" {
		inTest = c.Declared().TargetValue(goal.InTest)
	}
	if c.isBeyond(goal) {
		inTest = c.Say("decades.beyond", nil)
	}
	return kit.Stack(b, kit.Paragraphs(inTest, kit.SmallFace, width))
}

// isBeyond reports whether the test that was done can't show a goal.
func (c *page) isBeyond(goal scoring.Goal) bool {
	turnsBack := !c.best.Measured() && !c.best.Test.Fallback && !c.best.Equation.NoTarget
	return !goal.Reached && turnsBack && c.tellsTargets() && c.inTest(goal) == ""
}

// beyondWords name a test that can show goals beyond the one that was done.
func (c *page) beyondWords(st standing) string {
	for _, d := range st.decades {
		if !slices.ContainsFunc(d.Goals, c.isBeyond) {
			continue
		}
		switch other, ok := fieldtests.Higher(c.score); {
		case !ok:
			return ""
		case other == c.best.Test:
			return c.Say("decades.beyond.stage", nil)
		default:
			return c.Say("decades.beyond.test", kit.Words{"Test": c.Declared().Test(other)})
		}
	}
	return ""
}

// tellsTargets reports whether goals are put in terms of the test.
func (c *page) tellsTargets() bool { return len(c.adults) < 2 || !c.spares(spareTargets) }

// inTest returns the result in the person's test that reaches a goal, in words.
func (c *page) inTest(goal scoring.Goal) string {
	if !c.tellsTargets() {
		return ""
	}
	return c.Declared().Target(c.best.Test, goal.InTest)
}

// valueCell sets a value with its mark and a word.
func (c decadesChapter) valueCell(value string, w kit.Weight, reached bool, word string) kit.Block {
	look := kit.BodyFace.With(w)
	return kit.Draw(look.Leading(), func(s *kit.Sheet, x, y float64) {
		base := y + look.Baseline()
		end := s.Write(x, base, value, look)
		if reached {
			kit.Tick(s, end+5, base-6.4, 6.8, kit.Petrol)
		} else {
			kit.Ring(s, end+8.4, base-3, 2.5, kit.Soft, 0.9)
		}
		s.Write(end+15, base, word, kit.SmallFace)
	})
}

// targetRows returns, for a squad, the rows under each decade: one for every
// field test with a goal left to reach, with the results that reach it. It
// returns nil if there are none.
func (c decadesChapter) targetRows(st standing, width float64) []kit.Block {
	if !c.dense() || !c.tellsTargets() {
		return nil
	}
	var rows []kit.Block
	for _, e := range c.estimates() {
		if e.Measured() || e.Test.Fallback || e.Equation.NoTarget {
			continue
		}
		for i, targets := range e.Targets(st.Standing) {
			row, _ := st.Table.Row(st.Sex, st.decades[i].Ages.Min)
			if row.Group(e.VO2) == reference.Highest {
				continue
			}
			if rows == nil {
				rows = make([]kit.Block, len(st.decades))
			}
			rows[i] = kit.Stack(rows[i], c.targetRow(e, st, i, targets, width))
		}
	}
	return rows
}

func (c decadesChapter) targetRow(e *scoring.Estimate, st standing, decade int, targets []scoring.Target, width float64) kit.Block {
	name := c.Declared().Test(e.Test)
	for _, t := range targets {
		if t.OK {
			name = c.Declared().Phrase(e.Test, t.Result.Input, "…")
		}
	}
	cell := (c.Width - decadeLabelWidth) / float64(len(targets))
	columns := []kit.Column{kit.At(0, kit.Paragraphs(name, kit.SmallFace, decadeLabelWidth-6))}
	row, _ := st.Table.Row(st.Sex, st.decades[decade].Ages.Min)
	for j, goal := range st.decades[decade].Goals {
		target := targets[j]
		var content kit.Block
		switch {
		case row.Group(e.VO2) >= goal.Group:
			content = kit.Draw(kit.SmallFace.Leading(), func(s *kit.Sheet, x, y float64) {
				kit.Tick(s, x+0.5, y+kit.SmallFace.Baseline()-5.4, 5.6, kit.Petrol)
			})
		case target.OK:
			content = kit.Paragraphs(c.Declared().TargetValue(target), kit.SmallFace.With(kit.Bold).In(kit.Ink), width)
		default:
			content = kit.Paragraphs(c.Say("decades.beyond", nil), kit.SmallFace, width)
		}
		columns = append(columns, kit.At(decadeLabelWidth+float64(j)*cell, content))
	}
	return kit.Beside(columns...)
}

package pdfreport

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

// targetRows are, for a squad, the rows under each decade: one for every field
// test done that leaves a goal to reach, with the results that reach it. nil
// where there is none to show.
func (c decadesChapter) targetRows(st standing, width float64) []block {
	if !c.dense() || !c.tellsTargets() {
		return nil
	}
	var rows []block
	for _, e := range c.firstOfEachTest() {
		if e.Measured() || e.Test.Fallback || e.Equation.NoTarget {
			continue
		}
		for i, targets := range e.Targets(st.Standing) {
			row, _ := st.Table.Row(st.Sex, st.decades[i].Ages.Min)
			if row.Group(e.VO2) == reference.Elite {
				continue
			}
			if rows == nil {
				rows = make([]block, len(st.decades))
			}
			rows[i] = append(rows[i], c.targetRow(e, st, i, targets, width))
		}
	}
	return rows
}

// targetRow is one test's row under a decade.
func (c decadesChapter) targetRow(e *scoring.Estimate, st standing, decade int, targets []scoring.Target, width float64) piece {
	name := c.declared().Test(e.Test)
	for _, t := range targets {
		if t.OK {
			name = c.declared().Phrase(e.Test, t.Result.Input, "…")
		}
	}
	cell := (c.width - decadeLabelWidth) / float64(len(targets))
	columns := []column{{0, paragraphs(name, smallFace, decadeLabelWidth-6)}}
	row, _ := st.Table.Row(st.Sex, st.decades[decade].Ages.Min)
	for j, goal := range st.decades[decade].Goals {
		target := targets[j]
		var content block
		switch {
		case row.Group(e.VO2) >= goal.Group:
			content = block{{smallFace.leading(), func(s *sheet, x, y float64) {
				s.tick(x+0.5, y+smallFace.baseline()-5.4, 5.6, petrol)
			}}}
		case target.OK:
			content = paragraphs(c.declared().TargetValue(target), smallFace.with(bold).in(ink), width)
		default:
			content = paragraphs(c.say("decades.beyond", nil), smallFace, width)
		}
		columns = append(columns, column{decadeLabelWidth + float64(j)*cell, content})
	}
	return beside(columns...)
}

package person

import (
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/reference"
)

// targetRows returns, for a squad, the rows under each decade: one for every
// field test with a goal left to reach, with the results that reach it. It
// returns nil if there are none.
func (c decadesChapter) targetRows(st standing, width float64) []kit.Block {
	if !c.dense() || !c.tellsTargets() {
		return nil
	}
	var rows []kit.Block
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

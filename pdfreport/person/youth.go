package person

import (
	"tenback/pdfreport/kit"
	"tenback/scoring/reference"
)

type healthLineChapter struct{ *page }

// lay compares a young person's number with the health line, and with nothing
// else.
func (c healthLineChapter) lay() kit.Block {
	b := c.Heading("youth.line.heading")
	if len(c.score.Youth) == 0 {
		return kit.Stack(b, c.Text(c.Say("youth.line.none", nil)))
	}
	low, high := c.best.Likely()
	var lines []refLine
	var text string
	below, bothSides := false, false
	for _, h := range c.score.Youth {
		slots := kit.Words{"Sex": sexWord(h.Sex), "Line": float64(h.Line)}
		if h.Above {
			text += c.Say("youth.line.above", slots) + " "
		} else {
			below = true
			text += c.Say("youth.line.below", slots) + " "
			// A result far away would only discourage.
			if target := c.Declared().Target(c.best.Test, h.InTest); target != "" && h.Line <= high {
				text += c.Say("youth.line.target", kit.Words{"InTest": target}) + " "
			}
		}
		bothSides = bothSides || (low < h.Line && h.Line <= high)
		label := c.Say("youth.line.label", kit.Words{"Line": float64(h.Line)})
		if len(c.score.Youth) > 1 {
			label = c.Say("youth.line.label.sex", slots)
		}
		lines = append(lines, refLine{float64(h.Line), label})
	}
	if bothSides {
		text += c.Say("youth.line.both-sides", nil)
	}
	meaning := kit.Pick(below, "youth.line.below.meaning", "youth.line.above.meaning")
	if len(c.score.Youth) > 1 {
		b = kit.Stack(b, c.Text(c.Say("youth.line.both", nil)), kit.Space(2))
	}
	b = kit.Stack(b, c.Text(text), kit.Space(5), c.lineScale(axisAround(lines, low, high, c.Width), lines), kit.Space(5))
	if study := c.score.Youth[0].Source; study != reference.YouthTables[0].ID {
		b = kit.Stack(b, kit.Paragraphs(c.Say("youth.line.study", kit.Words{"Study": study}), kit.SmallFace, c.Width), kit.Space(2))
	}
	return kit.Stack(b, c.Text(c.Say(meaning, nil)))
}

func (c healthLineChapter) cites() []string {
	var keys []string
	for _, h := range c.score.Youth {
		keys = append(keys, h.Source)
	}
	return keys
}

type growthChapter struct{ *page }

// lay explains what growing and effort do to the number.
func (c growthChapter) lay() kit.Block {
	return kit.Stack(c.Heading("youth.growth.heading"), c.Text(c.Say("youth.growth", nil)), kit.Space(3.5), c.Text(c.Say("youth.effort", nil)))
}

type helpsChapter struct{ *page }

// lay says what the family can do.
func (c helpsChapter) lay() kit.Block {
	b := c.Heading("youth.helps.heading")
	if c.score.SeeClinicianFirst() {
		b = kit.Stack(b, c.Text(c.Say("youth.helps.doctor", nil)), kit.Space(3.5))
	}
	b = kit.Stack(b, c.Text(c.Say("youth.helps", nil)))
	if c.unscored() {
		return b
	}
	b = kit.Stack(b, kit.Space(3.5))
	return kit.Stack(b, c.Text(c.sayAgain(c.againKey())))
}

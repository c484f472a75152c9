package pdfreport

import "tenback/scoring/reference"

type healthLineChapter struct{ *page }

// healthLine sets a young person's number against the health line: at or
// above it, or below, and nothing else.
func (c healthLineChapter) lay() block {
	b := c.heading("youth.line.heading")
	if len(c.score.Youth) == 0 {
		return append(b, c.text(c.say("youth.line.none", nil))...)
	}
	low, high := c.best.Likely()
	var lines []refLine
	var text string
	below, bothSides := false, false
	for _, h := range c.score.Youth {
		slots := words{"Sex": sexWord(h.Sex), "Line": float64(h.Line)}
		if h.Above {
			text += c.say("youth.line.above", slots) + " "
		} else {
			below = true
			text += c.say("youth.line.below", slots) + " "
			if target := c.declared().Target(c.best.Test, h.InTest); target != "" && !c.clinicianFirst() {
				text += c.say("youth.line.target", words{"InTest": target}) + " "
			}
		}
		bothSides = bothSides || (low < h.Line && h.Line <= high)
		label := c.say("youth.line.label", words{"Line": float64(h.Line)})
		if len(c.score.Youth) > 1 {
			label = c.say("youth.line.label.sex", slots)
		}
		lines = append(lines, refLine{float64(h.Line), label})
	}
	if bothSides {
		text += c.say("youth.line.both-sides", nil)
	}
	meaning := "youth.line.above.meaning"
	if below {
		meaning = "youth.line.below.meaning"
	}
	if len(c.score.Youth) > 1 {
		b = append(b, c.text(c.say("youth.line.both", nil))...)
		b = append(b, space(2))
	}
	b = append(b, c.text(text)...)
	b = append(b, space(5), c.lineScale(axisAround(lines, low, high, c.width), lines), space(5))
	if study := c.score.Youth[0].Source; study != reference.YouthTables[0].ID {
		b = append(b, paragraphs(c.say("youth.line.study", words{"Study": study}), smallFace, c.width)...)
		b = append(b, space(2))
	}
	return append(b, c.text(c.say(meaning, nil))...)
}

func (c healthLineChapter) cites() []string {
	var keys []string
	for _, h := range c.score.Youth {
		keys = append(keys, h.Source)
	}
	return keys
}

type growthChapter struct{ *page }

// growth explains what growing and trying do to the number.
func (c growthChapter) lay() block {
	b := append(c.heading("youth.growth.heading"), c.text(c.say("youth.growth", nil))...)
	b = append(b, space(3.5))
	return append(b, c.text(c.say("youth.effort", nil))...)
}

type helpsChapter struct{ *page }

// helps is what the family can do.
func (c helpsChapter) lay() block {
	b := c.heading("youth.helps.heading")
	if c.clinicianFirst() {
		b = append(b, c.text(c.say("youth.helps.doctor", nil))...)
		b = append(b, space(3.5))
	}
	b = append(b, c.text(c.say("youth.helps", nil))...)
	b = append(b, space(3.5))
	again := "next.again"
	if c.clinicianFirst() {
		again = "youth.again.doctor"
	}
	return append(b, c.text(c.sayAgain(again))...)
}

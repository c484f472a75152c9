package pdfreport

// balanceFrom is the age in whole years from which balance training is
// advised.
//
// Source: the World Health Organization's guidelines of 2020.
const balanceFrom = 65

// next is what the person can do: general advice from published guidance, one
// step in the terms of the test, and when to test again.
func (c *composer) next() block {
	b := c.heading("next.heading")
	add := func(text string) {
		if len(b) > 2 {
			b = append(b, space(3.5))
		}
		b = append(b, c.text(text)...)
	}
	add(c.say("next.move", nil))
	add(c.say("next.strength", nil))
	if c.years >= balanceFrom {
		add(c.say("next.balance", nil))
	}
	if len(c.score.Adults) == 1 && c.score.Adults[0].Next != nil {
		goal := c.score.Adults[0].Next
		add(c.say("next.goal", words{"Group": c.groupName(goal.Group), "Opens": float64(goal.VO2), "InTest": typeset(goal.InTest.String())}))
	}
	if c.best.Test.Fallback {
		add(c.say("next.get-tested", nil))
	} else {
		add(c.say("next.again", nil))
	}
	return b
}

// cautions says what the page is not, who should see a clinician first, and
// when to stop.
func (c *composer) cautions() block {
	prefix := ""
	if c.youth {
		prefix = "youth."
	}
	width := c.width - 2*panelInset
	inner := c.fonts.paragraphs(c.say(prefix+"cautions.heading", nil), headingFace, width)
	for _, key := range []string{"cautions.stop", "cautions.before", "cautions.estimate"} {
		inner = append(inner, space(3.5))
		inner = append(inner, c.fonts.paragraphs(c.say(prefix+key, nil), bodyFace, width)...)
	}
	return panel(inner, c.width, mist, petrol)
}

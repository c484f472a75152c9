package person

import (
	"slices"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/outlook"
	"tenback/scoring/reference"
	"tenback/templates"
)

// balanceFrom is the age in whole years from which balance training is advised.
//
// Source: who2020.
const balanceFrom = 65

type nextChapter struct{ *page }

// lay gives advice from published guidance, one goal in terms of the test, and
// when to test again.
func (c nextChapter) lay() kit.Block {
	b := c.Heading(kit.Pick(c.unscored(), "unscored.helps.heading", "next.heading"))
	add := func(text string) {
		if len(b) > 2 {
			b = kit.Stack(b, kit.Space(3.5))
		}
		b = kit.Stack(b, c.Text(text))
	}
	if c.score.SeeClinicianFirst() {
		add(c.Say("next.clinician", nil))
	}
	if c.audience == templates.School {
		add(c.Say("youth.effort", nil))
	}
	add(c.Say("next.move", nil))
	if mean, ok := c.trainingGain(); ok {
		add(c.Say("next.gain", kit.Words{"Mean": float64(mean)}))
	}
	add(c.Say("next.strength", nil))
	if c.years >= balanceFrom {
		add(c.Say("next.balance", nil))
	}
	if len(c.adults) == 1 && c.adults[0].Next != nil && !c.score.SeeClinicianFirst() && !c.spares(spareSmallPrint) {
		st := c.adults[0]
		add(c.Say("next.goal", kit.Words{"Group": c.groupName(st.Table, st.Next.Group), "Opens": float64(st.Next.VO2), "InTest": c.inTest(*st.Next)}))
	}
	if c.unscored() {
		return b // what to do next is said above
	}
	add(c.sayAgain(c.againKey()))
	return b
}

// sayAgain says a block on the next test, and what would count as a change.
func (c *page) sayAgain(key string) string {
	if key != "next.again" {
		return c.Say(key, nil)
	}
	return c.Say(key, kit.Words{"Least": float64(change.SmallestReal(c.best))})
}

// againKey returns the block on the next test.
func (c *page) againKey() string {
	switch {
	case c.score.SeeClinicianFirst():
		return kit.Pick(c.youth, "youth.again.doctor", "next.again.clinician")
	case c.score.Advice() == scoring.NotAllOut:
		return "next.again.talk"
	case c.norm != nil:
		return "next.again.norm"
	case c.best.Test.Fallback:
		return "next.get-tested"
	}
	return "next.again"
}

// trainingGain returns what training brought people who did not train. It is not
// for the two upper groups, who are past the start of that study, nor for a
// school, whose pages speak of effort instead, nor before a clinician agrees.
func (c *facts) trainingGain() (mean scoring.VO2, ok bool) {
	if c.audience == templates.School || len(c.adults) == 0 || c.score.SeeClinicianFirst() || slices.ContainsFunc(c.adults, func(st standing) bool { return st.Group > reference.Third }) {
		return 0, false
	}
	return outlook.Gain(c.score.Entry())
}

func (c nextChapter) cites() []string {
	if _, ok := c.trainingGain(); ok {
		return []string{trainingStudy}
	}
	return nil
}

// trainingStudy is the source of what training brings.
const trainingStudy = "bouchard1999"

type cautionsChapter struct{ *page }

// exertion returns how hard the hardest test was that the person did.
func (c cautionsChapter) exertion() scoring.Exertion {
	hardest := scoring.AtRest
	for _, t := range c.score.Entry().Trials {
		hardest = max(hardest, t.Test.Exertion)
	}
	return hardest
}

// lay says what the page is not, who should see a clinician first, when to stop, and
// how hard the test may be.
func (c cautionsChapter) lay() kit.Block {
	prefix := ""
	if c.youth {
		prefix = "youth."
	}
	width := c.Width - 2*kit.PanelInset
	inner := kit.Paragraphs(c.Say(prefix+"cautions.heading", nil), c.HeadingFace(kit.Mist), width)
	texts := []string{c.Say(prefix+"cautions.stop", nil), c.Say(prefix+"cautions.before", nil), c.Say(prefix+"cautions.estimate", nil)}
	if hard := c.exertion(); hard != scoring.AtRest && !c.spares(spareTargets) {
		texts = slices.Insert(texts, 1, c.Say("cautions."+hard.ID(), kit.Words{"Youth": c.youth}))
	}
	for _, text := range texts {
		inner = kit.Stack(inner, kit.Space(3.5), kit.Paragraphs(text, kit.BodyFace, width))
	}
	return c.Panel(inner, c.Accent(), c.padding())
}

package pdfreport

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/reference"
	"tenback/templates"
)

// balanceFrom is the age in whole years from which balance training is
// advised.
//
// Source: who2020.
const balanceFrom = 65

type nextChapter struct{ *page }

// next is what the person can do: general advice from published guidance, one
// step in the terms of the test, and when to test again.
func (c nextChapter) lay() block {
	b := c.heading("next.heading")
	add := func(text string) {
		if len(b) > 2 {
			b = append(b, space(3.5))
		}
		b = append(b, c.text(text)...)
	}
	if c.clinicianFirst() {
		add(c.say("next.clinician", nil))
	}
	if c.audience == templates.School {
		add(c.say("youth.effort", nil))
	}
	add(c.say("next.move", nil))
	if mean, ok := c.trainingGain(); ok {
		add(c.say("next.gain", words{"Mean": float64(mean)}))
	}
	add(c.say("next.strength", nil))
	if c.years >= balanceFrom {
		add(c.say("next.balance", nil))
	}
	if len(c.adults) == 1 && c.adults[0].Next != nil && !c.clinicianFirst() && !c.spares(spareSmallPrint) {
		st := c.adults[0]
		add(c.say("next.goal", words{"Group": c.groupName(st.Table, st.Next.Group), "Opens": float64(st.Next.VO2), "InTest": c.inTest(*st.Next)}))
	}
	add(c.sayAgain(c.againKey()))
	return b
}

// sayAgain says a block on the next test, and what would count as a change.
func (c *page) sayAgain(key string) string {
	if key != "next.again" {
		return c.say(key, nil)
	}
	return c.say(key, words{"Least": float64(change.SmallestReal(c.best))})
}

// againKey is what is said of the next test.
func (c *page) againKey() string {
	switch {
	case c.clinicianFirst():
		return "next.again.clinician"
	case c.norm != nil:
		return "next.again.norm"
	case c.best.Test.Fallback:
		return "next.get-tested"
	}
	return "next.again"
}

// trainingGain is what training brought people who did not train: not told to
// those in the two upper groups, who are past where that study began, and not in
// a school, where trying hard is told of instead.
func (c *facts) trainingGain() (mean scoring.VO2, ok bool) {
	if c.audience == templates.School || len(c.adults) == 0 || slices.ContainsFunc(c.adults, func(st standing) bool { return st.Group > reference.AboveAverage }) {
		return 0, false
	}
	return scoring.TrainingGain(c.score.Entry())
}

func (c nextChapter) cites() []string {
	if _, ok := c.trainingGain(); ok {
		return []string{trainingStudy}
	}
	return nil
}

// trainingStudy found what training brings.
const trainingStudy = "bouchard1999"

type cautionsChapter struct{ *page }

// cautions says what the page is not, who should see a clinician first, and
// when to stop.
func (c cautionsChapter) lay() block {
	prefix := ""
	if c.youth {
		prefix = "youth."
	}
	width := c.width - 2*panelInset
	inner := paragraphs(c.say(prefix+"cautions.heading", nil), c.headingFace(mist), width)
	for _, key := range []string{"cautions.stop", "cautions.before", "cautions.estimate"} {
		inner = append(inner, space(3.5))
		inner = append(inner, paragraphs(c.say(prefix+key, nil), bodyFace, width)...)
	}
	return c.panel(inner, c.accent(), c.padding())
}

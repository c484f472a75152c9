package person

import (
	"math"
	"slices"
	"strings"

	"tenback/pdfreport/chart"
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/templates"
)

type changeChapter struct{ *page }

// lay says what changed since an earlier test, and draws the dates.
func (c changeChapter) lay() kit.Block {
	if c.review == nil {
		return nil
	}
	first, further := c.changeWords()
	if first+further == "" {
		return nil
	}
	b := c.Heading("change.heading")
	points := c.trendPoints()
	if len(points) < 2 || first == "" {
		return kit.Stack(b, c.Text(strings.Trim(first+"\n"+further, "\n")))
	}
	// The drawing is as high as the words beside it.
	width := (c.Width - kit.Gutter) / 2
	said := kit.Paragraphs(first, kit.BodyFace, width)
	note := kit.Paragraphs(c.trendNote(points), kit.SmallFace, width)
	drawn := kit.Stack(chart.Trend(points, c.Language.Number, width, said.Height()-note.Height()-4), kit.Space(4), note)
	b = kit.Stack(b, kit.Beside(kit.At(0, said), kit.At(width+kit.Gutter, drawn)))
	if further != "" {
		b = kit.Stack(b, kit.Space(3.5), c.Text(further))
	}
	return b
}

// changeWords returns a paragraph for each subject: first on the number, then on
// the rest.
func (c changeChapter) changeWords() (first, further string) {
	join := func(paragraphs ...[]string) string {
		var all []string
		for _, sentences := range paragraphs {
			if len(sentences) > 0 {
				all = append(all, strings.Join(sentences, " "))
			}
		}
		return strings.Join(all, "\n")
	}
	var goals []string
	if x := c.review.Comparison; x != nil && c.best != nil {
		if c.youth {
			first = join(c.verdictWords(x), c.growthWords(x), []string{c.Say("youth.change.effort", nil)})
		} else {
			first = join(c.verdictWords(x), c.scaleWords(x))
			goals = c.goalWords(x)
		}
	}
	if c.unscored() {
		first = join(c.unscoredSince()...)
	}
	return first, join(goals, c.pulseWords(), c.restingWords(), c.apartWords())
}

// verdictWords name the change, and how it was worked out where that may
// surprise.
func (c changeChapter) verdictWords(x *change.Comparison) []string {
	slots := kit.Words{"Before": float64(x.Earlier.VO2), "After": float64(x.Later.VO2), "From": x.From,
		"Difference": math.Abs(float64(x.Later.VO2.Tenths() - x.Earlier.VO2.Tenths())), "Chance": x.Percent(), "Smallest": float64(x.Smallest)}
	texts := []string{c.Say(c.forYouth("change."+x.Verdict.ID()), slots)}
	sameTest := x.Earlier.Test == x.Later.Test
	switch {
	case x.Basis != change.ByBothTests && !x.Headline:
		texts = append(texts, c.Say("change.by", kit.Words{"Test": c.Declared().Test(x.Later.Test), "Equation": c.Declared().Equation(x.Later.Equation)}))
	case x.Basis == change.ByBothTests && sameTest:
		texts = append(texts, c.Say("change.two-equations", nil))
	case x.Basis == change.ByBothTests:
		texts = append(texts, c.Say("change.two-tests", kit.Words{"Earlier": c.Declared().Test(x.Earlier.Test), "Later": c.Declared().Test(x.Later.Test)}))
	}
	if x.Practice > 0 && x.Difference > 0 {
		texts = append(texts, c.Say("change.practice", kit.Words{"Practice": float64(x.Practice)}))
	}
	if x.Assumed() {
		texts = append(texts, c.Say("change.assumed", nil))
	}
	return texts
}

// Smaller changes of mass (kg) and effects of ageing (mL/kg/min) are not worth a
// sentence.
const (
	tellsMassFrom   = 1.5
	tellsAgeingFrom = 0.3
)

// scaleWords compare the change with the effects of time and body mass.
func (c changeChapter) scaleWords(x *change.Comparison) []string {
	var texts []string
	if a := x.Ageing; a != nil && a.Fast >= tellsAgeingFrom {
		texts = append(texts, c.Say("change.ageing", kit.Words{"Slow": float64(a.Slow), "Fast": float64(a.Fast)}))
	}
	if m := x.Mass; m != nil && math.Abs(m.After.Amount-m.Before.Amount) >= tellsMassFrom {
		texts = append(texts, c.Say("change.mass", kit.Words{"Before": m.Before.Amount, "After": m.After.Amount}))
	}
	return texts
}

// growthWords explain to a family what growing does to the number.
func (c changeChapter) growthWords(x *change.Comparison) []string {
	m := x.Mass
	if m == nil || m.After.Amount-m.Before.Amount < tellsMassFrom {
		return nil // the chapter on growing says the rest
	}
	return []string{c.Say("youth.change.growth", kit.Words{"Before": m.Before.Amount, "After": m.After.Amount})}
}

// goalWords list goals of the decades reached, lost, and within reach. A school's
// page has none, because it has no ranks.
func (c changeChapter) goalWords(x *change.Comparison) []string {
	if c.audience == templates.School {
		return nil
	}
	lists := map[change.Reach][]string{}
	st := c.adults
	for _, g := range c.review.Goals {
		lists[g.Reach] = append(lists[g.Reach], c.Say("change.goal", kit.Words{"Group": c.groupName(st[0].Table, g.Group), "Younger": 10 * g.Younger}))
	}
	joined := func(r change.Reach) string { return strings.Join(lists[r], "; ") }
	sure := x.Verdict != change.Unclear
	var texts []string
	if goals := joined(change.ReachedSince); goals != "" {
		texts = append(texts, c.Say("change.goals.reached", kit.Words{"Goals": goals, "Sure": sure}))
	}
	if goals := joined(change.LostSince); goals != "" {
		texts = append(texts, c.Say("change.goals.lost", kit.Words{"Goals": goals, "Sure": sure}))
	}
	usual, large := joined(change.WithinTypical), joined(change.WithinMost)
	if year := c.review.InAYear; year != nil && usual+large != "" && !c.score.SeeClinicianFirst() && !c.spares(spareComparison) {
		texts = append(texts, c.Say("change.goals.year", kit.Words{"Typical": float64(year.Typical), "Most": float64(year.Most), "Usual": usual, "Large": large}))
	}
	return texts
}

// pulseWords compare heart rates at the same load.
func (c changeChapter) pulseWords() []string {
	var texts []string
	for _, p := range c.review.Pulse {
		key := map[change.Verdict]string{change.RealFall: "lower", change.ProbableFall: "probably-lower", change.Unclear: "same",
			change.ProbableRise: "same", change.RealRise: "higher"}[p.Verdict]
		if p.Large {
			key = "large"
		}
		var load []string
		for _, q := range p.Pace.Load {
			if q.Unit == scoring.KmPerHour {
				load = append(load, c.Say("change.load.speed", kit.Words{"Speed": q.Amount}))
			} else {
				load = append(load, c.Declared().Quantity(q))
			}
		}
		texts = append(texts, c.Say("change.pulse."+key, kit.Words{"Load": strings.Join(load, ", "), "Before": p.Before.Amount, "Now": p.Pace.Rate.Amount,
			"Difference": math.Abs(p.Difference), "Smallest": math.Ceil(p.Smallest)}))
	}
	if len(texts) > 0 {
		texts = append(texts, c.Say("change.pulse.causes", nil))
	}
	return texts
}

// apartWords say that the number and a pulse point in different ways.
func (c changeChapter) apartWords() []string {
	x := c.review.Comparison
	if x == nil || c.best == nil || c.onHeartRateDrug() {
		return nil
	}
	fell, rose := x.Verdict == change.RealFall || x.Verdict == change.ProbableFall, x.Verdict == change.RealRise || x.Verdict == change.ProbableRise
	r := c.review.Resting
	slower, faster := r != nil && r.Verdict == change.RestingLower, r != nil && (r.Verdict == change.RestingHigher || r.Verdict == change.RestingRecover)
	for _, p := range c.review.Pulse {
		slower = slower || p.Verdict == change.RealFall
		faster = faster || p.Verdict == change.RealRise
	}
	if fell && slower || rose && faster {
		return []string{c.Say("change.apart", nil)}
	}
	return nil
}

// restingWords say how the resting heart rate changed.
func (c changeChapter) restingWords() []string {
	r := c.review.Resting
	if r == nil || c.onHeartRateDrug() {
		return nil
	}
	key := map[change.RestingVerdict]string{change.RestingSame: "same", change.RestingLower: "lower", change.RestingHigher: "higher", change.RestingRecover: "recover"}[r.Verdict]
	key = "change.resting." + key
	if r.Verdict == change.RestingRecover {
		key = c.forYouth(key)
	}
	return []string{c.Say(key, kit.Words{"Before": r.Usual, "Now": r.Now, "Difference": math.Abs(r.Difference), "Mornings": r.Mornings})}
}

func (c changeChapter) cites() []string {
	if c.review == nil {
		return nil
	}
	var keys []string
	if x := c.review.Comparison; x != nil && c.best != nil {
		if x.Basis == change.ByRetest {
			keys = append(keys, x.Later.Equation.Retest.Source)
		}
		if x.Practice > 0 && x.Difference > 0 {
			keys = append(keys, x.Later.Equation.Retest.PracticeSource)
		}
	}
	if len(c.review.Pulse) > 0 {
		keys = append(keys, "lamberts2004")
	}
	return keys
}

// trendMaxPoints bounds the dates drawn; the last ones are kept.
const trendMaxPoints = 8

// trendPoints returns the dates with an estimate from a test, by the last date's
// equation if possible.
func (c changeChapter) trendPoints() []chart.Point {
	if c.best == nil || c.best.Test.Fallback {
		return nil
	}
	var all []chart.Point
	for _, d := range c.review.Line {
		estimates := d.Score.Estimates
		at := slices.IndexFunc(estimates, func(e scoring.Estimate) bool { return e.Equation == c.best.Equation })
		alike := at >= 0
		if !alike {
			at = slices.IndexFunc(estimates, func(e scoring.Estimate) bool { return !e.Test.Fallback })
		}
		if at < 0 {
			continue
		}
		low, high := estimates[at].Likely()
		all = append(all, chart.Point{Day: d.Day, Written: c.Say("change.chart.day", kit.Words{"Day": d.Day}),
			Value: float64(estimates[at].VO2), Low: float64(low), High: float64(high), Alike: alike})
	}
	return all[max(0, len(all)-trendMaxPoints):]
}

// trendNote explains the drawing.
func (c changeChapter) trendNote(points []chart.Point) string {
	other := slices.ContainsFunc(points, func(p chart.Point) bool { return !p.Alike })
	return c.Say(kit.Pick(other, "change.chart.other", "change.chart"), nil)
}

package person

import (
	"math"
	"slices"
	"strings"
	"time"

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
	points := trend(c).points()
	if len(points) < 2 || first == "" {
		return kit.Stack(b, c.Text(strings.Trim(first+"\n"+further, "\n")))
	}
	// The drawing is as high as the words beside it.
	width := (c.Width - kit.Gutter) / 2
	said := kit.Paragraphs(first, kit.BodyFace, width)
	note := kit.Paragraphs(trend(c).note(points), kit.SmallFace, width)
	room := max(trendLeast, min(trendMost, said.Height()-note.Height()-4))
	chart := kit.Stack(trend(c).chart(points, width, room), kit.Space(4), note)
	b = kit.Stack(b, kit.Beside(kit.At(0, said), kit.At(width+kit.Gutter, chart)))
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
	if x := c.review.Comparison; x != nil && c.norm == nil {
		if c.youth {
			first = join(c.verdictWords(x), c.growthWords(x), []string{c.Say("youth.change.effort", nil)})
		} else {
			first = join(c.verdictWords(x), c.scaleWords(x))
			goals = c.goalWords(x)
		}
	}
	return first, join(goals, c.pulseWords(), c.restingWords())
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

// scaleWords compare the change with what training brings and with the effects of
// time and body mass.
func (c changeChapter) scaleWords(x *change.Comparison) []string {
	var texts []string
	if c.tellsTraining() {
		texts = append(texts, c.Say("change.training", kit.Words{"Mean": float64(x.Training.Mean), "Most": float64(x.Training.Most)}))
	}
	if a := x.Ageing; a != nil && a.Fast >= tellsAgeingFrom {
		texts = append(texts, c.Say("change.ageing", kit.Words{"Slow": float64(a.Slow), "Fast": float64(a.Fast)}))
	}
	if m := x.Mass; m != nil && math.Abs(m.After.Amount-m.Before.Amount) >= tellsMassFrom {
		texts = append(texts, c.Say("change.mass", kit.Words{"Before": m.Before.Amount, "After": m.After.Amount}))
	}
	return texts
}

// tellsTraining reports whether the change is compared with what training brings.
// It is not where the page says that further down, nor in a school.
func (c changeChapter) tellsTraining() bool {
	if c.review == nil || c.review.Comparison == nil || c.norm != nil || c.youth || c.review.Comparison.Training == nil || c.audience == templates.School {
		return false
	}
	_, below := c.trainingGain()
	return !below && !c.spares(spareSmallPrint)
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
	if c.tellsTraining() {
		keys = append(keys, trainingStudy)
	}
	if x := c.review.Comparison; x != nil && c.norm == nil {
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

// Dimensions of the drawing.
const (
	trendLeast = 96.0  // height
	trendMost  = 150.0 // at most
	trendHead  = 13.0  // number over the highest bar
	trendFoot  = 15.0  // days
	trendSide  = 24.0  // from the edges to the first and last date
	trendGrid  = 5.0   // mL/kg/min between lines, or twice that
)

// trend draws the dates of a person's tests.
type trend struct{ *page }

type trendPoint struct {
	day   time.Time
	value scoring.VO2
	low   scoring.VO2
	high  scoring.VO2
	// worked out by the equation of the last date
	alike bool
}

// trendMaxPoints bounds the dates drawn; the last ones are kept.
const trendMaxPoints = 8

// points returns the dates with an estimate from a test, by the last date's
// equation if possible.
func (c trend) points() []trendPoint {
	if c.norm != nil || c.best == nil || c.best.Test.Fallback {
		return nil
	}
	var all []trendPoint
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
		all = append(all, trendPoint{d.Day, estimates[at].VO2, low, high, alike})
	}
	return all[max(0, len(all)-trendMaxPoints):]
}

// note explains the drawing.
func (c trend) note(points []trendPoint) string {
	if slices.ContainsFunc(points, func(p trendPoint) bool { return !p.alike }) {
		return c.Say("change.chart.other", nil)
	}
	return c.Say("change.chart", nil)
}

// chart draws the dates from left to right, each with its likely range. A line
// joins points of one equation.
func (c trend) chart(points []trendPoint, width, height float64) kit.Block {
	days, values, step := trendAxes(points, width, height)
	at := func(p trendPoint) (x float64) { return trendSide + days.At(p.day.Sub(points[0].day).Hours()) }
	foot := height - trendFoot
	up := func(v float64) float64 { return foot - values.At(v) }
	labels := c.days(points, at, width)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		for v := math.Ceil(values.Lo/step) * step; v <= values.Hi; v += step {
			s.Rule(x, y+up(v), x+width, y+up(v), kit.Hairline, 0.4)
			s.Write(x, y+up(v)-1.6, c.Language.Number(v, 0), kit.SmallFace)
		}
		s.Rule(x, y+foot, x+width, y+foot, kit.Ink, 0.8)
		for i := 1; i < len(points); i++ {
			if a, b := points[i-1], points[i]; a.alike && b.alike {
				s.Rule(x+at(a), y+up(float64(a.value)), x+at(b), y+up(float64(b.value)), kit.Soft, 0.9)
			}
		}
		for i, p := range points {
			middle, low, high := x+at(p), y+up(float64(p.low)), y+up(float64(p.high))
			last := i == len(points)-1
			dark, light := kit.Soft, kit.Mist
			if last {
				dark, light = kit.Copper, kit.CopperTwo
			}
			s.Box(middle-bandHeight/2, high, bandHeight, low-high, light)
			for _, end := range []float64{low, high} {
				s.Rule(middle-bandHeight/2-1, end, middle+bandHeight/2+1, end, dark, 0.9)
			}
			s.Rule(middle, low, middle, high, dark, 0.6)
			value := y + up(float64(p.value))
			switch {
			case last:
				kit.Diamond(s, middle, value, diamondRadius, kit.Copper)
			case p.alike:
				s.Box(middle-2.4, value-2.4, 4.8, 4.8, dark)
			default:
				kit.Ring(s, middle, value, 2.8, dark, 1.1)
			}
			look := kit.SmallFace.In(dark).With(kit.Bold)
			s.WriteCentred(middle, high-3.5, c.Language.Number(float64(p.value), 1), look)
			s.Rule(middle, y+foot, middle, y+foot+3, kit.Ink, 0.8)
		}
		for _, l := range labels {
			s.WriteCentred(x+l.At, y+foot+11, l.Text, l.Face)
		}
	})
}

// trendAxes spans the dates and the ranges, and returns the step of the grid.
func trendAxes(points []trendPoint, width, height float64) (days, values kit.Axis, step float64) {
	first, last := points[0], points[len(points)-1]
	days = kit.Axis{Lo: 0, Hi: max(1, last.day.Sub(first.day).Hours()), Width: width - 2*trendSide}
	low, high := float64(first.low), float64(first.high)
	for _, p := range points {
		low, high = min(low, float64(p.low)), max(high, float64(p.high))
	}
	values = kit.Axis{Lo: low - 1.5, Hi: high, Width: height - trendFoot - trendHead}
	step = trendGrid
	if high-low > 6*trendGrid {
		step *= 2
	}
	return days, values, step
}

// days returns the days under the drawing: the first, the last, and others where
// there is space.
func (c trend) days(points []trendPoint, at func(trendPoint) float64, width float64) []kit.Label {
	written := func(p trendPoint) kit.Label {
		return kit.Labelled(at(p), c.Say("change.chart.day", kit.Words{"Day": p.day}), kit.SmallFace)
	}
	first, last := written(points[0]), written(points[len(points)-1])
	kept := []kit.Label{first}
	for _, p := range points[1 : len(points)-1] {
		l, before := written(p), kept[len(kept)-1]
		if l.At-l.Width/2 > before.At+before.Width/2+5 && l.At+l.Width/2 < last.At-last.Width/2-5 {
			kept = append(kept, l)
		}
	}
	return kit.Spread(append(kept, last), 5, width)
}

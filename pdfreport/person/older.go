package person

import (
	"math"
	"strings"

	"tenback/pdfreport/chart"
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/outlook"
)

// independenceFrom is the age in whole years from which the page has the chapter
// on living independently, early enough to act on it.
const independenceFrom = 50

// readsIndependence reports whether the page has that chapter.
func (c *facts) readsIndependence() bool { return c.best != nil && c.years >= independenceFrom }

type olderChapter struct{ *page }

// lay compares the number with the demands of living on one's own, now and at 80
// and 90.
func (c olderChapter) lay() kit.Block {
	if !c.readsIndependence() {
		return nil
	}
	age, _ := c.score.Entry().Get(scoring.Age)
	low, high := c.best.Likely()
	sexes := c.sexes()
	var lines []refLine
	texts := []string{c.Say("older.intro", nil)}
	var ahead []string
	buildUp := false
	for _, sex := range sexes {
		line := scoring.Independence(sex)
		key, margin := "older.above", c.best.VO2.Tenths()-line.Tenths()
		switch {
		case c.best.VO2 < line:
			key, buildUp = "older.below", true
		case low < line:
			key, buildUp = "older.close", true
		}
		slots := kit.Words{"Sex": sexWord(sex), "Line": float64(line), "Margin": math.Abs(float64(margin))}
		texts = append(texts, c.Say(key, slots))
		label := c.Say("older.line", kit.Words{"Line": float64(line)})
		if len(sexes) > 1 {
			label = c.Say("older.line.sex", kit.Words{"Sex": sexWord(sex), "Line": float64(line)})
		}
		lines = append(lines, refLine{float64(line), label})
		ahead = append(ahead, c.aheadWords(len(ahead) == 0, sex)...)
	}
	if buildUp {
		texts = append(texts, c.Say("older.build-up", nil))
	}
	text := strings.Join(texts, " ")
	if len(ahead) > 0 {
		text += "\n" + strings.Join(append(ahead, c.Say("older.no-promise", nil)), " ")
	}
	b := c.Heading("older.heading")
	switch {
	case c.spares(spareOutlook):
		return kit.Stack(b, c.Text(text))
	case len(sexes) == 1 && len(ahead) > 0:
		// The drawing is as high as the words beside it.
		width := (c.Width - kit.Gutter) / 2
		said := kit.Paragraphs(text, kit.BodyFace, width)
		drawn := c.outlook(sexes[0], age.Amount, lines[0]).Draw(c.Language.Number, width, said.Height())
		return kit.Stack(b, kit.Beside(kit.At(0, said), kit.At(width+kit.Gutter, drawn)))
	}
	return kit.Stack(b, c.Text(text), kit.Space(4), c.lineScale(axisAround(lines, low, high, c.Width), lines))
}

// outlooks returns the ages to come that the page looks at. There are none for
// someone below the line, who needs no forecast to start building up.
func (c olderChapter) outlooks(sex scoring.Sex) []outlook.Later {
	below := c.best.VO2 < scoring.Independence(sex)
	if !c.readsIndependence() || below || len(c.sexes()) > 1 && c.spares(spareComparison) {
		return nil
	}
	age, _ := c.score.Entry().Get(scoring.Age)
	return outlook.LaterFor(c.best, sex, age.Amount)
}

// aheadWords says the usual pace of decline and the values needed now to be above
// the line later. What holds for both sexes is said with the first.
func (c olderChapter) aheadWords(first bool, sex scoring.Sex) []string {
	outlooks := c.outlooks(sex)
	if outlooks == nil {
		return nil
	}
	slow, fast := outlook.Decline(sex)
	key := kit.Pick(!first, "older.decline.sex", "older.decline")
	texts := []string{c.Say(key, kit.Words{"Sex": sexWord(sex), "Slow": float64(10 * slow), "Fast": float64(10 * fast)})}
	for _, o := range outlooks {
		state := "within"
		switch {
		case o.Reached:
			state = "above"
		case o.OutOfReach:
			state = "below"
		}
		texts = append(texts, c.Say("older.need", kit.Words{"At": o.At, "NeedSlow": float64(o.NeedSlow), "NeedFast": float64(o.NeedFast), "State": state}))
	}
	return texts
}

// outlook returns the drawing of the value now, and of a slow and a fast decline over
// the line of independent living.
func (c olderChapter) outlook(sex scoring.Sex, age float64, line refLine) chart.Outlook {
	slow, fast := outlook.Decline(sex)
	low, high := c.best.Likely()
	named := func(key string) func(float64) string {
		return func(v float64) string { return c.Say(key, kit.Words{"Value": v}) }
	}
	return chart.Outlook{Age: age, Years: c.years, Value: float64(c.best.VO2), Low: float64(low), High: float64(high), Slow: float64(slow), Fast: float64(fast),
		Line: line.at, LineName: line.text, YearsName: c.Say("older.years", nil), You: named("scale.you"), SlowName: named("older.slow"), FastName: named("older.fast")}
}

// refLine is a line to read a value against.
type refLine struct {
	at   float64
	text string
}

// axisAround spans lines and the likely range, with space at both sides.
func axisAround(lines []refLine, low, high scoring.VO2, width float64) kit.Axis {
	lo, hi := float64(low), float64(high)
	for _, l := range lines {
		lo, hi = min(lo, l.at), max(hi, l.at)
	}
	room := max(6, 0.18*(hi-lo))
	return kit.Axis{Lo: max(0, lo-room), Hi: hi + room, Width: width}
}

// lineScale draws the likely range over an axis with one or two lines.
func (c *page) lineScale(a kit.Axis, lines []refLine) kit.Block {
	low, high := c.best.Likely()
	drawYou := c.you(a, float64(c.best.VO2), float64(low), float64(high))
	var labels []kit.Label
	for _, l := range lines {
		labels = append(labels, kit.Labelled(a.At(l.at), l.text, kit.BodyFace.With(kit.Bold).In(kit.Petrol)))
	}
	if len(labels) == 2 && labels[0].At > labels[1].At {
		labels[0], labels[1] = labels[1], labels[0]
		lines = []refLine{lines[1], lines[0]}
	}
	labels = kit.Spread(labels, 8, a.Width)
	const bar = 9.0
	return kit.Draw(youHeight+bar+kit.TickLength+13, func(s *kit.Sheet, x, y float64) {
		top := y + youHeight
		s.Box(x, top, a.Width, bar, kit.GroupTones[0])
		from := a.At(lines[len(lines)-1].at)
		s.Box(x+from, top, a.Width-from, bar, kit.GroupTones[2])
		if len(lines) == 2 {
			first := a.At(lines[0].at)
			s.Box(x+first, top, from-first, bar, kit.GroupTones[1])
		}
		drawYou(s, x, y, top, top+bar)
		for i, l := range lines {
			at := x + a.At(l.at)
			s.Rule(at, top-4, at, top+bar+kit.TickLength, kit.Petrol, 2)
			s.WriteCentred(x+labels[i].At, top+bar+kit.TickLength+9.5, labels[i].Text, labels[i].Face)
		}
	})
}

func (c olderChapter) cites() []string {
	if !c.readsIndependence() {
		return nil
	}
	for _, sex := range c.sexes() {
		if c.outlooks(sex) != nil {
			return []string{"shephard2009", "paterson1999", "fleg2005"}
		}
	}
	return []string{"shephard2009"}
}

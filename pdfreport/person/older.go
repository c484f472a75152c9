package person

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/go-pdf/fpdf"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

// independenceFrom is the age in whole years from which the page has the chapter
// on living independently, early enough to act on it.
const independenceFrom = 50

// readsIndependence reports whether the page has that chapter.
func (c *facts) readsIndependence() bool { return c.norm == nil && c.years >= independenceFrom }

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
		chart := c.outlookChart(sexes[0], age.Amount, lines[0], width, max(outlookLeast, said.Height()))
		return kit.Stack(b, kit.Beside(kit.At(0, said), kit.At(width+kit.Gutter, chart)))
	}
	return kit.Stack(b, c.Text(text), kit.Space(4), c.lineScale(axisAround(lines, low, high, c.Width), lines))
}

// outlooks returns the ages to come that the page looks at. There are none for
// someone below the line, who needs no forecast to start building up.
func (c olderChapter) outlooks(sex scoring.Sex) []scoring.Outlook {
	below := c.best.VO2 < scoring.Independence(sex)
	if !c.readsIndependence() || below || len(c.sexes()) > 1 && c.spares(spareComparison) {
		return nil
	}
	age, _ := c.score.Entry().Get(scoring.Age)
	return scoring.OutlookFor(c.best, sex, age.Amount)
}

// aheadWords says the usual pace of decline and the values needed now to be above
// the line later. What holds for both sexes is said with the first.
func (c olderChapter) aheadWords(first bool, sex scoring.Sex) []string {
	outlooks := c.outlooks(sex)
	if outlooks == nil {
		return nil
	}
	slow, fast := scoring.Decline(sex)
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

// lastAge is the end of the outlook.
const lastAge = 90

// Dimensions of the drawing.
const (
	outlookLeft  = 10.0
	outlookRight = 92.0 // names of the edges
	outlookHead  = 12.0 // the reader's value
	outlookFoot  = 14.0 // ages
	outlookLeast = 100.0
	belowLine    = 8.0 // mL/kg/min shown below the line of independent living
)

// outlook is a value now and the wedge between a slow and a fast decline until
// lastAge.
type outlook struct {
	now, value, slow, fast, bottom float64
}

// at returns the value at an age after a yearly decline of pace.
func (o outlook) at(pace, age float64) float64 { return o.value - pace*(age-o.now) }

// edge returns where a decline leaves the drawing, at its right end or at its
// foot.
func (o outlook) edge(pace float64) (age, value float64) {
	if end := o.at(pace, lastAge); end >= o.bottom {
		return lastAge, end
	}
	return o.now + (o.value-o.bottom)/pace, o.bottom
}

// corners returns the corners of the wedge, as age and value.
func (o outlook) corners() [][2]float64 {
	slowAge, slowEnd := o.edge(o.slow)
	fastAge, fastEnd := o.edge(o.fast)
	corners := [][2]float64{{o.now, o.value}, {slowAge, slowEnd}}
	if slowAge == lastAge && fastAge < lastAge {
		corners = append(corners, [2]float64{lastAge, o.bottom})
	}
	return append(corners, [2]float64{fastAge, fastEnd})
}

// outlookChart draws the value and its likely range now, and a slow and a fast
// decline until 90, over the line of independent living.
func (c olderChapter) outlookChart(sex scoring.Sex, age float64, line refLine, width, height float64) kit.Block {
	foot := height - outlookFoot
	likelyLow, likelyHigh := c.best.Likely()
	value, low, high := float64(c.best.VO2), float64(likelyLow), float64(likelyHigh)
	o, ages, values := c.outlookAxes(sex, age, line, width, height)
	down := func(v float64) float64 { return foot - values.At(v) }
	you := kit.Labelled(0, c.Say("scale.you", kit.Words{"Value": value}), kit.BodyFace.With(kit.Bold).In(kit.Copper))
	ends := c.outlookEnds(o, line, height, down)
	axisTexts, years := c.outlookAges(ages), c.Say("older.years", nil)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		left := x + outlookLeft
		right := left + ages.Width
		var shape []fpdf.PointType
		for _, p := range o.corners() {
			shape = append(shape, fpdf.PointType{X: left + ages.At(p[0]), Y: y + down(p[1])})
		}
		s.Area(shape, kit.CopperTwo)
		for _, pace := range []float64{o.slow, o.fast} {
			toAge, toValue := o.edge(pace)
			s.Rule(left, y+down(o.value), left+ages.At(toAge), y+down(toValue), kit.Copper, 0.9)
		}
		s.Rule(left, y+foot, right, y+foot, kit.Ink, 0.8)
		for _, l := range axisTexts {
			s.Rule(left+l.tick, y+foot, left+l.tick, y+foot+kit.TickLength, kit.Ink, 0.8)
			s.WriteCentred(left+l.At, y+foot+kit.TickLength+8, l.Text, l.Face)
		}
		for _, l := range axisTexts[1:] {
			if l.age >= 80 {
				s.Dashed(left+l.tick, y+outlookHead+2, left+l.tick, y+foot, kit.Soft, 0.6)
			}
		}
		s.Write(right+9, y+foot+kit.TickLength+8, years, kit.SmallFace)
		s.Rule(left, y+down(line.at), right, y+down(line.at), kit.Petrol, 2)
		for _, e := range ends {
			s.Rule(right+1, y+e.from, right+6, y+e.middle, e.colour, 0.7)
			e.text.Draw(s, right+9, y+e.middle-e.text.Height()/2)
		}
		s.Box(left-bandHeight/2, y+down(high), bandHeight, down(low)-down(high), kit.CopperTwo)
		for _, end := range []float64{low, high} {
			s.Rule(left-bandHeight/2-1, y+down(end), left+bandHeight/2+1, y+down(end), kit.Copper, 1.1)
		}
		kit.Diamond(s, left, y+down(value), diamondRadius, kit.Copper)
		s.Write(left-bandHeight/2-1, y+8.5, you.Text, you.Face)
	})
}

// outlookAxes returns the wedge and the axes of its drawing, with ages to the
// right and values upwards.
func (c olderChapter) outlookAxes(sex scoring.Sex, age float64, line refLine, width, height float64) (o outlook, ages, values kit.Axis) {
	slow, fast := scoring.Decline(sex)
	low, high := c.best.Likely()
	o = outlook{now: age, value: float64(c.best.VO2), slow: float64(slow), fast: float64(fast)}
	o.bottom = math.Max(0, math.Min(math.Min(line.at-4, float64(low)-2), math.Max(line.at-belowLine, o.at(o.fast, lastAge)-2)))
	ages = kit.Axis{Lo: age, Hi: lastAge, Width: width - outlookLeft - outlookRight}
	values = kit.Axis{Lo: o.bottom, Hi: math.Max(float64(high), line.at), Width: height - outlookFoot - outlookHead}
	return o, ages, values
}

// outlookEnd is a text at the right of the drawing and the height of what it
// names.
type outlookEnd struct {
	from, middle float64
	text         kit.Block
	colour       kit.Colour
}

// outlookEnds returns the names of the edges of the wedge and of the line, moved
// apart.
func (c olderChapter) outlookEnds(o outlook, line refLine, height float64, down func(float64) float64) []outlookEnd {
	const width = outlookRight - 9
	entry := func(at float64, text string, f kit.Face) outlookEnd {
		return outlookEnd{from: down(at), text: kit.Lines(kit.BreakLines(text, kit.Regular, width/f.Size), f, width, kit.Left), colour: f.Colour}
	}
	ends := []outlookEnd{entry(line.at, line.text, kit.SmallFace.In(kit.Petrol))}
	for _, edge := range []struct {
		pace float64
		key  string
	}{{o.slow, "older.slow"}, {o.fast, "older.fast"}} {
		if age, value := o.edge(edge.pace); age == lastAge {
			ends = append(ends, entry(value, c.Say(edge.key, kit.Words{"Value": value}), kit.SmallFace.In(kit.Copper)))
		}
	}
	slices.SortStableFunc(ends, func(a, b outlookEnd) int { return cmp.Compare(a.from, b.from) })
	var heights []kit.Label
	for _, e := range ends {
		heights = append(heights, kit.Label{At: e.from, Width: e.text.Height()})
	}
	for i, l := range kit.Spread(heights, 1, height-outlookFoot) {
		ends[i].middle = l.At
	}
	return ends
}

// outlookAge is a number under the drawing and the place of its tick.
type outlookAge struct {
	kit.Label
	age, tick float64
}

// outlookAges returns the ages under the drawing: now, and every ten years where
// there is space.
func (c olderChapter) outlookAges(a kit.Axis) []outlookAge {
	all := []outlookAge{{kit.Labelled(0, c.Language.Number(float64(c.years), 0), kit.SmallFace), a.Lo, 0}}
	for age := 10*math.Floor(a.Lo/10) + 10; age <= lastAge; age += 10 {
		l := kit.Labelled(a.At(age), c.Language.Number(age, 0), kit.SmallFace)
		if last := all[len(all)-1]; l.At-l.Width/2 > last.At+last.Width/2+4 {
			all = append(all, outlookAge{l, age, l.At})
		}
	}
	return all
}

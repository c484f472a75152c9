package person

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-pdf/fpdf"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

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

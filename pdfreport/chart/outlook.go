package chart

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-pdf/fpdf"

	"tenback/pdfreport/kit"
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
	belowLine    = 8.0 // shown below the line
)

// Outlook is a value now and the wedge between a slow and a fast decline until lastAge,
// over a line.
type Outlook struct {
	Age                 float64
	Years               int // whole years of age
	Value, Low, High    float64
	Slow, Fast          float64 // decline in a year
	Line                float64
	LineName, YearsName string
	You                 func(value float64) string
	SlowName, FastName  func(value float64) string // of the values at lastAge

	bottom float64 // of the drawing
}

// at returns the value at an age after a yearly decline of pace.
func (o *Outlook) at(pace, age float64) float64 { return o.Value - pace*(age-o.Age) }

// edge returns where a decline leaves the drawing, at its right end or at its
// foot.
func (o *Outlook) edge(pace float64) (age, value float64) {
	if end := o.at(pace, lastAge); end >= o.bottom {
		return lastAge, end
	}
	return o.Age + (o.Value-o.bottom)/pace, o.bottom
}

// corners returns the corners of the wedge, as age and value.
func (o *Outlook) corners() [][2]float64 {
	slowAge, slowEnd := o.edge(o.Slow)
	fastAge, fastEnd := o.edge(o.Fast)
	corners := [][2]float64{{o.Age, o.Value}, {slowAge, slowEnd}}
	if slowAge == lastAge && fastAge < lastAge {
		corners = append(corners, [2]float64{lastAge, o.bottom})
	}
	return append(corners, [2]float64{fastAge, fastEnd})
}

// Draw draws the value and its likely range now, and a slow and a fast decline until 90,
// over the line. height is the one wanted.
func (o Outlook) Draw(number func(x float64, decimals int) string, width, height float64) kit.Block {
	height = max(outlookLeast, height)
	foot := height - outlookFoot
	ages, values := o.axes(width, height)
	down := func(v float64) float64 { return foot - values.At(v) }
	you := kit.Labelled(0, o.You(o.Value), kit.BodyFace.With(kit.Bold).In(kit.Copper))
	ends := o.ends(height, down)
	axisTexts := o.agesUnder(ages, number)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		left := x + outlookLeft
		right := left + ages.Width
		var shape []fpdf.PointType
		for _, p := range o.corners() {
			shape = append(shape, fpdf.PointType{X: left + ages.At(p[0]), Y: y + down(p[1])})
		}
		s.Area(shape, kit.CopperTwo)
		for _, pace := range []float64{o.Slow, o.Fast} {
			toAge, toValue := o.edge(pace)
			s.Rule(left, y+down(o.Value), left+ages.At(toAge), y+down(toValue), kit.Copper, 0.9)
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
		s.Write(right+9, y+foot+kit.TickLength+8, o.YearsName, kit.SmallFace)
		s.Rule(left, y+down(o.Line), right, y+down(o.Line), kit.Petrol, 2)
		for _, e := range ends {
			s.Rule(right+1, y+e.from, right+6, y+e.middle, e.colour, 0.7)
			e.text.Draw(s, right+9, y+e.middle-e.text.Height()/2)
		}
		s.Box(left-barWidth/2, y+down(o.High), barWidth, down(o.Low)-down(o.High), kit.CopperTwo)
		for _, end := range []float64{o.Low, o.High} {
			s.Rule(left-barWidth/2-1, y+down(end), left+barWidth/2+1, y+down(end), kit.Copper, 1.1)
		}
		kit.Diamond(s, left, y+down(o.Value), diamond, kit.Copper)
		s.Write(left-barWidth/2-1, y+8.5, you.Text, you.Face)
	})
}

// axes sets the foot of the drawing and returns its axes, with ages to the right and
// values upwards.
func (o *Outlook) axes(width, height float64) (ages, values kit.Axis) {
	o.bottom = math.Max(0, math.Min(math.Min(o.Line-4, o.Low-2), math.Max(o.Line-belowLine, o.at(o.Fast, lastAge)-2)))
	ages = kit.Axis{Lo: o.Age, Hi: lastAge, Width: width - outlookLeft - outlookRight}
	return ages, kit.Axis{Lo: o.bottom, Hi: math.Max(o.High, o.Line), Width: height - outlookFoot - outlookHead}
}

// outlookEnd is a text at the right of the drawing and the height of what it
// names.
type outlookEnd struct {
	from, middle float64
	text         kit.Block
	colour       kit.Colour
}

// ends returns the names of the edges of the wedge and of the line, moved
// apart.
func (o *Outlook) ends(height float64, down func(float64) float64) []outlookEnd {
	const width = outlookRight - 9
	entry := func(at float64, text string, f kit.Face) outlookEnd {
		return outlookEnd{from: down(at), text: kit.Lines(kit.BreakLines(text, kit.Regular, width/f.Size), f, width, kit.Left), colour: f.Colour}
	}
	ends := []outlookEnd{entry(o.Line, o.LineName, kit.SmallFace.In(kit.Petrol))}
	for _, edge := range []struct {
		pace float64
		name func(float64) string
	}{{o.Slow, o.SlowName}, {o.Fast, o.FastName}} {
		if age, value := o.edge(edge.pace); age == lastAge {
			ends = append(ends, entry(value, edge.name(value), kit.SmallFace.In(kit.Copper)))
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

// agesUnder returns the ages under the drawing: now, and every ten years where
// there is space.
func (o *Outlook) agesUnder(a kit.Axis, number func(x float64, decimals int) string) []outlookAge {
	all := []outlookAge{{kit.Labelled(0, number(float64(o.Years), 0), kit.SmallFace), a.Lo, 0}}
	for age := 10*math.Floor(a.Lo/10) + 10; age <= lastAge; age += 10 {
		l := kit.Labelled(a.At(age), number(age, 0), kit.SmallFace)
		if last := all[len(all)-1]; l.At-l.Width/2 > last.At+last.Width/2+4 {
			all = append(all, outlookAge{l, age, l.At})
		}
	}
	return all
}

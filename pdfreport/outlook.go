package pdfreport

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-pdf/fpdf"

	"tenback/scoring"
)

// lastAge is where the outlook ends.
const lastAge = 90

// The parts of the drawing of the outlook.
const (
	outlookLeft  = 10.0
	outlookRight = 92.0 // the names of the edges
	outlookHead  = 12.0 // the reader's value
	outlookFoot  = 14.0 // the ages
	outlookLeast = 100.0
	belowLine    = 8.0 // mL/kg/min shown under the line of independent living
)

// outlook is a value now and the wedge between a slow and a fast decline to 90.
type outlook struct {
	now, value, slow, fast, bottom float64
}

// at is the value at an age after a decline of so much a year.
func (o outlook) at(pace, age float64) float64 { return o.value - pace*(age-o.now) }

// edge is where the line of a decline leaves the drawing: at its right end, or
// at its foot.
func (o outlook) edge(pace float64) (age, value float64) {
	if end := o.at(pace, lastAge); end >= o.bottom {
		return lastAge, end
	}
	return o.now + (o.value-o.bottom)/pace, o.bottom
}

// corners are the corners of the wedge, as age and value.
func (o outlook) corners() [][2]float64 {
	slowAge, slowEnd := o.edge(o.slow)
	fastAge, fastEnd := o.edge(o.fast)
	corners := [][2]float64{{o.now, o.value}, {slowAge, slowEnd}}
	if slowAge == lastAge && fastAge < lastAge {
		corners = append(corners, [2]float64{lastAge, o.bottom})
	}
	return append(corners, [2]float64{fastAge, fastEnd})
}

// outlookChart draws the value now, with its likely range, and what a slow and a
// fast decline make of it until 90, over the line of independent living.
func (c olderChapter) outlookChart(sex scoring.Sex, age float64, line refLine, width, height float64) piece {
	foot := height - outlookFoot
	likelyLow, likelyHigh := c.best.Likely()
	value, low, high := float64(c.best.VO2), float64(likelyLow), float64(likelyHigh)
	o, ages, values := c.outlookAxes(sex, age, line, width, height)
	down := func(v float64) float64 { return foot - values.at(v) }
	you := labelled(0, c.say("scale.you", words{"Value": value}), bodyFace.with(bold).in(copper))
	ends := c.outlookEnds(o, line, height, down)
	axisTexts, years := c.outlookAges(ages), c.say("older.years", nil)
	return piece{height, func(s *sheet, x, y float64) {
		left := x + outlookLeft
		right := left + ages.width
		var shape []fpdf.PointType
		for _, p := range o.corners() {
			shape = append(shape, fpdf.PointType{X: left + ages.at(p[0]), Y: y + down(p[1])})
		}
		s.area(shape, copperTwo)
		for _, pace := range []float64{o.slow, o.fast} {
			toAge, toValue := o.edge(pace)
			s.rule(left, y+down(o.value), left+ages.at(toAge), y+down(toValue), copper, 0.9)
		}
		s.rule(left, y+foot, right, y+foot, ink, 0.8)
		for _, l := range axisTexts {
			s.rule(left+l.tick, y+foot, left+l.tick, y+foot+tickLength, ink, 0.8)
			s.writeCentred(left+l.at, y+foot+tickLength+8, l.text, l.face)
		}
		for _, l := range axisTexts[1:] {
			if l.age >= 80 {
				s.dashed(left+l.tick, y+outlookHead+2, left+l.tick, y+foot, soft, 0.6)
			}
		}
		s.write(right+9, y+foot+tickLength+8, years, smallFace)
		s.rule(left, y+down(line.at), right, y+down(line.at), petrol, 2)
		for _, e := range ends {
			s.rule(right+1, y+e.from, right+6, y+e.middle, e.colour, 0.7)
			e.text.draw(s, right+9, y+e.middle-e.text.height/2)
		}
		s.box(left-bandHeight/2, y+down(high), bandHeight, down(low)-down(high), copperTwo)
		for _, end := range []float64{low, high} {
			s.rule(left-bandHeight/2-1, y+down(end), left+bandHeight/2+1, y+down(end), copper, 1.1)
		}
		s.diamond(left, y+down(value), diamondRadius, copper)
		s.write(left-bandHeight/2-1, y+8.5, you.text, you.face)
	}}
}

// outlookAxes are the wedge and the axes of its drawing: ages to the right, values
// upwards.
func (c olderChapter) outlookAxes(sex scoring.Sex, age float64, line refLine, width, height float64) (o outlook, ages, values axis) {
	slow, fast := scoring.Decline(sex)
	low, high := c.best.Likely()
	o = outlook{now: age, value: float64(c.best.VO2), slow: float64(slow), fast: float64(fast)}
	o.bottom = math.Max(0, math.Min(math.Min(line.at-4, float64(low)-2), math.Max(line.at-belowLine, o.at(o.fast, lastAge)-2)))
	ages = axis{age, lastAge, width - outlookLeft - outlookRight}
	values = axis{o.bottom, math.Max(float64(high), line.at), height - outlookFoot - outlookHead}
	return o, ages, values
}

// outlookEnd is a text at the right of the drawing, and the height where what it
// names ends.
type outlookEnd struct {
	from, middle float64
	text         piece
	colour       colour
}

// outlookEnds are the names of the edges of the wedge and of the line, moved
// apart where they would touch.
func (c olderChapter) outlookEnds(o outlook, line refLine, height float64, down func(float64) float64) []outlookEnd {
	const width = outlookRight - 9
	entry := func(at float64, text string, f face) outlookEnd {
		return outlookEnd{from: down(at), text: textPiece(breakLines(text, regular, width/f.size), f, width, left), colour: f.colour}
	}
	ends := []outlookEnd{entry(line.at, line.text, smallFace.in(petrol))}
	for _, edge := range []struct {
		pace float64
		key  string
	}{{o.slow, "older.slow"}, {o.fast, "older.fast"}} {
		if age, value := o.edge(edge.pace); age == lastAge {
			ends = append(ends, entry(value, c.say(edge.key, words{"Value": value}), smallFace.in(copper)))
		}
	}
	slices.SortStableFunc(ends, func(a, b outlookEnd) int { return cmp.Compare(a.from, b.from) })
	var heights []label
	for _, e := range ends {
		heights = append(heights, label{at: e.from, width: e.text.height})
	}
	for i, l := range spread(heights, 1, height-outlookFoot) {
		ends[i].middle = l.at
	}
	return ends
}

// outlookAge is a number under the drawing and where its tick stands.
type outlookAge struct {
	label
	age, tick float64
}

// outlookAges are the ages under the drawing: now, and each ten years that leave
// room for their number.
func (c olderChapter) outlookAges(a axis) []outlookAge {
	all := []outlookAge{{labelled(0, c.language.Number(float64(c.years), 0), smallFace), a.lo, 0}}
	for age := 10*math.Floor(a.lo/10) + 10; age <= lastAge; age += 10 {
		l := labelled(a.at(age), c.language.Number(age, 0), smallFace)
		if last := all[len(all)-1]; l.at-l.width/2 > last.at+last.width/2+4 {
			all = append(all, outlookAge{l, age, l.at})
		}
	}
	return all
}

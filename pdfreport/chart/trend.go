// Package chart draws the charts of a person's page. It knows numbers and words, no
// results.
package chart

import (
	"math"
	"time"

	"tenback/pdfreport/kit"
)

// Point is a value of one day.
type Point struct {
	Day              time.Time
	Written          string // the day in words
	Value, Low, High float64
	Alike            bool // found in the same way as the last one
}

// Dimensions of the drawing.
const (
	trendLeast = 96.0  // height
	trendMost  = 150.0 // at most
	trendHead  = 13.0  // number over the highest bar
	trendFoot  = 15.0  // days
	trendSide  = 24.0  // from the edges to the first and last date
	trendGrid  = 5.0   // between lines, or twice that
	barWidth   = 6.0
	diamond    = 5.2
)

// Trend draws points from left to right, each with its likely range. A line joins
// points found alike. height is the one wanted.
func Trend(points []Point, number func(x float64, decimals int) string, width, height float64) kit.Block {
	height = max(trendLeast, min(trendMost, height))
	days, values, step := trendAxes(points, width, height)
	at := func(p Point) (x float64) { return trendSide + days.At(p.Day.Sub(points[0].Day).Hours()) }
	foot := height - trendFoot
	up := func(v float64) float64 { return foot - values.At(v) }
	labels := daysUnder(points, at, width)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		for v := math.Ceil(values.Lo/step) * step; v <= values.Hi; v += step {
			s.Rule(x, y+up(v), x+width, y+up(v), kit.Hairline, 0.4)
			s.Write(x, y+up(v)-1.6, number(v, 0), kit.SmallFace)
		}
		s.Rule(x, y+foot, x+width, y+foot, kit.Ink, 0.8)
		for i := 1; i < len(points); i++ {
			if a, b := points[i-1], points[i]; a.Alike && b.Alike {
				s.Rule(x+at(a), y+up(a.Value), x+at(b), y+up(b.Value), kit.Soft, 0.9)
			}
		}
		for i, p := range points {
			middle, low, high := x+at(p), y+up(p.Low), y+up(p.High)
			last := i == len(points)-1
			dark, light := kit.Soft, kit.Mist
			if last {
				dark, light = kit.Copper, kit.CopperTwo
			}
			s.Box(middle-barWidth/2, high, barWidth, low-high, light)
			for _, end := range []float64{low, high} {
				s.Rule(middle-barWidth/2-1, end, middle+barWidth/2+1, end, dark, 0.9)
			}
			s.Rule(middle, low, middle, high, dark, 0.6)
			value := y + up(p.Value)
			switch {
			case last:
				kit.Diamond(s, middle, value, diamond, kit.Copper)
			case p.Alike:
				s.Box(middle-2.4, value-2.4, 4.8, 4.8, dark)
			default:
				kit.Ring(s, middle, value, 2.8, dark, 1.1)
			}
			look := kit.SmallFace.In(dark).With(kit.Bold)
			s.WriteCentred(middle, high-3.5, number(p.Value, 1), look)
			s.Rule(middle, y+foot, middle, y+foot+3, kit.Ink, 0.8)
		}
		for _, l := range labels {
			s.WriteCentred(x+l.At, y+foot+11, l.Text, l.Face)
		}
	})
}

// trendAxes spans the dates and the ranges, and returns the step of the grid.
func trendAxes(points []Point, width, height float64) (days, values kit.Axis, step float64) {
	first, last := points[0], points[len(points)-1]
	days = kit.Axis{Lo: 0, Hi: max(1, last.Day.Sub(first.Day).Hours()), Width: width - 2*trendSide}
	low, high := first.Low, first.High
	for _, p := range points {
		low, high = min(low, p.Low), max(high, p.High)
	}
	values = kit.Axis{Lo: low - 1.5, Hi: high, Width: height - trendFoot - trendHead}
	step = trendGrid
	if high-low > 6*trendGrid {
		step *= 2
	}
	return days, values, step
}

// daysUnder returns the days under the drawing: the first, the last, and others where
// there is space.
func daysUnder(points []Point, at func(Point) float64, width float64) []kit.Label {
	written := func(p Point) kit.Label {
		return kit.Labelled(at(p), p.Written, kit.SmallFace)
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

package person

import (
	"math"
	"slices"
	"time"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

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

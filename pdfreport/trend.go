package pdfreport

import (
	"math"
	"slices"
	"time"

	"tenback/scoring"
)

// The drawing of a person's dates.
const (
	trendLeast = 96.0  // height
	trendMost  = 150.0 // and at most
	trendHead  = 13.0  // for the number over the highest bar
	trendFoot  = 15.0  // the days
	trendSide  = 24.0  // from the edges to the first and the last date
	trendGrid  = 5.0   // mL/kg/min from line to line, or twice that
)

// trend draws the dates of a person's tests.
type trend struct{ *page }

// trendPoint is one date of the drawing.
type trendPoint struct {
	day   time.Time
	value scoring.VO2
	low   scoring.VO2
	high  scoring.VO2
	// alike tells that it was worked out by the equation of the last date.
	alike bool
}

// trendMaxPoints is how many dates the drawing holds; of more, the last ones.
const trendMaxPoints = 8

// trendPoints are the dates with an estimate from a test. Where a date was also
// worked out by the last date's equation, that value is drawn.
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

// trendNote explains the drawing.
func (c trend) note(points []trendPoint) string {
	if slices.ContainsFunc(points, func(p trendPoint) bool { return !p.alike }) {
		return c.say("change.chart.other", nil)
	}
	return c.say("change.chart", nil)
}

// trendChart draws the dates from left to right, each with its likely range.
// Points of one equation are joined by a line.
func (c trend) chart(points []trendPoint, width, height float64) piece {
	days, values, step := trendAxes(points, width, height)
	at := func(p trendPoint) (x float64) { return trendSide + days.at(p.day.Sub(points[0].day).Hours()) }
	foot := height - trendFoot
	up := func(v float64) float64 { return foot - values.at(v) }
	labels := c.days(points, at, width)
	return piece{height, func(s *sheet, x, y float64) {
		for v := math.Ceil(values.lo/step) * step; v <= values.hi; v += step {
			s.rule(x, y+up(v), x+width, y+up(v), hairline, 0.4)
			s.write(x, y+up(v)-1.6, c.language.Number(v, 0), smallFace)
		}
		s.rule(x, y+foot, x+width, y+foot, ink, 0.8)
		for i := 1; i < len(points); i++ {
			if a, b := points[i-1], points[i]; a.alike && b.alike {
				s.rule(x+at(a), y+up(float64(a.value)), x+at(b), y+up(float64(b.value)), soft, 0.9)
			}
		}
		for i, p := range points {
			middle, low, high := x+at(p), y+up(float64(p.low)), y+up(float64(p.high))
			last := i == len(points)-1
			dark, light := soft, mist
			if last {
				dark, light = copper, copperTwo
			}
			s.box(middle-bandHeight/2, high, bandHeight, low-high, light)
			for _, end := range []float64{low, high} {
				s.rule(middle-bandHeight/2-1, end, middle+bandHeight/2+1, end, dark, 0.9)
			}
			s.rule(middle, low, middle, high, dark, 0.6)
			value := y + up(float64(p.value))
			switch {
			case last:
				s.diamond(middle, value, diamondRadius, copper)
			case p.alike:
				s.box(middle-2.4, value-2.4, 4.8, 4.8, dark)
			default:
				s.ring(middle, value, 2.8, dark, 1.1)
			}
			look := smallFace.in(dark).with(bold)
			s.writeCentred(middle, high-3.5, c.language.Number(float64(p.value), 1), look)
			s.rule(middle, y+foot, middle, y+foot+3, ink, 0.8)
		}
		for _, l := range labels {
			s.writeCentred(x+l.at, y+foot+11, l.text, l.face)
		}
	}}
}

// trendAxes spans the dates and the ranges, and tells the step of the grid.
func trendAxes(points []trendPoint, width, height float64) (days, values axis, step float64) {
	first, last := points[0], points[len(points)-1]
	days = axis{0, max(1, last.day.Sub(first.day).Hours()), width - 2*trendSide}
	low, high := float64(first.low), float64(first.high)
	for _, p := range points {
		low, high = min(low, float64(p.low)), max(high, float64(p.high))
	}
	values = axis{low - 1.5, high, height - trendFoot - trendHead}
	step = trendGrid
	if high-low > 6*trendGrid {
		step *= 2
	}
	return days, values, step
}

// trendDays are the days under the drawing: the first and the last, and those
// between that leave room.
func (c trend) days(points []trendPoint, at func(trendPoint) float64, width float64) []label {
	written := func(p trendPoint) label {
		return labelled(at(p), c.say("change.chart.day", words{"Day": p.day}), smallFace)
	}
	first, last := written(points[0]), written(points[len(points)-1])
	kept := []label{first}
	for _, p := range points[1 : len(points)-1] {
		l, before := written(p), kept[len(kept)-1]
		if l.at-l.width/2 > before.at+before.width/2+5 && l.at+l.width/2 < last.at-last.width/2-5 {
			kept = append(kept, l)
		}
	}
	return spread(append(kept, last), 5, width)
}

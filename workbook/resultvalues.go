package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tenback/scoring"
)

func bestVO2(o *Outcome) Value {
	if best := o.Score.Best(); best != nil {
		return NumberValue(float64(best.VO2))
	}
	return Value{}
}

func likelyLow(o *Outcome) Value {
	if best := o.Score.Best(); best != nil {
		low, _ := best.Likely()
		return NumberValue(float64(low))
	}
	return Value{}
}

func likelyHigh(o *Outcome) Value {
	if best := o.Score.Best(); best != nil {
		_, high := best.Likely()
		return NumberValue(float64(high))
	}
	return Value{}
}

// What stands in "Estimated from" and in "Flags" also tells, on the next run,
// which rows hold results.
const (
	measuredSource = "measured"
	notScored      = "not scored: "
)

func estimatedFrom(o *Outcome) Value {
	switch best := o.Score.Best(); {
	case best == nil:
		return Value{}
	case best.Measured():
		return TextValue(measuredSource)
	default:
		return TextValue(best.Test.Name + ": " + best.Equation.Name)
	}
}

// Where sex is not given there is one reading for each table, and each says
// which table it is of.
var (
	adultTable = map[scoring.Sex]string{scoring.Female: "women's table", scoring.Male: "men's table"}
	youthTable = map[scoring.Sex]string{scoring.Female: "girls' table", scoring.Male: "boys' table"}
)

// byTable joins the readings of one or two tables, leaving out empty ones.
// With two each is headed by what head says.
func byTable[T any](readings []T, head func(T) string, read func(T) string) Value {
	var parts []string
	for _, r := range readings {
		s := read(r)
		if s != "" && len(readings) > 1 {
			s = head(r) + s
		}
		if s != "" {
			parts = append(parts, s)
		}
	}
	return TextValue(strings.Join(parts, "; "))
}

func byAdultTable(o *Outcome, read func(scoring.Standing) string) Value {
	return byTable(o.Score.Adults, func(st scoring.Standing) string { return adultTable[st.Sex] + ": " }, read)
}

func byYouthTable(o *Outcome, read func(scoring.HealthLine) string) Value {
	return byTable(o.Score.Youth, func(h scoring.HealthLine) string { return youthTable[h.Sex] + ": " }, read)
}

func groupText(o *Outcome) Value {
	if len(o.Score.Youth) > 0 {
		return byYouthTable(o, func(h scoring.HealthLine) string {
			if h.Above {
				return "at or above the health line"
			}
			return "below the health line"
		})
	}
	return byAdultTable(o, func(st scoring.Standing) string { return st.Name(st.Group) })
}

func percentile(o *Outcome) Value {
	if adults := o.Score.Adults; len(adults) == 1 && adults[0].HasPercent {
		if p := adults[0].Percentile; !p.Below && !p.Above {
			return NumberValue(p.At)
		}
	}
	return byAdultTable(o, func(st scoring.Standing) string {
		if !st.HasPercent {
			return ""
		}
		return st.Percentile.String()
	})
}

func nextGroup(o *Outcome) Value {
	best := o.Score.Best()
	if len(o.Score.Youth) > 0 {
		return byYouthTable(o, func(h scoring.HealthLine) string {
			if h.Above {
				return ""
			}
			return toReach("health line at", best.VO2, h.Line, h.InTest)
		})
	}
	return byAdultTable(o, func(st scoring.Standing) string {
		if st.Next == nil {
			return topReached
		}
		return goalText(best, st, *st.Next)
	})
}

const topReached = "top group reached"

// goalText says what opens a group: "High from 35.0 (2.3 more): 1.5 miles in
// 11:42".
func goalText(best *scoring.Estimate, st scoring.Standing, g scoring.Goal) string {
	return toReach(st.Name(g.Group)+" from", best.VO2, g.VO2, g.InTest)
}

// toReach gives a value, what is missing to it and a result that shows it. The
// difference is that of the two numbers as printed, so that it can be checked
// by eye.
func toReach(what string, now, goal scoring.VO2, target scoring.Target) string {
	gap := tenths(goal) - tenths(now)
	s := fmt.Sprintf("%s %.1f (%.1f more)", what, tenths(goal), gap)
	if t := target.String(); t != "" {
		s += ": " + t
	}
	return s
}

func tenths(v scoring.VO2) float64 { return math.Round(float64(v)*10) / 10 }

func oneDecadeYounger(o *Outcome) Value { return decadeText(o, 1) }

func twoDecadesYounger(o *Outcome) Value { return decadeText(o, 2) }

// decadeText reads the value among people that many decades younger: "40–49:
// Above average, High from 43.4 (3.1 more): 1.5 miles in 10:40".
func decadeText(o *Outcome, younger int) Value {
	best := o.Score.Best()
	head := func(st scoring.Standing) string { return adultTable[st.Sex] + " " }
	return byTable(o.Score.Adults, head, func(st scoring.Standing) string {
		at := slices.IndexFunc(st.Decades, func(d scoring.Decade) bool { return d.Younger == younger })
		if at < 0 {
			return ""
		}
		d := st.Decades[at]
		s := d.Ages.String() + ": " + st.Name(d.Group)
		for _, g := range d.Goals {
			if !g.Reached {
				return s + ", " + goalText(best, st, g)
			}
		}
		return s + ", " + topReached
	})
}

// restingWords is how practitioners read an adult's resting heart rate.
// Common practice, no source.
var restingWords = map[scoring.RestingBand]string{
	scoring.RestingVerySlow: "very slow, known from endurance athletes",
	scoring.RestingFit:      "slow, where most fit adults are",
	scoring.RestingUsual:    "usual",
	scoring.RestingRaised:   "raised",
	scoring.RestingFast:     "fast",
}

func restingText(o *Outcome) Value {
	r := o.Score.Resting
	if r == nil {
		return Value{}
	}
	s := fmt.Sprintf("%.0f", r.Rate.In(scoring.BeatsPerMinute))
	if r.IsAdult {
		s += ": " + restingWords[r.Band]
	}
	table := adultTable
	if !r.IsAdult {
		table = youthTable
	}
	place := byTable(r.Percentiles, func(p scoring.RestingPercentile) string { return table[p.Sex] + ": " },
		func(p scoring.RestingPercentile) string { return p.Percentile.String() + " percentile" })
	if place.Text != "" {
		s += "; " + place.Text + " (low is slow)"
	}
	return TextValue(s)
}

// flagsText puts what only a clinician can answer first, then what stood in
// the way, then the other remarks.
func flagsText(o *Outcome) Value {
	var first, stops, rest []string
	for _, f := range o.Score.Flags {
		if f.Code.Severity() == scoring.Clinician {
			first = append(first, f.String())
		} else {
			rest = append(rest, f.String())
		}
	}
	for _, p := range o.Problems() {
		if p.Blocking {
			stops = append(stops, o.shortProblem(p))
		}
	}
	for _, n := range o.Score.Norms {
		stops = append(stops, normText(n))
	}
	if o.LeftOut() {
		if len(stops) == 0 {
			stops = append(stops, "no test result in this row")
		}
		stops[0] = notScored + stops[0]
	}
	return TextValue(strings.Join(append(append(first, stops...), rest...), "; "))
}

// normText reads a result against the norms of its own test: "2-minute step in
// place: 84, within the usual 67 to 115 at 65–69".
func normText(n scoring.NormReading) string {
	side := [...]string{"below", "within", "above"}[n.Average()+1]
	s := fmt.Sprintf("%s: %.0f, %s the usual %.0f to %.0f at %s", n.Test.Name, n.Result.Amount, side, n.Mean-n.SD, n.Mean+n.SD, n.Ages)
	if n.Result.Amount < n.Independence {
		s += fmt.Sprintf(", and below the %.0f of people who stay independent", n.Independence)
	}
	return s
}

// shortProblem tells a problem within the row it belongs to; the sheet is
// named where the outcome is of rows on several.
func (o *Outcome) shortProblem(p Problem) string {
	s := p.What
	if p.Cell != "" {
		s = p.Cell + ": " + s
		if slices.ContainsFunc(o.More, func(l Line) bool { return l.Sheet.Name != o.Row.Sheet }) {
			s = p.Sheet + "!" + s
		}
	}
	if p.Fix != "" {
		s += " → " + p.Fix
	}
	return s
}

func reportName(o *Outcome) Value { return TextValue(o.Report) }

package evidence

import (
	"strings"

	"math"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// beats holds the least and the greatest median of heart rates in beats a minute,
// rough and assumed. Below the least, beats were counted over a shorter time.
var beats = map[scoring.Input][2]float64{
	scoring.RestingHR:  {38, 110},
	scoring.ExerciseHR: {75, 215},
	scoring.RecoveryHR: {55, 205},
	scoring.MaxHR:      {110, 225},
}

// counts are the times over which a pulse is counted, and what a header says.
var counts = []struct {
	unit scoring.Unit
	says string
}{{scoring.BeatsPerMinute, "beats/min"}, {scoring.BeatsPer30s, "30 s count"}, {scoring.BeatsPer15s, "15 s count"}, {scoring.BeatsPer10s, "10 s count"}}

// judgeBeats asks about heart rates that are none in the unit of their header.
func (s *Sheet) judgeBeats(c *Column) {
	usual, ok := beats[c.Meaning.Input]
	all := c.numbers()
	if !ok || len(all) == 0 {
		return
	}
	rate := func(u scoring.Unit) float64 {
		return scoring.Q(median(amounts(all)), u).In(scoring.BeatsPerMinute)
	}
	possible := func(u scoring.Unit) bool { return rate(u) >= usual[0] && rate(u) <= usual[1] }
	least := 0.0
	if rest := s.input(scoring.RestingHR); rest != nil && rest != c && c.Meaning.Input == scoring.ExerciseHR {
		least = scoring.Q(median(amounts(rest.numbers())), rest.Meaning.Unit).In(scoring.BeatsPerMinute)
	}
	if x := rate(c.Meaning.Unit); possible(c.Meaning.Unit) && !(x <= least) {
		return
	}
	var readings []reading
	for _, n := range counts {
		off := math.Abs(math.Log(rate(n.unit) / math.Sqrt(usual[0]*usual[1])))
		if n.unit == c.Meaning.Unit || possible(n.unit) && !(rate(n.unit) <= least) {
			readings = append(readings, reading{meaning: c.qualified(n.says), example: inUnit(all[0], n.unit, c.Meaning.Input), off: off, against: 1})
		}
	}
	c.decide(whichCount, readings)
}

// judgePulse decides whether a plain heart rate is that at rest or in the test.
func (s *Sheet) judgePulse(c *Column) {
	all := c.numbers()
	if len(all) == 0 {
		return
	}
	mid := median(amounts(all))
	takes := false
	for _, other := range s.Columns {
		t := other.Meaning.Test
		takes = takes || t != nil && (t.Takes(scoring.ExerciseHR) || t.Takes(scoring.RecoveryHR)) || other.Meaning.Role == roster.TestName
	}
	var readings []reading
	for _, in := range []scoring.Input{scoring.RestingHR, scoring.ExerciseHR} {
		r := reading{example: inUnit(all[0], scoring.BeatsPerMinute, in), remark: readAsPulse.With(in), meaning: headerOf(in),
			use: func() { c.Meaning = roster.Meaning{Role: roster.InputData, Input: in, Unit: scoring.BeatsPerMinute} }}
		if in == scoring.RestingHR && (mid > 105 || s.input(in) != nil) || in == scoring.ExerciseHR && (mid < 90 || !takes) {
			r.against++
		}
		readings = append(readings, r)
	}
	c.decide(whichPulse, readings)
}

// judgeShuttles asks about laps under a header of levels, and levels under one of
// laps.
func (c *Column) judgeShuttles() {
	all := c.numbers()
	pairs := 0 // cells with a level and a shuttle
	for _, r := range c.Cells {
		if r.Kind == cell.Text && strings.ContainsAny(strings.TrimLeft(r.Text, "0123456789 "), "0123456789") {
			pairs++
		}
	}
	if len(all) <= pairs {
		return
	}
	fractions, high := 0, 0.0
	for _, n := range all {
		if n.Fraction() != "" {
			fractions++
		}
		high = max(high, n.Amount)
	}
	mid := median(amounts(all))
	most := scoring.ShuttleLevel.Info().Max
	inLevels := c.Meaning.Input == scoring.ShuttleLevel
	laps := mid > most && 2*fractions < len(all)
	levels := 2*fractions > len(all) || len(all) >= fewest && high <= most && mid < fewLaps
	if inLevels && !laps || !inLevels && !levels {
		return
	}
	t := c.Meaning.Test
	if t == nil || !t.HasResult(scoring.ShuttleLaps) || !t.HasResult(scoring.ShuttleLevel) {
		return
	}
	c.Why = lapsOrLevels
	for _, in := range []scoring.Input{scoring.ShuttleLaps, scoring.ShuttleLevel} {
		choice := roster.Choice{Meaning: scoring.Header{Test: t, Input: in}.String(), Example: worked.With(scoring.Exactly(all[0].Amount), scoring.Q(all[0].Amount, in.Info().Unit))}
		if (in == scoring.ShuttleLaps) == inLevels {
			c.Asked = append([]roster.Choice{choice}, c.Asked...)
		} else {
			c.Asked = append(c.Asked, choice)
		}
	}
}

// fewLaps is a median of laps that only a group of the least fit would reach:
// about level 1.
const fewLaps = 8

package columns

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// pairImperial pairs a column of feet with the inches beside it, and stones with
// pounds.
func (cs List) pairImperial() {
	for i, c := range cs {
		small := scoring.Inches
		if c.Unclear == heading.InStones {
			small = scoring.Pounds
		}
		if c.Unclear != heading.InFeet && c.Unclear != heading.InStones || i+1 == len(cs) || c.Meaning.Role != roster.InputData {
			continue
		}
		d := cs[i+1]
		if d.Index == c.Index+1 && d.Meaning.Role == roster.InputData && d.Meaning.Input == c.Meaning.Input && d.Meaning.Unit == small && d.Meaning.UnitGiven {
			c.Rest, d.Meaning = d, roster.Meaning{Role: roster.RestOf}
		}
	}
}

// pairLaps pairs laps of a track with the part of a lap beside them. Laps without it
// are left out beside the whole distance.
func (s *settler) pairLaps() {
	for i, c := range s.columns {
		if c.Meaning.LapMetres > 0 && i+1 < len(s.columns) && s.isPartOf(s.columns[i+1], c) {
			c.Rest, s.columns[i+1].Meaning = s.columns[i+1], roster.Meaning{Role: roster.RestOf}
			c.Meaning.Unit, c.Meaning.UnitGiven = scoring.Metres, true
			continue
		}
		whole := func(d *Column) bool {
			return d != c && d.Meaning.Test == c.Meaning.Test && d.Meaning.Input == scoring.Distance && d.Meaning.LapMetres == 0 && d.term == c.term && d.Attempt == c.Attempt
		}
		if c.Meaning.LapMetres > 0 && slices.ContainsFunc(s.columns, whole) {
			c.Meaning = roster.Meaning{Role: roster.Other}
		}
	}
}

// isPartOf reports whether a column of metres holds parts of a lap.
func (s *settler) isPartOf(d, laps *Column) bool {
	if d.Meaning.Test != laps.Meaning.Test || d.Meaning.Input != scoring.Distance || d.Meaning.Unit != scoring.Metres || d.Meaning.LapMetres > 0 {
		return false
	}
	parts := 0
	for _, row := range s.body {
		for _, c := range row.Cells {
			x, ok := cell.BareNumber(c.Raw)
			if c.Col != d.Index || !ok {
				continue
			}
			if x.Amount >= laps.Meaning.LapMetres {
				return false
			}
			parts++
		}
	}
	return parts > 2
}

// pairMinutes pairs a column of minutes with the seconds beside it.
func (s *settler) pairMinutes() {
	for i, c := range s.columns {
		m := c.Meaning
		takes := m.Role == roster.Minutes || m.Input == scoring.Time && (m.Role == roster.InputData || m.Role == roster.Result) && c.style != cell.InSeconds
		if takes && i+1 < len(s.columns) && s.columns[i+1].Index == c.Index+1 {
			d := s.columns[i+1]
			alone := d.Meaning.Role == roster.SecondsOf
			same := d.Meaning.Input == scoring.Time && d.style == cell.InSeconds && c.style == cell.InMinutes &&
				d.Meaning.Test == m.Test && (d.Meaning.Role == roster.InputData || d.Meaning.Role == roster.Result)
			if alone || same {
				c.Seconds = d
				c.Meaning = roster.Meaning{Role: roster.Minutes, Input: scoring.Time, Unit: scoring.Minutes, Test: m.Test, UnitGiven: true}
				d.Meaning = roster.Meaning{Role: roster.SecondsOf, Input: scoring.Time, Unit: scoring.Seconds, Test: m.Test, UnitGiven: true}
			}
		}
	}
	paired := map[*Column]bool{}
	for _, c := range s.columns {
		if c.Seconds != nil {
			paired[c], paired[c.Seconds] = true, true
		}
		if (c.Meaning.Role == roster.Minutes || c.Meaning.Role == roster.SecondsOf) && !paired[c] {
			c.Meaning = roster.Meaning{}
		}
	}
}

// pairLevels pairs a column of levels with the shuttles beside it. Neither word
// alone means a shuttle run.
func (s *settler) pairLevels() {
	test := heading.MustTest("shuttle-20-m")
	for i, c := range s.columns {
		level := c.Meaning.Role == roster.LevelPart || c.Meaning.Test == test && c.Meaning.Input == scoring.ShuttleLevel
		if !level || i+1 == len(s.columns) || s.columns[i+1].Index != c.Index+1 || !heading.IsShuttlePart(s.columns[i+1].Meaning, s.columns[i+1].Header) {
			continue
		}
		c.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLevel, Unit: scoring.Levels, Test: test}
		s.columns[i+1].Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleInLevel, Unit: scoring.Laps, Test: test}
	}
	for _, c := range s.columns {
		if c.weak && c.Meaning.Input == scoring.ShuttleLaps && s.named.Test != nil && s.named.Test != test {
			c.Meaning = roster.Meaning{Role: roster.Result, Input: scoring.Distance}
			if !s.takeSheetTest(c) {
				c.Meaning = roster.Meaning{}
			}
		}
		if c.Meaning.Role == roster.LevelPart && s.named.Test == test {
			c.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLevel, Unit: scoring.Levels, Test: test}
		}
		if c.Meaning.Role == roster.LevelPart || c.Meaning.Role == roster.ShuttlePart {
			c.Meaning = roster.Meaning{}
		}
	}
}

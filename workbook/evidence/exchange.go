package evidence

import (
	"math"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// exchanges are inputs whose columns are mixed up, the one with the smaller numbers
// first.
var exchanges = [][2]scoring.Input{{scoring.BodyMass, scoring.Stature}, {scoring.RestingHR, scoring.ExerciseHR}, {scoring.RestingHR, scoring.RecoveryHR}}

// judgeExchange asks about two columns that fit each other's headers; at least one does
// not fit its own.
func (s *Sheet) judgeExchange() {
	for _, pair := range exchanges {
		small, large := s.open(pair[0]), s.open(pair[1])
		if small == nil || large == nil || small.Why.IsZero() && large.Why.IsZero() || !s.typical(large, pair[0]) || !s.typical(small, pair[1]) ||
			median(amounts(small.numbers())) <= median(amounts(large.numbers())) {
			continue
		}
		for _, two := range [2][2]*Column{{small, large}, {large, small}} {
			c, other := two[0], two[1]
			c.Why, c.Remark = exchanged, scoring.Said{}
			u := other.Meaning.Input.Info().Unit
			own := c.Meaning.Input.Info().Unit
			c.Asked = []roster.Choice{{Meaning: other.qualified(u.String()), Example: inUnit(c.numbers()[0], u, other.Meaning.Input)},
				{Meaning: c.qualified(own.String()), Example: inUnit(c.numbers()[0], own, c.Meaning.Input)}}
		}
	}
}

// open returns the first column of an input that the user has not settled.
func (s *Sheet) open(in scoring.Input) *Column {
	for _, c := range s.Columns {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == in && !(c.Told && c.Meaning.UnitGiven) && len(c.numbers()) > 0 {
			return c
		}
	}
	return nil
}

// typical reports whether the numbers of a column are typical of an input in its own
// unit.
func (s *Sheet) typical(c *Column, in scoring.Input) bool {
	if usual, ok := beats[in]; ok {
		mid := median(amounts(c.numbers()))
		return mid >= usual[0] && mid <= usual[1]
	}
	by := map[scoring.Input]window{scoring.BodyMass: massByAge, scoring.Stature: length}[in]
	var ratios []float64
	for _, n := range c.numbers() {
		age := 30.0
		if n.row < len(s.Ages) && !math.IsNaN(s.Ages[n.row]) {
			age = s.Ages[n.row]
		}
		mass, stature := usualAt(age)
		if in == scoring.Stature {
			mass = stature
		}
		ratios = append(ratios, n.Amount/mass)
	}
	mid := median(ratios)
	return mid >= by.low && mid <= by.high
}

package fieldtests

import (
	"math"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// stepInPlaceNorms are mean, standard deviation and the independence line of
// the two-minute step-in-place count for ages 60-64 to 90-94 in steps of five
// years. Source: rikli-jones, seen on a secondary page.
var stepInPlaceNorms = map[scoring.Sex][7][3]float64{
	scoring.Male:   {{101, 21, 106}, {101, 23, 101}, {95, 23, 95}, {91, 27, 88}, {87, 24, 80}, {75, 24, 71}, {69, 26, 60}},
	scoring.Female: {{91, 24, 97}, {90, 26, 93}, {84, 25, 89}, {84, 24, 84}, {75, 23, 78}, {70, 22, 70}, {58, 21, 60}},
}

var stepInPlace = &scoring.Test{
	ID: "step-in-place-2-min", Name: "2-minute step in place",
	Names: []string{"2 minute step in place", "2 min step in place", "step in place", "2MST"},
	Results: []scoring.Result{{Input: scoring.StepsInPlace, Column: "2 minute step-in-place count", Headers: []string{"step in place", "2 min step count", "steps in place"},
		Better: scoring.HigherIsBetter}},
	Suits:    "People of 60 to 94. It gives no VO2max: the count is read against people of the same age.",
	Exertion: scoring.OwnPace,
	Protocol: []string{
		"Mark the height midway between kneecap and hip bone on a wall. March on the spot, each knee up to the mark.",
		"Count how often the right knee reaches the mark in two minutes. A hand on a chair and pauses are allowed.",
	},
	Day: &scoring.Day{Say: "march", WarmUp: "march", Clock: "step-in-place-2-min", AtOnce: 4, Minutes: 10, PerHelper: 1,
		Needs: "walls", PerStation: 1},
	LowerLimit: stepInPlaceLowerLimit,
	Norm:       stepInPlaceNorm,
}

// stepInPlaceLowerLimit is the 5th percentile of a normal distribution with the norms'
// mean and standard deviation; own arithmetic.
func stepInPlaceLowerLimit(e *scoring.Entry) (scoring.Quantity, bool) {
	age, ok := e.Get(scoring.Age)
	if !ok || e.Sex() == scoring.SexUnspecified {
		return scoring.Quantity{}, false
	}
	n, ok := stepInPlaceNorm(e.Sex(), reference.WholeYears(age.Amount), scoring.Quantity{})
	return scoring.Q(math.Round(n.Mean-1.645*n.SD), scoring.StepsInPlace.Info().Unit), ok
}

func stepInPlaceNorm(sex scoring.Sex, years int, result scoring.Quantity) (scoring.NormReading, bool) {
	if years < 60 || years > 94 {
		return scoring.NormReading{}, false
	}
	i := (years - 60) / 5
	row := stepInPlaceNorms[sex][i]
	return scoring.NormReading{Ages: reference.Ages{Min: 60 + 5*i, Max: 64 + 5*i}, Result: result,
		Mean: row[0], SD: row[1], Independence: row[2]}, true
}

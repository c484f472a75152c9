package plausible

import (
	"math"

	"tenback/scoring"
)

// massOfStature compares body mass and stature of adults.
func massOfStature(j *judge) {
	mass, hasMass := j.Get(scoring.BodyMass)
	stature, hasStature := j.Get(scoring.Stature)
	age, hasAge := j.age()
	if !hasMass || !hasStature || !hasAge || age < 18 {
		return
	}
	index := mass.Amount / math.Pow(stature.In(scoring.Metres), 2)
	if index < 12 || index > 70 {
		j.add(true, nil, massStature.With(mass, stature), scoring.BodyMass, scoring.Stature)
	}
}

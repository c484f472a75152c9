package fieldtests

import "tenback/scoring"

// massIndexStep is the body mass index from body mass (symbol kg) and stature
// in metres (symbol m), both of which the equation must have before it.
func massIndexStep() scoring.Step {
	return scoring.Step{Symbol: "BMI", Name: "body mass index", Unit: scoring.KgPerSquareMetre, Formula: "kg/(m*m)", Source: "common"}
}

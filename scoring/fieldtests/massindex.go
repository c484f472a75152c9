package fieldtests

import "tenback/scoring"

// massIndexStep is the body mass index from the variables kg and m.
func massIndexStep() scoring.Step {
	return scoring.Step{Symbol: "BMI", Name: "body mass index", Unit: scoring.KgPerSquareMetre, Formula: "kg/(m*m)", Source: "common"}
}

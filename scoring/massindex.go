package scoring

// massIndexStep is the body mass index from body mass (symbol kg) and stature
// in metres (symbol m), both of which the equation must have before it.
func massIndexStep() Step {
	return Step{Symbol: "BMI", Name: "body mass index", Unit: KgPerSquareMetre, Formula: "kg/(m*m)", Source: "common"}
}

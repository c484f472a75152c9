package scoring

import "tenback/scoring/reference"

// adults is the range of whole years in which equations made on adults are
// used at all.
var adults = reference.Ages{Min: 18, Max: 100}

// anyAge accepts everyone.
var anyAge = reference.Ages{Min: 0, Max: 120}

// measuredError is the repeat error of a laboratory test: about 5 % of the
// value from one day to another, nearly all of it the person's own variation.
// From memory.
var measuredError = ErrorOfEstimate{Share: 0.05, Status: ErrorFromMemory, Note: "day-to-day variation of a laboratory test"}

// Measured is a laboratory value with gas analysis: no estimate, and always
// the headline.
var Measured = register(Test{
	ID: "measured", Name: "Measured VO2max", Rank: 1,
	Names: []string{"laboratory", "lab", "VO2max", "gas analysis", "CPET", "lab test"},
	Results: []Result{
		{Input: MeasuredVO2, Column: "Measured VO2max (mL/kg/min)", Headers: []string{"lab VO2max", "laboratory VO2max", "VO2max measured"}, Better: HigherIsBetter},
		{Input: MeasuredVO2Abs, Column: "Measured VO2max (L/min)", Headers: []string{"lab VO2max L/min"}, Better: HigherIsBetter},
	},
	Suits:    "Anyone who has had a laboratory test with gas analysis. It beats every estimate here.",
	Protocol: []string{"Done by a laboratory or clinic. Type in the value from its report, and say on which machine (treadmill or cycle) it was measured: a cycle usually reads lower."},
	Youth:    true,
	Equations: []*Equation{
		{ID: "measured", Name: "as measured", Vars: []Var{{"VO2", MeasuredVO2, MLPerKgMin}}, Formula: "VO2",
			Ages: anyAge, Accepts: anyAge, Population: "the person", Error: measuredError, Retest: labRetest, Source: "acsm", Status: "measured"},
		{ID: "measured-absolute", Name: "as measured, divided by body mass",
			Vars:    []Var{{"VO2abs", MeasuredVO2Abs, LPerMin}, {"kg", BodyMass, Kilograms}},
			Formula: "1000*VO2abs/kg",
			Ages:    anyAge, Accepts: anyAge, Population: "the person", Error: measuredError, Retest: labRetest, Source: "acsm", Status: "measured"},
	},
})

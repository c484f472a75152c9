package fieldtests

import (
	"math"

	"tenback/scoring"
)

// labError is the standard error of measurement of a laboratory test (mL/kg/min).
//
//	ln SEM = 0.661 + 0.006 VO2max
//
// Source: vickers-lab, over 39 studies; on average 2.58.
func labError(v scoring.VO2) scoring.VO2 { return scoring.VO2(math.Exp(0.661 + 0.006*float64(v))) }

var measuredError = scoring.ErrorOfEstimate{Curve: labError, CurveText: "e^(0.661 + 0.006 VO2max)", Note: "from one day to another, over 39 studies"}

// labRetest is the error of a laboratory test against its own repeat. A difference holds
// the error of both tests, √2 times that of one.
var labRetest = &scoring.Retest{
	SDOfDifferences: func(v scoring.VO2) scoring.VO2 { return math.Sqrt2 * labError(v) },
	Figure:          "standard error of measurement e^(0.661 + 0.006 VO2max), 2.58 mL/kg/min on average over 39 studies",
	Derived:         "a difference holds the error of both tests, √2 times that of one",
	Source:          "vickers-lab",
}

// Measured is a laboratory value with gas analysis: no estimate, and always
// the headline.
var Measured = &scoring.Test{
	ID: "measured", Name: "Measured VO2max", Measured: true,
	Names: []string{"laboratory", "lab", "VO2max", "gas analysis", "CPET", "lab test"},
	Results: []scoring.Result{
		{Input: scoring.MeasuredVO2, Column: "Measured VO2max (mL/kg/min)", Headers: []string{"lab VO2max", "laboratory VO2max", "VO2max measured"}, Better: scoring.HigherIsBetter},
		{Input: scoring.MeasuredVO2Abs, Column: "Measured VO2max (L/min)", Headers: []string{"lab VO2max L/min"}, Better: scoring.HigherIsBetter},
	},
	Suits:    "Anyone who has had a laboratory test with gas analysis. It beats every estimate here.",
	Protocol: []string{"Done by a laboratory or clinic. Type in the value from its report, and say on which machine (treadmill or cycle) it was measured: a cycle usually reads lower."},
	Youth:    true,
	Choice:   "A measured value comes before any estimate. Its range is how far repeats differ, e^(0.661 + 0.006 VO2max), in 39 studies.",
	Equations: []*scoring.Equation{
		{ID: "measured", Name: "as measured", Vars: []scoring.Var{bind("VO2", scoring.MeasuredVO2, scoring.MLPerKgMin)}, Formula: "VO2",
			Ages: scoring.Everybody, Population: "the person", Error: measuredError, Retest: labRetest, Source: "acsm", Status: "measured"},
		{ID: "measured-absolute", Name: "as measured, divided by body mass",
			Vars:    []scoring.Var{bind("VO2abs", scoring.MeasuredVO2Abs, scoring.LPerMin), bind("kg", scoring.BodyMass, scoring.Kilograms)},
			Formula: "1000*VO2abs/kg",
			Ages:    scoring.Everybody, Population: "the person", Error: measuredError, Retest: labRetest, Source: "acsm", Status: "measured"},
	},
	Sources: []scoring.Source{
		{Key: "vickers-lab", Citation: "Vickers RR. Measurement error in maximal oxygen uptake tests: a meta-analysis of 39 studies of repeated tests. Naval Health Research Center, San Diego (figures seen in the report's summary, title and year from memory)."},
	},
}

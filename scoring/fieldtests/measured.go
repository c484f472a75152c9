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

// Measured is a laboratory value with gas analysis: no estimate, and always the headline.
// It is taken as measured on a treadmill unless the sheet says on a cycle.
var Measured = laboratory(&scoring.Test{
	ID: "measured", Name: "Measured VO2max",
	Names: []string{"laboratory", "lab", "VO2max", "gas analysis", "CPET", "lab test"},
	Results: []scoring.Result{
		{Input: scoring.MeasuredVO2, Column: "Measured VO2max (mL/kg/min)", Headers: []string{"lab VO2max", "laboratory VO2max", "VO2max measured"}, Better: scoring.HigherIsBetter},
		{Input: scoring.MeasuredVO2Abs, Column: "Measured VO2max (L/min)", Headers: []string{"lab VO2max L/min"}, Better: scoring.HigherIsBetter},
	},
	Suits:    "Anyone who has had a laboratory test with gas analysis. It beats every estimate here.",
	Protocol: []string{"Done by a laboratory or clinic. Type in the value from its report. If it was measured on a cycle, say so in the header: a cycle usually reads lower, and has a table of its own."},
	Sources: []scoring.Source{
		{Key: "vickers-lab", Citation: "Vickers RR. Measurement error in maximal oxygen uptake tests: a meta-analysis of 39 studies of repeated tests. Naval Health Research Center, San Diego (figures seen in the report's summary, title and year from memory)."},
	},
})

// MeasuredCycle is a laboratory value of a test on a cycle.
var MeasuredCycle = laboratory(&scoring.Test{
	ID: "measured-cycle", Name: "Measured VO2max, cycle", Cycle: true,
	Names: []string{"lab cycle", "laboratory cycle", "VO2max cycle", "CPET cycle", "measured on a cycle"},
	Results: []scoring.Result{
		{Input: scoring.MeasuredVO2, Column: "Measured VO2max on a cycle (mL/kg/min)", Headers: []string{"lab VO2max cycle"}, Better: scoring.HigherIsBetter},
		{Input: scoring.MeasuredVO2Abs, Column: "Measured VO2max on a cycle (L/min)", Headers: []string{"lab VO2max cycle L/min"}, Better: scoring.HigherIsBetter},
	},
	Suits:    "Anyone whose laboratory test with gas analysis was on a cycle.",
	Protocol: []string{"As a measured VO2max, from a report that says cycle or ergometer. It is read against people measured on cycles."},
})

// laboratory completes a test whose value is measured.
func laboratory(t *scoring.Test) *scoring.Test {
	t.Measured, t.Youth = true, true
	t.Choice = "A measured value comes before any estimate. Its range is how far repeats differ, e^(0.661 + 0.006 VO2max), in 39 studies."
	t.Equations = []*scoring.Equation{
		{ID: t.ID, Name: "as measured", Vars: []scoring.Var{bind("VO2", scoring.MeasuredVO2, scoring.MLPerKgMin)}, Formula: "VO2",
			Ages: scoring.Everybody, Population: "the person", Error: measuredError, Retest: labRetest, Source: "acsm", Status: "measured"},
		{ID: t.ID + "-absolute", Name: "as measured, divided by body mass",
			Vars:    []scoring.Var{bind("VO2abs", scoring.MeasuredVO2Abs, scoring.LPerMin), bind("kg", scoring.BodyMass, scoring.Kilograms)},
			Formula: "1000*VO2abs/kg",
			Ages:    scoring.Everybody, Population: "the person", Error: measuredError, Retest: labRetest, Source: "acsm", Status: "measured"},
	}
	return t
}

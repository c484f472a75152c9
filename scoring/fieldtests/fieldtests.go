// Package fieldtests declares the field tests, one file a family: how a result is
// written, how the test is run, its equations and their sources.
//
// To add a test, write a file beside the others, name the test in [All], and put
// check values with their source into testdata/evidence.
package fieldtests

import "tenback/scoring"

// all is in the order of listings.
var all = []*scoring.Test{
	Measured, MeasuredCycle,
	run15Mile, run12Minute, run1Mile, jog1Mile, race,
	walk1Mile, walk2Km, walk6Minute,
	shuttle20M, shuttle20M2Min,
	step41Cm, step30Cm, step20Cm, stepStage, cycleStage, treadmillStage,
	stepInPlace,
	noExercise,
}

var phrases = scoring.NewPhrasebook("")

// All lists the field tests in the order of listings.
func All() []*scoring.Test { return all }

// WithoutExercise lists the tests without exercise, for [scoring.Options].
func WithoutExercise() []*scoring.Test { return []*scoring.Test{noExercise} }

// ByID finds a test by its short name.
func ByID(id string) (*scoring.Test, bool) {
	for _, t := range all {
		if t.ID == id {
			return t, true
		}
	}
	return nil, false
}

// Equation finds an equation and its test by the equation's short name.
func Equation(id string) (*scoring.Test, *scoring.Equation, bool) {
	for _, t := range all {
		for _, e := range t.Equations {
			if e.ID == id {
				return t, e, true
			}
		}
	}
	return nil, nil, false
}

// bind binds a symbol of a formula to an input, in the unit of the paper.
func bind(symbol string, in scoring.Input, unit scoring.Unit) scoring.Var {
	return scoring.Var{Symbol: symbol, Input: in, Unit: unit}
}

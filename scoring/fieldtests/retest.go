package fieldtests

import (
	"math"

	"tenback/scoring"
)

// within95 turns the half width of 95 % limits of agreement into a standard
// deviation.
const within95 = 1.96

// fromLimits is a retest error printed as 95 % limits of agreement of so much
// to each side.
func fromLimits(limits scoring.VO2, figure, source string) *scoring.Retest {
	return &scoring.Retest{SDOfDifferences: func(scoring.VO2) scoring.VO2 { return limits / within95 }, Figure: figure, Source: source}
}

// fromReliability is a retest error from a correlation between test and
// retest, for estimates that spread with a standard deviation of sd.
//
//	sd √(2 (1 − r))
func fromReliability(r float64, sd scoring.VO2, figure, derived, source string) *scoring.Retest {
	difference := sd * scoring.VO2(math.Sqrt(2*(1-r)))
	return &scoring.Retest{SDOfDifferences: func(scoring.VO2) scoring.VO2 { return difference }, Figure: figure, Derived: derived, Source: source}
}

// retested gives an equation that several tests share the retest error of one.
func retested(e *scoring.Equation, r *scoring.Retest) *scoring.Equation {
	e.Retest = r
	return e
}

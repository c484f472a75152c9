package scoring

import "math"

// Retest is how far two tests of one person by one equation come apart when
// nothing has changed, as a study of repeated tests found it. It is not the
// error of estimate: what an equation gets wrong about a person it gets wrong
// again, and that cancels in a difference.
type Retest struct {
	// SDOfDifferences is the standard deviation (mL/kg/min) of the differences
	// between a first and a second test, at an uptake.
	SDOfDifferences func(VO2) VO2
	Figure          string // as printed, and whom it was found in
	// Derived tells that the study prints another figure, and how this one
	// comes from it; empty where it is the printed one.
	Derived string
	Source  string // bibliography key
	// Practice is what practice alone adds from the first test to the second
	// (mL/kg/min), where a study tells.
	Practice       VO2
	PracticeSource string
}

// within95 turns the half width of 95 % limits of agreement into a standard
// deviation.
const within95 = 1.96

// fromLimits is a retest error printed as 95 % limits of agreement of so much
// to each side.
func fromLimits(limits VO2, figure, source string) *Retest {
	return &Retest{SDOfDifferences: func(VO2) VO2 { return limits / within95 }, Figure: figure, Source: source}
}

// fromReliability is a retest error from a correlation between test and
// retest, for estimates that spread with a standard deviation of sd.
//
//	sd √(2 (1 − r))
func fromReliability(r float64, sd VO2, figure, derived, source string) *Retest {
	difference := sd * VO2(math.Sqrt(2*(1-r)))
	return &Retest{SDOfDifferences: func(VO2) VO2 { return difference }, Figure: figure, Derived: derived, Source: source}
}

// shuttleRetest holds for the one-minute form. A study of games players found
// narrower limits, 5.0, between a second and a third test, and the second 1.1
// above the first (lambrogers2007); the wider ones are taken, for groups are
// tested once a season. In children r was 0.89 (leger1988); no limits are
// printed there, so these of adults are taken for them too.
var shuttleRetest = func() *Retest {
	r := fromLimits(6.8, "95% limits of agreement ±6.8 mL/kg/min in 40 men", "metsios2008")
	r.Practice, r.PracticeSource = 1.1, "lambrogers2007"
	return r
}()

// labRetest is the error of a laboratory test against its own repeat.
//
//	ln SEM = 0.661 + 0.006 VO2max
//
// Source: vickers-lab, over 39 studies; on average 2.58. A difference holds the
// error of both tests, √2 times that.
var labRetest = &Retest{
	SDOfDifferences: func(v VO2) VO2 { return VO2(math.Sqrt2 * math.Exp(0.661+0.006*float64(v))) },
	Figure:          "standard error of measurement e^(0.661 + 0.006 VO2max), 2.58 mL/kg/min on average over 39 studies",
	Derived:         "a difference holds the error of both tests, √2 times that of one",
	Source:          "vickers-lab",
}

// retested gives an equation that several tests share the retest error of one.
func retested(e *Equation, r *Retest) *Equation {
	e.Retest = r
	return e
}

package scoring

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

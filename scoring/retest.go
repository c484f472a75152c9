package scoring

// Retest is how far two tests of an unchanged person by one equation differ, as a
// study found. It is less than the error of estimate, because an equation's error
// about a person recurs and cancels in a difference.
type Retest struct {
	// SDOfDifferences is the standard deviation (mL/kg/min) of the differences
	// between a first and a second test, at an uptake.
	SDOfDifferences func(VO2) VO2
	Figure          string // as printed, and whom it was found in
	// Derived is how the figure follows from the printed one; empty where it is
	// printed.
	Derived string
	Source  string // bibliography key
	// Practice is what practice alone adds from the first test to the second
	// (mL/kg/min), where a study says.
	Practice       VO2
	PracticeSource string
}

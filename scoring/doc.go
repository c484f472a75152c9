// Package scoring turns field-test results into VO2max estimates and reads
// them: how sure each is, where it stands among people of the same age and
// sex, what it would take to match people one and two decades younger, what
// the resting pulse says, and what deserves a clinician's eye.
//
// The package is pure: it opens no file and knows no spreadsheet and no page.
// Data go one way:
//
//	Entry (what is known of a person, with the cells it came from)
//	  → Assess → Score (estimates, standing, targets, resting rate, flags)
//
// # Adding a field test
//
// A [Test] is a declaration: how its result may be written, the equations
// that read it, each with its formula as printed in the paper, the people it
// was validated on, its error and its source. The printed formula is compiled
// and is what is computed, so working, listing and result cannot disagree.
// Write a new file beside the others, register the test in it, and add the
// published worked example to testdata/evidence.
//
// # Units
//
// Numbers travel as [Quantity] with their [Unit]; a formula names the unit it
// wants for each symbol and the conversion is made there, once.
package scoring

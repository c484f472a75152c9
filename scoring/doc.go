// Package scoring turns field-test results into VO2max estimates with their errors,
// standing, targets, resting rate and remarks. It opens no file and knows no
// spreadsheet and no page. Data go one way:
//
//	Entry (what is known of a person, with the cells it came from)
//	  → Assess → Score (estimates, standing, targets, resting rate, flags)
//
// The field tests are declared in package fieldtests. A printed formula is compiled
// and is what is computed, so working, listing and result cannot disagree.
//
// # Units
//
// Numbers travel as [Quantity] with their [Unit]; a formula names the unit of each
// symbol and the conversion is made there, once.
package scoring

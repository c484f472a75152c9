// Package report prints what was read from a roster and how it was scored.
package report

import (
	"tenback/scoring"
	"tenback/workbook"
)

// Scored is a roster with what was read and scored with it.
type Scored struct {
	Roster   *workbook.Roster
	Earlier  []*workbook.Roster
	Options  scoring.Options
	Outcomes []workbook.Outcome

	// Of check alone: why run could not write the results, and which cells it would
	// leave as they are.
	CannotWrite error
	Notes       []string
}

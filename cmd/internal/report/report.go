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

	CannotWrite error // why run could not write the results; of check alone
}

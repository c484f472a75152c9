package batch

import (
	"time"

	"tenback/scoring/change"
	"tenback/workbook"
)

// LastRound is the day on which the last round of testing began, so that a
// season's sheets count once; zero if no day is known.
func LastRound(roster *workbook.Roster) time.Time {
	_, days := workbook.TestDays(workbook.Visits(roster))
	starts := change.Rounds(days)
	if len(starts) == 0 {
		return time.Time{}
	}
	return starts[len(starts)-1]
}

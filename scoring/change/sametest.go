package change

import (
	"time"

	"tenback/scoring"
)

// SameTest is a person's results of one test on two dates, as they stand.
type SameTest struct {
	Since       time.Time
	Before, Now *scoring.Trial
}

// SameTests compares each result of the last date with the last one before that is
// written in the same way.
func SameTests(line []Dated) []SameTest {
	var all []SameTest
	last := len(line) - 1
	trials := line[last].Score.Entry().Trials
	for i := range trials {
		now := &trials[i]
		for n := last - 1; n >= 0; n-- {
			if before := sameTest(line[n].Score.Entry(), now); before != nil {
				all = append(all, SameTest{line[n].Day, before, now})
				break
			}
		}
	}
	return all
}

// sameTest returns an entry's result of the test; nil without one.
func sameTest(e *scoring.Entry, now *scoring.Trial) *scoring.Trial {
	result, ok := now.ResultOf()
	for i := range e.Trials {
		if t := &e.Trials[i]; ok && t.Test == now.Test && t.Has(result.Input) {
			return t
		}
	}
	return nil
}

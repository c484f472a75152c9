package scoring

import "tenback/scoring/reference"

// Adults is the range of whole years in which equations made on adults are used
// at all.
var Adults = reference.Ages{Min: 18, Max: 100}

// Everybody is every age, for values that are no estimates.
var Everybody = reference.Ages{Max: 120}

// Day is what testing a group takes. Sizes, minutes and helpers are rules of thumb
// (common practice, no source) and are printed as such.
type Day struct {
	Say, WarmUp string // keys of words
	Clock       string // key of the timetable's words; empty for none

	AtOnce     int    // people in a wave
	Minutes    int    // a wave takes, warm-up and rest included
	PerHelper  int    // people that a helper looks after
	Needs      string // key of the place and the things
	PerStation int    // people to a lane, bench or machine; 0 where one place serves all

	Course float64     // metres to cover, for tables of even pace; 0 if time or distance is free
	Laps   int         // of 400 m to cross out; 0 for none
	Pace   FinishTimes // of the table of even pace

	Count   PulseCount // how the pulse is counted by hand; zero where it is not
	Cadence []int      // step cycles a minute

	RunFor  int  // seconds of a run for distance; 0 for other tests
	Lengths bool // lengths of a short course are counted
	Levels  bool // levels of the shuttle run's recording are listed and crossed out
}

// FinishTimes are those of a table of even pace, in seconds.
type FinishTimes struct{ From, To, Step int }

// PulseCount is a count of beats over so many seconds, times so much.
type PulseCount struct{ Seconds, Times int }

// The counts in use.
var (
	Count10 = PulseCount{10, 6}
	Count15 = PulseCount{15, 4}
	Count30 = PulseCount{30, 2}
)

// NormReading is a result read against norms of its own test, without VO2max.
type NormReading struct {
	Test     *Test
	Ages     reference.Ages
	Result   Quantity
	Mean, SD float64 // of people of the same sex and age group, in the result's unit
	// Independence is the count that people who stay independent into late
	// life reach at this age.
	Independence float64
}

// Average returns -1, 0 or 1: below, within or above one standard deviation of the
// mean.
func (n NormReading) Average() int {
	switch x := n.Result.Amount; {
	case x < n.Mean-n.SD:
		return -1
	case x > n.Mean+n.SD:
		return 1
	}
	return 0
}

package testday

import "tenback/scoring"

// dayTest is what running a test with a group takes. How many at once, how long
// and how many helpers are rules of thumb (common practice, no source) and
// printed as such.
type dayTest struct {
	say, warmUp string // keys of words
	clock       string // key of the timetable; empty for none

	atOnce     int    // people in a wave
	minutes    int    // a wave takes, warm-up and rest included
	perHelper  int    // people that a helper looks after
	needs      string // key of the place and the things
	perStation int    // people to a lane, bench or machine; 0 where there is one place for all

	course float64     // metres to cover, for tables of even pace; 0 if time or distance is free
	laps   int         // of 400 m to cross out; 0 for none
	pace   finishTimes // finish times of the table of even pace

	count   countForm // how the pulse is counted by hand; zero where it is not
	cadence []int     // step cycles a minute
}

// finishTimes are those of a table of even pace, in seconds.
type finishTimes struct{ from, to, step int }

// countForm is a pulse count: over so many seconds, times so much.
type countForm struct{ seconds, times int }

var (
	count10 = countForm{10, 6}
	count15 = countForm{15, 4}
	count30 = countForm{30, 2}
)

// dayTests are the tests that a group can be tested with, by their IDs. Lengths,
// cadences and counts are those of the tests' own protocols; a test compares
// them.
var dayTests = map[string]dayTest{
	"run-1.5-mile": {say: "run-1.5-mile", warmUp: "run", atOnce: 15, minutes: 35, perHelper: 5, needs: "track",
		course: 2414, laps: 6, pace: finishTimes{8 * 60, 20 * 60, 30}},
	"run-12-minute": {say: "run-12-minute", warmUp: "run", atOnce: 15, minutes: 30, perHelper: 5, needs: "markers", laps: 9},
	"run-1-mile": {say: "run", warmUp: "run", atOnce: 15, minutes: 30, perHelper: 5, needs: "track",
		course: 1609, laps: 4, pace: finishTimes{6 * 60, 15 * 60, 30}},
	"jog-1-mile": {say: "jog", warmUp: "walk", atOnce: 10, minutes: 25, perHelper: 3, needs: "pulse-track",
		course: 1609, laps: 4, pace: finishTimes{8 * 60, 14 * 60, 30}, count: count10},
	"race":          {say: "race", warmUp: "run", atOnce: 20, minutes: 60, perHelper: 10, needs: "course"},
	"walk-1-mile":   {say: "walk", warmUp: "walk", atOnce: 12, minutes: 30, perHelper: 4, needs: "pulse-track", course: 1609, laps: 4, count: count10},
	"walk-2-km":     {say: "walk", warmUp: "walk", atOnce: 12, minutes: 35, perHelper: 4, needs: "pulse-track", course: 2000, laps: 5, count: count10},
	"walk-6-minute": {say: "walk-6-minute", warmUp: "walk", clock: "walk-6-minute", atOnce: 4, minutes: 15, perHelper: 1, needs: "walkway", perStation: 1},
	shuttle1Minute:  {say: "shuttle", warmUp: "shuttle", atOnce: 12, minutes: 20, perHelper: 4, needs: "lanes", perStation: 1},
	"shuttle-20-m-2-min": {say: "shuttle", warmUp: "shuttle", atOnce: 12, minutes: 35, perHelper: 4, needs: "lanes",
		perStation: 1},
	"step-41-cm": {say: "step", warmUp: "recovery", clock: "step-41-cm", atOnce: 12, minutes: 12, perHelper: 3, needs: "benches", perStation: 3,
		count: count15, cadence: []int{22, 24}},
	"step-30-cm": {say: "step", warmUp: "recovery", clock: "step-30-cm", atOnce: 6, minutes: 12, perHelper: 3, needs: "benches", perStation: 1,
		cadence: []int{24}},
	"step-20-cm": {say: "step", warmUp: "recovery", clock: "step-20-cm", atOnce: 12, minutes: 12, perHelper: 3, needs: "benches", perStation: 3,
		count: count30, cadence: []int{24}},
	"step-stage": {say: "step", warmUp: "stage", clock: "step-stage", atOnce: 6, minutes: 15, perHelper: 3, needs: "benches", perStation: 1,
		count: count10, cadence: []int{12, 14, 16, 18, 20, 22, 24, 26, 28, 30}},
	"cycle-stage":         {say: "cycle", warmUp: "stage", clock: "stages", atOnce: 2, minutes: 20, perHelper: 1, needs: "cycles", perStation: 1},
	"treadmill-stage":     {say: "treadmill", warmUp: "stage", clock: "stages", atOnce: 2, minutes: 20, perHelper: 1, needs: "treadmills", perStation: 1},
	"step-in-place-2-min": {say: "march", warmUp: "march", clock: "step-in-place-2-min", atOnce: 4, minutes: 10, perHelper: 1, needs: "walls", perStation: 1},
}

// The tests whose sheets differ in more than their columns.
const (
	shuttle1Minute = "shuttle-20-m"
	run12Minute    = "run-12-minute"
	walk6Minute    = "walk-6-minute"
)

// Recordable tells whether a test is run with a group, so that there is
// something to write down on the day. A laboratory's value is not.
func Recordable(t *scoring.Test) bool {
	_, ok := dayTests[t.ID]
	return ok
}

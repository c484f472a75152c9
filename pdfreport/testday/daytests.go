package testday

import "tenback/scoring"

// The tests whose sheets differ in more than their columns.
const (
	shuttle1Minute = "shuttle-20-m"
	run12Minute    = "run-12-minute"
	walk6Minute    = "walk-6-minute"
)

// Recordable tells whether a test is run with a group, so that there is
// something to write down on the day. A laboratory's value is not.
func Recordable(t *scoring.Test) bool { return t.Day != nil }

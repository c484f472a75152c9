package change

import (
	"slices"
	"time"
)

// betweenRounds is the pause that can separate two rounds of testing. Common
// practice, no source.
const betweenRounds = 28 * 24 * time.Hour

// Presence is how a person took part in the rounds of a group.
type Presence uint8

// The presences.
const (
	OneRound    Presence = iota // the group was tested in one round only
	TestedAgain                 // in the last round and in an earlier one
	Newcomer                    // in the last round for the first time
	Left                        // in earlier rounds and not in the last
	Undated                     // a test day is missing on which it depends
)

// Rounds returns the first day of each round of testing, from each person's test
// days. A new round begins after four weeks without a test, if someone of the round
// before is tested again: another class, a month later, is no new round.
func Rounds(people [][]time.Time) (starts []time.Time) {
	type test struct {
		day    time.Time
		person int
	}
	var all []test
	for i, days := range people {
		for _, day := range days {
			if !day.IsZero() {
				all = append(all, test{day, i})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b test) int { return a.day.Compare(b.day) })
	seen := map[int]bool{}
	for from := 0; from < len(all); {
		to := from + 1
		for to < len(all) && all[to].day.Sub(all[to-1].day) < betweenRounds {
			to++
		}
		again := slices.ContainsFunc(all[from:to], func(t test) bool { return seen[t.person] })
		if len(starts) == 0 || again {
			starts = append(starts, all[from].day)
			seen = map[int]bool{}
		}
		for _, t := range all[from:to] {
			seen[t.person] = true
		}
		from = to
	}
	return starts
}

// PresenceOf returns the presence of a person with these test days in the rounds that
// begin at starts. A zero day is unknown and may be in any round.
func PresenceOf(days []time.Time, starts []time.Time) Presence {
	if len(starts) < 2 {
		return OneRound
	}
	last := starts[len(starts)-1]
	in, before, open := false, false, len(days) == 0
	for _, day := range days {
		switch {
		case day.IsZero():
			open = true
		case day.Before(last):
			before = true
		default:
			in = true
		}
	}
	switch {
	case in && before:
		return TestedAgain
	case open:
		return Undated
	case before:
		return Left
	}
	return Newcomer
}

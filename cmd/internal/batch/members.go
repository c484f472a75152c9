package batch

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/group"
	"tenback/workbook"
	"tenback/workbook/people"
)

// Members returns each person once, with the last round's latest visit that gave
// a value, or its latest visit. People of earlier rounds only have left.
func Members(roster *workbook.Roster, earlier []*workbook.Roster, outcomes []workbook.Outcome, options *scoring.Options) []group.Member {
	seasons := people.NewSeasons(roster, earlier...)
	people, days := people.TestDays(slices.Concat(seasons.Visits, seasons.Earlier))
	starts := change.Rounds(days)
	chosen := map[int]*workbook.Outcome{}
	for i, v := range seasons.Visits { // outcomes are in their order
		o := &outcomes[i]
		day := o.Row.Entry.Tested
		if len(starts) > 1 && !day.IsZero() && day.Before(starts[len(starts)-1]) {
			continue
		}
		c := chosen[v.Person]
		has, had := o.Estimated(), c != nil && c.Estimated()
		if c == nil || has && !had || has == had && day.After(c.Row.Entry.Tested) {
			chosen[v.Person] = o
		}
	}
	var members []group.Member
	for i, person := range people {
		o := chosen[person]
		if o == nil {
			members = append(members, group.Member{Presence: change.Left})
			continue
		}
		if o.Withheld {
			members = append(members, group.Member{LeftOut: group.WithoutConsent})
			continue
		}
		m := group.Member{Group: o.Row.Person.Group, Score: o.Score(options), Presence: change.PresenceOf(days[i], starts), Change: o.Comparison()}
		if m.Presence != change.TestedAgain { // two visits in one round are no season
			m.Change = nil
		}
		if slices.ContainsFunc(o.Row.Problems, o.IsUnread) {
			m.LeftOut = group.Unreadable
		}
		members = append(members, m)
	}
	return members
}

// FirstDay returns the first day of the last round; zero if no day is known.
func FirstDay(roster *workbook.Roster, earlier []*workbook.Roster) time.Time {
	seasons := people.NewSeasons(roster, earlier...)
	_, days := people.TestDays(slices.Concat(seasons.Visits, seasons.Earlier))
	if starts := change.Rounds(days); len(starts) > 0 {
		return starts[len(starts)-1]
	}
	return time.Time{}
}

// LatestDay returns the last test day of a roster, zero if none is known.
func LatestDay(outcomes []workbook.Outcome) time.Time {
	var latest time.Time
	for i := range outcomes {
		if day := outcomes[i].Row.Entry.Tested; day.After(latest) {
			latest = day
		}
	}
	return latest
}

package change

import (
	"tenback/scoring"
	"tenback/scoring/outlook"
	"tenback/scoring/reference"
)

// Reach is how a goal of the decades stands since the last date.
type Reach uint8

// The ways.
const (
	ReachedSince  Reach = iota // not there last time, there now
	LostSince                  // there last time, not now
	WithinTypical              // a gain that is usual would do within a year
	WithinMost                 // a gain that few make would do
	BeyondAYear
)

// Progress is one goal of a person's decades.
type Progress struct {
	Younger int // decades
	Ages    reference.Ages
	Group   reference.Group
	VO2     scoring.VO2
	Reach   Reach
}

// InAYear is where an uptake could be in a year, after a usual and a large training
// gain less a year's ageing at a fast and a slow pace. A gain of half a year counts
// once, because gains level off: common practice, no source. It was found in
// untrained people (bouchard1999); trained ones gain less.
type InAYear struct{ Typical, Most scoring.VO2 }

// ReadGoals compares the decades of a standing with an earlier uptake, both by the
// age groups of the later date, so that a birthday is no progress. Only the next goal
// ahead of each decade is listed, and none without year, which is nil for people
// whom the study of training did not include: it was made on inactive ones.
func ReadGoals(st *scoring.Standing, earlier, now scoring.VO2, e *scoring.Entry) (goals []Progress, year *InAYear) {
	if mean, ok := outlook.Gain(e); ok && st.Group <= reference.Third { // above it people are trained
		mass, _ := e.Get(scoring.BodyMass)
		slow, fast := outlook.Decline(st.Sex)
		year = &InAYear{Typical: now + mean - fast, Most: now + outlook.MostGain(mass.Amount) - slow}
	}
	for _, d := range st.Decades() {
		row, ok := st.Table.Row(st.Sex, d.Ages.Min)
		if !ok {
			continue
		}
		then, today := row.Group(earlier), row.Group(now)
		ahead := false
		for _, g := range d.Goals {
			p := Progress{Younger: d.Younger, Ages: d.Ages, Group: g.Group, VO2: g.VO2}
			switch had, has := then >= g.Group, today >= g.Group; {
			case has && !had:
				p.Reach = ReachedSince
			case had && !has:
				p.Reach = LostSince
			case has || ahead || year == nil:
				continue
			default:
				ahead = true
				p.Reach = year.reach(row, g.Group)
			}
			goals = append(goals, p)
		}
	}
	return goals, year
}

func (y *InAYear) reach(row reference.GroupRow, g reference.Group) Reach {
	switch {
	case row.Group(y.Typical) >= g:
		return WithinTypical
	case row.Group(y.Most) >= g:
		return WithinMost
	}
	return BeyondAYear
}

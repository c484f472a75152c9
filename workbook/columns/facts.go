package columns

import (
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// Facts are what is known of a workbook besides its cells.
type Facts struct {
	Today    time.Time // the last possible date, unless dates are Ahead
	TestDate time.Time // for rows without one; zero if unknown
	Dates    cell.DateContext
	SexCodes map[string]scoring.Sex             // what numbers in a column of sexes mean
	Text     bool                               // a text file
	tests    map[string]roster.Meaning          // cache of TestNamed; without a test for unknown names
	limits   map[*scoring.Test][2]time.Duration // cache of PossibleTimes
}

// DateContext returns what is known about a date in a column besides its cell.
func (f *Facts) DateContext(c *Column) cell.DateContext {
	ctx := f.Dates
	ctx.Birth = c.Meaning.Role == roster.Birth
	switch {
	case ctx.Order != cell.AnyOrder:
	case c.order != cell.AnyOrder:
		ctx.Order = c.order
	default:
		ctx.Order = c.dates.Order()
	}
	return ctx
}

// TestNamed is [heading.TestNamed] with a cache, because a column repeats a few
// names.
func (f *Facts) TestNamed(name string) (roster.Meaning, bool) {
	if m, ok := f.tests[name]; ok {
		return m, m.Test != nil
	}
	m, ok := heading.TestNamed(name)
	if f.tests == nil {
		f.tests = map[string]roster.Meaning{}
	}
	if len(f.tests) < testsRemembered && len(name) <= heading.MaxLen {
		f.tests[name] = m
	}
	return m, ok
}

// testsRemembered is the most names in that cache.
const testsRemembered = 1000

// OldestToday returns the age in years today of someone born then, an upper bound
// for any test day; 0 if the birth or today is unknown.
func (f *Facts) OldestToday(born cell.Day) float64 {
	years, err := scoring.AgeOn(born.Time, f.Today)
	if err != nil || f.Dates.Ahead {
		return 0
	}
	if born.YearOnly {
		years++
	}
	return years
}

// timeContext returns what is known about a time besides its cell. Metres is the
// distance of the race that the row names, or 0.
func (f *Facts) timeContext(c *Column, t *scoring.Test, metres float64) cell.TimeContext {
	ctx := cell.TimeContext{Style: c.style}
	if c.Meaning.Input == scoring.StageTime {
		info := scoring.StageTime.Info()
		ctx.Least, ctx.Most = duration(scoring.Q(info.Min, info.Unit)), duration(scoring.Q(info.Max, info.Unit))
		return ctx
	}
	if c.Meaning.Distance > 0 || t != heading.Race {
		metres = c.Meaning.Distance
	}
	if metres > 0 {
		ctx.Least, ctx.Most = possibleRaceTimes(metres)
		return ctx
	}
	if t == nil {
		return ctx
	}
	limits, ok := f.limits[t]
	if !ok {
		limits = PossibleTimes(t)
		if f.limits == nil {
			f.limits = map[*scoring.Test][2]time.Duration{}
		}
		f.limits[t] = limits
	}
	ctx.Least, ctx.Most = limits[0], limits[1]
	return ctx
}

// possibleRaceTimes returns the times over a distance in metres that are running
// speeds.
func possibleRaceTimes(metres float64) (least, most time.Duration) {
	slowest, fastest := heading.RaceLimit("v")
	return duration(scoring.Q(metres/fastest, scoring.Minutes)), duration(scoring.Q(metres/slowest, scoring.Minutes))
}

func duration(q scoring.Quantity) time.Duration {
	return time.Duration(q.In(scoring.Seconds) * float64(time.Second))
}

// PossibleTimes returns the range of times that any of a test's equations
// accepts, or the input's own range.
func PossibleTimes(t *scoring.Test) [2]time.Duration {
	info := scoring.Time.Info()
	widest := [2]time.Duration{duration(scoring.Q(info.Min, info.Unit)), duration(scoring.Q(info.Max, info.Unit))}
	var found [2]time.Duration
	for _, eq := range t.Equations {
		for _, v := range eq.Vars {
			for _, l := range eq.Limits {
				if v.Input != scoring.Time || l.Symbol != v.Symbol || !l.Refuse {
					continue
				}
				least, most := duration(scoring.Q(l.Min, v.Unit)), duration(scoring.Q(l.Max, v.Unit))
				if found[1] == 0 {
					found = [2]time.Duration{least, most}
				}
				found = [2]time.Duration{min(found[0], least), max(found[1], most)}
			}
		}
	}
	if found[1] == 0 {
		return widest
	}
	return found
}

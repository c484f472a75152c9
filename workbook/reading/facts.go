package reading

import (
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// facts are what is known of the workbook while its rows are read.
type facts struct {
	opt      Options
	dates    cell.DateContext
	sexCodes map[string]scoring.Sex             // what numbers in a column of sexes mean
	text     bool                               // a text file
	tests    map[string]roster.Meaning          // cache of testNamed; without a test for unknown names
	limits   map[*scoring.Test][2]time.Duration // cache of PossibleTimes
	bound    *roster.Bound
}

// dateContext returns what is known about a date on a sheet besides its cell. The
// latest day is tomorrow, which today may be elsewhere.
func (opt *Options) dateContext(date1904 bool) cell.DateContext {
	ctx := cell.DateContext{Date1904: date1904, Latest: opt.Today.AddDate(0, 0, 1)}
	if opt.Today.Before(opt.Since) {
		ctx.Latest, ctx.Ahead = opt.Since, true
	}
	return ctx
}

// dateContext returns what is known about a date in a column besides its cell.
func (f *facts) dateContext(c *sheetColumn) cell.DateContext {
	ctx := f.dates
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

// testNamed is [heading.TestNamed] with a cache, because a column repeats a few
// names.
func (f *facts) testNamed(name string) (roster.Meaning, bool) {
	if m, ok := f.tests[name]; ok {
		return m, m.Test != nil
	}
	m, ok := heading.TestNamed(name)
	if len(f.tests) < testsRemembered && len(name) <= heading.MaxLen {
		f.tests[name] = m
	}
	return m, ok
}

// testsRemembered is the most names in that cache.
const testsRemembered = 1000

// oldestToday returns the age in years today of someone born then, an upper bound
// for any test day; 0 if the birth or today is unknown.
func (f *facts) oldestToday(born cell.Day) float64 {
	years, err := scoring.AgeOn(born.Time, f.opt.Today)
	if err != nil || f.dates.Ahead {
		return 0
	}
	if born.YearOnly {
		years++
	}
	return years
}

// timeContext returns what is known about a time besides its cell.
func (f *facts) timeContext(c *sheetColumn, t *scoring.Test) cell.TimeContext {
	ctx := cell.TimeContext{Style: c.style}
	if c.Meaning.Input == scoring.StageTime {
		info := scoring.StageTime.Info()
		ctx.Least, ctx.Most = duration(scoring.Q(info.Min, info.Unit)), duration(scoring.Q(info.Max, info.Unit))
		return ctx
	}
	if c.Meaning.Distance > 0 {
		ctx.Least, ctx.Most = possibleRaceTimes(c.Meaning.Distance)
		return ctx
	}
	if t == nil {
		return ctx
	}
	limits, ok := f.limits[t]
	if !ok {
		limits = PossibleTimes(t)
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

package columns

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/health"
	"tenback/workbook/roster"
)

// Observer returns what learns from the cells of the column before they are read;
// nil if each cell is clear by itself.
func (c *Column) Observer(f *Facts) func(cell.Raw) {
	switch {
	case c.Meaning.Role == roster.Birth || c.Meaning.Role == roster.TestDate:
		return func(r cell.Raw) { c.dates.Observe(r, f.DateContext(c)) }
	case c.Meaning.Role != roster.InputData:
		return nil
	case c.Meaning.Input == scoring.SexInput:
		return c.Sexes.Observe
	case c.Meaning.Input == scoring.ShuttleLevel:
		return c.levels.Observe
	}
	return nil
}

// Value is one input as read, with its cell.
type Value struct {
	In   scoring.Input
	Q    scoring.Quantity
	Cell string
	Time cell.Time // of one that is a time
}

// Parse parses a cell as an input, else as another result of the test. Metres is the
// distance of the race that the row names, or 0.
func (c *Column) Parse(r cell.Raw, in scoring.Input, t *scoring.Test, f *Facts, metres float64) ([]Value, *cell.Doubt) {
	values, doubt := c.parseAs(r, in, t, f, metres)
	if plain, cut := cell.WithoutBeside(r); doubt != nil && cut {
		if again, stillDoubt := c.parseAs(plain, in, t, f, metres); stillDoubt == nil {
			return again, nil
		}
	}
	if doubt == nil || t == nil || r.Kind != cell.Text || !cell.HasLetters(r.Text) {
		return values, doubt
	}
	for _, other := range t.Results {
		if other.Input == in || other.Input == scoring.ShuttleLevel {
			continue
		}
		if values, d := c.parseAs(r, other.Input, t, f, metres); d == nil {
			return values, nil
		}
	}
	return nil, doubt
}

func (c *Column) parseAs(r cell.Raw, in scoring.Input, t *scoring.Test, f *Facts, metres float64) ([]Value, *cell.Doubt) {
	info := in.Info()
	one := func(x float64, u scoring.Unit, d *cell.Doubt) ([]Value, *cell.Doubt) {
		if d != nil {
			return nil, d
		}
		return []Value{{In: in, Q: scoring.Q(x, u)}}, nil
	}
	switch {
	case in == scoring.SystolicBP && bothPressures().MatchString(r.Text):
		both := bothPressures().FindStringSubmatch(r.Text)
		upper, _ := strconv.ParseFloat(both[1], 64)
		lower, _ := strconv.ParseFloat(both[2], 64)
		return []Value{{In: in, Q: scoring.Q(upper, info.Unit)}, {In: scoring.DiastolicBP, Q: scoring.Q(lower, info.Unit)}}, nil
	case info.YesNo:
		x, ok := health.Answer(in, r)
		if !ok || x == scoring.Unclear {
			return nil, &cell.Doubt{What: UnclearAnswer, Fix: AskYesNo}
		}
		return one(x, scoring.NoUnit, nil)
	case in == scoring.Effort:
		x, d := cell.ParseEffort(r)
		return one(x, scoring.NoUnit, d)
	case in == scoring.Gait:
		x, d := cell.ParseGait(r)
		return one(x, scoring.NoUnit, d)
	case in == scoring.Time, in == scoring.StageTime && isClock(r):
		read, d := cell.ParseTime(r, f.timeContext(c, t, metres))
		if d != nil {
			return nil, d
		}
		return []Value{{In: in, Q: scoring.Q(read.Duration.Seconds(), scoring.Seconds), Time: read}}, nil
	case in == scoring.ShuttleLevel:
		c.observeShuttle(r)
		return c.parseShuttle(r, t)
	}
	unit := info.Unit
	if c.Meaning.Input == in && c.Meaning.UnitGiven {
		unit = c.Meaning.Unit
	}
	if lap := c.Meaning.LapMetres; lap > 0 {
		q, d := cell.ParseAmount(r, cell.Measure{Unit: scoring.Laps, Fix: fixTrackLaps})
		return one(q.Amount*lap, scoring.Metres, d)
	}
	q, d := cell.ParseAmount(r, cell.Measure{Unit: unit, Unclear: c.Unclear,
		Fits: func(q scoring.Quantity) bool { return in.CheckRange(q).IsZero() },
		Fix:  amountFix(in)})
	if d == nil && counted(in) && q.Amount != math.Trunc(q.Amount) {
		return nil, &cell.Doubt{What: noWholeCount, Fix: amountFix(in)}
	}
	return one(q.Amount, q.Unit, d)
}

// counted reports whether an input counts things, so that a fraction such as level
// 7.2 among laps is another value.
func counted(in scoring.Input) bool {
	return in == scoring.ShuttleLaps || in == scoring.ShuttleInLevel || in == scoring.StepsInPlace
}

// SaysNone reports whether a cell of the column says that there is no value. No
// result of a test is 0.
func (c *Column) SaysNone(r cell.Raw) bool {
	m := c.Meaning
	switch {
	case m.Role == roster.InputData && m.Input.Info().Personal || m.Role == roster.TestName:
		return cell.SaysNoResult(r)
	case m.Role != roster.Minutes && m.Role != roster.SecondsOf && cell.IsZero(r) && c.IsResult():
		return m.Input == scoring.InputCount || !m.Input.CheckRange(scoring.Q(0, m.Unit)).IsZero()
	}
	return cell.SaysNotTested(r) || cell.IsWords(r) && c.IsResult() && m.Input != scoring.InputCount
}

// InputFor returns the input that a column holds for a test.
func InputFor(c *Column, t *scoring.Test) scoring.Input {
	if c.Meaning.Role == roster.Result && c.Meaning.Input == scoring.InputCount && t != nil {
		return t.Results[0].Input
	}
	return c.Meaning.Input
}

// isClock reports whether a stage's length is written as minutes and seconds.
func isClock(r cell.Raw) bool {
	return r.Format.IsTime() || r.Kind == cell.Text && strings.ContainsAny(cell.Clean(r.Text), `:'`)
}

// bothPressures matches two blood pressures in one cell, such as 128/82.
var bothPressures = cell.Pattern(`^\s*(\d{2,3})\s*[/|-]\s*(\d{2,3})\s*(?i:mm\s*hg)?\s*$`)

// shuttleRun has a known number of shuttles in each level.
var shuttleRun = heading.MustTest("shuttle-20-m")

// mostShuttles returns the shuttles of each level on the recording that has more.
func mostShuttles() []int {
	most := slices.Clone(fieldtests.ShuttlesInLevels(fieldtests.ShuttleStart80))
	for i, n := range fieldtests.ShuttlesInLevels(fieldtests.ShuttleStart85) {
		most[i] = max(most[i], n)
	}
	return most
}

// parseShuttle parses a level, laps or a speed of a shuttle run.
func (c *Column) parseShuttle(r cell.Raw, t *scoring.Test) ([]Value, *cell.Doubt) {
	if t == shuttleRun && c.levels.Most == nil {
		c.levels.Most = mostShuttles()
	}
	s, d := c.levels.Parse(r)
	if d != nil {
		return nil, d
	}
	if t != nil && !t.HasResult(s.Input) {
		return nil, &cell.Doubt{What: noResultOfTest.With(s.Input), Fix: fixLevel}
	}
	values := []Value{{In: s.Input, Q: scoring.Q(s.Value, s.Input.Info().Unit)}}
	if s.HasInLevel {
		values = append(values, Value{In: scoring.ShuttleInLevel, Q: scoring.Q(float64(s.InLevel), scoring.Laps)})
	}
	return values, nil
}

// amountFix returns what to type for an input.
func amountFix(in scoring.Input) scoring.Said {
	info := in.Info()
	switch info.Unit {
	case scoring.Levels, scoring.Laps, scoring.Steps:
		return fixType.With(in)
	case scoring.NoUnit:
		return fixTypeRange.With(in, scoring.Exactly(info.Min), scoring.Exactly(info.Max))
	}
	return fixTypeUnit.With(in, info.Unit)
}

// RangeFix returns what to do about a value out of range, by the errors that
// would explain it.
func RangeFix(in scoring.Input, q scoring.Quantity) scoring.Said {
	info := in.Info()
	fix := amountFix(in)
	switch {
	case in == scoring.Time:
		return cell.FixTime
	case info.Unit == scoring.BeatsPerMinute && q.Amount >= 8 && q.Amount < info.Min:
		return fixCount.With(fix)
	case in == scoring.ShuttleLevel && q.Amount > info.Max:
		return fixLaps.With(fix, scoring.Exactly(q.Amount))
	case in == scoring.MeasuredVO2 && scoring.MeasuredVO2Abs.CheckRange(scoring.Q(q.Amount, scoring.LPerMin)).IsZero():
		return fixLitres.With(fix, scoring.Exactly(q.Amount))
	}
	for _, u := range []scoring.Unit{scoring.Metres, scoring.Centimetres, scoring.Inches, scoring.Kilometres, scoring.Miles, scoring.Yards, scoring.Pounds} {
		other := scoring.Q(q.Amount, u)
		if u != q.Unit && u.Converts(info.Unit) && in.CheckRange(other).IsZero() {
			return fixOtherUnit.With(fix, u, scoring.Exactly(q.Amount))
		}
	}
	return fix
}

// lostZeros determines whether 7.10 may have become 7.1 before a column of
// shuttle levels was saved as text.
type lostZeros struct {
	first string // such as 7.1
	kept  bool   // some cell is such as 7.10
}

var levelDecimal = cell.Pattern(`^\d{1,2}[.,](1|\d0)$`)

func (c *Column) observeShuttle(r cell.Raw) {
	m := levelDecimal().FindStringSubmatch(cell.Clean(r.Text))
	switch {
	case m == nil:
	case m[1] != "1":
		c.shuttles.kept = true
	case c.shuttles.first == "":
		c.shuttles.first = cell.Clean(r.Text)
	}
}

func (z lostZeros) possible() bool { return z.first != "" && !z.kept }

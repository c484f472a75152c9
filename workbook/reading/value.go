package reading

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/health"
	"tenback/workbook/roster"
)

// cellReader reads the cells of one row and collects the row's problems.
type cellReader struct {
	facts    *facts
	sheet    *roster.Sheet
	raw      *rawRow
	right    map[grid.Address]bool // see survey
	metres   float64               // of the race of the row; 0 where it names none
	problems []roster.Problem
	blocked  int // number of blocking problems
}

// problem returns a problem of a cell.
func (cr *cellReader) problem(c *sheetColumn, what, fix scoring.Said) roster.Problem {
	return roster.Problem{Sheet: cr.sheet.Name, Cell: grid.At(c.Index, cr.raw.number),
		Read: cell.Display(cr.raw.cells[c.slot], cr.facts.dates.Date1904), What: what, Fix: fix, Answerable: true}
}

// block adds a problem that may cost the row its score.
func (cr *cellReader) block(c *sheetColumn, what, fix scoring.Said) {
	if !cr.facts.bound.Admit() && cr.blocked > 0 {
		return
	}
	p := cr.problem(c, what, fix)
	p.Blocking = true
	cr.blocked++
	cr.problems = append(cr.problems, p)
}

// confirmed reports whether the user said that a cell is right as it is.
func (cr *cellReader) confirmed(c *sheetColumn) bool {
	return cr.right[grid.Address{Row: cr.raw.number, Col: c.Index}]
}

// unread reports a cell that can't be read, because of a doubt or because its
// column waits for an answer.
func (cr *cellReader) unread(c *sheetColumn, doubt *cell.Doubt) {
	if !c.asked {
		cr.block(c, doubt.What, doubt.Fix)
		return
	}
	n := len(cr.problems)
	cr.block(c, waits.With(scoring.Quoted(c.Header)), scoring.Said{})
	for i := range cr.problems[n:] {
		cr.problems[n+i].Waits = true
	}
}

// say adds a remark, unless the user confirmed the cell.
func (cr *cellReader) say(c *sheetColumn, what, fix scoring.Said) {
	if !cr.confirmed(c) && cr.facts.bound.Admit() {
		cr.problems = append(cr.problems, cr.problem(c, what, fix))
	}
}

// value is one input as read, with its cell.
type value struct {
	in   scoring.Input
	q    scoring.Quantity
	cell string
}

// readOne reads the cell of a column, or of the later ones of the same meaning.
// ok is false if there is no value. A shuttle level may include the shuttles done
// in it.
func (cr *cellReader) readOne(c *sheetColumn, t *scoring.Test) (v []value, ok bool) {
	for _, d := range c.alike() {
		got, found := cr.readCell(d, t)
		switch {
		case !found:
		case !ok:
			v, ok = got, true
		case !sameAmount(v[0], got[0]):
			cr.block(d, saysOther.With(v[0].cell), fixEmptyOne.With(leaveOut(c)))
			return nil, false
		}
	}
	return v, ok
}

func sameAmount(a, b value) bool {
	return a.in == b.in && math.Abs(a.q.In(a.in.Info().Unit)-b.q.In(a.in.Info().Unit)) < 0.05
}

// readCell reads the cell of one column.
func (cr *cellReader) readCell(c *sheetColumn, t *scoring.Test) ([]value, bool) {
	r := cr.raw.cells[c.slot]
	if c.seconds != nil {
		return cr.readMinutesSeconds(c)
	}
	if r.IsBlank() {
		return nil, false
	}
	if c.asked && !cell.SaysNoResult(r) {
		cr.unread(c, nil)
		return nil, false
	}
	in := inputFor(c, t)
	if c.saysNone(r) {
		c.remark(readAsUntested, cr.problem(c, scoring.Said{}, scoring.Said{}))
		return nil, false
	}
	if c.Meaning.Role == roster.Result && in.Info().Unit == scoring.BeatsPerMinute && (cell.IsWords(r) || cell.IsMinutes(r)) {
		return nil, false // "done", "3 mins": the pulse is in a column of its own
	}
	values, doubt := cr.parse(c, in, t)
	if doubt != nil {
		cr.block(c, doubt.What, doubt.Fix)
		return nil, false
	}
	at := grid.At(c.Index, cr.raw.number)
	for i := range values {
		v := &values[i]
		v.cell = at
		if what := v.in.CheckRange(v.q); !what.IsZero() {
			cr.block(c, what, rangeFix(v.in, v.q))
			return nil, false
		}
	}
	return values, true
}

// saysNone reports whether a cell of the column says that there is no value. No
// result of a test is 0.
func (c *sheetColumn) saysNone(r cell.Raw) bool {
	m := c.Meaning
	switch {
	case m.Role == roster.InputData && m.Input.Info().Personal || m.Role == roster.TestName:
		return cell.SaysNoResult(r)
	case m.Role != roster.Minutes && m.Role != roster.SecondsOf && cell.IsZero(r) && c.isResult():
		return m.Input == scoring.InputCount || !m.Input.CheckRange(scoring.Q(0, m.Unit)).IsZero()
	}
	return cell.SaysNotTested(r) || cell.IsWords(r) && c.isResult() && m.Input != scoring.InputCount
}

// inputFor returns the input that a column holds for a test.
func inputFor(c *sheetColumn, t *scoring.Test) scoring.Input {
	if c.Meaning.Role == roster.Result && c.Meaning.Input == scoring.InputCount && t != nil {
		return t.Results[0].Input
	}
	return c.Meaning.Input
}

// parse parses a cell as an input, else as another result of the test.
func (cr *cellReader) parse(c *sheetColumn, in scoring.Input, t *scoring.Test) ([]value, *cell.Doubt) {
	values, doubt := cr.parseAs(c, in, t)
	if plain, cut := cell.WithoutBeside(cr.raw.cells[c.slot]); doubt != nil && cut {
		typed := cr.raw.cells[c.slot]
		cr.raw.cells[c.slot] = plain
		again, stillDoubt := cr.parseAs(c, in, t)
		cr.raw.cells[c.slot] = typed
		if stillDoubt == nil {
			return again, nil
		}
	}
	if doubt == nil || t == nil || cr.raw.cells[c.slot].Kind != cell.Text || !cell.HasLetters(cr.raw.cells[c.slot].Text) {
		return values, doubt
	}
	for _, other := range t.Results {
		if other.Input == in || other.Input == scoring.ShuttleLevel {
			continue
		}
		if values, d := cr.parseAs(c, other.Input, t); d == nil {
			return values, nil
		}
	}
	return nil, doubt
}

func (cr *cellReader) parseAs(c *sheetColumn, in scoring.Input, t *scoring.Test) ([]value, *cell.Doubt) {
	r := cr.raw.cells[c.slot]
	info := in.Info()
	one := func(x float64, u scoring.Unit, d *cell.Doubt) ([]value, *cell.Doubt) {
		if d != nil {
			return nil, d
		}
		return []value{{in: in, q: scoring.Q(x, u)}}, nil
	}
	switch {
	case in == scoring.SystolicBP && bothPressures().MatchString(r.Text):
		both := bothPressures().FindStringSubmatch(r.Text)
		upper, _ := strconv.ParseFloat(both[1], 64)
		lower, _ := strconv.ParseFloat(both[2], 64)
		return []value{{in: in, q: scoring.Q(upper, info.Unit)}, {in: scoring.DiastolicBP, q: scoring.Q(lower, info.Unit)}}, nil
	case info.YesNo:
		x, ok := health.Answer(in, r)
		if !ok || x == scoring.Unclear {
			return nil, &cell.Doubt{What: unclearAnswer, Fix: askYesNo}
		}
		return one(x, scoring.NoUnit, nil)
	case in == scoring.Effort:
		x, d := cell.ParseEffort(r)
		return one(x, scoring.NoUnit, d)
	case in == scoring.Gait:
		x, d := cell.ParseGait(r)
		return one(x, scoring.NoUnit, d)
	case in == scoring.Time, in == scoring.StageTime && isClock(r):
		ctx := cr.facts.timeContext(c, t)
		if t == heading.Race && c.Meaning.Distance == 0 && cr.metres > 0 {
			ctx.Least, ctx.Most = possibleRaceTimes(cr.metres)
		}
		read, d := cell.ParseTime(r, ctx)
		if d == nil {
			cr.remarkTime(c, read)
		}
		return one(read.Duration.Seconds(), scoring.Seconds, d)
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
	q, d := cell.ParseAmount(r, cell.Measure{Unit: unit, Unclear: c.unclear,
		Fits: func(q scoring.Quantity) bool { return in.CheckRange(q).IsZero() },
		Fix:  amountFix(in)})
	return one(q.Amount, q.Unit, d)
}

// bothPressures matches two blood pressures in one cell, such as 128/82.
var bothPressures = cell.Pattern(`^\s*(\d{2,3})\s*[/|-]\s*(\d{2,3})\s*(?i:mm\s*hg)?\s*$`)

// isClock reports whether a stage's length is written as minutes and seconds.
func isClock(r cell.Raw) bool {
	return r.Format.IsTime() || r.Kind == cell.Text && strings.ContainsAny(cell.Clean(r.Text), `:'`)
}

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
func (c *sheetColumn) parseShuttle(r cell.Raw, t *scoring.Test) ([]value, *cell.Doubt) {
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
	values := []value{{in: s.Input, q: scoring.Q(s.Value, s.Input.Info().Unit)}}
	if s.HasInLevel {
		values = append(values, value{in: scoring.ShuttleInLevel, q: scoring.Q(float64(s.InLevel), scoring.Laps)})
	}
	return values, nil
}

// readMinutesSeconds reads a time in two cells.
func (cr *cellReader) readMinutesSeconds(c *sheetColumn) ([]value, bool) {
	minutes, seconds := cr.raw.cells[c.slot], cr.raw.cells[c.seconds.slot]
	if minutes.IsBlank() && seconds.IsBlank() {
		return nil, false
	}
	if c.saysNone(minutes) || c.seconds.saysNone(seconds) || cell.IsZero(minutes) && (cell.IsZero(seconds) || seconds.IsBlank()) {
		c.remark(readAsUntested, cr.problem(c, scoring.Said{}, scoring.Said{}))
		return nil, false
	}
	m := scoring.Q(0, scoring.Minutes)
	s := scoring.Q(0, scoring.Seconds)
	for _, part := range []struct {
		r  cell.Raw
		at *sheetColumn
		q  *scoring.Quantity
	}{{minutes, c, &m}, {seconds, c.seconds, &s}} {
		if part.r.IsBlank() {
			continue
		}
		q, d := cell.ParseAmount(part.r, cell.Measure{Unit: part.q.Unit, Fix: fixMinutes})
		if d != nil {
			cr.block(part.at, d.What, d.Fix)
			return nil, false
		}
		*part.q = q
	}
	switch {
	case m.Amount < 0 || m.Amount != math.Floor(m.Amount) && !seconds.IsBlank():
		cr.block(c, noWholeMinutes, fixMinutes)
		return nil, false
	case s.Amount < 0 || s.Amount >= 60:
		cr.block(c.seconds, badSeconds, fixMinutes)
		return nil, false
	case seconds.IsBlank():
		c.remark(readNoSeconds, cr.problem(c, scoring.Said{}, scoring.Said{}))
	}
	total := scoring.Q(m.In(scoring.Seconds)+s.In(scoring.Seconds), scoring.Seconds)
	if what := scoring.Time.CheckRange(total); !what.IsZero() {
		cr.block(c, what, fixMinutes)
		return nil, false
	}
	return []value{{scoring.Time, total, grid.At(c.Index, cr.raw.number)}}, true
}

func (cr *cellReader) remarkTime(c *sheetColumn, t cell.Time) {
	kinds := map[cell.TimeRule]remark{cell.FromHours: readFromHours, cell.ByPossibility: readByPossibility}
	if kind, ok := kinds[t.Rule]; ok {
		p := cr.problem(c, scoring.Said{}, scoring.Said{})
		p.Fix = readAs.With(t.Duration)
		c.remark(kind, p)
	}
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

// rangeFix returns what to do about a value out of range, by the errors that
// would explain it.
func rangeFix(in scoring.Input, q scoring.Quantity) scoring.Said {
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

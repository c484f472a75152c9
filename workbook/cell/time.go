package cell

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"tenback/scoring"
)

// TimeStyle is what a header says about the times in its column.
type TimeStyle uint8

// The styles.
const (
	Unsaid    TimeStyle = iota
	InSeconds           // plain numbers are seconds
	InMinutes           // plain numbers are minutes with decimals
	Dotted              // plain numbers are minutes.seconds
)

// TimeContext is what is known about a time besides its cell.
type TimeContext struct {
	// Least and Most bound what is possible in the test. They only decide between
	// readings; a value outside is still read.
	Least, Most time.Duration
	Style       TimeStyle
}

// TimeRule is how a time was found, if that is worth a remark.
type TimeRule uint8

// The rules.
const (
	Plainly       TimeRule = iota
	FromHours              // hours and minutes of a spreadsheet, meant as minutes and seconds
	ByPossibility          // the only reading that is possible in the test
)

// Time is a time as read.
type Time struct {
	Duration time.Duration
	Rule     TimeRule
}

// timeReading is one way of reading a time, with its words.
type timeReading struct {
	d      time.Duration
	label  *scoring.Phrase // with the clock, behind the number if it has two slots
	number float64
	rule   TimeRule
}

func (r timeReading) said() scoring.Said {
	if len(r.label.Slots) > 1 {
		return r.label.With(scoring.Exactly(r.number), r.d)
	}
	return r.label.With(r.d)
}

func seconds(s float64) time.Duration {
	// Hundredths: finer than any hand-held clock, coarser than the rounding
	// of a stored fraction of a day.
	return time.Duration(math.Round(s*100)) * (time.Second / 100)
}

// ParseTime parses how long something took: "11:30", "0:11:30", 11'30", "11 min
// 30 s", "690 s", "11.5 min", or a number. The meaning of a number depends on its
// format, the header, the rest of the column and what is possible.
//
// A spreadsheet reads 11:30 as half past eleven. Such hours are returned as
// minutes with the rule FromHours.
func ParseTime(r Raw, c TimeContext) (Time, *Doubt) {
	t, d := parseTime(r, c)
	if d == nil && t.Duration > longestTime {
		return Time{}, doubt(FixTime, overDay)
	}
	return t, d
}

// longestTime is longer than any field test or race.
const longestTime = 24 * time.Hour

func parseTime(r Raw, c TimeContext) (Time, *Doubt) {
	if d := r.unreadable(FixTime); d != nil {
		return Time{}, d
	}
	switch r.Kind {
	case ISODate:
		return c.clockText(r.Text)
	case Number:
		return c.stored(r)
	}
	s := withoutPraise(strings.ToLower(Clean(r.Text)))
	for _, form := range []func(TimeContext, string) ([]timeReading, *Doubt){
		TimeContext.colons, TimeContext.words, TimeContext.dashed, TimeContext.dots, TimeContext.typed,
	} {
		readings, d := form(c, s)
		if d != nil {
			return Time{}, d
		}
		if len(readings) > 0 {
			return c.choose(readings)
		}
	}
	if t, d, ok := c.shown(s); ok {
		return t, d
	}
	if writtenDate(s) {
		return Time{}, doubt(fixTimeFormat.With(FixTime), becameDate)
	}
	if fixed, ok := letterForDigit(s); ok {
		return Time{}, doubt(typeThis.With(fixed), letterIn)
	}
	return Time{}, doubt(FixTime, noTime)
}

// letterForDigit replaces the letters O and l among digits by 0 and 1.
func letterForDigit(s string) (fixed string, ok bool) {
	if !strings.ContainsAny(s, "0123456789") || !strings.ContainsAny(s, "oOоОlI") {
		return "", false
	}
	fixed = strings.NewReplacer("o", "0", "O", "0", "о", "0", "О", "0", "l", "1", "I", "1").Replace(s)
	return fixed, strings.Trim(fixed, "0123456789.,:'\"/-") == ""
}

// fits reports whether a duration is possible in the test.
func (c TimeContext) fits(d time.Duration) bool {
	return d > 0 && (c.Most == 0 || d >= c.Least && d <= c.Most)
}

// choose picks the only reading, or the only possible one of several.
func (c TimeContext) choose(readings []timeReading) (Time, *Doubt) {
	var all, fitting []timeReading
	for _, r := range readings {
		if !slices.ContainsFunc(all, func(other timeReading) bool { return other.d == r.d }) {
			all = append(all, r)
			if c.fits(r.d) {
				fitting = append(fitting, r)
			}
		}
	}
	switch {
	case len(all) == 1:
		return Time{all[0].d, all[0].rule}, nil
	case len(fitting) == 1:
		rule := fitting[0].rule
		if rule == Plainly {
			rule = ByPossibility
		}
		return Time{fitting[0].d, rule}, nil
	}
	shown := fitting
	if len(shown) == 0 {
		shown = all
	}
	var named []any
	for _, r := range shown {
		named = append(named, r.said())
	}
	what := couldBe.With(or(named))
	if len(fitting) == 0 {
		what = nonePossible.With(what)
	}
	return Time{}, doubt(fixTimeUnit.With(FixTime), what)
}

func minSec(d time.Duration) timeReading {
	return timeReading{d: d, label: asMinSec}
}

func asSeconds(x float64) timeReading {
	return timeReading{d: seconds(x), label: asSomeSeconds, number: x}
}

func asMinutes(x float64) timeReading {
	return timeReading{d: seconds(x * 60), label: asSomeMinutes, number: x}
}

func trim(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// maxSeconds is the longest time that is considered: ten days.
const maxSeconds = 10 * 86400

func (c TimeContext) stored(r Raw) (Time, *Doubt) {
	x, d := storedNumber(r)
	if d != nil {
		return Time{}, doubt(FixTime, d.What)
	}
	if x <= 0 || x > maxSeconds {
		return Time{}, doubt(FixTime, noTimeAtAll.With(scoring.Exactly(x)))
	}
	switch f := r.Format; {
	case f.IsTime(), f.Class == DayTime && x < 3:
		return c.clock(x, f)
	case f.Class == Date, f.Class == DayTime:
		return Time{}, doubt(fixTimeFormat.With(FixTime), becameDate)
	case f.Class == PerCent:
		return Time{}, doubt(FixTime, isPercentage)
	case f.Unit == scoring.Minutes:
		return c.choose([]timeReading{asMinutes(x)})
	case f.Unit == scoring.Seconds:
		return c.choose([]timeReading{asSeconds(x)})
	}
	return c.plain(bareOf(x))
}

// clock parses a fraction of a day that is shown as a time.
func (c TimeContext) clock(days float64, f Format) (Time, *Doubt) {
	if days > 10 {
		return Time{}, doubt(FixTime, overTenDays)
	}
	literal := seconds(days * 86400)
	whole := literal%time.Minute == 0
	meant := timeReading{d: literal / 60, label: asMinSec, rule: FromHours}
	switch {
	case literal < time.Hour, c.Most == 0 && f.Class == Stopwatch:
		return Time{Duration: literal}, nil
	case c.fits(literal) && whole && c.fits(meant.d) && !f.Seconds:
		return c.choose([]timeReading{meant, {d: literal, label: asHours}})
	case c.fits(literal):
		return Time{Duration: literal}, nil
	case !whole:
		// 11:30:20 was typed; the last pair may be seconds or hundredths.
		return Time{}, doubt(fixTimeHours.With(FixTime), hoursFirst.With(literal))
	}
	return Time{meant.d, FromHours}, nil
}

// plain parses a number without a unit.
func (c TimeContext) plain(b Bare) (Time, *Doubt) {
	if c.Style == Unsaid {
		return c.choose(c.plainReadings(b))
	}
	d, ok := b.As(c.Style)
	if !ok {
		return Time{}, doubt(FixTime, noSuchSeconds)
	}
	return Time{Duration: d}, nil
}

// plainReadings returns all readings of a number without a unit.
func (c TimeContext) plainReadings(b Bare) []timeReading {
	var all []timeReading
	if b.Amount < 1 {
		if t, d := c.clock(b.Amount, Format{Class: Clock}); d == nil {
			all = append(all, timeReading{d: t.Duration, label: asUnformatted, rule: t.Rule})
		}
	}
	if d, ok := b.As(Dotted); ok && (b.decimals != "" || len(b.whole) > 2) {
		all = append(all, minSec(d))
	}
	if b.decimals != "" {
		return append(all, asMinutes(b.Amount), asSeconds(b.Amount))
	}
	return append(all, asSeconds(b.Amount), asMinutes(b.Amount))
}

// Bare is a number without a unit or a format that gives it a meaning.
type Bare struct {
	Amount          float64
	whole, decimals string
}

// bareOf returns a number as typed: a stored 8.449999999999999 was typed as 8.45.
func bareOf(x float64) Bare {
	s := strconv.FormatFloat(x, 'g', 15, 64)
	x, _ = strconv.ParseFloat(s, 64)
	whole, decimals, _ := strings.Cut(trim(x), ".")
	return Bare{x, whole, decimals}
}

// BareNumber returns the number of a cell; ok is false if the cell holds anything
// besides.
func BareNumber(r Raw) (b Bare, ok bool) {
	switch {
	case r.Kind == Number && !r.Format.IsTemporal() && r.Format.Class != PerCent && r.Format.Unit == scoring.NoUnit:
		x, d := storedNumber(r)
		return bareOf(x), d == nil
	case r.Kind == Text && len(r.Text) <= maxText:
		m := typedNumber().FindStringSubmatch(Clean(r.Text))
		if m == nil || m[3] != "" {
			return Bare{}, false
		}
		return Bare{parseParts(m[1], m[2]), m[1], m[2]}, true
	}
	return Bare{}, false
}

// Fraction returns the digits behind the point.
func (b Bare) Fraction() string { return b.decimals }

// As returns the time that a style reads; ok is false if there is none.
func (b Bare) As(style TimeStyle) (d time.Duration, ok bool) {
	switch {
	case style == InSeconds:
		return seconds(b.Amount), b.Amount > 0
	case style == InMinutes:
		return seconds(b.Amount * 60), b.Amount > 0
	case b.decimals == "" && len(b.whole) > 2:
		return minutesAndSeconds(b.whole)
	}
	return minutesDotSeconds(b.whole, b.decimals)
}

// minutesDotSeconds parses 11.30, or 11.3 that lost its zero, as 11 min 30 s.
func minutesDotSeconds(whole, decimals string) (time.Duration, bool) {
	if len(decimals) > 2 || len(whole) > 3 {
		return 0, false
	}
	m, _ := strconv.Atoi(whole)
	s, _ := strconv.Atoi((decimals + "00")[:2])
	return time.Duration(m)*time.Minute + time.Duration(s)*time.Second, s < 60
}

// minutesAndSeconds parses 1130 as 11 min 30 s.
func minutesAndSeconds(whole string) (time.Duration, bool) {
	if len(whole) < 3 || len(whole) > 4 {
		return 0, false
	}
	return minutesDotSeconds(whole[:len(whole)-2], whole[len(whole)-2:])
}

func parseParts(whole, decimals string) float64 {
	x, _ := strconv.ParseFloat(whole+"."+decimals, 64)
	return x
}

package cell

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"tenback/scoring"
)

// DateOrder is the order of day and month in a date such as 05/06/2010.
type DateOrder uint8

// The orders.
const (
	AnyOrder DateOrder = iota // not known yet
	DayFirst
	MonthFirst
)

// ParseDateOrder parses day-first or month-first.
func ParseDateOrder(s string) (DateOrder, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "day-first":
		return DayFirst, nil
	case "month-first":
		return MonthFirst, nil
	}
	return AnyOrder, fmt.Errorf("%q should be day-first or month-first", s)
}

// DateContext is what is known about a date besides its cell.
type DateContext struct {
	Date1904 bool      // the workbook counts days from 1904
	Order    DateOrder // given by the user, else by DateColumn
	// Latest is the last possible day. It decides the century of two-digit years;
	// if zero, they are in this century.
	Latest time.Time
	Ahead  bool // accept days after Latest
	Birth  bool // a date of birth: a year alone is enough, and the day is years back
}

// Day is a date as read.
type Day struct {
	Time      time.Time // midnight UTC
	YearOnly  bool      // only the year was given; Time is its 1 July
	ShortYear bool      // the year had two digits
}

// DateColumn determines the order of day and month in a column of dates typed as
// text.
type DateColumn struct {
	dayFirst, monthFirst bool // some cell can only be read this way
	stored               int  // cells with real dates
	smallDays            int  // of these, those whose day could be a month
	dayFirstTexts        int  // texts that begin with a day above 12
}

var numericDate = Pattern(`^(\d{1,2}) ?([./ -]) ?(\d{1,2}) ?[./ -] ?(\d{4}|\d{2})\.?(?: .*)?$`)

// Observe adds the evidence of one cell.
func (c *DateColumn) Observe(r Raw, ctx DateContext) {
	switch r.Kind {
	case Number:
		if x, d := storedNumber(r); d == nil && r.Format.IsTemporal() {
			if t, ok := serialDate(x, ctx.Date1904); ok {
				c.stored++
				if t.Day() <= 12 {
					c.smallDays++
				}
			}
		}
	case Text:
		if len(r.Text) > maxText {
			return
		}
		m := numericDate().FindStringSubmatch(Clean(r.Text))
		if m == nil {
			return
		}
		first, second := atoi(m[1]), atoi(m[3])
		switch {
		case first > 12 && first <= 31 && second <= 12:
			c.dayFirst = true
			c.dayFirstTexts++
		case second > 12 && second <= 31 && first <= 12:
			c.monthFirst = true
		case m[2] == ".":
			// Dots come with the day first; common practice, no source.
			c.dayFirst = true
		}
	}
}

// Order returns the order that all cells agree on, or AnyOrder.
func (c *DateColumn) Order() DateOrder {
	switch {
	case c.dayFirst && !c.monthFirst:
		return DayFirst
	case c.monthFirst && !c.dayFirst:
		return MonthFirst
	}
	return AnyOrder
}

// Exchanged reports whether the spreadsheet seems to have swapped day and month
// in its real dates: what could be read month first became a date, and the rest
// stayed text with the day first.
func (c *DateColumn) Exchanged() bool {
	return c.Order() == DayFirst && c.stored >= 3 && c.smallDays == c.stored && c.dayFirstTexts >= 2
}

// serialDate returns the date of a spreadsheet's day number. ok is false outside
// 1900-2100, and for 29 February 1900, which never existed.
func serialDate(x float64, date1904 bool) (time.Time, bool) {
	if !(x >= 1 && x < 74000) {
		return time.Time{}, false
	}
	n := int(x)
	switch {
	case date1904:
		return time.Date(1904, 1, 1+n, 0, 0, 0, 0, time.UTC), true
	case n == 60:
		return time.Time{}, false
	case n < 60:
		return time.Date(1899, 12, 31+n, 0, 0, 0, 0, time.UTC), true
	}
	return time.Date(1899, 12, 30+n, 0, 0, 0, 0, time.UTC), true
}

// ParseDate parses a day: a real date of the spreadsheet, ISO, 20100531, day or
// month first, the month as a word, or a year alone for a date of birth.
func ParseDate(r Raw, c DateContext) (Day, *Doubt) {
	if d := r.unreadable(fixDate); d != nil {
		return Day{}, d
	}
	if r.Kind == Number {
		return c.stored(r)
	}
	s := Fold(r.Text)
	if day, d, ok := c.numbersOnly(s); ok {
		return day, d
	}
	if m := yearFirst().FindStringSubmatch(s); m != nil {
		return c.date(m[1], atoi(m[2]), atoi(m[3]))
	}
	if m := numericDate().FindStringSubmatch(s); m != nil {
		return c.ordered(atoi(m[1]), atoi(m[3]), m[4], m[2] == ".")
	}
	if m := wordDayFirst().FindStringSubmatch(s); m != nil {
		if month, ok := monthNamed(m[2]); ok {
			return c.date(m[3], month, atoi(m[1]))
		}
	}
	if m := wordMonthFirst().FindStringSubmatch(s); m != nil {
		if month, ok := monthNamed(m[1]); ok {
			return c.date(m[3], month, atoi(m[2]))
		}
	}
	return Day{}, doubt(fixDate, noDate)
}

// noYear matches a date without its year, as a spreadsheet shows 7-10.
var noYear = Pattern(`^(?:\d{1,2}[-. ] ?(\pL{3,9})\.?|(\pL{3,9})\.?[- ]\d{1,2})$`)

// writtenDate reports whether a text is a date, as a spreadsheet writes what it
// turned into one.
func writtenDate(s string) bool {
	s = Fold(s)
	if m := noYear().FindStringSubmatch(s); m != nil {
		_, ok := monthNamed(m[1] + m[2])
		return ok
	}
	for _, form := range []struct {
		re    *regexp.Regexp
		month int
	}{{wordDayFirst(), 2}, {wordMonthFirst(), 1}} {
		if m := form.re.FindStringSubmatch(s); m != nil {
			_, ok := monthNamed(m[form.month])
			return ok
		}
	}
	return yearFirst().MatchString(s) || numericDate().MatchString(s)
}

var (
	yearFirst      = Pattern(`^(\d{4}) ?[-./年년 ] ?(\d{1,2}) ?[-./月월 ] ?(\d{1,2}) ?[日일.]?(?:[t ].*)?$`)
	wordDayFirst   = Pattern(`^(\d{1,2})(?:st|nd|rd|th|er|°|º)?[. -]*(?:de |of )?(\p{L}{3,12})\.?[,. -]*(?:de |del |of )?'?(\d{4}|\d{2})(?: ?(?:г|года|r)\.?)?$`)
	wordMonthFirst = Pattern(`^(\p{L}{3,12})\.?[ -]*(\d{1,2})(?:st|nd|rd|th)?[,. -]+(\d{4}|\d{2})$`)
	personNumber   = Pattern(`^(\d{8}|\d{6})[-+]\d{4}$`)
	digitsOnly     = Pattern(`^\d+$`)
)

func (c DateContext) stored(r Raw) (Day, *Doubt) {
	x, d := storedNumber(r)
	if d != nil {
		return Day{}, doubt(fixDate, d.What)
	}
	if r.Format.IsTemporal() {
		t, ok := serialDate(x, c.Date1904)
		if !ok || r.Format.IsTime() && x < 366 {
			return Day{}, doubt(fixDate, noStoredDate)
		}
		return c.checked(Day{Time: t})
	}
	if x == float64(int64(x)) && x > 0 && x < 1e9 {
		if day, d, ok := c.numbersOnly(trim(x)); ok {
			return day, d
		}
		// A day number that lost its date format: 10000 is 1927, 74000 is 2102.
		if t, ok := serialDate(x, c.Date1904); ok && x >= 10000 {
			return c.checked(Day{Time: t})
		}
	}
	return Day{}, doubt(fixDate, numberNoDate)
}

// numbersOnly parses a year alone, 20100531, and personal numbers that begin with
// the date of birth. ok is false for anything else.
func (c DateContext) numbersOnly(s string) (day Day, d *Doubt, ok bool) {
	if m := personNumber().FindStringSubmatch(s); m != nil && c.Birth {
		s = m[1]
		if len(s) == 6 {
			day, d = c.date(s[:2], atoi(s[2:4]), atoi(s[4:]))
			return day, d, true
		}
	}
	if !digitsOnly().MatchString(s) {
		return Day{}, nil, false
	}
	switch len(s) {
	case 4:
		year := atoi(s)
		if year < 1890 || year > 2100 {
			return Day{}, doubt(fixDate, noBirthYear), true
		}
		if !c.Birth {
			return Day{}, doubt(fixDate, yearOnly), true
		}
		return Day{Time: time.Date(year, 7, 1, 0, 0, 0, 0, time.UTC), YearOnly: true}, nil, true
	case 8:
		if day, d := c.date(s[:4], atoi(s[4:6]), atoi(s[6:])); d == nil && day.Time.Year() >= 1890 && day.Time.Year() <= 2100 {
			return day, nil, true
		}
		day, d := c.ordered(atoi(s[:2]), atoi(s[2:4]), s[4:], false)
		return day, d, true
	}
	return Day{}, nil, false
}

// ordered parses two numbers and a year where the first number is the day or the
// month.
func (c DateContext) ordered(first, second int, year string, dots bool) (Day, *Doubt) {
	asDayFirst, d1 := c.date(year, second, first)
	asMonthFirst, d2 := c.date(year, first, second)
	switch {
	case d1 != nil && d2 != nil:
		if d1.What == noSuchDate || c.Order == MonthFirst && d2.What != noSuchDate {
			return Day{}, d2
		}
		return Day{}, d1 // a day, though too late or too long ago
	case d2 != nil && (c.Order != MonthFirst || second > 12 || first > 12):
		return asDayFirst, nil
	case d1 != nil && (c.Order != DayFirst || second > 12 || first > 12):
		return asMonthFirst, nil
	case d1 != nil:
		return Day{}, d1
	case d2 != nil:
		return Day{}, d2
	case c.Order == DayFirst, c.Order == AnyOrder && dots, first == second:
		return asDayFirst, nil
	case c.Order == MonthFirst:
		return asMonthFirst, nil
	}
	return Day{}, doubt(fixDate, couldBe.With(or([]any{asDayFirst.Time, asMonthFirst.Time})))
}

// date returns the day of a year, month and day. A two-digit year gets the last
// century in which the day is not later than c allows.
func (c DateContext) date(yearText string, month, day int) (Day, *Doubt) {
	year, err := strconv.Atoi(yearText)
	short := len(yearText) == 2
	if err != nil || month < 1 || month > 12 || day < 1 || day > 31 {
		return Day{}, doubt(fixDate, noSuchDate)
	}
	if short {
		year += 2000
		latest := c.Latest
		if c.Birth && !latest.IsZero() {
			latest = latest.AddDate(-youngest, 0, 0)
		}
		late := !latest.IsZero() && time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC).After(latest)
		if late && (c.Birth || year-100 >= firstTests) {
			year -= 100
		}
	}
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Day() != day {
		return Day{}, doubt(fixDate, noSuchDate)
	}
	return c.checked(Day{Time: t, ShortYear: short})
}

// firstTests is the year of the oldest of the tests. It keeps a wrong clock from
// moving test days a century back.
const firstTests = 1950

// youngest is the least age in years of anyone tested.
const youngest = 4

func (c DateContext) checked(d Day) (Day, *Doubt) {
	switch {
	case d.Time.Year() < 1890:
		return Day{}, doubt(fixDate, tooLongAgo.With(d.Time.Year()))
	case d.Time.Year() > 2100, !c.Ahead && !c.Latest.IsZero() && d.Time.After(c.Latest):
		return Day{}, doubt(fixFuture, inFuture.With(d.Time))
	}
	return d, nil
}

// SaysFuture reports whether what is said, or a part of it, is that a day is in
// the future.
func SaysFuture(what scoring.Said) bool {
	phrase, slots := what.Phrase()
	for _, slot := range slots {
		if why, ok := slot.(scoring.Said); ok && SaysFuture(why) {
			return true
		}
	}
	return phrase == inFuture
}

// monthNames holds the folded beginnings of the months in the languages known,
// long enough to be unique among all of them.
var monthNames = foldAll([12]string{
	"jan ene gen sty янв",
	"feb fev fevr lut фев",
	"mar mrz maa мар",
	"apr avr abr kwi апр",
	"may mai mag maj mei май мая мае",
	"jun juin giu cze июн",
	"jul juil lug lip июл",
	"aug aou ago sie avg авг agu",
	"sep set wrz сен",
	"oct okt ott out paz окт",
	"nov lis ноя",
	"dec dez dic des gru дек",
})

func foldAll(lists [12]string) (folded [12][]string) {
	for i, list := range lists {
		folded[i] = strings.Fields(Fold(list))
	}
	return folded
}

// monthNamed finds a month by its folded name or abbreviation.
func monthNamed(word string) (month int, ok bool) {
	longest := 0
	for i, list := range monthNames {
		for _, start := range list {
			if strings.HasPrefix(word, start) && len(start) > longest {
				month, longest = i+1, len(start)
			}
		}
	}
	return month, month > 0
}

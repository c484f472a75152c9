package cell

import (
	"strconv"
	"strings"
	"time"

	"tenback/scoring"
)

var colonTime = Pattern(`^(\d{1,3}):(\d{1,2})(?::(\d{1,2}))?(?:[.,](\d{1,3}))? ?(?:min|mins|minutes|min\.|m|h|hrs|мин|'|")?$`)

// colons parses 11:30, 11:30.5, 0:11:30 and 11:30:00.
func (c TimeContext) colons(s string) ([]timeReading, *Doubt) {
	m := colonTime().FindStringSubmatch(s)
	if m == nil {
		return nil, nil
	}
	if len(m[2]) == 1 {
		return nil, doubt(typeOneOf.With(m[1]+":0"+m[2], m[1]+":"+m[2]+"0"), oneDigit)
	}
	a, b := atoi(m[1]), atoi(m[2])
	if b > 59 {
		return nil, doubt(FixTime, manySeconds.With(b))
	}
	part := parseParts("0", m[4])
	if m[3] == "" {
		all := []timeReading{minSec(clockOf(0, a, float64(b)+part))}
		if d := clockOf(a, b, 0); a > 0 && m[4] == "" && c.Most > 0 && !c.fits(all[0].d) && c.fits(d) {
			all = append(all, timeReading{d: d, label: asHours}) // a marathon in 4:15
		}
		return all, nil
	}
	third := atoi(m[3])
	var all []timeReading
	if third <= 59 {
		d := clockOf(a, b, float64(third)+part)
		all = append(all, timeReading{d: d, label: asHoursFirst})
	}
	if m[4] == "" && a > 0 {
		hundredths := parseParts("0", m[3])
		rule := Plainly
		if third == 0 {
			rule = FromHours
		}
		d := clockOf(0, a, float64(b)+hundredths)
		all = append(all, timeReading{d: d, label: asMinutesFirst, rule: rule})
	}
	if len(all) == 0 {
		return nil, doubt(FixTime, manySeconds.With(third))
	}
	return all, nil
}

func atoi(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

func clockOf(h, m int, s float64) time.Duration {
	return time.Duration(h)*time.Hour + time.Duration(m)*time.Minute + seconds(s)
}

var wordTime = Pattern(`^(?:(\d{1,2}) ?(?:h|hr|hrs|hours?|std\.?|ч|час|小时|時間|시간) ?)?` +
	`(?:(\d{1,3}) ?(?:m|min|mins|minutes?|minuten|minuti|minutos|минуты?|мин|минут|'|分钟|分鐘|分|분)\.?,? ?)?` +
	`(?:(\d{1,2})(?:[.,:](\d{1,3}))? ?(?:s|sec|secs|seconds?|sek|sekunden|seg|segundos|с|сек|секунды?|секунд|"|秒|초)?\.?(\d{1,2})?)?$`)

// words parses 11'30", 11'30, 11 min 30 s, 11m30s, 11分30秒 and 11'.
func (c TimeContext) words(s string) ([]timeReading, *Doubt) {
	m := wordTime().FindStringSubmatch(s)
	if m == nil || m[1] == "" && m[2] == "" {
		return nil, nil
	}
	if m[4] == "" {
		m[4] = m[5] // tenths behind the quote: 3'50"2
	}
	if atoi(m[3]) > 59 || m[1] != "" && atoi(m[2]) > 59 {
		return nil, doubt(FixTime, sixty)
	}
	sec := parseParts(m[3], m[4])
	return []timeReading{minSec(clockOf(atoi(m[1]), atoi(m[2]), sec))}, nil
}

var dashTime = Pattern(`^(\d{1,3}) ?[-/;] ?(\d{2})$`)

// dashed parses 2-34 as 2 min 34 s.
func (c TimeContext) dashed(s string) ([]timeReading, *Doubt) {
	m := dashTime().FindStringSubmatch(s)
	if m == nil {
		return nil, nil
	}
	if atoi(m[2]) > 59 {
		return nil, doubt(FixTime, manySeconds.With(m[2]))
	}
	return []timeReading{minSec(clockOf(0, atoi(m[1]), float64(atoi(m[2]))))}, nil
}

var dotTime = Pattern(`^(\d{1,2})[.,](\d{2})[.,](\d{1,3})$`)

// dots parses 11.30.5 and 0.11.30, with dots in place of colons.
func (c TimeContext) dots(s string) ([]timeReading, *Doubt) {
	m := dotTime().FindStringSubmatch(s)
	if m == nil {
		return nil, nil
	}
	if atoi(m[2]) > 59 {
		return nil, doubt(FixTime, manySeconds.With(m[2]))
	}
	all := []timeReading{minSec(clockOf(0, atoi(m[1]), float64(atoi(m[2]))+parseParts("0", m[3])))}
	if len(m[3]) == 2 && atoi(m[3]) <= 59 {
		d := clockOf(atoi(m[1]), atoi(m[2]), float64(atoi(m[3])))
		all = append(all, timeReading{d: d, label: asHoursFirst})
	}
	return all, nil
}

var typedNumber = Pattern(`^(\d{1,6})(?:[.,](\d{1,6}))? ?([^\d\s.,].*)?$`)

// typed parses a number typed as text, with or without a unit.
func (c TimeContext) typed(s string) ([]timeReading, *Doubt) {
	m := typedNumber().FindStringSubmatch(s)
	if m == nil {
		return nil, nil
	}
	x := parseParts(m[1], m[2])
	if x <= 0 || x > maxSeconds {
		return nil, doubt(FixTime, noTimeAtAll.With(scoring.Exactly(x)))
	}
	if m[3] != "" {
		switch u, _ := UnitOf(m[3]); u {
		case scoring.Seconds:
			return []timeReading{asSeconds(x)}, nil
		case scoring.Minutes:
			b := Bare{x, m[1], m[2]}
			d, ok := b.As(Dotted)
			switch dotted := ok && len(b.decimals) == 2 && c.Style != InMinutes; {
			case dotted && c.Style == Dotted: // "7.21 mins" under (min:sec)
				return []timeReading{minSec(d)}, nil
			case dotted:
				return []timeReading{minSec(d), asMinutes(x)}, nil
			}
			return []timeReading{asMinutes(x)}, nil
		}
		return nil, nil
	}
	t, d := c.plain(Bare{x, m[1], m[2]})
	if d != nil {
		return nil, d
	}
	return []timeReading{{d: t.Duration, rule: t.Rule}}, nil
}

var (
	dayClock = Pattern(`^(\d{1,2}):(\d\d)(?::(\d\d))? ?([ap])\.? ?m\.?$`)
	// firstDay matches the first days of a spreadsheet's calendar, which has a 0
	// January 1900.
	firstDay = Pattern(`^(?:(?:1899|1900|1904)-\d\d-\d\d|\d{1,2}[-/. ](?:\d{1,2}|\pL{3,4}\.?)[-/. ](?:1899|1900|1904))(?:[ t]+|$)`)
)

// shown parses a time of day as a spreadsheet displays it and writes it to a text
// file: 11:30:00 AM, or behind the first day of its calendar.
func (c TimeContext) shown(s string) (t Time, d *Doubt, ok bool) {
	if day := firstDay().FindString(s); day != "" {
		if s = s[len(day):]; !dayClock().MatchString(s) {
			t, d = c.clockText(s)
			return t, d, true
		}
	}
	m := dayClock().FindStringSubmatch(s)
	if m == nil || atoi(m[1]) < 1 || atoi(m[1]) > 12 || atoi(m[2]) > 59 || atoi(m[3]) > 59 {
		return Time{}, nil, false
	}
	hours := atoi(m[1]) % 12
	if m[4] == "p" {
		hours += 12
	}
	t, d = c.clock(clockOf(hours, atoi(m[2]), float64(atoi(m[3]))).Hours()/24, Format{Class: Clock, Seconds: m[3] != ""})
	return t, d, true
}

var isoClock = Pattern(`^(?:(18\d\d|1900)-(\d\d)-(\d\d)[t ])?(\d{1,2}):(\d\d)(?::(\d\d(?:\.\d{1,6})?))?z?$`)

// clockText parses a date and time at the start of the calendar, as some programs
// write a spreadsheet's time.
func (c TimeContext) clockText(s string) (Time, *Doubt) {
	m := isoClock().FindStringSubmatch(strings.ToLower(Clean(s)))
	if m == nil {
		return Time{}, doubt(FixTime, dateNotTime)
	}
	sec, _ := strconv.ParseFloat("0"+m[6], 64)
	d := clockOf(atoi(m[4]), atoi(m[5]), sec)
	if d == 0 {
		return Time{}, doubt(FixTime, dateNotTime)
	}
	return c.clock(d.Hours()/24, Format{Class: Clock})
}

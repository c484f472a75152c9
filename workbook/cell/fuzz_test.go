package cell

import (
	"math"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
)

// rawOf makes a cell of any kind from fuzzed parts.
func rawOf(kind uint8, content, format string) Raw {
	return Raw{Text: content, Kind: Kind(kind) % (Uncached + 1), Format: ParseFormat(format)}
}

func FuzzParseTime(f *testing.F) {
	for _, s := range []string{"11:30", "11'30\"", "0:11:30", "11.30", "690 s", "11 min 30 s", "11.30.5", "0.47916666666666669", "3'50\"2", "1899-12-31T00:11:30"} {
		f.Add(uint8(Text), s, "", uint8(Unsaid))
		f.Add(uint8(Number), s, "h:mm", uint8(InMinutes))
	}
	f.Add(uint8('O'), "20000", "0", uint8('V')) // minutes, a fortnight
	f.Fuzz(func(t *testing.T, kind uint8, content, format string, style uint8) {
		c := TimeContext{Least: 7 * time.Minute, Most: 25 * time.Minute, Style: TimeStyle(style) % (Dotted + 1)}
		r := rawOf(kind, content, format)
		got, d := ParseTime(r, c)
		if d == nil && (got.Duration < 0 || got.Duration > longestTime) {
			t.Errorf("%q reads as %v", content, got.Duration)
		}
		if d != nil && (d.What.IsZero() || got != (Time{})) {
			t.Errorf("%q: doubt %+v with %v", content, d, got)
		}
		if _, again := ParseTime(r, TimeContext{}); again != nil && again.What.IsZero() {
			t.Error("a doubt without words")
		}
	})
}

func FuzzParseNumber(f *testing.F) {
	for _, s := range []string{"72 bpm", "1.234,5", "1,234", "5 ft 7", "11 st 4", "-.5", "７２", "1e5", "0x1p4"} {
		f.Add(uint8(Text), s, "")
		f.Add(uint8(Number), s, "0.00")
	}
	f.Fuzz(func(t *testing.T, kind uint8, content, format string) {
		for _, u := range []scoring.Unit{scoring.Kilograms, scoring.Centimetres, scoring.BeatsPerMinute, scoring.NoUnit, scoring.Percent} {
			q, d := ParseAmount(rawOf(kind, content, format), Measure{Unit: u, Fix: scoring.Verbatim("type a number")})
			if d == nil && (math.IsNaN(q.Amount) || math.IsInf(q.Amount, 0) || !q.Unit.Converts(u)) {
				t.Errorf("%q reads as %v", content, q)
			}
			if d != nil && d.What.IsZero() {
				t.Error("a doubt without words")
			}
		}
	})
}

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2010-06-01", "13/06/1967", "15.09.17", "20100501", "40330", "13 June 1967", "June 13, 1967", "2010年6月1日", "900515-1234", "1967"} {
		f.Add(uint8(Text), s, "", false)
		f.Add(uint8(Number), s, "yyyy-mm-dd", true)
	}
	f.Fuzz(func(t *testing.T, kind uint8, content, format string, birth bool) {
		c := DateContext{Latest: time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC), Birth: birth, Date1904: birth}
		r := rawOf(kind, content, format)
		day, d := ParseDate(r, c)
		if d == nil && !day.YearOnly && (day.Time.After(c.Latest) || day.Time.Year() < 1890) {
			t.Errorf("%q reads as %v", content, day.Time)
		}
		if d != nil && d.What.IsZero() {
			t.Error("a doubt without words")
		}
		var column DateColumn
		column.Observe(r, c)
		column.Exchanged()
	})
}

func FuzzParseSex(f *testing.F) {
	for _, s := range [][3]string{{"Sex", "M", "F"}, {"Sex (1=male)", "1", "2"}, {"Jenis kelamin", "L", "P"}, {"Пол", "м", "ж"}} {
		f.Add(s[0], s[1], s[2], uint8(Text))
	}
	f.Fuzz(func(t *testing.T, header, a, b string, kind uint8) {
		var c SexColumn
		c.ObserveHeader(header)
		c.Observe(rawOf(kind, a, ""))
		c.Observe(rawOf(kind, b, ""))
		sex, d := c.ParseSex(rawOf(kind, a, ""))
		if d != nil && (sex != scoring.SexUnspecified || d.What.IsZero()) {
			t.Errorf("%q: %v with doubt %v", a, sex, d)
		}
	})
}

func FuzzParseShuttle(f *testing.F) {
	for _, s := range []string{"7.10", "7/10", "L7 S10", "11.1O", "7.1", "52 laps", "12 km/h"} {
		f.Add(uint8(Text), s, "")
		f.Add(uint8(Number), s, "0.00")
	}
	f.Fuzz(func(t *testing.T, kind uint8, content, format string) {
		var c LevelColumn
		c.Observe(rawOf(kind, content, format))
		c.Observe(rawOf(kind, content, format))
		s, d := c.Parse(rawOf(kind, content, format))
		if d == nil && (s.InLevel < 0 || float64(s.InLevel) > scoring.ShuttleInLevel.Info().Max || math.IsNaN(s.Value) || math.IsInf(s.Value, 0)) {
			t.Errorf("%q reads as %+v", content, s)
		}
		if d != nil && d.What.IsZero() {
			t.Error("a doubt without words")
		}
	})
}

func FuzzClean(f *testing.F) {
	f.Add("11′30″ \u00a0１２", "0.00;[Red]\"x\"")
	f.Fuzz(func(t *testing.T, s, format string) {
		once := Clean(s)
		if twice := Clean(once); twice != once {
			t.Errorf("%q cleans to %q, then to %q", s, once, twice)
		}
		if want := clean(s); once != want {
			t.Errorf("%q cleans to %q in short, to %q in full", s, once, want)
		}
		if got, want := Fold(s), fold(strings.ToLower(clean(s))); got != want {
			t.Errorf("%q folds to %q in short, to %q in full", s, got, want)
		}
		if got, want := Label(Raw{Text: s}), label(s); got != want {
			t.Errorf("%q labels %q in short, %q in full", s, got, want)
		}
		Label(Raw{Text: s, Kind: Number, Format: ParseFormat(format)})
		Display(Raw{Text: s, Kind: Number, Format: ParseFormat(format)}, true)
	})
}

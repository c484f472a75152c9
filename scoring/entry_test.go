package scoring_test

import (
	"errors"
	"math"
	"testing"
	"time"

	. "tenback/scoring"
)

func day(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

func TestAgeOn(t *testing.T) {
	for _, c := range []struct {
		name      string
		born, day time.Time
		want      float64
	}{
		{"the day of birth", day(1980, 5, 17), day(1980, 5, 17), 0},
		{"on a birthday", day(1980, 5, 17), day(2025, 5, 17), 45},
		{"the day before", day(1980, 5, 17), day(2025, 5, 16), 44 + 364.0/365},
		{"the day after", day(1980, 5, 17), day(2025, 5, 18), 45 + 1.0/365},
		{"a year of 366 days", day(1980, 5, 17), day(2023, 5, 18), 43 + 1.0/366},
		{"new year's eve", day(1980, 12, 31), day(2025, 1, 1), 44 + 1.0/365},
		{"leap day, on one", day(2000, 2, 29), day(2024, 2, 29), 24},
		{"leap day, 28 February", day(2000, 2, 29), day(2025, 2, 28), 24 + 365.0/366},
		{"leap day, 1 March", day(2000, 2, 29), day(2025, 3, 1), 25},
	} {
		got, err := AgeOn(c.born, c.day)
		if err != nil || !near(got, c.want, 1e-12) {
			t.Errorf("%s: %.6f, %v; want %.6f", c.name, got, err, c.want)
		}
	}
	if _, err := AgeOn(day(2025, 5, 18), day(2025, 5, 17)); !errors.Is(err, ErrBornAfterTest) {
		t.Errorf("born after the test: %v", err)
	}
}

// Over two lifetimes, one of them begun on a leap day, age rises every day and
// gains a whole year on each birthday.
func TestAgeOnNeverJumps(t *testing.T) {
	for _, born := range []time.Time{day(1999, 8, 3), day(2000, 2, 29)} {
		before := -1.0
		for d := born; d.Before(born.AddDate(30, 0, 0)); d = d.AddDate(0, 0, 1) {
			age, err := AgeOn(born, d)
			if err != nil {
				t.Fatal(err)
			}
			if step := age - before; d != born && (step < 1.0/367 || step > 1.0/364) {
				t.Fatalf("born %s: age steps by %.6f to %.6f on %s", born.Format(time.DateOnly), step, age, d.Format(time.DateOnly))
			}
			before = age
		}
	}
}

func TestSexIsKeptOrLeftOpen(t *testing.T) {
	for _, sex := range []Sex{Female, Male, SexUnspecified} {
		var e Entry
		e.SetSex(sex, "B7")
		if got := e.Sex(); got != sex {
			t.Errorf("%s is kept as %s", sex, got)
		}
		if given := sex != SexUnspecified; e.Has(SexInput) != given {
			t.Errorf("%s: given is %v", sex, e.Has(SexInput))
		}
	}
}

func TestValues(t *testing.T) {
	var v Values
	if _, ok := v.Get(BodyMass); ok || v.Has(BodyMass) || v.Cell(BodyMass) != "" {
		t.Error("nothing was set and something is known")
	}
	v.Set(BodyMass, Q(130, Pounds), "C4")
	v.Set(Age, Q(52, Years), "D4")
	if q, ok := v.Get(BodyMass); !ok || q.Unit != Kilograms || !near(q.Amount, 58.967, 0.001) || v.Cell(BodyMass) != "C4" {
		t.Errorf("body mass %v from %q", q, v.Cell(BodyMass))
	}
	v.Set(BodyMass, Q(60, Kilograms), "C5")
	if q, _ := v.Get(BodyMass); q.Amount != 60 || v.Cell(BodyMass) != "C5" {
		t.Errorf("set again: %v from %q", q, v.Cell(BodyMass))
	}
	if q, _ := v.Get(Age); q.Amount != 52 {
		t.Errorf("age %v", q)
	}
}

func TestCheckRange(t *testing.T) {
	for _, c := range []struct {
		in   Input
		q    Quantity
		want string
	}{
		{RestingHR, Q(25, BeatsPerMinute), ""},
		{RestingHR, Q(150, BeatsPerMinute), ""},
		{RestingHR, Q(24.9, BeatsPerMinute), "24.9 beats/min is outside 25 to 150 beats/min"},
		{RestingHR, Q(151, BeatsPerMinute), "151 beats/min is outside 25 to 150 beats/min"},
		{BodyMass, Q(26, Pounds), "26 lb is outside 12 to 300 kg"},
		{BodyMass, Q(27, Pounds), ""},
		{Time, Q(9*60, Minutes), "9:00:00 is outside 0:01 to 8:00:00"},
		{RestingHR, Q(math.NaN(), BeatsPerMinute), "NaN beats/min is outside 25 to 150 beats/min"},
	} {
		if got := c.in.CheckRange(c.q).String(); got != c.want {
			t.Errorf("%s of %g %s: %q, want %q", c.in, c.q.Amount, c.q.Unit, got, c.want)
		}
	}
}

package scoring_test

import (
	"testing"
	"time"

	. "tenback/scoring"
)

func TestConversions(t *testing.T) {
	for _, c := range []struct {
		q    Quantity
		to   Unit
		want float64
	}{
		{Q(130, Pounds), Kilograms, 58.9670081},
		{Q(70, Kilograms), Pounds, 154.3235835},
		{Q(12, Inches), Metres, 0.3048},
		{Q(30, Centimetres), Metres, 0.3},
		{Q(1, Miles), Metres, 1609.344},
		{Q(2.4, Kilometres), Metres, 2400},
		{Q(12.75, Minutes), Seconds, 765},
		{Q(8, MilesPerHour), KmPerHour, 12.874752},
		{Q(200, MetresPerMinute), KmPerHour, 12},
		{Q(10, MetresPerSecond), KmPerHour, 36},
		{Q(10, METUnit), MLPerKgMin, 35},
		{Q(38.5, MLPerKgMin), METUnit, 11},
		{Q(1, MaleOne), FemaleOne, 0},
		{Q(0, MaleOne), FemaleOne, 1},
		{Q(1, FemaleOne), MaleOne, 0},
		{Q(0, FemaleOne), MaleOne, 1},
	} {
		if got := c.q.In(c.to); !near(got, c.want, 1e-7) {
			t.Errorf("%s in %s = %.9g, want %.9g", c.q, c.to, got, c.want)
		}
	}
}

// Every unit converts into every other of its kind and back.
func TestConversionsThereAndBack(t *testing.T) {
	for from := Unit(0); from < UnitCount; from++ {
		for to := Unit(0); to < UnitCount; to++ {
			if !from.Converts(to) {
				continue
			}
			if got := Q(Q(17.25, from).In(to), to).In(from); !near(got, 17.25, 1e-9) {
				t.Errorf("17.25 %s through %s comes back as %g", from, to, got)
			}
		}
	}
}

func TestUnlikeUnitsDoNotConvert(t *testing.T) {
	for _, c := range [][2]Unit{{Kilograms, Seconds}, {MLPerKgMin, LPerMin}, {BeatsPerMinute, CyclesPerMinute}, {Levels, Laps}, {Levels, KmPerHour}} {
		if c[0].Converts(c[1]) {
			t.Errorf("%s converts to %s", c[0], c[1])
		}
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s in %s gave a number", c[0], c[1])
				}
			}()
			Q(1, c[0]).In(c[1])
		}()
	}
}

func TestQuantityForPeople(t *testing.T) {
	for _, c := range []struct {
		q    Quantity
		want string
	}{
		{Q(690, Seconds), "11:30"},
		{Q(11.5, Minutes), "11:30"},
		{Q(3661, Seconds), "1:01:01"},
		{Q(59.6, Seconds), "1:00"},
		{Q(5, Seconds), "0:05"},
		{Q(70, Kilograms), "70 kg"},
		{Q(70.256, Kilograms), "70.26 kg"},
		{Q(0.85, NoUnit), "0.85"},
		{Q(-0.001, NoUnit), "0"},
		{Q(100, BeatsPerMinute), "100 beats/min"},
	} {
		if got := c.q.String(); got != c.want {
			t.Errorf("%g %s is written %q, want %q", c.q.Amount, c.q.Unit, got, c.want)
		}
	}
}

func TestClock(t *testing.T) {
	for _, c := range []struct {
		d    time.Duration
		want string
	}{
		{0, "0:00"},
		{499 * time.Millisecond, "0:00"},
		{500 * time.Millisecond, "0:01"},
		{3599 * time.Second, "59:59"},
		{3599*time.Second + 500*time.Millisecond, "1:00:00"},
		{3 * time.Hour, "3:00:00"},
	} {
		if got := Clock(c.d); got != c.want {
			t.Errorf("%v is written %q, want %q", c.d, got, c.want)
		}
	}
}

func TestTrimNumber(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{{10, 2, "10"}, {100, 0, "100"}, {10.10, 2, "10.1"}, {10.005, 1, "10"}, {-0.04, 1, "0"}, {-1.25, 2, "-1.25"}} {
		if got := TrimNumber(c.x, c.decimals); got != c.want {
			t.Errorf("%g with %d decimals is %q, want %q", c.x, c.decimals, got, c.want)
		}
	}
}

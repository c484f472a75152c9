package scoring_test

import (
	"testing"

	. "tenback/scoring"
	"tenback/scoring/reference"
)

// The bands of common practice (no source) and the clinical lines: below 50
// (kusumoto2018), from 100 on (ostchega2011).
func TestRestingBandsAndLines(t *testing.T) {
	for _, c := range []struct {
		rate      string
		band      RestingBand
		low, high bool
	}{
		{"35", RestingVerySlow, true, false},
		{"39.9", RestingVerySlow, true, false},
		{"40", RestingFit, true, false},
		{"49.9", RestingFit, true, false},
		{"50", RestingFit, false, false},
		{"59.9", RestingFit, false, false},
		{"60", RestingUsual, false, false},
		{"69.9", RestingUsual, false, false},
		{"70", RestingRaised, false, false},
		{"80", RestingRaised, false, false},
		{"81", RestingFast, false, false},
		{"99", RestingFast, false, false},
		{"100", RestingFast, false, true},
		{"120", RestingFast, false, true},
	} {
		s := Assess(personOf(t, "sex=F;age=45;resting-hr="+c.rate))
		if s.Resting == nil || !s.Resting.IsAdult || s.Resting.Band != c.band {
			t.Errorf("%s: %+v, want band %d", c.rate, s.Resting, c.band)
		}
		if low, high := hasFlag(s.Flags, FlagRestingLow), hasFlag(s.Flags, FlagRestingHigh); low != c.low || high != c.high {
			t.Errorf("%s: low %v, high %v; want %v, %v", c.rate, low, high, c.low, c.high)
		}
	}
}

// The lines and bands are for adults; a child's heart beats faster, and only
// its place in the table is told.
func TestRestingOfTheYoung(t *testing.T) {
	for _, rate := range []string{"45", "110"} {
		s := Assess(personOf(t, "sex=M;age=12;resting-hr="+rate))
		if s.Resting == nil || s.Resting.IsAdult || hasFlag(s.Flags, FlagRestingLow) || hasFlag(s.Flags, FlagRestingHigh) {
			t.Errorf("%s at 12: %+v, flags %v", rate, s.Resting, flagIDs(s.Flags))
		}
		if len(s.Resting.Percentiles) != 1 {
			t.Errorf("%s at 12: %d percentiles", rate, len(s.Resting.Percentiles))
		}
	}
	if s := Assess(personOf(t, "sex=M;age=5.5;resting-hr=90")); len(s.Resting.Percentiles) != 0 {
		t.Errorf("at 5, before the table begins: %+v", s.Resting.Percentiles)
	}
}

func TestRestingPercentiles(t *testing.T) {
	s := Assess(personOf(t, "sex=M;age=65;resting-hr=84"))
	want := RestingPercentile{Male, reference.Percentile{At: 90}}
	if len(s.Resting.Percentiles) != 1 || s.Resting.Percentiles[0] != want {
		t.Errorf("%+v, want %+v", s.Resting.Percentiles, want)
	}
	if s.Resting.Rate != Q(84, BeatsPerMinute) {
		t.Errorf("rate %v", s.Resting.Rate)
	}
}

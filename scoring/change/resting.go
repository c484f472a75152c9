package change

import (
	"math"
	"slices"
	"time"

	"tenback/scoring"
)

// The lines of reading a change of the resting heart rate, in beats/min. Common
// practice, no source.
const (
	restingRise  = 7 // sustained: recover, and ask if it lasts
	restingNoise = 5 // less than this comes and goes by itself
)

// sustainedMornings is from how many mornings a median counts as sustained. Common
// practice, no source.
const sustainedMornings = 3

// RestingVerdict is how a change of the resting heart rate is read.
type RestingVerdict uint8

// The verdicts.
const (
	RestingSame    RestingVerdict = iota // less than 5 beats: it comes and goes by itself
	RestingLower                         // as happens when someone gets fitter
	RestingHigher                        // 5 or more, but no sustained rise of 7
	RestingRecover                       // a sustained rise of 7 or more: recover, and ask if it lasts
)

// RestingChange is the resting heart rate against the person's own earlier ones.
type RestingChange struct {
	Since      time.Time // the last date before
	Usual      float64   // median of all earlier dates, beats/min
	Now        float64
	Mornings   int // that the present rate is the median of; 0 for one reading
	Difference float64
	Verdict    RestingVerdict
}

// ReadResting compares the last resting heart rate with the earlier ones. ok is false
// for fewer than two dates, or with a medicine that changes the heart rate.
//
// A rise is sustained if the present rate is the median of three mornings or more, or
// if the date before had risen as much.
func ReadResting(line []Dated) (r RestingChange, ok bool) {
	type reading struct {
		day  time.Time
		rate float64
	}
	var all []reading
	for _, d := range line {
		e := d.Score.Entry()
		if e.Says(scoring.HeartRateDrug) {
			return r, false
		}
		if q, has := e.Get(scoring.RestingHR); has {
			all = append(all, reading{d.Day, q.Amount})
		}
	}
	n := len(all)
	if n < 2 || !all[n-1].day.Equal(line[len(line)-1].Day) {
		return r, false
	}
	rates := func(upTo int) []float64 {
		var x []float64
		for _, one := range all[:upTo] {
			x = append(x, one.rate)
		}
		return x
	}
	r = RestingChange{Since: all[n-2].day, Usual: Median(rates(n - 1)), Now: all[n-1].rate,
		Mornings: line[len(line)-1].Score.Entry().Mornings}
	r.Difference = r.Now - r.Usual
	sustained := r.Mornings >= sustainedMornings
	if n >= 3 && !sustained {
		// Two dates in a row above what was usual before both.
		before := Median(rates(n - 2))
		if all[n-2].rate-before >= restingRise && r.Now-before >= restingRise {
			sustained, r.Usual, r.Difference = true, before, r.Now-before
		}
	}
	switch {
	case r.Difference >= restingRise && sustained:
		r.Verdict = RestingRecover
	case r.Difference >= restingNoise:
		r.Verdict = RestingHigher
	case r.Difference <= -restingNoise:
		r.Verdict = RestingLower
	}
	return r, true
}

// Median returns the median of some values; NaN of none.
func Median(values []float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	sorted := slices.Sorted(slices.Values(values))
	middle := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[middle]
	}
	return (sorted[middle-1] + sorted[middle]) / 2
}

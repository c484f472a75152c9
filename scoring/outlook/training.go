// Package outlook says what an estimate means for a person: the usual values of
// people of that age, sex and size, the heart rates to train at, and what training
// and years do.
package outlook

import "tenback/scoring"

// Intensity is a range of exercise intensity by share of heart-rate reserve,
// with the names of the American College of Sports Medicine.
type Intensity struct {
	Name     string
	From, To float64 // share of heart-rate reserve; To is 1 for the last
}

// Intensities are the ranges, light to near maximal. Source: garber2011.
func Intensities() []Intensity {
	return []Intensity{{"light", 0.30, 0.40}, {"moderate", 0.40, 0.60}, {"vigorous", 0.60, 0.90}, {"near maximal", 0.90, 1}}
}

// Range is an intensity as heart rates for one person.
type Range struct {
	Name      string
	Low, High scoring.Quantity // the lowest has no Low, the highest no High: Amount 0
	// Error is the standard error of High in beats/min where the maximum heart
	// rate is predicted; 0 if it, or the thresholds, were measured.
	Error    float64
	Measured bool // the bounds are thresholds found in a laboratory
}

// Ranges returns the heart rates to train at.
//
// Where both threshold heart rates were measured, the three ranges between
// them; else the intensities of [Intensities]:
//
//	HR = HRrest + share (HRmax − HRrest)
//
// ok is false without thresholds, and without a resting heart rate or without
// both a measured maximum and an age; for someone whose medicine changes the heart
// rate; and for someone who should see a clinician first.
func Ranges(s *scoring.Score) (ranges []Range, ok bool) {
	e := s.Entry()
	if e.Says(scoring.HeartRateDrug) || s.SeeClinicianFirst() {
		return nil, false
	}
	if first, second, measured := thresholds(e); measured {
		return []Range{
			{Name: "below the first threshold", High: first, Measured: true},
			{Name: "between the thresholds", Low: first, High: second, Measured: true},
			{Name: "above the second threshold", Low: second, Measured: true},
		}, true
	}
	rest, hasRest := e.Get(scoring.RestingHR)
	top, standardError, hasTop := topHR(e)
	if !hasRest || !hasTop {
		return nil, false
	}
	at := func(share float64) scoring.Quantity {
		return scoring.Q(rest.Amount+share*(top-rest.Amount), scoring.BeatsPerMinute)
	}
	for _, i := range Intensities() {
		ranges = append(ranges, Range{Name: i.Name, Low: at(i.From), High: at(i.To), Error: i.To * standardError})
	}
	return ranges, true
}

// topHR is the measured or predicted maximum heart rate and its error.
func topHR(e *scoring.Entry) (beatsPerMinute, standardError float64, ok bool) {
	if q, given := e.Get(scoring.MaxHR); given {
		return q.Amount, 0, true
	}
	age, given := e.Get(scoring.Age)
	if !given {
		return 0, 0, false
	}
	beatsPerMinute, standardError = scoring.PredictedMaxHR(age.Amount)
	return beatsPerMinute, standardError, true
}

// thresholds are the two measured threshold heart rates, if both are there
// and in order.
func thresholds(e *scoring.Entry) (first, second scoring.Quantity, ok bool) {
	first, has1 := e.Get(scoring.Threshold1HR)
	second, has2 := e.Get(scoring.Threshold2HR)
	return first, second, has1 && has2 && first.Amount < second.Amount
}

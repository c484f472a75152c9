package scoring

import "tenback/scoring/reference"

// RestingBand is how practitioners read an adult's resting heart rate.
// Common practice, no source.
type RestingBand uint8

// The bands, slow to fast.
const (
	RestingVerySlow RestingBand = iota // under 40: the thirties are known from endurance athletes
	RestingFit                         // 40 to 59: where most fit adults sit
	RestingUsual                       // 60 to 69
	RestingRaised                      // 70 to 80: ordinary
	RestingFast                        // above 80: fast
)

// The edges of the bands, and the clinical lines, in beats/min.
const (
	RestingFitFrom      = 40
	RestingUsualFrom    = 60
	RestingRaisedFrom   = 70
	RestingFastAbove    = 80
	RestingClinicalLow  = 50  // below, with symptoms: kusumoto2018
	RestingClinicalHigh = 100 // from here on: ostchega2011
)

// RestingReading is what a resting heart rate says.
type RestingReading struct {
	Rate Quantity
	// Band holds only if IsAdult.
	Band        RestingBand
	IsAdult     bool
	Percentiles []RestingPercentile // one, or two where sex is not given; none without an age
}

// RestingPercentile is the place of a resting heart rate among people of one
// sex and the same age group; a low percentile is a slow pulse.
type RestingPercentile struct {
	Sex Sex
	reference.Percentile
}

// restingBand reads an adult's resting heart rate.
func restingBand(beatsPerMinute float64) RestingBand {
	switch {
	case beatsPerMinute < RestingFitFrom:
		return RestingVerySlow
	case beatsPerMinute < RestingUsualFrom:
		return RestingFit
	case beatsPerMinute < RestingRaisedFrom:
		return RestingUsual
	case beatsPerMinute <= RestingFastAbove:
		return RestingRaised
	}
	return RestingFast
}

// readResting reads the resting heart rate and flags the low clinical line of adults.
// Children, and people who may be, get only their place in the table. For another
// unknown age the line is flagged and no band is named.
func (s *Score) readResting() {
	rate, ok := s.entry.Get(RestingHR)
	if !ok {
		return
	}
	r := &RestingReading{Rate: rate}
	if age, ok := s.entry.Get(Age); ok {
		r.IsAdult = !IsYouth(age.Amount)
		sexes := []Sex{Female, Male}
		if sex := s.entry.Sex(); sex != SexUnspecified {
			sexes = []Sex{sex}
		}
		for _, sex := range sexes {
			if p, ok := reference.RestingPercentile(sex, reference.WholeYears(age.Amount), rate.Amount); ok {
				r.Percentiles = append(r.Percentiles, RestingPercentile{sex, p})
			}
		}
	}
	if r.IsAdult {
		r.Band = restingBand(rate.Amount)
	}
	if !s.entry.MayBeYoung() && rate.Amount < RestingClinicalLow {
		s.Flags = append(s.Flags, Flag{Code: FlagRestingLow})
	}
	s.Resting = r
}

package outlook

import "tenback/scoring"

// Gain is what 20 weeks of regular training brought 481 sedentary
// adults: 0.40 L/min on average, from nothing to above 1.0 (bouchard1999).
// Divided by body mass it is in the unit of VO2max.
//
// ok is false without a body mass, and over 65, the oldest in the study (17-65, from
// memory).
func Gain(e *scoring.Entry) (mean scoring.VO2, ok bool) {
	kg, ok := e.Get(scoring.BodyMass)
	if age, given := e.Get(scoring.Age); !ok || given && age.Amount >= 66 {
		return 0, false
	}
	return scoring.VO2(meanGainMLPerMin / kg.Amount), true
}

// MostGain is what the best of them gained, 1.0 L/min and above, for a
// body mass in kilograms.
func MostGain(kilograms float64) scoring.VO2 { return scoring.VO2(mostGainMLPerMin / kilograms) }

const (
	meanGainMLPerMin = 400
	mostGainMLPerMin = 1000
)

// Later is what an uptake now means for the years around 80 and 90.
type Later struct {
	At         int         // 80 or 90
	Line       scoring.VO2 // the line of independent living
	NeedSlow   scoring.VO2 // value that would do now, with a slow decline
	NeedFast   scoring.VO2 // and with a fast one
	Reached    bool        // the estimate is above NeedFast
	OutOfReach bool        // the estimate is below NeedSlow
}

// Decline is how much VO2max (mL/kg/min) tends to fall in a year, as a slow and
// a fast pace.
func Decline(sex scoring.Sex) (slow, fast scoring.VO2) { return slowDecline(sex), fastDecline }

// Yearly declines (mL/kg/min). The slow one is that of independently living
// people of 55-86 (paterson1999: 0.31 in men, 0.25 in women); the fast one is
// a common figure of 5 a decade (shephard2009). Decline speeds up with age:
// from 3-6 % a decade in the twenties and thirties to more than 20 % in the
// seventies (fleg2005); so this is a range and no forecast.
const fastDecline scoring.VO2 = 0.5

func slowDecline(sex scoring.Sex) scoring.VO2 {
	if sex == scoring.Male {
		return 0.31
	}
	return 0.25
}

// LaterFor reads an estimate of an adult against the line of independent
// living at 80 and at 90, for those ages still to come.
func LaterFor(best *scoring.Estimate, sex scoring.Sex, age float64) []Later {
	var all []Later
	for _, at := range []int{80, 90} {
		years := float64(at) - age
		if years < 0 || scoring.IsYouth(age) {
			continue
		}
		o := Later{At: at, Line: scoring.Independence(sex)}
		o.NeedSlow = o.Line + slowDecline(sex)*scoring.VO2(years)
		o.NeedFast = o.Line + fastDecline*scoring.VO2(years)
		o.Reached = best.VO2 >= o.NeedFast
		o.OutOfReach = best.VO2 < o.NeedSlow
		all = append(all, o)
	}
	return all
}

package scoring

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

// HRRange is an intensity as heart rates for one person.
type HRRange struct {
	Name      string
	Low, High Quantity // the lowest has no Low, the highest no High: Amount 0
	// Error is the standard error of High in beats/min where the maximum heart
	// rate is predicted; 0 if it, or the thresholds, were measured.
	Error    float64
	Measured bool // the bounds are thresholds found in a laboratory
}

// HRRanges gives the heart rates to train at.
//
// Where both threshold heart rates were measured, the three ranges between
// them; else the intensities of [Intensities]:
//
//	HR = HRrest + share (HRmax − HRrest)
//
// ok is false without thresholds, and without a resting heart rate or without
// both a measured maximum and an age; for someone whose medicine changes the heart
// rate; and for someone who should see a clinician first.
func (s *Score) HRRanges() (ranges []HRRange, ok bool) {
	e := s.entry
	if e.Says(HeartRateDrug) || s.SeeClinicianFirst() {
		return nil, false
	}
	if first, second, measured := thresholds(e); measured {
		return []HRRange{
			{Name: "below the first threshold", High: first, Measured: true},
			{Name: "between the thresholds", Low: first, High: second, Measured: true},
			{Name: "above the second threshold", Low: second, Measured: true},
		}, true
	}
	rest, hasRest := e.Get(RestingHR)
	top, standardError, hasTop := topHR(e)
	if !hasRest || !hasTop {
		return nil, false
	}
	at := func(share float64) Quantity { return Q(rest.Amount+share*(top-rest.Amount), BeatsPerMinute) }
	for _, i := range Intensities() {
		ranges = append(ranges, HRRange{Name: i.Name, Low: at(i.From), High: at(i.To), Error: i.To * standardError})
	}
	return ranges, true
}

// topHR is the measured or predicted maximum heart rate and its error.
func topHR(e *Entry) (beatsPerMinute, standardError float64, ok bool) {
	if q, given := e.Get(MaxHR); given {
		return q.Amount, 0, true
	}
	age, given := e.Get(Age)
	if !given {
		return 0, 0, false
	}
	beatsPerMinute, standardError = PredictedMaxHR(age.Amount)
	return beatsPerMinute, standardError, true
}

// thresholds are the two measured threshold heart rates, if both are there
// and in order.
func thresholds(e *Entry) (first, second Quantity, ok bool) {
	first, has1 := e.Get(Threshold1HR)
	second, has2 := e.Get(Threshold2HR)
	return first, second, has1 && has2 && first.Amount < second.Amount
}

// TrainingGain is what 20 weeks of regular training brought 481 sedentary
// adults: 0.40 L/min on average, from nothing to above 1.0 (bouchard1999).
// Divided by body mass it is in the unit of VO2max.
//
// ok is false without a body mass, and over 65, the oldest in the study (17-65, from
// memory).
func TrainingGain(e *Entry) (mean VO2, ok bool) {
	kg, ok := e.Get(BodyMass)
	if age, given := e.Get(Age); !ok || given && age.Amount >= 66 {
		return 0, false
	}
	return VO2(meanGainMLPerMin / kg.Amount), true
}

// MostTrainingGain is what the best of them gained, 1.0 L/min and above, for a
// body mass in kilograms.
func MostTrainingGain(kilograms float64) VO2 { return VO2(mostGainMLPerMin / kilograms) }

const (
	meanGainMLPerMin = 400
	mostGainMLPerMin = 1000
)

// Outlook is what an uptake now means for the years around 80 and 90.
type Outlook struct {
	At         int  // 80 or 90
	Line       VO2  // the line of independent living
	NeedSlow   VO2  // value that would do now, with a slow decline
	NeedFast   VO2  // and with a fast one
	Reached    bool // the estimate is above NeedFast
	OutOfReach bool // the estimate is below NeedSlow
}

// Decline is how much VO2max (mL/kg/min) tends to fall in a year, as a slow and
// a fast pace.
func Decline(sex Sex) (slow, fast VO2) { return slowDecline(sex), fastDecline }

// Yearly declines (mL/kg/min). The slow one is that of independently living
// people of 55-86 (paterson1999: 0.31 in men, 0.25 in women); the fast one is
// a common figure of 5 a decade (shephard2009). Decline speeds up with age:
// from 3-6 % a decade in the twenties and thirties to more than 20 % in the
// seventies (fleg2005); so this is a range and no forecast.
const fastDecline VO2 = 0.5

func slowDecline(sex Sex) VO2 {
	if sex == Male {
		return 0.31
	}
	return 0.25
}

// OutlookFor reads an estimate of an adult against the line of independent
// living at 80 and at 90, for those ages still to come.
func OutlookFor(best *Estimate, sex Sex, age float64) []Outlook {
	var all []Outlook
	for _, at := range []int{80, 90} {
		years := float64(at) - age
		if years < 0 || IsYouth(age) {
			continue
		}
		o := Outlook{At: at, Line: Independence(sex)}
		o.NeedSlow = o.Line + slowDecline(sex)*VO2(years)
		o.NeedFast = o.Line + fastDecline*VO2(years)
		o.Reached = best.VO2 >= o.NeedFast
		o.OutOfReach = best.VO2 < o.NeedSlow
		all = append(all, o)
	}
	return all
}

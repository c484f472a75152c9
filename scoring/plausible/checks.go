package plausible

import (
	"math"
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// checkBody compares stature with age, and body mass with stature or with age.
func checkBody(j *judge) {
	age, hasAge := j.age()
	stature, hasStature := j.Get(scoring.Stature)
	mass, hasMass := j.Get(scoring.BodyMass)
	median := j.forSex(statureWomen.at(age), statureMen.at(age), math.Max)
	least := j.forSex(statureWomen.at(age), statureMen.at(age), math.Min)
	if hasAge && hasStature {
		sd := statureSD.at(age)
		tall := stature.Amount > median+5.3*sd
		if tall || stature.Amount < least-5.5*sd {
			j.add(false, nil, forAge.With(stature, wholeYears(age)), orAge(scoring.Stature, tall && scoring.IsYouth(age))...)
			hasStature = false
		}
	}
	if !hasMass || !hasAge && !hasStature {
		return
	}
	low, high := leanest.at(5), heaviest.at(99)
	if hasAge {
		low, high = leanest.at(age), heaviest.at(age)
	}
	of, what := []scoring.Input{scoring.BodyMass, scoring.Stature}, massStature.With(mass, stature)
	if hasStature {
		square := math.Pow(stature.In(scoring.Metres), 2)
		low, high = low*square, high*square
	} else {
		low, high = low*math.Pow(0.93*least/100, 2), high*math.Pow(1.06*median/100, 2)
		of, what = orAge(scoring.BodyMass, mass.Amount > high && scoring.IsYouth(age)), forAge.With(mass, wholeYears(age))
	}
	if x := mass.Amount; x < low || x > high {
		j.add(x < low/beyondAll || x > high*beyondAll, nil, what, of...)
	}
}

// orAge returns an input, with the age where that may be the wrong one: too large a
// body for a child is perhaps an adult's.
func orAge(in scoring.Input, doubtAge bool) []scoring.Input {
	if doubtAge {
		return []scoring.Input{in, scoring.Age}
	}
	return []scoring.Input{in}
}

func wholeYears(age float64) scoring.Quantity {
	return scoring.Q(float64(reference.WholeYears(age)), scoring.Years)
}

// checkResting compares the resting pulse with the age.
func checkResting(j *judge) {
	rest, ok := j.Get(scoring.RestingHR)
	age, hasAge := j.age()
	if !ok {
		return
	}
	low, high := slowestResting.at(99), 140.0
	if hasAge {
		low = slowestResting.at(age)
		women, _ := reference.RestingValue(scoring.Female, reference.WholeYears(age), 97.5)
		if men, ok := reference.RestingValue(scoring.Male, reference.WholeYears(age), 97.5); ok {
			high = math.Max(women, men) + aboveTable
			if age < 16 {
				high += aboveChildren - aboveTable
			}
		}
	}
	switch x := rest.Amount; {
	case x < low && !j.Says(scoring.HeartRateDrug):
		j.add(false, nil, slowResting.With(rest), scoring.RestingHR)
	case x > high:
		j.add(false, nil, fastResting.With(rest), scoring.RestingHR)
	}
}

// checkPulses compares the pulses of each test with the maximum, at rest and with each
// other.
func checkPulses(j *judge) {
	rest, given := j.Get(scoring.RestingHR)
	hasRest := given && !j.doubted(nil, scoring.RestingHR)
	top, hasTop := j.Get(scoring.MaxHR)
	maximum := top.Amount
	age, hasAge := j.age()
	if hasAge {
		predicted, _ := scoring.PredictedMaxHR(age)
		if hasTop && (maximum > predicted+aboveMaximum+5 || maximum < predicted-aboveMaximum-30 && !j.Says(scoring.HeartRateDrug)) {
			j.add(false, nil, forAge.With(top, wholeYears(age)), scoring.MaxHR)
		}
		if !hasTop {
			maximum = predicted
		}
	} else if !hasTop {
		maximum = 208
	}
	for i := range j.Trials {
		t := &j.Trials[i]
		kind := kindOf(t.Test)
		above := float64(aboveMaximum)
		if kind != running || hasTop {
			above = aboveSubmaximal
		}
		for in := range scoring.InputCount {
			pulse, ok := t.Get(in)
			if !ok || in.Info().Unit != scoring.BeatsPerMinute {
				continue
			}
			x := pulse.Amount
			share := (x - rest.Amount) / (math.Max(maximum, x+1) - rest.Amount)
			switch {
			case x > neverAbove || hasAge && x > maximum+farAboveMaximum:
				j.add(true, t, pulseTooHigh.With(pulse), in)
			case x > 220 || hasAge && x > maximum+above:
				j.add(false, t, pulseTooHigh.With(pulse), in)
			case given && x < rest.Amount: // the two may be exchanged
				j.add(hasRest, t, pulseBelowRest.With(pulse, rest), in)
			case hasRest && share < kind.reserve() || !hasRest && x < lowestWalkPulse && in != scoring.RecoveryHR:
				j.add(false, t, pulseTooLow.With(pulse), in)
			}
		}
	}
}

// doubted reports whether there is a doubt about an input of a trial, or of the person.
func (j *judge) doubted(t *scoring.Trial, in scoring.Input) bool {
	return slices.ContainsFunc(j.doubts, func(d scoring.Doubt) bool { return d.Trial == t && slices.Contains(d.Inputs, in) })
}

// kind is how a test is done.
type kind uint8

const (
	still kind = iota // steps, cycles and laboratories
	running
	walking
	shuttle
)

func (k kind) reserve() float64 {
	switch k {
	case running, shuttle:
		return runReserve
	case walking:
		return walkReserve
	}
	return stageReserve
}

// kindOf returns how a test is done, by its results and its name.
func kindOf(t *scoring.Test) kind {
	switch {
	case t.HasResult(scoring.ShuttleLevel):
		return shuttle
	case !t.HasResult(scoring.Time) && !t.HasResult(scoring.Distance):
		return still
	case t.Day != nil && (t.Day.Say == "walk" || t.Day.Say == "walk-6-minute"):
		return walking
	}
	return running
}

// checkSpeed compares the speed over a course with the best and the slowest of the age
// and sex.
func checkSpeed(j *judge) {
	leastRun := slowestRun
	if age, ok := j.age(); !ok || age >= 70 {
		leastRun = slowestOld
	}
	for i := range j.Trials {
		t := &j.Trials[i]
		result, _ := t.ResultOf()
		metres, seconds := course(t)
		if metres == 0 || seconds == 0 {
			continue
		}
		v := metres / seconds
		best := recordSpeed.at(metres) * j.shareOfBest(1)
		doubtful, impossible, slowest, fast, heavy := doubtfulSpeed*best, impossibleSpeed*best, leastRun, tooFast, heavyRun
		if kindOf(t.Test) == walking {
			fast, heavy = notWalked, heavyWalk
			doubtful, impossible, slowest = math.Min(fastWalk, doubtful), recordWalk, slowestWalk
			if result.Input == scoring.Distance {
				doubtful, slowest = math.Min(fastSixMinutes, doubtful), slowestSix
			}
		}
		speed := scoring.Q(math.Round(v*36)/10, scoring.KmPerHour)
		switch {
		case v > doubtful:
			j.add(v > impossible, t, fast.With(speed), result.Input)
		case v < slowest:
			j.add(false, t, tooSlow.With(speed), result.Input)
		case v > heavy.at(j.excess()):
			mass, _ := j.Get(scoring.BodyMass)
			j.add(false, nil, fastForMass.With(speed, mass), scoring.BodyMass)
		}
	}
}

// course returns the metres and seconds of a trial; 0 where it has none.
func course(t *scoring.Trial) (metres, seconds float64) {
	if t.Test.Day != nil {
		metres, seconds = t.Test.Day.Course, float64(t.Test.Day.RunFor)
	}
	if q, ok := t.Get(scoring.Time); ok {
		seconds = q.Amount
	}
	if q, ok := t.Get(scoring.Distance); ok {
		metres = q.Amount
		if kindOf(t.Test) == walking {
			seconds = sixMinutes
		}
	}
	return metres, seconds
}

// sixMinutes is how long a walk for distance takes.
const sixMinutes = 360

// shareOfBest is the share of the best men that the best of the age and sex reach,
// with the part of age raised to a power.
func (j *judge) shareOfBest(power float64) float64 {
	share, women := 1.0, womenOfMen.at(99)
	if age, ok := j.age(); ok {
		share, women = math.Pow(bestByAge.at(age), power), womenOfMen.at(age)
	}
	if power != 1 {
		women = math.Max(women, shuttleWomen)
	}
	return share * j.forSex(women, 1, math.Max)
}

// checkShuttles compares the last speed of a shuttle run with the best of the age and
// sex.
func checkShuttles(j *judge) {
	for i := range j.Trials {
		t := &j.Trials[i]
		result, _ := t.ResultOf()
		if kindOf(t.Test) != shuttle {
			continue
		}
		q, _ := t.Get(result.Input)
		speed := q.Amount
		switch result.Input {
		case scoring.ShuttleLevel:
			speed = fieldtests.ShuttleLevelSpeed(int(q.Amount), fieldtests.ShuttleStart85)
		case scoring.ShuttleLaps:
			speed = speedAfter(q.Amount)
		}
		best, shown := math.Max(firstLevels, fastestShuttle*j.shareOfBest(shuttleAge)), scoring.Q(speed, scoring.KmPerHour)
		switch {
		case speed > best:
			j.add(speed > best+impossibleShuttle, t, tooFast.With(shown), result.Input)
		case speed/3.6 > heavyRun.at(j.excess()):
			mass, _ := j.Get(scoring.BodyMass)
			j.add(false, nil, fastForMass.With(shown, mass), scoring.BodyMass)
		}
	}
}

// speedAfter returns the speed at which so many shuttles end.
func speedAfter(laps float64) float64 {
	table := fieldtests.ShuttlesInLevels(fieldtests.ShuttleStart85)
	for level, n := range table {
		if laps -= float64(n); laps <= 0 {
			return fieldtests.ShuttleLevelSpeed(level+1, fieldtests.ShuttleStart85)
		}
	}
	return fieldtests.ShuttleLevelSpeed(len(table), fieldtests.ShuttleStart85)
}

// checkStages compares the power of cycling with body mass, and counts steps in place.
func checkStages(j *judge) {
	mass, hasMass := j.Get(scoring.BodyMass)
	for i := range j.Trials {
		t := &j.Trials[i]
		for in := range scoring.InputCount {
			q, ok := t.Get(in)
			if !ok || in.Info().Unit != scoring.Watts || !hasMass {
				continue
			}
			if share := q.Amount / mass.Amount; share > hardStage {
				j.add(share > noOnesStage, t, tooMuchPower.With(q, mass), in)
			}
		}
		if q, ok := t.Get(scoring.StepsInPlace); ok && q.Amount > mostSteps {
			j.add(false, t, tooManySteps.With(q), scoring.StepsInPlace)
		}
	}
}

// farApart is how many standard errors two estimates of one person may differ. Common
// practice, no source; the flag of differing tests begins at 1.96.
const farApart = 3.8

// checkEstimates compares what the equations give with the best of the age and sex, the
// body, the resting pulse and each other.
func checkEstimates(j *judge) {
	var first []*scoring.Estimate // of each test
	all := scoring.Options{}.Estimates(j.Entry).Estimates
	for i := range all {
		e := &all[i]
		if !slices.ContainsFunc(first, func(f *scoring.Estimate) bool { return f.Test == e.Test }) {
			first = append(first, e)
		}
	}
	age, hasAge := j.age()
	share := 1.0
	if hasAge {
		share = bestVO2(age)
	}
	for _, e := range first {
		t := j.trialOf(e.Test)
		result, _ := t.ResultOf()
		limit := highestVO2 * share * j.forSex(womenVO2, 1, math.Max)
		switch {
		case e.Measured():
			limit *= measuredVO2
		case kindOf(e.Test) == walking:
			limit = math.Min(limit, walkedVO2*j.forSex(womenVO2, 1, math.Max))
		}
		value := scoring.Q(math.Round(float64(e.VO2)), scoring.MLPerKgMin)
		mass, hasMass := j.Get(scoring.BodyMass)
		hasMass = hasMass && !j.doubted(nil, scoring.BodyMass)
		litres := float64(e.VO2) * mass.Amount / 1000
		switch {
		case float64(e.VO2) > limit:
			j.add(false, t, highVO2.With(value), result.Input)
		case hasMass && (litres > highestLitre*j.forSex(womenLitre, 1, math.Max) || float64(e.VO2) > heavyVO2.at(j.excess())):
			j.add(false, t, fitForMass.With(value, mass), result.Input)
			if j.excess() > 0 {
				j.add(false, nil, fitForMass.With(value, mass), scoring.BodyMass)
			}
		}
	}
	rest, hasRest := j.Get(scoring.RestingHR)
	if hasRest && hasAge && len(first) > 0 && rest.Amount < slowOfAthletes && !j.Says(scoring.HeartRateDrug) &&
		!slices.ContainsFunc(first, func(e *scoring.Estimate) bool {
			least := float64(slowVO2)
			if slices.Contains(e.Equation.Inputs(), scoring.RestingHR) { // is raised by the slow pulse itself
				least += raisedBySlow
			}
			return float64(e.VO2) >= least*share*j.forSex(womenVO2, 1, math.Min)
		}) {
		j.add(false, nil, slowUnfit.With(rest), scoring.RestingHR)
	}
	j.compareTests(first)
}

// excess returns the kilograms by which a body exceeds those of the heaviest athletes,
// or as much for each step of the body mass index beyond theirs; negative without a body
// mass.
func (j *judge) excess() float64 {
	mass, ok := j.Get(scoring.BodyMass)
	if !ok || j.doubted(nil, scoring.BodyMass) {
		return -1
	}
	beyond := mass.Amount - j.forSex(110, 130, math.Max)
	if stature, ok := j.Get(scoring.Stature); ok && !j.doubted(nil, scoring.Stature) {
		beyond = math.Max(beyond, kilogramsForIndex*(mass.Amount/math.Pow(stature.In(scoring.Metres), 2)-heaviestAthletes))
	}
	return beyond
}

// compareTests doubts the tests of one person that contradict the most others.
func (j *judge) compareTests(first []*scoring.Estimate) {
	against := make([][]*scoring.Estimate, len(first))
	most := 1
	for i, a := range first {
		for k, b := range first {
			if i != k && math.Abs(float64(a.VO2-b.VO2)) > farApart*math.Hypot(float64(a.SD), float64(b.SD)) {
				against[i] = append(against[i], b)
			}
		}
		most = max(most, len(against[i]))
	}
	for i, a := range first {
		if len(against[i]) < most {
			continue
		}
		t, b := j.trialOf(a.Test), against[i][0]
		result, _ := t.ResultOf()
		other, _ := j.trialOf(b.Test).ResultOf()
		j.add(false, t, testsApart.With(a.Test, b.Test, scoring.Number{Amount: float64(b.VO2), Decimals: 1}, j.trialOf(b.Test).Cell(other.Input)), result.Input)
	}
}

// trialOf returns the trial of a test.
func (j *judge) trialOf(test *scoring.Test) *scoring.Trial {
	return &j.Trials[slices.IndexFunc(j.Trials, func(t scoring.Trial) bool { return t.Test == test })]
}

package plausible

import "math"

// curve is a line through points, level before the first and after the last.
type curve []struct{ x, y float64 }

func (c curve) at(x float64) float64 {
	last := c[0]
	for _, p := range c {
		if x <= p.x {
			if p.x == last.x {
				return p.y
			}
			return last.y + (p.y-last.y)*(x-last.x)/(p.x-last.x)
		}
		last = p
	}
	return last.y
}

// forSex returns a bound for a sex; where it is not known, the one that a or b puts
// further out.
func (j *judge) forSex(women, men float64, further func(a, b float64) float64) float64 {
	switch q, ok := j.sex(); {
	case !ok:
		return further(women, men)
	case q == 1:
		return men
	}
	return women
}

// The size of a body by age in years.
//
// Median statures are those of the CDC 2000 growth charts, rounded (boys up to 10 seen
// in a secondary copy, the others from memory); adult ones are from memory. The
// body mass indices lie beyond the 0.1st and the 99.9th percentile of children, and are
// common practice, no source.
var (
	statureWomen = curve{{5, 108}, {6, 115}, {8, 127.5}, {10, 138}, {12, 151}, {13, 157}, {14, 160}, {16, 162.5}, {18, 163}}
	statureMen   = curve{{5, 109}, {6, 115.5}, {8, 128}, {10, 138.5}, {12, 149}, {13, 156}, {14, 164}, {16, 173.5}, {18, 176.5}}
	statureSD    = curve{{5, 5}, {8, 5.9}, {10, 6.5}, {12, 7.5}, {14, 7.8}, {16, 7.1}, {18, 7}}
	leanest      = curve{{5, 10.8}, {8, 11}, {10, 11.3}, {12, 11.8}, {14, 12.5}, {16, 13.3}, {18, 14}}
	heaviest     = curve{{5, 31}, {6, 32}, {8, 34}, {10, 37}, {12, 39.5}, {14, 42}, {16, 45}, {18, 48}}
)

// beyondAll is how far outside the leanest and heaviest no living body is.
const beyondAll = 1.4

// How fast the best of the world are.
//
// Speeds are those of men's records by distance in metres (2024, from memory). Shares
// of them by age follow the best marks of single ages and the masters' records in the
// mile and over 5 km (from memory).
var (
	recordSpeed = curve{{400, 9.29}, {800, 7.93}, {1000, 7.58}, {1500, 7.28}, {1609, 7.21}, {2000, 7.06}, {3000, 6.86}, {5000, 6.62}, {10000, 6.37}, {21097, 6.20}, {42195, 5.83}, {60000, 5}}
	bestByAge   = curve{{5, 0.56}, {6, 0.625}, {8, 0.725}, {10, 0.79}, {12, 0.835}, {14, 0.90}, {16, 0.945}, {18, 0.975}, {20, 1}, {36, 1}, {40, 0.96}, {50, 0.875}, {60, 0.795}, {70, 0.715}, {80, 0.61}, {90, 0.46}, {100, 0.28}}
	womenOfMen  = curve{{10, 0.96}, {13, 0.93}, {16, 0.90}}
)

// The doubtful and the impossible share of the best speed. National runners reach about
// 0.90. Common practice, no source.
const (
	doubtfulSpeed   = 0.917
	impossibleSpeed = 1.03
)

// The fastest shuttle run in km/h: few reach level 16, and records are near 18. Turning
// costs children and old people less than running does. Common practice, no source.
const (
	fastestShuttle    = 16.3
	shuttleAge        = 0.85 // power of the share by age
	shuttleWomen      = 0.935
	firstLevels       = 9   // km/h, which the old may reach
	impossibleShuttle = 1.5 // km/h beyond the doubtful
)

// Walking in m/s: who walks faster than the first is thought to run or to race, and no
// race walker is faster than the last (men's record mile 5:31). Common practice, no
// source.
const (
	fastWalk       = 2.65
	fastSixMinutes = 2.45 // 880 m, beyond the longest of healthy adults
	recordWalk     = 4.9
)

// Below these speeds in m/s a course was hardly run or walked at all. Common practice,
// no source.
const (
	slowestRun  = 1.12 // a mile in 24 minutes
	slowestOld  = 0.8  // the same from 70 on
	slowestWalk = 0.55 // a mile in 49 minutes
	slowestSix  = 0.25 // 90 m in six minutes
)

// The highest VO2max by age: the estimate that few or no people of an age reach. Men of
// world class have 80 to 90, and an estimate carries its error. From memory, with the
// decline of the best by age above.
const (
	highestVO2   = 85
	womenVO2     = 0.87
	walkedVO2    = 74 // from a walk, at any age
	measuredVO2  = 1.08
	highestLitre = 7.0 // L/min; heavyweight rowers have 6.5 to 7 (from memory)
	womenLitre   = 0.72
)

// What bodies heavier than those of the heaviest athletes reach, by the kilograms
// beyond: VO2max in mL/kg/min, and the speed in m/s of a run and of a walk. Common
// practice, no source.
var (
	heavyVO2  = curve{{-1, 200}, {0, 54}, {50, 32}, {100, 20}}
	heavyRun  = curve{{-1, 20}, {0, 3.6}, {20, 2.9}, {30, 2.5}, {50, 1.7}, {100, 1.4}}
	heavyWalk = curve{{-1, 20}, {0, 2.65}, {20, 1.85}, {30, 1.7}, {50, 1.5}, {100, 1.3}}
)

// The body mass index of the heaviest athletes, and the kilograms that a step of it
// counts for.
const (
	heaviestAthletes  = 40
	kilogramsForIndex = 3
)

// bestVO2 is the share of the highest by age.
func bestVO2(age float64) float64 {
	if age < 20 {
		return curve{{5, 0.78}, {10, 0.84}, {14, 0.92}, {18, 1}}.at(age)
	}
	return math.Min(1, bestByAge.at(age)+0.02)
}

// The pulse in beats a minute.
const (
	aboveMaximum    = 35 // beyond the maximum predicted from age, three standard errors
	aboveSubmaximal = 20 // the same in a test below maximum
	neverAbove      = 225
	farAboveMaximum = 55
	aboveTable      = 14 // resting, beyond the 97.5th percentile of the age
	aboveChildren   = 22 // the same under 16
	walkReserve     = 0.13
	runReserve      = 0.35
	stageReserve    = 0.13
	lowestWalkPulse = 72 // where no resting pulse is known
)

// slowestResting is the slowest resting pulse by age: children's hearts beat faster, and
// endurance athletes are known down to the low thirties. Common practice, no source.
var slowestResting = curve{{6, 46}, {11, 44}, {13, 38}, {17, 32}, {20, 30}}

// A pulse below slowOfAthletes belongs to endurance athletes; with a VO2max below
// slowVO2 it may have been counted over 30 seconds. Common practice, no source.
const (
	slowOfAthletes = 41
	slowVO2        = 50
	raisedBySlow   = 10
)

// Power of a submaximal stage in watts for each kilogram: professionals ride near 4.5
// (from memory).
const (
	hardStage   = 4.8
	noOnesStage = 8
)

// mostSteps is more steps in place than a sprint on the spot gives: common practice, no
// source. The studies' people have 60 to 140.
const mostSteps = 170

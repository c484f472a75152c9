package change

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"tenback/scoring"
	"tenback/scoring/outlook"
)

// DayShare is the day's share of an equation's squared error, assumed where there is
// no study of repeated tests; see the package comment.
const DayShare = 0.25

// RealFrom and ProbableFrom are the chances from which a change is called real,
// and probable. Convention: 0.975 is the usual two-sided 5 %, 0.90 a two-sided
// 20 %.
const (
	RealFrom     = 0.975
	ProbableFrom = 0.90
)

// standardNormal is the distribution that chances come from.
var standardNormal = distuv.UnitNormal

// smallest is the number of standard errors from which a change is real.
var smallest = standardNormal.Quantile(RealFrom)

// Dated is what one test day gave.
type Dated struct {
	Day   time.Time
	Score *scoring.Score
}

// Verdict is what a change is called.
type Verdict uint8

// The verdicts.
const (
	Unclear      Verdict = iota // the tests cannot separate a rise from a fall
	ProbableRise                // chance of a rise from ProbableFrom on
	RealRise                    // from RealFrom on
	ProbableFall
	RealFall
)

var verdictIDs = [...]string{"unclear", "probable-rise", "real-rise", "probable-fall", "real-fall"}

// ID is the verdict's stable short name.
func (v Verdict) ID() string { return verdictIDs[v] }

// Rises reports whether the verdict is a rise, probable or real.
func (v Verdict) Rises() bool { return v == ProbableRise || v == RealRise }

// Falls reports whether the verdict is a fall, probable or real.
func (v Verdict) Falls() bool { return v == ProbableFall || v == RealFall }

// verdict calls a change by the chance of a rise.
func verdict(rise float64) Verdict {
	switch {
	case rise >= RealFrom:
		return RealRise
	case rise >= ProbableFrom:
		return ProbableRise
	case rise <= 1-RealFrom:
		return RealFall
	case rise <= 1-ProbableFrom:
		return ProbableFall
	}
	return Unclear
}

// Basis is where the error of a difference comes from.
type Basis uint8

// The bases.
const (
	ByRetest    Basis = iota // a study of repeated tests
	ByDayShare               // the day's part of the equation's error, an assumption
	ByBothTests              // two tests or equations: both errors whole
)

// Part is one part of the error of a difference.
type Part struct {
	What string      // in words
	SD   scoring.VO2 // its standard deviation, mL/kg/min
}

// Comparison is the change of VO2max between two dates.
type Comparison struct {
	From, To       time.Time
	Earlier, Later *scoring.Estimate // the two that are compared, by one equation where both dates have one
	Headline       bool              // the two are the headlines of their dates

	Difference scoring.VO2 // later less earlier, mL/kg/min
	Basis      Basis
	Parts      []Part      // of the error, to be added in quadrature
	SE         scoring.VO2 // standard error of the difference
	Rise       float64     // chance that the true change is a rise
	Smallest   scoring.VO2 // the smallest difference that counts as real
	Verdict    Verdict

	Training *Training // what training usually brings; nil where the study had no such people
	Ageing   *Ageing   // what the years between take; nil under 18
	Mass     *Mass     // how the body mass changed; nil where one is not known
	// Practice is what practice alone adds to a second test, by a study, if the
	// earlier test was the first on record; else 0.
	Practice scoring.VO2
}

// Chance is the chance that the change is real in the direction it was seen in.
func (c *Comparison) Chance() float64 { return max(c.Rise, 1-c.Rise) }

// Percent is the chance in whole percent, rounded down and at most 99.
func (c *Comparison) Percent() float64 { return min(99, math.Floor(100*c.Chance())) }

// Assumed reports whether the error of the difference rests on an assumption.
func (c *Comparison) Assumed() bool {
	return c.Basis == ByDayShare || c.Basis == ByBothTests &&
		(c.Earlier.Equation.Error.Status == scoring.ErrorAssumed || c.Later.Equation.Error.Status == scoring.ErrorAssumed)
}

// Likely is the range that holds the true change about two times in three.
func (c *Comparison) Likely() (low, high scoring.VO2) {
	return c.Difference - c.SE, c.Difference + c.SE
}

// Training is what regular training usually brings within half a year.
//
// Source: bouchard1999, 481 sedentary adults over 20 weeks.
type Training struct {
	Mean scoring.VO2 // on average
	Most scoring.VO2 // what the best of them reached; some gained nothing
}

// Ageing is what the time between two dates usually takes, at a slow and a fast pace.
type Ageing struct {
	Years      float64
	Slow, Fast scoring.VO2 // to be subtracted, mL/kg/min
}

// Mass is the change of body mass, which moves uptake per kilogram.
type Mass struct{ Before, After scoring.Quantity }

// Why two dates are not compared.
var (
	ErrNoEstimate = errors.New("one of the two dates has no VO2max")
	ErrNoTest     = errors.New("without an exercise test there is nothing to compare")
	ErrOrder      = errors.New("the two test days are not one after the other")
)

// Compare compares two dates of one person: by an equation that both have, else by
// their headlines. Days out of order and a date without a tested estimate are errors.
func Compare(earlier, later Dated) (Comparison, error) {
	if !earlier.Day.Before(later.Day) || earlier.Day.IsZero() {
		return Comparison{}, ErrOrder
	}
	before, after := tested(earlier.Score), tested(later.Score)
	if len(before) == 0 || len(after) == 0 {
		if earlier.Score.Best() != nil && later.Score.Best() != nil {
			return Comparison{}, ErrNoTest
		}
		return Comparison{}, ErrNoEstimate
	}
	c := closest(before, after)
	c.From, c.To = earlier.Day, later.Day
	c.Headline = c.Earlier == before[0] && c.Later == after[0]
	c.judge()
	c.measure(earlier.Score.Entry(), later.Score.Entry())
	return c, nil
}

// tested lists the estimates from a test, the headline first.
func tested(s *scoring.Score) []*scoring.Estimate {
	var all []*scoring.Estimate
	for i := range s.Estimates {
		if e := &s.Estimates[i]; !e.Test.Fallback {
			all = append(all, e)
		}
	}
	return all
}

// closest returns the two estimates to compare: by the later headline's equation if
// the earlier date has it; else by the shared equation with the smallest error of the
// difference; else the two headlines.
func closest(before, after []*scoring.Estimate) Comparison {
	var shared []Comparison
	for _, b := range after {
		for _, a := range before {
			if a.Equation != b.Equation {
				continue
			}
			c := Comparison{Earlier: a, Later: b}
			c.weigh()
			if b == after[0] {
				return c
			}
			shared = append(shared, c)
		}
	}
	if len(shared) > 0 {
		return slices.MinFunc(shared, func(a, b Comparison) int { return cmp.Compare(a.SE, b.SE) })
	}
	c := Comparison{Earlier: before[0], Later: after[0]}
	c.weigh()
	return c
}

// weigh works out the difference and its error.
func (c *Comparison) weigh() {
	a, b := c.Earlier, c.Later
	c.Difference = b.VO2 - a.VO2
	switch {
	case a.Equation != b.Equation:
		c.Basis = ByBothTests
		c.add(fmt.Sprintf("whole error of the earlier test, %s", a.Test.Name), a.SD)
		c.add(fmt.Sprintf("whole error of the later test, %s", b.Test.Name), b.SD)
	case a.Equation.Retest != nil:
		c.Basis = ByRetest
		c.add("two tests of one person come apart by", a.Equation.Retest.SDOfDifferences((a.VO2+b.VO2)/2))
	default:
		c.Basis = ByDayShare
		day := scoring.VO2(math.Sqrt(DayShare))
		c.add(fmt.Sprintf("the day's part of the equation's error on the earlier date, √%.2f of %.2f", DayShare, a.SEE), day*a.SEE)
		c.add(fmt.Sprintf("the same on the later date, √%.2f of %.2f", DayShare, b.SEE), day*b.SEE)
		c.add("the person's own part where the equation's error is not the same on both dates", scoring.VO2(math.Sqrt(1-DayShare))*abs(a.SEE-b.SEE))
		c.add("the line through the stages, on the earlier date", lineError(a))
		c.add("the line through the stages, on the later date", lineError(b))
	}
	if c.Basis != ByBothTests {
		c.add("a predicted maximum heart rate, as far as it moves the two dates unlike", abs(a.FromOwn-b.FromOwn))
		c.add("being outside what the equation was checked on, as far as that differs", abs(a.Outside-b.Outside))
	}
	var sum float64
	for _, p := range c.Parts {
		sum += float64(p.SD * p.SD)
	}
	c.SE = scoring.VO2(math.Sqrt(sum))
}

func (c *Comparison) add(what string, sd scoring.VO2) {
	if sd > 0.005 { // less does not show in any figure
		c.Parts = append(c.Parts, Part{what, sd})
	}
}

func abs(v scoring.VO2) scoring.VO2 { return scoring.VO2(math.Abs(float64(v))) }

// lineError returns the part of the predicted steps' error that is not the person's.
func lineError(e *scoring.Estimate) scoring.VO2 {
	return scoring.VO2(math.Sqrt(max(0, float64(e.FromSteps*e.FromSteps-e.FromOwn*e.FromOwn))))
}

// judge works out the chance and what the change is called.
func (c *Comparison) judge() {
	c.Rise = standardNormal.CDF(float64(c.Difference / c.SE))
	c.Smallest = scoring.VO2(smallest) * c.SE
	c.Verdict = verdict(c.Rise)
}

// measure adds what training brings, ageing takes and body mass did.
func (c *Comparison) measure(before, after *scoring.Entry) {
	a, hasA := before.Get(scoring.BodyMass)
	b, hasB := after.Get(scoring.BodyMass)
	if hasA && hasB {
		c.Mass = &Mass{a, b}
	}
	age, known := after.Get(scoring.Age)
	if !known || scoring.IsYouth(age.Amount) {
		return
	}
	if mean, ok := outlook.Gain(after); ok {
		c.Training = &Training{Mean: mean, Most: outlook.MostGain(b.Amount)}
	}
	years := Years(c.From, c.To)
	slow, fast := outlook.Decline(after.Sex())
	c.Ageing = &Ageing{Years: years, Slow: slow * scoring.VO2(years), Fast: fast * scoring.VO2(years)}
}

// Years is the time between two days in years.
func Years(from, to time.Time) float64 { return to.Sub(from).Hours() / 24 / 365.2425 }

// SmallestReal returns the smallest difference that would count as real when the
// same test is read by the same equation next time.
func SmallestReal(e *scoring.Estimate) scoring.VO2 {
	c := Comparison{Earlier: e, Later: e}
	c.weigh()
	return scoring.VO2(smallest) * c.SE
}

package change

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Paired is what the differences of people tested twice say about all of them:
// the mean change and an interval for it. People who were tested once are not in
// it, so that it never compares one set of people with another.
type Paired struct {
	N         int
	Mean      float64
	SD        float64 // of the differences
	SE        float64 // of the mean
	Low, High float64 // the interval that holds the mean change 95 times in 100
}

// leastSpread is the standard deviation of differences (mL/kg/min) below which
// they are alike in the tenth that is printed.
const leastSpread = 0.05

// PairedOf works out the paired t interval:
//
//	d̄ ± t(0.975, n − 1) s/√n
//
// It takes the people as independent of each other and their differences as
// normal. What moves all of them alike (heat, wind, another course, a scale) is
// in the mean and not in the interval.
//
// ok is false for fewer than two differences, and where they are alike: people
// who all change by the same tell of the steps in which a test is read, or of its
// set-up, and a spread of nothing would make any mean certain.
func PairedOf(differences []float64) (p Paired, ok bool) {
	n := len(differences)
	if n < 2 {
		return Paired{}, false
	}
	p.N = n
	p.Mean, p.SD = stat.MeanStdDev(differences, nil)
	p.SE = p.SD / math.Sqrt(float64(n))
	if !(p.SD >= leastSpread) {
		return Paired{}, false
	}
	t := distuv.StudentsT{Sigma: 1, Nu: float64(n - 1)}.Quantile(RealFrom)
	p.Low, p.High = p.Mean-t*p.SE, p.Mean+t*p.SE
	return p, true
}

// Verdict calls the mean change: real if no change at all lies outside the
// interval, else unclear.
func (p Paired) Verdict() Verdict {
	switch {
	case p.Low > 0:
		return RealRise
	case p.High < 0:
		return RealFall
	}
	return Unclear
}

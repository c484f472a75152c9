package change

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Paired is the mean change of people who were tested twice, and its interval.
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
// It assumes independent people and normal differences. What moves all of them alike
// (heat, wind, another course, a scale) is in the mean and not in the interval.
//
// ok is false for fewer than two differences, and where they are alike: such a change
// is one of the test's steps or set-up, and no spread would make any mean certain.
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

// Verdict returns a real rise or fall if the interval excludes zero, else Unclear.
func (p Paired) Verdict() Verdict {
	switch {
	case p.Low > 0:
		return RealRise
	case p.High < 0:
		return RealFall
	}
	return Unclear
}

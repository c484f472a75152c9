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

// PairedOf works out the paired t interval:
//
//	d̄ ± t(0.975, n − 1) s/√n
//
// ok is false for fewer than two differences.
func PairedOf(differences []float64) (p Paired, ok bool) {
	n := len(differences)
	if n < 2 {
		return Paired{}, false
	}
	p.N = n
	p.Mean, p.SD = stat.MeanStdDev(differences, nil)
	p.SE = p.SD / math.Sqrt(float64(n))
	t := distuv.StudentsT{Sigma: 1, Nu: float64(n - 1)}.Quantile(0.975)
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

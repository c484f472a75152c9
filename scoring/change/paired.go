package change

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"tenback/scoring"
)

// Paired is what the changes of people tested twice say about all of them: the
// mean change and an interval for it. People who were tested once are not in it,
// so that it never compares one set of people with another.
type Paired struct {
	N         int
	Mean      scoring.VO2 // mL/kg/min
	Low, High scoring.VO2 // the interval that holds the mean change 95 times in 100
}

// PairedOf works out the wider of two intervals about the mean difference d̄ of n
// people: the paired t interval, and what the errors SE of the differences leave
// of their mean.
//
//	d̄ ± t(0.975, n − 1) s/√n
//	d̄ ± z(0.975) √(Σ SE²)/n
//
// The spread s of the differences holds the error of the tests already, so the
// first is the wider one as a rule. Where a few people, or a test that is read in
// whole levels, happen to change alike, s says less than is known of the test:
// then the second holds, for two people who both gained one level are no proof.
//
// Both take the people as independent of each other, and the first their
// differences as normal. What moves all of them alike (heat, wind, another
// course, a scale) is in neither.
//
// ok is false for fewer than two differences, and where neither their spread nor
// their errors are above nothing: then nothing can be said of the mean.
func PairedOf(changes []*Comparison) (p Paired, ok bool) {
	n := len(changes)
	if n < 2 {
		return Paired{}, false
	}
	differences := make([]float64, n)
	var squares float64
	for i, c := range changes {
		differences[i] = float64(c.Difference)
		squares += float64(c.SE * c.SE)
	}
	mean, sd := stat.MeanStdDev(differences, nil)
	t := distuv.StudentsT{Sigma: 1, Nu: float64(n - 1)}.Quantile(0.975)
	half := max(t*sd/math.Sqrt(float64(n)), standardNormal.Quantile(0.975)*math.Sqrt(squares)/float64(n))
	if half == 0 {
		return Paired{}, false
	}
	return Paired{N: n, Mean: scoring.VO2(mean), Low: scoring.VO2(mean - half), High: scoring.VO2(mean + half)}, true
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

package scoring

import (
	"gonum.org/v1/gonum/stat/distuv"

	"tenback/scoring/reference"
)

// distribution is the estimate as a distribution: normal, centred on the
// estimate, with its whole standard error.
func (e *Estimate) distribution() distuv.Normal {
	return distuv.Normal{Mu: float64(e.VO2), Sigma: float64(e.SD)}
}

// ChanceAbove is the chance that the true uptake is at least v.
func (e *Estimate) ChanceAbove(v VO2) float64 { return e.distribution().Survival(float64(v)) }

// Range90 holds nine chances in ten.
func (e *Estimate) Range90() (low, high VO2) {
	d := e.distribution()
	return VO2(d.Quantile(0.05)), VO2(d.Quantile(0.95))
}

// groupChances is the chance of each of the five groups; they sum to 1.
func (e *Estimate) groupChances(row reference.GroupRow) [5]float64 {
	var chances [5]float64
	above := 1.0
	for _, g := range reference.Groups()[1:] {
		reach := e.ChanceAbove(row.Reaches(g))
		chances[g-1] = above - reach
		above = reach
	}
	chances[reference.Highest] = above
	return chances
}

package fieldtests

import (
	"math"
	"testing"
)

// The standard error of a line's value, worked on paper: through (1, 1),
// (2, 2), (3, 4) the line is 1.5 x − 2/3 with residuals 1/6, −1/3, 1/6; at 5
// that is √(1/6 × (1 + 1/3 + 9/2)) = 0.98601.
func TestLineError(t *testing.T) {
	if got := lineError(-2.0/3, 1.5, 5, []float64{1, 2, 3}, []float64{1, 2, 4}); math.Abs(got-0.98601) > 1e-5 {
		t.Errorf("got %.5f", got)
	}
	if got := lineError(0, 0.2, 180, []float64{110, 130}, []float64{22, 26}); math.Abs(got-3.6) > 1e-9 {
		t.Errorf("two stages: %.5f, want 10 %% of 36", got)
	}
}

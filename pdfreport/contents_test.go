package pdfreport

import (
	"math"
	"strconv"
	"testing"
)

// TestAppendFixed: numbers are written as strconv does, but that nothing is not
// negative.
func TestAppendFixed(t *testing.T) {
	check := func(x float64, decimals int) {
		t.Helper()
		want := strconv.FormatFloat(x, 'f', decimals, 64)
		got := string(appendFixed(nil, x, decimals))
		if n, err := strconv.ParseFloat(want, 64); got != want && (err != nil || n != 0 || got != strconv.FormatFloat(0, 'f', decimals, 64)) {
			t.Errorf("%v with %d decimals is %s, not %s", x, decimals, got, want)
		}
	}
	for _, decimals := range []int{0, pointDecimals, curveDecimals} {
		for _, x := range []float64{0, -0.001, 0.005, 0.9949999, 0.995, 0.9950001, 501.125, 501.725, -501.725, 9.999, 99.9999,
			1e6, 123456789.123, 1e15, -1e15, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)} {
			check(x, decimals)
		}
		for i := range 20000 {
			check(float64(i-10000)/800, decimals)              // many lie halfway
			check((float64(i)+0.5)/100+0.01*math.Pi, decimals) // as what is added up does
			check(841.89-float64(i)*0.045, decimals)
		}
	}
}

package reference

// Percentile is where a value stands among the people of a table.
// Between two printed percentiles it is interpolated in a straight line;
// outside the printed ones nothing is extrapolated: At is then the outermost
// printed percentile and Below or Above says on which side.
type Percentile struct {
	At           float64 // 0-100
	Below, Above bool
}

// point is one printed percentile of a row.
type point struct{ percent, value float64 }

// percentileOf reads a value off a row's printed points (rising in both).
func percentileOf(points []point, x float64) Percentile {
	first, last := points[0], points[len(points)-1]
	switch {
	case x < first.value:
		return Percentile{At: first.percent, Below: true}
	case x > last.value:
		return Percentile{At: last.percent, Above: true}
	}
	for i := 1; i < len(points); i++ {
		lo, hi := points[i-1], points[i]
		if x <= hi.value {
			if hi.value == lo.value {
				return Percentile{At: hi.percent}
			}
			return Percentile{At: lo.percent + (hi.percent-lo.percent)*(x-lo.value)/(hi.value-lo.value)}
		}
	}
	return Percentile{At: last.percent}
}

package reference

const restingFile = "resting_rate_nhanes0104.csv"

var restingRows = func() []percentileRow {
	records, _ := load(restingFile)
	return percentileRows(records, 2.5, 5, 10, 25, 50, 75, 90, 95, 97.5)
}()

// RestingPercentile places a resting pulse (beats/min) among people of the
// same sex and age group; a low percentile is a slow pulse.
// ok is false under six years of age.
//
// Source: nhanes0104.
func RestingPercentile(sex Sex, years int, beatsPerMinute float64) (p Percentile, ok bool) {
	row := rowFor(restingRows, sex, years)
	if row == nil {
		return Percentile{}, false
	}
	return percentileOf(row.points, beatsPerMinute), true
}

// RestingValue is the printed resting pulse (beats/min) at one of the table's
// percentiles (2.5, 5, 10, 25, 50, 75, 90, 95, 97.5), for drawing a scale.
func RestingValue(sex Sex, years int, percent float64) (beatsPerMinute float64, ok bool) {
	if row := rowFor(restingRows, sex, years); row != nil {
		for _, p := range row.points {
			if p.percent == percent {
				return p.value, true
			}
		}
	}
	return 0, false
}

package reference

const restingFile = "resting_rate_nhanes0104.csv"

// restingColumns pairs each percentile with its column.
var restingColumns = []struct {
	percent float64
	column  string
}{{2.5, "p2_5"}, {5, "p5"}, {10, "p10"}, {25, "p25"}, {50, "p50"}, {75, "p75"}, {90, "p90"}, {95, "p95"}, {97.5, "p97_5"}}

type restingRow struct {
	sex    Sex
	ages   Ages
	points []point
}

var restingRows = func() []restingRow {
	records, _ := load(restingFile)
	rows := make([]restingRow, 0, len(records))
	for _, r := range records {
		row := restingRow{r.sex(), r.ages(), nil}
		for _, c := range restingColumns {
			row.points = append(row.points, point{c.percent, r.number(c.column)})
		}
		rows = append(rows, row)
	}
	return rows
}()

// RestingPercentile places a resting pulse (beats/min) among people of the
// same sex and age group; a low percentile is a slow pulse.
// ok is false under six years of age.
//
// Source: nhanes0104.
func RestingPercentile(sex Sex, years int, beatsPerMinute float64) (p Percentile, ok bool) {
	for _, r := range restingRows {
		if r.sex == sex && r.ages.Contains(years) {
			return percentileOf(r.points, beatsPerMinute), true
		}
	}
	return Percentile{}, false
}

// RestingValue is the printed resting pulse (beats/min) at one of the table's
// percentiles (2.5, 5, 10, 25, 50, 75, 90, 95, 97.5), for drawing a scale.
func RestingValue(sex Sex, years int, percent float64) (beatsPerMinute float64, ok bool) {
	for _, r := range restingRows {
		if r.sex != sex || !r.ages.Contains(years) {
			continue
		}
		for _, p := range r.points {
			if p.percent == percent {
				return p.value, true
			}
		}
	}
	return 0, false
}

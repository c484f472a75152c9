package reference

import (
	"math"
	"strconv"
	"strings"
)

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

// percentileRow is the printed percentiles of one sex and age group.
type percentileRow struct {
	sex    Sex
	ages   Ages
	points []point // rising
}

// percentileRows reads the columns named p5, p97_5 and so on.
func percentileRows(records []record, percents ...float64) []percentileRow {
	var rows []percentileRow
	for _, r := range records {
		row := percentileRow{sex: r.sex(), ages: r.ages()}
		for _, p := range percents {
			column := "p" + strings.ReplaceAll(strconv.FormatFloat(p, 'f', -1, 64), ".", "_")
			row.points = append(row.points, point{p, r.number(column)})
		}
		rows = append(rows, row)
	}
	return rows
}

// rowFor returns the row of a sex and an age in whole years; nil if there is none.
func rowFor(rows []percentileRow, sex Sex, years int) *percentileRow {
	for i := range rows {
		if rows[i].sex == sex && rows[i].ages.Contains(years) {
			return &rows[i]
		}
	}
	return nil
}

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

// String writes the percentile as an ordinal: "31st", and beyond what is
// printed only the side: "above the 95th".
func (p Percentile) String() string {
	switch {
	case p.Below:
		return "below the " + Ordinal(p.Shown())
	case p.Above:
		return "above the " + Ordinal(p.Shown())
	}
	return Ordinal(p.Shown())
}

// Shown is the percentile as it is shown: as printed at the ends of the table,
// whole between them.
func (p Percentile) Shown() float64 {
	if p.Below || p.Above {
		return p.At
	}
	return math.Round(p.At)
}

// Ordinal writes 1st, 2nd, 3rd, 11th, 97.5th.
func Ordinal(x float64) string {
	suffix := "th"
	if n := int(x); float64(n) == x && (n%100 < 11 || n%100 > 13) {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return strconv.FormatFloat(x, 'f', -1, 64) + suffix
}

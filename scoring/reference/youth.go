package reference

const youthFile = "youth_health_line_ruiz2016.csv"

// YouthAges is the range of whole years in which the youth line is used here.
// The paper's range ends at 19; from 18 the adult table takes over.
var YouthAges = Ages{8, 17}

type youthRow struct {
	sex  Sex
	ages Ages
	line VO2
}

var youthRows = func() []youthRow {
	records, _ := load(youthFile)
	rows := make([]youthRow, 0, len(records))
	for _, r := range records {
		rows = append(rows, youthRow{r.sex(), r.ages(), VO2(r.number("value"))})
	}
	return rows
}()

// YouthHealthLine is the uptake below which raised cardiovascular risk is more
// likely in children and adolescents of that sex.
// ok is false outside the ages of the study (8-19).
//
// Source: ruiz2016.
func YouthHealthLine(sex Sex, years int) (line VO2, ok bool) {
	for _, r := range youthRows {
		if r.sex == sex && r.ages.Contains(years) {
			return r.line, true
		}
	}
	return 0, false
}

package reference

const youthFile = "youth_health_lines.csv"

// YouthTable holds lines of VO2max for people under 18, by sex and age.
type YouthTable struct {
	ID   string // also its source in the bibliography
	rows []youthRow
}

type youthRow struct {
	sex  Sex
	ages Ages
	line VO2
}

// YouthTables lists the tables of health lines, the default first.
//
// Source: ruiz2016 (8-19 years), lobelo2009 (12-19), mayo2017 (6-10),
// cureton1990 (12-19).
var YouthTables = func() []*YouthTable {
	var all []*YouthTable
	records, _ := load(youthFile)
	for _, r := range records {
		id := r.text("source")
		if len(all) == 0 || all[len(all)-1].ID != id {
			all = append(all, &YouthTable{ID: id})
		}
		t := all[len(all)-1]
		t.rows = append(t.rows, youthRow{r.sex(), r.ages(), VO2(r.number("value"))})
	}
	return all
}()

// YouthTableByID finds a table of health lines by its short name.
func YouthTableByID(id string) (*YouthTable, bool) {
	for _, t := range YouthTables {
		if t.ID == id {
			return t, true
		}
	}
	return nil, false
}

// Line is the uptake below which raised cardiovascular risk is more likely in
// children and adolescents of that sex. ok is false outside the table's ages.
func (t *YouthTable) Line(sex Sex, years int) (line VO2, ok bool) {
	for _, r := range t.rows {
		if r.sex == sex && r.ages.Contains(years) {
			return r.line, true
		}
	}
	return 0, false
}

package reading

import (
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// findDays finds the latest day of each test for which a row has a result, where
// columns name their days. The row is of that day if all tests are.
func (rr *rowReader) findDays() {
	rr.days = nil
	for _, c := range rr.survey.Used {
		r := rr.raw.cells[c.Slot]
		if t := c.Meaning.Test; !c.Day.IsZero() && c.IsResult() && !r.IsBlank() && !c.SaysNone(r) && c.Day.After(rr.days[t]) {
			if rr.days == nil {
				rr.days = map[*scoring.Test]time.Time{}
			}
			rr.days[t] = c.Day
		}
	}
}

// day returns the day of the results that count; zero if no column names it, or
// tests were done on several days.
func (rr *rowReader) day() (day time.Time) {
	for _, d := range rr.days {
		if !day.IsZero() && !d.Equal(day) {
			return time.Time{}
		}
		day = d
	}
	return day
}

// ofOtherDay reports whether a column holds a result of another day than the one
// that counts.
func (rr *rowReader) ofOtherDay(c *columns.Column) bool {
	return !c.Day.IsZero() && !c.Day.Equal(rr.days[c.Meaning.Test])
}

// headsDay takes the day of the people below from a row that has nothing but a
// text with a date, such as "9LW (tested 9 October 2024)".
func (sr *sheetReader) headsDay(raw *rawRow) bool {
	if sr.Columns.With(roster.TestDate) != nil {
		return false
	}
	var only cell.Raw
	for _, r := range raw.cells {
		if r.IsBlank() {
			continue
		}
		if !only.IsBlank() {
			return false
		}
		only = r
	}
	found := heading.Dates(only)
	if only.Kind != cell.Text || len(found) != 1 {
		return false
	}
	day, doubt := cell.ParseDate(found[0], sr.Dates)
	if doubt != nil {
		return false
	}
	sr.Day = day.Time
	return true
}

// headsDays takes the days of the results below from a row that has dates in their
// columns, such as "Thursday group", 10 October and 17 April.
func (sr *sheetReader) headsDays(raw *rawRow) bool {
	if !sr.mostFacts {
		return false // a result that a spreadsheet turned into a date looks alike
	}
	days := map[*columns.Column]time.Time{}
	for _, c := range sr.Used {
		r := raw.cells[c.Slot]
		switch {
		case r.IsBlank(), c.Meaning.Role.IsPerson() && r.Kind == cell.Text:
		case !c.OfTest() || !c.IsResult():
			return false
		default:
			if found := heading.Dates(r); len(found) == 1 {
				r = found[0]
			}
			day, doubt := cell.ParseDate(r, sr.Dates)
			if doubt != nil || r.Kind == cell.Number && (!r.Format.IsTemporal() || r.Format.IsTime()) {
				return false
			}
			days[c] = day.Time
		}
	}
	for c, day := range days {
		c.Day = day
	}
	return len(days) > 0
}

// firstDays takes the days of the first such row, before the columns of one day are
// chosen.
func (sr *sheetReader) firstDays() {
	sr.mostFacts = sr.haveFacts()
	for i := range sr.body.rows {
		if sr.headsDays(&sr.body.rows[i]) {
			return
		}
	}
}

package reading

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// dateColumns finds the days that the headers of several results of one test name,
// such as "Mile run > 13 May 2025".
func (s *survey) dateColumns(ctx cell.DateContext) {
	for _, c := range s.used {
		if !c.ofTest() || len(c.again) == 0 && !c.repeats {
			continue // one day of all is that of the sheet
		}
		if found := heading.Dates(cell.Raw{Kind: cell.Text, Text: c.Header}); len(found) == 1 {
			if day, doubt := cell.ParseDate(found[0], ctx); doubt == nil {
				c.day = day.Time
			}
		}
	}
}

// dated reports whether each of the columns of one meaning names its day.
func (c *sheetColumn) dated() bool {
	return !slices.ContainsFunc(c.alike(), func(d *sheetColumn) bool { return d.day.IsZero() })
}

// findDays finds the latest day of each test for which a row has a result, where
// columns name their days. The row is of that day if all tests are.
func (rr *rowReader) findDays() {
	rr.days = nil
	for _, c := range rr.survey.used {
		r := rr.raw.cells[c.slot]
		if t := c.Meaning.Test; !c.day.IsZero() && c.isResult() && !r.IsBlank() && !c.saysNone(r) && c.day.After(rr.days[t]) {
			if rr.days == nil {
				rr.days = map[*scoring.Test]time.Time{}
			}
			rr.days[t] = c.day
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
func (rr *rowReader) ofOtherDay(c *sheetColumn) bool {
	return !c.day.IsZero() && !c.day.Equal(rr.days[c.Meaning.Test])
}

// headsDay takes the day of the people below from a row that has nothing but a
// text with a date, such as "9LW (tested 9 October 2024)".
func (sr *sheetReader) headsDay(raw *rawRow) bool {
	if sr.columns.with(roster.TestDate) != nil {
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
	day, doubt := cell.ParseDate(found[0], sr.dates)
	if doubt != nil {
		return false
	}
	sr.day = day.Time
	return true
}

// headsDays takes the days of the results below from a row that has dates in their
// columns, such as "Thursday group", 10 October and 17 April.
func (sr *sheetReader) headsDays(raw *rawRow) bool {
	if !sr.mostFacts {
		return false // a result that a spreadsheet turned into a date looks alike
	}
	days := map[*sheetColumn]time.Time{}
	for _, c := range sr.used {
		r := raw.cells[c.slot]
		switch {
		case r.IsBlank(), c.Meaning.Role.IsPerson() && r.Kind == cell.Text:
		case !c.ofTest() || !c.isResult():
			return false
		default:
			if found := heading.Dates(r); len(found) == 1 {
				r = found[0]
			}
			day, doubt := cell.ParseDate(r, sr.dates)
			if doubt != nil || r.Kind == cell.Number && (!r.Format.IsTemporal() || r.Format.IsTime()) {
				return false
			}
			days[c] = day.Time
		}
	}
	for c, day := range days {
		c.day = day
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

// noResult reports whether a row of a sheet with results has none.
func (s *survey) noResult(raw *rawRow) bool {
	return s.columns.hasResults() && !slices.ContainsFunc(s.used, func(c *sheetColumn) bool {
		r := raw.cells[c.slot]
		return c.isResult() && !r.IsBlank() && !c.saysNone(r)
	})
}

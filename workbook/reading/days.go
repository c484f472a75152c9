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

// noResult reports whether a row of a sheet with results has none.
func (s *survey) noResult(raw *rawRow) bool {
	return s.columns.hasResults() && !slices.ContainsFunc(s.used, func(c *sheetColumn) bool {
		r := raw.cells[c.slot]
		return c.isResult() && !r.IsBlank() && !c.saysNone(r)
	})
}

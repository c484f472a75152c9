package reading

import (
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// titleDay is the test day that the lines above a header give.
type titleDay struct {
	day  time.Time      // zero if there is none that can be used
	said roster.Problem // what to say of it; the zero Problem if nothing
}

// findTitleDay looks for the test day in the rows above the header.
func (rd *reader) findTitleDay(sheet string, above []headRow) titleDay {
	var found titleDay
	for _, row := range above {
		for i, c := range row.cells {
			texts := heading.Dates(c.Raw)
			if row.isDateLabelled(rd, i) {
				texts = []cell.Raw{c.Raw}
			}
			p := roster.Problem{Sheet: sheet, Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, rd.book.Date1904())}
			if !found.take(texts, rd.dateContext(), p, titleDays) {
				return found
			}
		}
	}
	if found.day.IsZero() {
		if vague := rd.vagueTitle(sheet, above); !vague.said.What.IsZero() {
			return vague
		}
		return rd.dayOfName(sheet)
	}
	return found
}

// take reads the dates of one text, which p points at. It ends the search, and
// keeps but what is to be said of it, where one can't be read or is another day
// than those before.
func (d *titleDay) take(dates []cell.Raw, ctx cell.DateContext, p roster.Problem, several scoring.Said) (goOn bool) {
	for _, date := range dates {
		day, doubt := cell.ParseDate(date, ctx)
		switch {
		case doubt != nil:
			p.What, p.Fix = titleDayUnread.With(doubt.What), roster.AddTestDate
			*d = titleDay{said: p}
			return false
		case d.day.IsZero():
			p.What = titleDayTaken.With(day.Time)
			*d = titleDay{day.Time, p}
		case !d.day.Equal(day.Time):
			p.What, p.Fix = several, roster.AddTestDate
			*d = titleDay{said: p}
			return false
		}
	}
	return true
}

// dayOfName takes the day from the name of the sheet.
func (rd *reader) dayOfName(sheet string) titleDay {
	texts := heading.Dates(cell.Raw{Kind: cell.Text, Text: sheet})
	if len(texts) != 1 {
		return titleDay{}
	}
	day, doubt := cell.ParseDate(texts[0], rd.dateContext())
	p := roster.Problem{Sheet: sheet}
	if doubt != nil {
		p.What, p.Fix = nameDayUnread.With(doubt.What), roster.AddTestDate
		return titleDay{said: p}
	}
	p.What = nameDayTaken.With(day.Time)
	return titleDay{day: day.Time, said: p}
}

// dayOfHeaders takes the day from the headers of the results.
func (sr *sheetReader) dayOfHeaders() titleDay {
	var found titleDay
	for _, c := range sr.columns {
		if c.Meaning.Test == nil {
			continue
		}
		p := roster.Problem{Sheet: sr.sheet.Name, Cell: sr.headerCell(c), Read: c.Header}
		if !found.take(heading.Dates(cell.Raw{Kind: cell.Text, Text: c.Header}), sr.rd.dateContext(), p, headerDays) {
			return found
		}
	}
	return found
}

// isDateLabelled tells that a cell stands beside the word for a test date.
func (h *headRow) isDateLabelled(rd *reader, i int) bool {
	if i == 0 || h.cells[i-1].Kind != cell.Text || h.cells[i].Kind == cell.Text && len(heading.Dates(h.cells[i].Raw)) > 0 {
		return false
	}
	m, ok := rd.match(strings.TrimRight(h.cells[i-1].Text, ": "))
	return ok && m.Role == roster.TestDate
}

// vagueTitle says that a title names a month or several days, which is no test
// day.
func (rd *reader) vagueTitle(sheet string, above []headRow) titleDay {
	for _, row := range above {
		for _, c := range row.cells {
			if c.Kind != cell.Text {
				continue
			}
			p := roster.Problem{Sheet: sheet, Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, false), Fix: roster.AddTestDate}
			switch heading.VagueDay(c.Text) {
			case heading.SeveralDays:
				p.What = titleLineDays
				return titleDay{said: p}
			case heading.MonthOnly:
				p.What = titleMonth
				return titleDay{said: p}
			}
		}
	}
	return titleDay{}
}

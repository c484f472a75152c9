package reading

import (
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// titles are the rows above a header and the name of the sheet.
type titles struct {
	sheet string
	above []headRow
	dates cell.DateContext
}

// texts calls f with each text above the header until f returns false.
func (t *titles) texts(f func(row int, c ooxml.Cell) bool) {
	for _, row := range t.above {
		for _, c := range row.cells {
			if c.Kind == cell.Text && !f(row.number, c) {
				return
			}
		}
	}
}

// test returns the one test that the titles name, else the name of the sheet; a
// zero Meaning if there is none or several.
func (t *titles) test() roster.Meaning {
	var found roster.Meaning
	clash := false
	t.texts(func(_ int, c ooxml.Cell) bool {
		if len(c.Text) > heading.MaxLen {
			return true
		}
		m, several := heading.TestIn(c.Text)
		clash = several || m.Test != nil && found.Test != nil && m != found
		if m.Test != nil {
			found = m
		}
		return !clash
	})
	switch {
	case clash:
		return roster.Meaning{}
	case found.Test == nil:
		found, _ = heading.TestIn(t.sheet)
	}
	return found
}

// sex returns the one sex that the titles name, else the name of the sheet, and a
// remark.
func (t *titles) sex() (found scoring.Sex, said roster.Problem) {
	clash := false
	t.texts(func(row int, c ooxml.Cell) bool {
		sex := heading.SexIn(c.Text)
		if sex == scoring.SexUnspecified {
			return true
		}
		clash = found != scoring.SexUnspecified && sex != found // as above two lists side by side
		found = sex
		said = roster.Problem{Cell: grid.At(c.Col, row), Read: cell.Display(c.Raw, false), What: sexFromLine.With(saidSex(sex))}
		return !clash
	})
	if clash {
		return scoring.SexUnspecified, roster.Problem{}
	}
	if found == scoring.SexUnspecified {
		if found = heading.SexIn(t.sheet); found == scoring.SexUnspecified {
			return found, roster.Problem{}
		}
		said.What = sexFromName.With(saidSex(found))
	}
	said.Sheet, said.Fix = t.sheet, addSexColumn
	return found, said
}

func saidSex(sex scoring.Sex) scoring.Said {
	if sex == scoring.Female {
		return aFemale
	}
	return aMale
}

// titleDay is the test day in the titles.
type titleDay struct {
	day  time.Time      // zero if there is none
	said roster.Problem // zero if there is nothing to say
}

// day returns the test day in the titles, the name of the sheet or the headers of
// results.
func (t *titles) day(ns names, sheet *roster.Sheet, all columns) titleDay {
	var found titleDay
	for _, row := range t.above {
		for i, c := range row.cells {
			texts := heading.Dates(c.Raw)
			if row.isDateLabelled(ns, i) {
				texts = []cell.Raw{c.Raw}
			}
			p := roster.Problem{Sheet: t.sheet, Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, t.dates.Date1904)}
			if !found.take(texts, t.dates, p, titleDays) {
				return found
			}
		}
	}
	for _, next := range []func() titleDay{t.vagueDay, t.dayOfName} {
		if found.said.What.IsZero() {
			found = next()
		}
	}
	if found.said.What.IsZero() {
		for _, c := range all {
			if c.Meaning.Test != nil && !found.take(heading.Dates(cell.Raw{Kind: cell.Text, Text: c.Header}), t.dates, columnProblem(sheet, c, false, scoring.Said{}, scoring.Said{}), headerDays) {
				break
			}
		}
	}
	return found
}

// take adds the dates of one text, which p points at. If a date can't be read, or
// differs from an earlier one, it keeps only that problem and returns false.
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

// dayOfName returns the day in the name of the sheet.
func (t *titles) dayOfName() titleDay {
	texts := heading.Dates(cell.Raw{Kind: cell.Text, Text: t.sheet})
	if len(texts) != 1 {
		return titleDay{}
	}
	day, doubt := cell.ParseDate(texts[0], t.dates)
	p := roster.Problem{Sheet: t.sheet}
	if doubt != nil {
		p.What, p.Fix = nameDayUnread.With(doubt.What), roster.AddTestDate
		return titleDay{said: p}
	}
	p.What = nameDayTaken.With(day.Time)
	return titleDay{day: day.Time, said: p}
}

// vagueDay reports a title with a month or several days.
func (t *titles) vagueDay() (found titleDay) {
	t.texts(func(row int, c ooxml.Cell) bool {
		p := roster.Problem{Sheet: t.sheet, Cell: grid.At(c.Col, row), Read: cell.Display(c.Raw, false), Fix: roster.AddTestDate}
		switch heading.VagueDay(c.Text) {
		case heading.SeveralDays:
			p.What = titleLineDays
		case heading.MonthOnly:
			p.What = titleMonth
		default:
			return true
		}
		found.said = p
		return false
	})
	return found
}

// isDateLabelled reports whether a cell is beside the word for a test date.
func (h *headRow) isDateLabelled(ns names, i int) bool {
	if i == 0 || h.cells[i-1].Kind != cell.Text || h.cells[i].Kind == cell.Text && len(heading.Dates(h.cells[i].Raw)) > 0 {
		return false
	}
	m, ok := ns.match(strings.TrimRight(h.cells[i-1].Text, ": "))
	return ok && m.Role == roster.TestDate
}

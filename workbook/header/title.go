package header

import (
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// Titles are the rows above a header and the name of the sheet.
type Titles struct {
	Sheet string
	Above []Row
	Dates cell.DateContext
}

// texts calls f with each text above the header until f returns false.
func (t *Titles) texts(f func(row int, c ooxml.Cell) bool) {
	for _, row := range t.Above {
		for _, c := range row.Cells {
			if c.Kind == cell.Text && !f(row.Number, c) {
				return
			}
		}
	}
}

// Test returns the one test that the Titles name, else the name of the sheet; a
// zero Meaning if there is none or several.
func (t *Titles) Test() roster.Meaning {
	var found roster.Meaning
	clash := false
	t.texts(func(_ int, c ooxml.Cell) bool {
		if len(c.Text) > heading.MaxLen {
			return true
		}
		m, several := heading.TestIn(c.Text)
		switch {
		case m.Test == nil || heading.MoreExact(found.Test, m.Test):
		case found.Test == nil || heading.MoreExact(m.Test, found.Test):
			found = m
		default:
			clash = m != found
		}
		clash = clash || several
		return !clash
	})
	switch {
	case clash:
		return roster.Meaning{}
	case found.Test == nil:
		found, _ = heading.TestIn(t.Sheet)
	}
	// The line next to the header, such as "10 km", says more than the name of a
	// cycling club.
	if last := len(t.Above) - 1; (found.Test == nil || found.Test.ByPulse()) && last >= 0 && len(t.Above[last].Cells) == 1 {
		if m := heading.BlockTest(cell.Label(t.Above[last].Cells[0].Raw)); m.Test != nil {
			return m
		}
	}
	return found
}

// Sex returns the one sex that the Titles name, else the name of the sheet, and a
// remark.
func (t *Titles) Sex() (found scoring.Sex, said roster.Problem) {
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
		if found = heading.SexIn(t.Sheet); found == scoring.SexUnspecified {
			return found, roster.Problem{}
		}
		said.What = sexFromName.With(saidSex(found))
	}
	said.Sheet, said.Fix = t.Sheet, addSexColumn
	return found, said
}

func saidSex(sex scoring.Sex) scoring.Said {
	if sex == scoring.Female {
		return aFemale
	}
	return aMale
}

// TitleDay is the test day in the Titles.
type TitleDay struct {
	Day  time.Time      // zero if there is none
	Said roster.Problem // zero if there is nothing to say
}

// Day returns the test day in the Titles, the name of the sheet or the headers of
// results.
func (t *Titles) Day(ns Names, headerRow int, columns []roster.Column) TitleDay {
	var found TitleDay
	for _, row := range slices.Backward(t.Above) {
		if !found.Day.IsZero() {
			break // the nearest line says it
		}
		for i, c := range row.Cells {
			texts := heading.Dates(c.Raw)
			if row.isDateLabelled(ns, i) {
				texts = []cell.Raw{c.Raw}
			}
			p := roster.Problem{Sheet: t.Sheet, Cell: grid.At(c.Col, row.Number), Read: cell.Display(c.Raw, t.Dates.Date1904)}
			if !found.take(texts, t.Dates, p, titleDays) {
				return found
			}
		}
	}
	for _, next := range []func() TitleDay{t.vagueDay, t.dayOfName} {
		if found.Said.What.IsZero() {
			found = next()
		}
	}
	if found.Said.What.IsZero() {
		for _, c := range columns {
			p := roster.Problem{Sheet: t.Sheet, Cell: grid.At(c.Index, headerRow), Read: c.Header}
			if c.Meaning.Test != nil && !found.take(heading.Dates(cell.Raw{Kind: cell.Text, Text: c.Header}), t.Dates, p, headerDays) {
				break
			}
		}
	}
	return found
}

// take adds the dates of one text, which p points at. If a date can't be read, or
// differs from an earlier one, it keeps only that problem and returns false.
func (d *TitleDay) take(dates []cell.Raw, ctx cell.DateContext, p roster.Problem, several scoring.Said) (goOn bool) {
	for _, date := range dates {
		day, doubt := heading.ParseDay(date, p.Read, ctx)
		switch {
		case doubt != nil:
			p.What, p.Fix = titleDayUnread.With(doubt.What), roster.AddTestDate
			*d = TitleDay{Said: p}
			return false
		case d.Day.IsZero():
			p.What = titleDayTaken.With(day.Time)
			*d = TitleDay{day.Time, p}
		case !d.Day.Equal(day.Time):
			p.What, p.Fix = several, roster.AddTestDate
			*d = TitleDay{Said: p}
			return false
		}
	}
	return true
}

// dayOfName returns the day in the name of the sheet.
func (t *Titles) dayOfName() TitleDay {
	texts := heading.Dates(cell.Raw{Kind: cell.Text, Text: t.Sheet})
	if len(texts) != 1 {
		return TitleDay{}
	}
	day, doubt := heading.ParseDay(texts[0], t.Sheet, t.Dates)
	p := roster.Problem{Sheet: t.Sheet}
	if doubt != nil {
		p.What, p.Fix = nameDayUnread.With(doubt.What), roster.AddTestDate
		return TitleDay{Said: p}
	}
	p.What = nameDayTaken.With(day.Time)
	return TitleDay{Day: day.Time, Said: p}
}

// vagueDay reports a title with a month or several days.
func (t *Titles) vagueDay() (found TitleDay) {
	t.texts(func(row int, c ooxml.Cell) bool {
		p := roster.Problem{Sheet: t.Sheet, Cell: grid.At(c.Col, row), Read: cell.Display(c.Raw, false), Fix: roster.AddTestDate}
		switch heading.VagueDay(c.Text) {
		case heading.SeveralDays:
			p.What = titleLineDays
		case heading.MonthOnly:
			p.What = titleMonth
		default:
			return true
		}
		found.Said = p
		return false
	})
	return found
}

// isDateLabelled reports whether a cell is beside the word for a test date.
func (h *Row) isDateLabelled(ns Names, i int) bool {
	if i == 0 || h.Cells[i-1].Kind != cell.Text || h.Cells[i].Kind == cell.Text && len(heading.Dates(h.Cells[i].Raw)) > 0 {
		return false
	}
	m, ok := ns.Match(strings.TrimRight(h.Cells[i-1].Text, ": "))
	return ok && m.Role == roster.TestDate
}

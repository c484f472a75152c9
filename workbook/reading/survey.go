package reading

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// survey is what the first rows of a sheet reveal.
type survey struct {
	tab      ooxml.Sheet
	rows     source.Rows   // still to be read, behind head
	sheet    *roster.Sheet // without its rows
	head     []header.Row  // the first rows
	next     int           // of head, the first below the header
	columns  columns
	used     columns        // those whose cells are kept
	titles   []string       // keys of the texts above the header
	named    roster.Meaning // the test in a title, with the distance of a race
	day      time.Time      // the test day in a title
	dates    cell.DateContext
	noSex    bool                  // no column has the sex
	sex      scoring.Sex           // the sex in a title
	isList   bool                  // people without results
	school   bool                  // the sheet speaks of a school
	health   string                // header cell of a column that asks about health and is not understood
	right    map[grid.Address]bool // cells confirmed right as they are
	problems []roster.Problem
	asked    []roster.Question
}

// survey finds the header of a sheet; it returns nil if there is none.
func (rd *reader) survey(tab ooxml.Sheet) (*survey, error) {
	rows, err := rd.book.Rows(tab)
	if err != nil {
		return nil, err
	}
	head, err := firstRows(rows, rd.book.Date1904())
	if err != nil {
		rows.Close()
		return nil, err
	}
	looked := head
	if n := len(looked); n > 0 && looked[n-1].Number > header.Depth {
		looked = looked[:n-1]
	}
	answers := rd.columnAnswers(tab.Name)
	names := rd.names.Answered(answers)
	at := names.Find(looked)
	if at < 0 {
		rows.Close()
		rd.misses.Note(rd.names, tab.Name, looked)
		rd.unheaded.Note(rd.names, tab.Name, looked, rd.facts.dates.Date1904)
		return nil, nil
	}
	texts, depth := names.Texts(looked, at)
	names, gone := rd.names.Placed(answers, texts)
	s := &survey{tab: tab, rows: rows, sheet: &roster.Sheet{Name: tab.Name, HeaderRow: looked[at].Number}, head: head, next: at + depth}
	title := header.Titles{Sheet: tab.Name, Above: looked[:at], Dates: rd.facts.dates}
	s.named = title.Test()
	for _, above := range looked[:at] {
		for _, c := range above.Cells {
			if c.Kind == cell.Text {
				s.titles = append(s.titles, heading.Key(c.Text))
			}
		}
	}
	settled := settler{sheet: s.sheet, named: s.named, body: head[at+depth:]}
	texts, own := rd.ownColumns(tab.Name, texts, head, at)
	settled.settle(texts, own, names)
	s.used = settled.kept()
	s.columns, s.problems, s.asked = settled.columns, settled.problems, settled.asked
	for _, c := range s.columns {
		s.sheet.Columns = append(s.sheet.Columns, c.Column)
	}
	for _, c := range s.used {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput {
			c.sexes.ObserveHeader(c.known)
			if codes := rd.facts.sexCodes; len(codes) > 0 {
				c.sexes.Codes = codes
			}
		}
	}
	s.tellGone(gone, rd.roster.Unused)
	s.noSex = s.columns.input(scoring.SexInput) == nil && s.columns.with(roster.AgeSex) == nil
	if s.noSex {
		var said roster.Problem
		s.sex, said = title.Sex()
		s.say(said)
	}
	if s.columns.with(roster.TestDate) == nil && rd.facts.opt.TestDate.IsZero() {
		s.observeDates(&title.Dates)
		s.dates = title.Dates
		s.dateColumns(s.dates)
		headed := s.sheet.Columns
		if slices.ContainsFunc(s.used, func(c *sheetColumn) bool { return !c.day.IsZero() }) {
			headed = nil // each row has the day of its column
		}
		titled := title.Day(rd.names, s.sheet.HeaderRow, headed)
		s.day = titled.Day
		s.say(titled.Said)
	}
	s.school = rd.speaksOfSchool(s.sheet, title)
	s.sheet.NoteUnrecognised()
	return s, nil
}

// say adds a problem, if there is one.
func (s *survey) say(p roster.Problem) {
	if !p.What.IsZero() {
		s.problems = append(s.problems, p)
	}
}

// observeDates finds the order of day and month that the first rows prove.
func (s *survey) observeDates(ctx *cell.DateContext) {
	if ctx.Order != cell.AnyOrder {
		return
	}
	var seen cell.DateColumn
	for _, row := range s.head[s.next:] {
		for _, c := range row.Cells {
			if s.columns.isBirth(c.Col) {
				seen.Observe(c.Raw, *ctx)
			}
		}
	}
	ctx.Order = seen.Order()
}

// isBirth reports whether a column, counted from 1, holds dates of birth.
func (cs columns) isBirth(col int) bool {
	c := cs.with(roster.Birth)
	return c != nil && c.Index == col
}

// firstRows reads the rows that may hold the header, and the next one.
func firstRows(rows source.Rows, date1904 bool) ([]header.Row, error) {
	var head []header.Row
	for rows.Next() {
		row := rows.Row()
		head = append(head, header.Row{Number: row.Number, Hidden: row.Hidden, Cells: slices.Clone(row.Cells), Date1904: date1904})
		if row.Number >= header.Depth {
			break
		}
	}
	return head, rows.Err()
}

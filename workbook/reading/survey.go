package reading

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// survey is what the first rows of a sheet reveal.
type survey struct {
	tab      ooxml.Sheet
	rows     source.Rows   // still to be read, behind head
	sheet    *roster.Sheet // without its rows
	head     []headRow     // the first rows
	next     int           // of head, the first below the header
	columns  columns
	used     columns        // those whose cells are kept
	named    roster.Meaning // the test in a title, with the distance of a race
	day      time.Time      // the test day in a title
	noSex    bool           // no column has the sex
	sex      scoring.Sex    // the sex in a title
	isList   bool           // people without results
	problems []roster.Problem
}

// survey finds the header of a sheet; it returns nil if there is none.
func (rd *reader) survey(tab ooxml.Sheet) (*survey, error) {
	rows, err := rd.book.Rows(tab)
	if err != nil {
		return nil, err
	}
	head, err := firstRows(rows)
	if err != nil {
		rows.Close()
		return nil, err
	}
	looked := head
	if n := len(looked); n > 0 && looked[n-1].number > headerDepth {
		looked = looked[:n-1]
	}
	at := rd.names.findHeader(looked)
	if at < 0 {
		rows.Close()
		rd.misses.note(rd.names, tab.Name, looked)
		return nil, nil
	}
	texts, depth := rd.names.headTexts(looked, at)
	s := &survey{tab: tab, rows: rows, sheet: &roster.Sheet{Name: tab.Name, HeaderRow: looked[at].number}, head: head, next: at + depth}
	title := titles{sheet: tab.Name, above: looked[:at], dates: rd.facts.dates}
	s.named = title.test()
	settled := settler{sheet: s.sheet, named: s.named}
	settled.settle(texts, rd.names, rd.ours)
	s.used = settled.choose(rd.ours)
	s.columns, s.problems = settled.columns, settled.problems
	for _, c := range s.used {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput {
			c.sexes.ObserveHeader(c.Header)
			if codes := rd.facts.sexCodes; len(codes) > 0 {
				c.sexes.Codes = codes
			}
		}
	}
	s.noSex = s.columns.input(scoring.SexInput) == nil && s.columns.with(roster.AgeSex) == nil
	if s.noSex {
		var said roster.Problem
		s.sex, said = title.sex()
		s.say(said)
	}
	if s.columns.with(roster.TestDate) == nil && rd.facts.opt.TestDate.IsZero() {
		titled := title.day(rd.names, s.sheet, s.columns)
		s.day = titled.day
		s.say(titled.said)
	}
	for _, c := range s.columns {
		s.sheet.Columns = append(s.sheet.Columns, c.Column)
	}
	s.sheet.NoteUnrecognised()
	return s, nil
}

// say adds a problem, if there is one.
func (s *survey) say(p roster.Problem) {
	if !p.What.IsZero() {
		s.problems = append(s.problems, p)
	}
}

// firstRows reads the rows that may hold the header, and the next one.
func firstRows(rows source.Rows) ([]headRow, error) {
	var head []headRow
	for rows.Next() {
		row := rows.Row()
		head = append(head, headRow{row.Number, row.Hidden, slices.Clone(row.Cells)})
		if row.Number >= headerDepth {
			break
		}
	}
	return head, rows.Err()
}

package columns

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// Workbook holds what is known of a workbook before its sheets are surveyed.
type Workbook struct {
	Book    source.Book
	Roster  *roster.Roster // gives the settings, gets the unused answers
	Facts   Facts
	Answers *roster.Answers
	Names   header.Names
	// OptionKeys are the headers renamed by options, as heading.Key has them.
	OptionKeys []string
	Named      map[string][]ooxml.NamedCell // header cells of result columns, by sheet
	Misses     header.Misses
	Unheaded   header.Unheaded
}

// maxColumns bounds the columns in use of a sheet, because each row keeps a cell of
// each.
const maxColumns = 200

// Survey is what the header and the first rows of a sheet reveal.
type Survey struct {
	Facts    *Facts
	Tab      ooxml.Sheet
	Rows     source.Rows   // still to be read, behind Head
	Sheet    *roster.Sheet // without its rows
	Head     []header.Row  // the first rows
	Next     int           // of Head, the first below the header
	Columns  List
	Used     List           // those whose cells are kept
	Titles   []string       // keys of the texts above the header
	Named    roster.Meaning // the test in a title, with the distance of a race
	Day      time.Time      // the test day in a title
	Dates    cell.DateContext
	NoSex    bool        // no column has the sex
	Sex      scoring.Sex // the sex in a title
	IsList   bool        // people without results
	School   bool        // the sheet speaks of a school
	Health   string      // header cell of a column that asks about health and is not understood
	Problems []roster.Problem
	Asked    []roster.Question
}

// Survey finds the header of a sheet; it returns nil if there is none.
func (w *Workbook) Survey(tab ooxml.Sheet) (*Survey, error) {
	rows, err := w.Book.Rows(tab)
	if err != nil {
		return nil, err
	}
	head, err := firstRows(rows, w.Book.Date1904())
	if err != nil {
		rows.Close()
		return nil, err
	}
	looked := head
	if n := len(looked); n > 0 && looked[n-1].Number > header.Depth {
		looked = looked[:n-1]
	}
	answers := w.columnAnswers(tab.Name)
	names := w.Names.Answered(answers)
	at := names.Find(looked)
	if at < 0 {
		rows.Close()
		w.Misses.Note(w.Names, tab.Name, looked)
		w.Unheaded.Note(w.Names, tab.Name, looked, w.Facts.Dates.Date1904)
		return nil, nil
	}
	texts, depth := names.Texts(looked, at)
	names, gone := w.Names.Placed(answers, texts)
	s := &Survey{Facts: &w.Facts, Tab: tab, Rows: rows, Sheet: &roster.Sheet{Name: tab.Name, HeaderRow: looked[at].Number}, Head: head, Next: at + depth}
	title := header.Titles{Sheet: tab.Name, Above: looked[:at], Dates: w.Facts.Dates}
	s.Named = title.Test()
	for _, above := range looked[:at] {
		for _, c := range above.Cells {
			if c.Kind == cell.Text {
				s.Titles = append(s.Titles, heading.Key(c.Text))
			}
		}
	}
	settled := settler{sheet: s.Sheet, named: s.Named, body: head[at+depth:]}
	texts, own := w.ownColumns(tab.Name, texts, head, at)
	settled.settle(texts, own, names)
	s.Used = settled.kept()
	s.Columns, s.Problems, s.Asked = settled.columns, settled.problems, settled.asked
	for _, c := range s.Columns {
		s.Sheet.Columns = append(s.Sheet.Columns, c.Column)
	}
	for _, c := range s.Used {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput {
			c.Sexes.ObserveHeader(c.known)
			if codes := w.Facts.SexCodes; len(codes) > 0 {
				c.Sexes.Codes = codes
			}
		}
	}
	s.tellGone(gone, w.Roster.Unused)
	s.NoSex = s.Columns.Input(scoring.SexInput) == nil && s.Columns.With(roster.AgeSex) == nil
	if s.NoSex {
		var said roster.Problem
		s.Sex, said = title.Sex()
		s.Tell(said)
	}
	if s.Columns.With(roster.TestDate) == nil && w.Facts.TestDate.IsZero() {
		s.observeDates(&title.Dates)
		s.Dates = title.Dates
		s.dateColumns(s.Dates)
		headed := s.Sheet.Columns
		if slices.ContainsFunc(s.Used, func(c *Column) bool { return !c.Day.IsZero() }) {
			headed = nil // each row has the day of its column
		}
		titled := title.Day(w.Names, s.Sheet.HeaderRow, headed)
		s.Day = titled.Day
		s.Tell(titled.Said)
	}
	s.School = w.speaksOfSchool(s.Sheet, title)
	s.Sheet.NoteUnrecognised()
	return s, nil
}

// observeDates finds the order of day and month that the first rows prove.
func (s *Survey) observeDates(ctx *cell.DateContext) {
	if ctx.Order != cell.AnyOrder {
		return
	}
	var seen cell.DateColumn
	for _, row := range s.Head[s.Next:] {
		for _, c := range row.Cells {
			if s.Columns.isBirth(c.Col) {
				seen.Observe(c.Raw, *ctx)
			}
		}
	}
	ctx.Order = seen.Order()
}

// isBirth reports whether a column, counted from 1, holds dates of birth.
func (cs List) isBirth(col int) bool {
	c := cs.With(roster.Birth)
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

// dateColumns finds the days that the headers of several results of one test name,
// such as "Mile run > 13 May 2025".
func (s *Survey) dateColumns(ctx cell.DateContext) {
	for _, c := range s.Used {
		if !c.OfTest() || len(c.again) == 0 && !c.Repeats {
			continue // one day of all is that of the sheet
		}
		if found := heading.Dates(cell.Raw{Kind: cell.Text, Text: c.Header}); len(found) == 1 {
			if day, doubt := cell.ParseDate(found[0], ctx); doubt == nil {
				c.Day = day.Time
			}
		}
	}
}

// tellGone reports the answers that no column takes.
func (s *Survey) tellGone(gone []roster.ColumnAnswer, unused map[string]bool) {
	for _, a := range gone {
		unused[a.Place] = true
		s.Tell(roster.Problem{Sheet: s.Sheet.Name, Read: a.Header, What: answerColumnGone.With(a.Place), Fix: AnswerAgain})
	}
}

package reading

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/rowwords"
	"tenback/workbook/source"
)

// sheetReader reads the rows of a sheet as people.
type sheetReader struct {
	*columns.Survey
	rd        *reader
	body      table
	rr        rowReader             // see rowReader
	right     map[grid.Address]bool // cells confirmed right as they are
	skipped   columns.Tally
	mostAlone bool                          // most rows hold one cell, as lists of mere names do
	mostFacts bool                          // most rows have a sex or a date of birth
	below     bool                          // the rows since the last gap are about no person
	headed    columns.Tally                 // rows that name the sex of those below
	statsOf   map[*columns.Column][]float64 // see statisticsOf
}

// readSheet reads the rows below a header. The survey gets the rows, and the
// problems that do not belong to one row.
func (rd *reader) readSheet(s *columns.Survey) error {
	defer s.Rows.Close()
	sr := &sheetReader{Survey: s, rd: rd, statsOf: map[*columns.Column][]float64{},
		body: table{sheet: s.Sheet, columns: s.Columns, used: s.Used, idle: s.Columns.Idle(), texts: s.Columns.Texts(), budget: &rd.budget, last: s.Sheet.HeaderRow}}
	sr.TellNoResults()
	if err := sr.keepRows(); err != nil {
		return err
	}
	tables, filtered, err := rd.Book.Tables(s.Tab)
	if err != nil {
		return source.Fail(rd.path, s.Sheet.Name, err)
	}
	s.Problems = append(s.Problems, sr.body.end(tables, s.Rows.Merged())...)
	s.Sheet.LastCol = sr.body.right
	sr.firstDays()
	sr.ChooseTerm(sr.anyResult)
	sr.NumberAttempts()
	sr.splitAgeSex()
	sr.nameBlocks()
	joinPairs(s.Used, sr.body.rows)
	sr.useCellAnswers()
	sr.showValues()
	sr.observe()
	rd.Roster.Questions = append(rd.Roster.Questions, s.Asked...)
	rd.Roster.Questions = append(rd.Roster.Questions, sr.Judge(sr.judgedRows())...)
	rd.Roster.Questions = append(rd.Roster.Questions, sr.AskHealth()...)
	for _, c := range sr.Used {
		c.SeeWords(sr.body.cellsOf(c))
	}
	sr.weighRows()
	s.Sheet.Rows = make([]roster.Row, 0, len(sr.body.rows))
	for i := range sr.body.rows {
		if row, ok := sr.readRow(&sr.body.rows[i]); ok {
			s.Sheet.Rows = append(s.Sheet.Rows, row)
		}
		sr.body.rows[i].cells = nil
	}
	rd.Roster.Questions = append(rd.Roster.Questions, sr.AskUnknown()...)
	s.TellRemarks()
	if sr.skipped.Count > 0 {
		s.Tell(sr.skipped.Problem(s.Sheet.Name, takenAsNote))
	}
	if sr.headed.Count > 0 {
		s.Tell(sr.headed.Problem(s.Sheet.Name, sexFromLineBelow))
	}
	sr.tellHidden(filtered || s.Rows.Filtered())
	if s.IsList && len(s.Sheet.Rows) > 0 {
		s.Problems = append(s.Problems, roster.Problem{Sheet: s.Sheet.Name, What: readAsList})
	}
	return nil
}

// keepRows keeps the rows below the header.
func (sr *sheetReader) keepRows() error {
	for i, h := range sr.Head {
		if i < sr.Next {
			sr.body.widen(h.Cells)
			sr.body.last = max(sr.body.last, h.Number)
		} else if err := sr.body.keep(h.Number, h.Hidden, h.Cells); err != nil {
			return err
		}
	}
	for sr.Rows.Next() {
		row := sr.Rows.Row()
		if err := sr.body.keep(row.Number, row.Hidden, row.Cells); err != nil {
			return err
		}
	}
	if err := sr.Rows.Err(); err != nil {
		return source.Fail(sr.body.budget.path, sr.Sheet.Name, err)
	}
	return nil
}

// splitAgeSex splits a column of ages and sexes in two.
func (sr *sheetReader) splitAgeSex() {
	c := sr.Columns.With(roster.AgeSex)
	if c == nil {
		return
	}
	sr.Used = append(sr.Used, c.SplitSexes(len(sr.Used), sr.Facts))
	for i := range sr.body.rows {
		row := &sr.body.rows[i]
		age, sex := columns.ParseAgeSex(row.cells[c.Slot])
		row.cells[c.Slot] = age
		row.cells = append(row.cells, sex)
	}
}

// observe collects the evidence of the cells of each column.
func (sr *sheetReader) observe() {
	for _, c := range sr.Used {
		observe := c.Observer(sr.Facts)
		for i := range sr.body.rows {
			if observe == nil {
				break
			}
			observe(sr.body.rows[i].cells[c.Slot])
		}
	}
}

// rowReader returns the reader of a row; the next call overwrites it.
func (sr *sheetReader) rowReader(raw *rawRow) *rowReader {
	sr.rr = rowReader{cellReader: cellReader{facts: sr.Facts, sheet: sr.Sheet, raw: raw, right: sr.right, bound: &sr.rd.Roster.Bound}, survey: sr.Survey, opt: &sr.rd.opt}
	return &sr.rr
}

// readRow reads a row; ok is false if it is about no person.
func (sr *sheetReader) readRow(raw *rawRow) (row roster.Row, ok bool) {
	if sr.headsDay(raw) || sr.headsDays(raw) {
		return row, false
	}
	rr := sr.rowReader(raw)
	rr.findDays()
	rr.row.Sheet, rr.row.Number = sr.Sheet.Name, raw.number
	rr.readPerson()
	results, others := rr.filled()
	who := &rr.row.Person
	nobody := who.Name == "" && who.ID == ""
	switch {
	case sr.body.isApart(raw), sr.sumsUp(rr, nobody), sr.body.repeatsHeader(raw):
		sr.below = sr.below || raw.afterGap
		return row, false
	case nobody && (results == nil || raw.onlyWords()):
		return row, false // a class heading, a note, a row of units
	case nobody:
		if rr.blocked == 0 {
			rr.block(results, whoseResult, fixWhose)
		}
		sr.Problems = append(sr.Problems, rr.problems...)
		return row, false
	case rowwords.IsExample(who.Label()):
		sr.skipped.Add(roster.Problem{Cell: who.NameCell, Read: who.Label()})
		return row, false
	case results == nil && others == 0 && sr.headsSex(who):
		return row, false
	case results == nil && sr.isNote(rr, others):
		sr.below = sr.below || raw.afterGap
		sr.skipped.Add(roster.Problem{Cell: who.NameCell, Read: who.Name})
		return row, false
	}
	sr.below = false
	rr.readAge()
	rr.row.Entry.MayBeChild, rr.row.Entry.HealthUnread = sr.School, sr.Health
	rr.readPersonal()
	if sr.NoSex && sr.Sex != scoring.SexUnspecified {
		rr.row.Entry.SetSex(sr.Sex, "")
	}
	if !sr.IsList {
		rr.readTrials()
	}
	rr.annotate()
	rr.readNotes()
	rr.row.Entry.Clip()
	rr.row.Problems = rr.problems
	return rr.row, true
}

// headsSex reports whether a row is only "Girls" or "Boys", the heading of those
// below.
func (sr *sheetReader) headsSex(who *roster.Person) bool {
	sex := heading.SexIn(who.Label())
	if sex == scoring.SexUnspecified || len(strings.Fields(who.Label())) > 3 {
		return false
	}
	if sr.NoSex {
		sr.Sex = sex
		sr.headed.Add(roster.Problem{Cell: who.NameCell, Read: who.Label()})
	}
	return true
}

// tellHidden reports that hidden rows and columns were read.
func (sr *sheetReader) tellHidden(filtered bool) {
	if n := sr.body.hidden.Count; n > 0 {
		p := sr.body.hidden.First
		p.What = hiddenRows.With(n)
		if filtered {
			p.What = filteredRows.With(n)
		}
		p.Fix = fixHiddenRows
		sr.Problems = append(sr.Problems, p)
	}
	var headers []string
	first := ""
	for _, c := range sr.Used {
		if !sr.Rows.HiddenColumn(c.Index) {
			continue
		}
		if first == "" {
			first = grid.At(c.Index, sr.Sheet.HeaderRow)
		}
		headers = append(headers, c.Header)
	}
	if len(headers) > 0 {
		sr.Problems = append(sr.Problems, roster.Problem{Sheet: sr.Sheet.Name, Cell: first,
			What: hiddenColumns.With(roster.QuotedList(headers)), Fix: fixHiddenColumns})
	}
}

// showValues notes the first values of each column of the sheet.
func (sr *sheetReader) showValues() {
	for i, c := range sr.Columns {
		to := &sr.Sheet.Columns[i]
		c.ShowSample(to, sr.Facts)
		if !slices.Contains(sr.Used, c) {
			continue
		}
		for at := range sr.body.rows {
			if r := sr.body.rows[at].cells[c.Slot]; !r.IsBlank() {
				if to.Filled++; len(to.Values) < roster.ValuesShown {
					to.Show(cell.Display(r, sr.Facts.Dates.Date1904))
				}
			}
		}
	}
}

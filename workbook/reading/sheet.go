package reading

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/rowwords"
	"tenback/workbook/source"
)

// sheetReader reads the rows of a sheet as people.
type sheetReader struct {
	*survey
	facts     *facts
	unused    map[string]bool // see roster.Roster
	body      table
	skipped   tally
	mostAlone bool  // most rows hold one cell, as lists of mere names do
	mostFacts bool  // most rows have a sex or a date of birth
	below     bool  // the rows since the last gap are about no person
	headed    tally // rows that name the sex of those below
}

// readSheet reads the rows below a header. The survey gets the rows, and the
// problems that do not belong to one row.
func (rd *reader) readSheet(s *survey) error {
	defer s.rows.Close()
	sr := &sheetReader{survey: s, facts: &rd.facts, unused: rd.roster.Unused,
		body: table{sheet: s.sheet, columns: s.columns, used: s.used, idle: s.columns.idle(), budget: &rd.budget, last: s.sheet.HeaderRow}}
	sr.tellNoResults()
	if err := sr.keepRows(); err != nil {
		return err
	}
	tables, filtered, err := rd.book.Tables(s.tab)
	if err != nil {
		return source.Fail(rd.path, s.sheet.Name, err)
	}
	s.problems = append(s.problems, sr.body.end(tables, s.rows.Merged())...)
	s.sheet.LastCol = sr.body.right
	sr.firstDays()
	sr.chooseTerm()
	sr.numberAttempts()
	sr.splitAgeSex()
	sr.nameBlocks()
	joinPairs(s.used, sr.body.rows)
	sr.useCellAnswers()
	sr.showValues()
	sr.observe()
	rd.roster.Questions = append(rd.roster.Questions, s.asked...)
	rd.roster.Questions = append(rd.roster.Questions, sr.judge()...)
	rd.roster.Questions = append(rd.roster.Questions, sr.askHealth()...)
	sr.weighRows()
	s.sheet.Rows = make([]roster.Row, 0, len(sr.body.rows))
	for i := range sr.body.rows {
		if row, ok := sr.readRow(&sr.body.rows[i]); ok {
			s.sheet.Rows = append(s.sheet.Rows, row)
		}
		sr.body.rows[i].cells = nil
	}
	rd.roster.Questions = append(rd.roster.Questions, sr.askUnknown()...)
	sr.tellRemarks()
	sr.tellHidden(filtered || s.rows.Filtered())
	if s.isList && len(s.sheet.Rows) > 0 {
		s.problems = append(s.problems, roster.Problem{Sheet: s.sheet.Name, What: readAsList})
	}
	return nil
}

// keepRows keeps the rows below the header.
func (sr *sheetReader) keepRows() error {
	for i, h := range sr.head {
		if i < sr.next {
			sr.body.widen(h.Cells)
			sr.body.last = max(sr.body.last, h.Number)
		} else if err := sr.body.keep(h.Number, h.Hidden, h.Cells); err != nil {
			return err
		}
	}
	for sr.rows.Next() {
		row := sr.rows.Row()
		if err := sr.body.keep(row.Number, row.Hidden, row.Cells); err != nil {
			return err
		}
	}
	if err := sr.rows.Err(); err != nil {
		return source.Fail(sr.body.budget.path, sr.sheet.Name, err)
	}
	return nil
}

// tellNoResults reports that no column is a test result, and which headers are
// unknown.
func (sr *sheetReader) tellNoResults() {
	blocking := slices.ContainsFunc(sr.problems, func(p roster.Problem) bool { return p.Blocking })
	if sr.isList || sr.columns.hasResults() || blocking || len(sr.asked) > 0 {
		return
	}
	likely := resultHeader(fieldtests.All()[1])
	if sr.named.Test != nil {
		likely = resultHeader(sr.named.Test)
	}
	p := roster.Problem{Sheet: sr.sheet.Name, Blocking: true, What: noResultKnown, Fix: addOneSuchAs.With(likely)}
	var unknown []string
	for _, c := range sr.columns {
		if c.Meaning.Role == roster.Unknown && len(unknown) < 8 {
			unknown = append(unknown, c.Header)
		}
	}
	if len(unknown) > 0 {
		p.What, p.Fix = notRecognised.With(p.What, quotedList(unknown)), fixNotRecognised
	}
	sr.problems = append(sr.problems, p)
}

// splitAgeSex splits a column of ages and sexes in two.
func (sr *sheetReader) splitAgeSex() {
	c := sr.columns.with(roster.AgeSex)
	if c == nil {
		return
	}
	c.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.Age, Unit: scoring.Years}
	sexes := &sheetColumn{Column: c.Column, slot: len(sr.used)}
	sexes.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.SexInput}
	sexes.known, sexes.told = c.known, c.told
	sexes.sexes.ObserveHeader(c.known)
	sexes.sexes.Codes = sr.facts.sexCodes
	sr.used = append(sr.used, sexes)
	for i := range sr.body.rows {
		row := &sr.body.rows[i]
		age, sex := parseAgeSex(row.cells[c.slot])
		row.cells[c.slot] = age
		row.cells = append(row.cells, sex)
	}
}

// observe collects the evidence of the cells of each column.
func (sr *sheetReader) observe() {
	for _, c := range sr.used {
		switch {
		case c.Meaning.Role == roster.Birth || c.Meaning.Role == roster.TestDate:
			for i := range sr.body.rows {
				c.dates.Observe(sr.body.rows[i].cells[c.slot], sr.facts.dateContext(c))
			}
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput:
			for i := range sr.body.rows {
				c.sexes.Observe(sr.body.rows[i].cells[c.slot])
			}
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.ShuttleLevel:
			for i := range sr.body.rows {
				c.levels.Observe(sr.body.rows[i].cells[c.slot])
			}
		}
	}
}

// testBefore returns the test that a row names to the left of a Result column.
func (sr *sheetReader) testBefore(row *rawRow, c *sheetColumn) *scoring.Test {
	var name *sheetColumn
	for _, d := range sr.used {
		if d.Index > c.Index {
			break
		}
		if d.Meaning.Role == roster.TestName {
			name = d
		}
	}
	if name == nil {
		return nil
	}
	m, _ := sr.facts.testNamed(cell.Label(row.cells[name.slot]))
	return m.Test
}

func (sr *sheetReader) rowReader(raw *rawRow) *rowReader {
	return &rowReader{cellReader: cellReader{facts: sr.facts, sheet: sr.sheet, raw: raw, right: sr.right}, survey: sr.survey}
}

// readRow reads a row; ok is false if it is about no person.
func (sr *sheetReader) readRow(raw *rawRow) (row roster.Row, ok bool) {
	if sr.headsDay(raw) || sr.headsDays(raw) {
		return row, false
	}
	rr := sr.rowReader(raw)
	rr.findDays()
	rr.row.Sheet, rr.row.Number = sr.sheet.Name, raw.number
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
		sr.problems = append(sr.problems, rr.problems...)
		return row, false
	case rowwords.IsExample(who.Label()):
		sr.skipped.add(roster.Problem{Cell: who.NameCell, Read: who.Label()})
		return row, false
	case results == nil && others == 0 && sr.headsSex(who):
		return row, false
	case results == nil && sr.isNote(rr, others):
		sr.below = sr.below || raw.afterGap
		sr.skipped.add(roster.Problem{Cell: who.NameCell, Read: who.Name})
		return row, false
	}
	sr.below = false
	rr.readAge()
	rr.row.Entry.MayBeChild, rr.row.Entry.HealthUnread = sr.school, sr.health
	rr.readPersonal()
	if sr.noSex && sr.sex != scoring.SexUnspecified {
		rr.row.Entry.SetSex(sr.sex, "")
	}
	if !sr.isList {
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
	if sr.noSex {
		sr.sex = sex
		sr.headed.add(roster.Problem{Cell: who.NameCell, Read: who.Label()})
	}
	return true
}

// tellRemarks reports what is said once of each column and of the sheet.
func (sr *sheetReader) tellRemarks() {
	add := func(t *tally, what scoring.Said) { sr.problems = append(sr.problems, t.problem(sr.sheet.Name, what)) }
	for _, c := range sr.columns {
		for kind := readFromHours; kind <= readAsUntested; kind++ {
			if t := c.remarked[kind]; t != nil {
				add(t, remarkTexts[kind])
			}
		}
		if sr.facts.text && c.shuttles.possible() {
			sr.say(c, fixShuttle10, readNoShuttle10.With(c.shuttles.first))
		}
		if c.dates.Exchanged() {
			sr.say(c, fixExchanged, daysExchanged)
		}
	}
	if sr.skipped.count > 0 {
		add(&sr.skipped, takenAsNote)
	}
	if sr.headed.count > 0 {
		add(&sr.headed, sexFromLineBelow)
	}
}

// tellHidden reports that hidden rows and columns were read.
func (sr *sheetReader) tellHidden(filtered bool) {
	if n := sr.body.hidden.count; n > 0 {
		p := sr.body.hidden.first
		p.What = hiddenRows.With(n)
		if filtered {
			p.What = filteredRows.With(n)
		}
		p.Fix = fixHiddenRows
		sr.problems = append(sr.problems, p)
	}
	var headers []string
	first := ""
	for _, c := range sr.used {
		if !sr.rows.HiddenColumn(c.Index) {
			continue
		}
		if first == "" {
			first = grid.At(c.Index, sr.sheet.HeaderRow)
		}
		headers = append(headers, c.Header)
	}
	if len(headers) > 0 {
		sr.problems = append(sr.problems, roster.Problem{Sheet: sr.sheet.Name, Cell: first,
			What: hiddenColumns.With(quotedList(headers)), Fix: fixHiddenColumns})
	}
}

// say adds a remark on a column.
func (sr *sheetReader) say(c *sheetColumn, fix, what scoring.Said) {
	sr.problems = append(sr.problems, columnProblem(sr.sheet, c, false, fix, what))
}

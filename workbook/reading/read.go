package reading

import (
	"fmt"
	"slices"
	"unsafe"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// Bounds on what is kept while a workbook is read. Together with MaxPeople
// they keep a hostile workbook under about 1 GB of memory; a roster of 100,000
// people and 20 columns takes a tenth of it.
const (
	maxKept    = 512 << 20 // bytes of cells and their texts
	maxColumns = 200       // columns in use on one sheet
)

// sheetReader reads one sheet of people.
type sheetReader struct {
	rd       *reader
	tab      ooxml.Sheet
	sheet    *roster.Sheet
	rows     source.Rows
	head     []headRow // the first rows
	next     int       // of head, the first below the header
	columns  []*sheetColumn
	used     []*sheetColumn // those whose cells are kept
	birth    *sheetColumn   // nil if there is none; so the next two
	tested   *sheetColumn
	age      *sheetColumn
	kept     []rawRow
	hidden   tally // rows in use that are hidden
	filtered bool
	tables   []ooxml.Table
	others   []ooxml.Table // those of tables that hold no people
	isList   bool          // people without results
	right    int           // right edge of what is not ours
	skipped  tally
	problems []roster.Problem // of the columns, told once the sheet is chosen
	titled   titleDay
	noSex    bool           // no column has the sex
	sex      scoring.Sex    // of those whose row does not say it
	headed   tally          // lines that name the sex of those below
	named    roster.Meaning // the test that the title or the sheet's name says, with the distance of a race
}

// rawRow is a row below the header, with the cells of the columns in use.
type rawRow struct {
	number   int
	afterGap bool // an empty row stands above
	summary  bool // a word such as average or total stands in it
	cells    []cell.Raw
}

// survey looks for the header of a sheet; nil if there is none.
func (rd *reader) survey(s ooxml.Sheet) (*sheetReader, error) {
	rows, err := rd.book.Rows(s)
	if err != nil {
		return nil, err
	}
	sr := &sheetReader{rd: rd, tab: s, rows: rows, sheet: &roster.Sheet{Name: s.Name}}
	for rows.Next() {
		row := rows.Row()
		sr.head = append(sr.head, headRow{row.Number, row.Hidden, slices.Clone(row.Cells)})
		if row.Number >= headerDepth {
			break
		}
	}
	if err := rows.Err(); err != nil {
		rows.Close()
		return nil, err
	}
	looked := sr.head
	if n := len(looked); n > 0 && looked[n-1].number > headerDepth {
		looked = looked[:n-1]
	}
	at := rd.findHeader(looked)
	if at < 0 {
		rows.Close()
		rd.noteMisses(s.Name, looked)
		return nil, nil
	}
	texts, depth := rd.headTexts(looked, at)
	sr.sheet.HeaderRow = looked[at].number
	sr.next = at + depth
	before := len(rd.roster.Problems)
	sr.named = rd.testOfSheet(s.Name, looked[:at])
	sr.readColumns(texts)
	sr.findSheetSex(looked[:at])
	if sr.tested == nil && rd.opt.TestDate.IsZero() {
		sr.titled = rd.findTitleDay(s.Name, looked[:at])
		if sr.titled.said.What.IsZero() {
			sr.titled = sr.dayOfHeaders()
		}
		if !sr.titled.said.What.IsZero() {
			rd.roster.Problems = append(rd.roster.Problems, sr.titled.said)
		}
	}
	sr.problems = slices.Clone(rd.roster.Problems[before:])
	rd.roster.Problems = rd.roster.Problems[:before]
	for _, c := range sr.columns {
		sr.sheet.Columns = append(sr.sheet.Columns, c.Column)
	}
	sr.sheet.NoteUnrecognised()
	return sr, nil
}

// noteMisses remembers what came near to being a header: a known word for a
// person in a row with nothing to score, and texts that are nearly known.
func (rd *reader) noteMisses(sheet string, rows []headRow) {
	const most = 200
	looked := 0
	if rd.across == "" && rd.peopleAcross(rows) {
		rd.across = sheet
	}
	for _, row := range rows {
		for _, c := range row.cells {
			if h, ok := rd.match(c.Text); ok && c.Kind == cell.Text && h.Role.IsPerson() && rd.partial == "" && looked < most {
				rd.partial = fmt.Sprintf("the row of %q in %s!%s has nothing beside it to score", c.Text, sheet, grid.At(c.Col, row.number))
			}
			if looked++; looked > most {
				return
			}
			if c.Kind != cell.Text || len(c.Text) > 60 || rd.isKnown(c.Text) {
				continue
			}
			if known, ok := heading.Nearest(c.Text); ok {
				rd.misses = append(rd.misses, miss{sheet, grid.At(c.Col, row.number), c.Text, known})
			}
		}
	}
}

// peopleAcross tells that the first cells of the rows read like a header.
func (rd *reader) peopleAcross(rows []headRow) bool {
	var texts []string
	for _, row := range rows {
		if len(row.cells) > 1 && row.cells[0].Kind == cell.Text {
			texts = append(texts, row.cells[0].Text)
		}
	}
	return rd.scoreHeader(texts) >= 3
}

// read reads the rows below the header and makes people of them.
func (sr *sheetReader) read() error {
	defer sr.rows.Close()
	rd := sr.rd
	rd.roster.Problems = append(rd.roster.Problems, sr.problems...)
	sr.tellNoResults()
	for i := range sr.head {
		sr.widen(sr.head[i].cells)
	}
	last := sr.sheet.HeaderRow
	if sr.next > 0 {
		last = sr.head[sr.next-1].number
	}
	for _, h := range sr.head[sr.next:] {
		if err := sr.keep(h.number, h.hidden, h.number > last+1, h.cells); err != nil {
			return err
		}
		last = h.number
	}
	for sr.rows.Next() {
		row := sr.rows.Row()
		sr.widen(row.Cells)
		if err := sr.keep(row.Number, row.Hidden, row.Number > last+1, row.Cells); err != nil {
			return err
		}
		last = row.Number
	}
	if err := sr.rows.Err(); err != nil {
		return source.Fail(rd.path, sr.sheet.Name, err)
	}
	if err := sr.findRightEdge(); err != nil {
		return source.Fail(rd.path, sr.sheet.Name, err)
	}
	sr.splitAgeSex()
	sr.joinImperial()
	sr.observe()
	sr.sheet.Rows = make([]roster.Row, 0, len(sr.kept))
	for i := range sr.kept {
		sr.readRow(&sr.kept[i])
		sr.kept[i].cells = nil
	}
	sr.kept = nil
	sr.tellRemarks()
	switch {
	case len(sr.sheet.Rows) == 0:
	case sr.isList:
		rd.roster.Lists = append(rd.roster.Lists, sr.sheet)
		rd.roster.Problems = append(rd.roster.Problems, roster.Problem{Sheet: sr.sheet.Name,
			What: readAsList})
	default:
		rd.roster.Sheets = append(rd.roster.Sheets, sr.sheet)
	}
	return nil
}

// tellNoResults says that nothing on the sheet is known as a test result, and
// what is not known at all.
func (sr *sheetReader) tellNoResults() {
	blocking := slices.ContainsFunc(sr.problems, func(p roster.Problem) bool { return p.Blocking })
	if sr.isList || sr.hasResults() || blocking {
		return
	}
	likely := resultHeader(fieldtests.All()[1])
	if sr.named.Test != nil {
		likely = resultHeader(sr.named.Test)
	}
	p := roster.Problem{Sheet: sr.sheet.Name, Blocking: true, What: noResultKnown, Fix: addOneSuchAs.With(likely)}
	var unknown []string
	example, nearly := "", false
	for _, c := range sr.columns {
		if c.Meaning.Role != roster.Unknown || len(unknown) == 8 {
			continue
		}
		unknown = append(unknown, c.Header)
		if near, ok := sr.nearestResult(c.Header); ok && !nearly {
			example, likely, nearly = c.Header, near, true
		} else if !nearly {
			example = c.Header
		}
	}
	if len(unknown) > 0 {
		p.What = notRecognised.With(p.What, quotedList(unknown))
		p.Fix = fixNotRecognised.With(example, likely, scoring.Quoted(roster.MappingSheet))
	}
	sr.rd.roster.Problems = append(sr.rd.roster.Problems, p)
}

// nearestResult finds the result of a test whose known header a header is a
// slip of the hand away from.
func (sr *sheetReader) nearestResult(header string) (scoring.Header, bool) {
	near, ok := heading.Nearest(header)
	if !ok {
		return scoring.Header{}, false
	}
	h, known := heading.Match(near)
	if !known || h.Test == nil || !h.Test.HasResult(h.Input) {
		return scoring.Header{}, false
	}
	return scoring.Header{Test: h.Test, Input: h.Input}, true
}

// widen moves the right edge to the last cell that is not ours.
func (sr *sheetReader) widen(cells []ooxml.Cell) {
	for i := len(cells) - 1; i >= 0 && cells[i].Col > sr.right; i-- {
		if !sr.isOurs(cells[i].Col) {
			sr.right = cells[i].Col
		}
	}
}

func (sr *sheetReader) isOurs(col int) bool {
	i, found := slices.BinarySearchFunc(sr.columns, col, func(c *sheetColumn, col int) int { return c.Index - col })
	return found && sr.columns[i].Meaning.Role == roster.Ours
}

func (sr *sheetReader) findRightEdge() error {
	tables, filtered, err := sr.rd.book.Tables(sr.tab)
	if err != nil {
		return err
	}
	sr.filtered = filtered || sr.rows.Filtered()
	for _, t := range tables {
		sr.right = max(sr.right, t.LastCol)
	}
	for _, block := range sr.rows.Merged() {
		sr.right = max(sr.right, block.LastCol)
	}
	sr.tables = tables
	sr.findOtherTables()
	sr.sheet.LastCol = sr.right
	return nil
}

// findOtherTables finds tables below the people that have headers of their own.
func (sr *sheetReader) findOtherTables() {
	for _, t := range sr.tables {
		if t.FirstRow <= sr.sheet.HeaderRow || !sr.holdsWho(t) {
			continue
		}
		at, found := slices.BinarySearchFunc(sr.kept, t.FirstRow, func(r rawRow, n int) int { return r.number - n })
		body := t.FirstRow == sr.sheet.HeaderRow+1 // the header stands above a table without one
		if body || found && sr.repeatsHeader(&sr.kept[at]) {
			continue
		}
		sr.others = append(sr.others, t)
		sr.rd.roster.Problems = append(sr.rd.roster.Problems, roster.Problem{Sheet: sr.sheet.Name, Cell: grid.At(t.FirstCol, t.FirstRow),
			What: otherTable})
	}
}

// holdsWho tells whether a table reaches over a column that says who a row is
// about.
func (sr *sheetReader) holdsWho(t ooxml.Table) bool {
	return slices.ContainsFunc(sr.used, func(c *sheetColumn) bool {
		return c.Meaning.Role.IsPerson() && c.Index >= t.FirstCol && c.Index <= t.LastCol
	})
}

// keep stores a row's cells in use, if it has any.
func (sr *sheetReader) keep(number int, hidden, afterGap bool, cells []ooxml.Cell) error {
	row := rawRow{number: number, afterGap: afterGap}
	at := 0
	for _, c := range cells {
		if c.Kind == cell.Text && isSummary(c.Text) {
			row.summary = true
		}
		for at < len(sr.used) && sr.used[at].Index < c.Col {
			at++
		}
		if at == len(sr.used) || sr.used[at].Index != c.Col {
			continue
		}
		if row.cells == nil {
			row.cells = make([]cell.Raw, len(sr.used))
		}
		row.cells[at] = c.Raw
		sr.rd.bytes += int64(len(c.Text))
	}
	if row.cells == nil {
		return nil
	}
	if hidden {
		sr.hidden.add(roster.Problem{Sheet: sr.sheet.Name, Cell: grid.At(cells[0].Col, number)})
	}
	sr.kept = append(sr.kept, row)
	sr.rd.bytes += int64(len(sr.used)) * int64(unsafe.Sizeof(cell.Raw{}))
	sr.rd.people++
	switch {
	case sr.rd.people > MaxPeople:
		return &source.Error{Path: sr.rd.path, Sheet: sr.sheet.Name, Kind: source.ErrTooLarge,
			Why: fmt.Sprintf("the workbook has more than %d rows of people; split it", MaxPeople)}
	case sr.rd.bytes > maxKept:
		return &source.Error{Path: sr.rd.path, Sheet: sr.sheet.Name, Kind: source.ErrTooLarge,
			Why: "the workbook holds more than this program agrees to read at once; split it"}
	}
	return nil
}

// observe lets the cells of a column tell about each other.
func (sr *sheetReader) observe() {
	for _, c := range sr.used {
		switch {
		case c.Meaning.Role == roster.Birth || c.Meaning.Role == roster.TestDate:
			for i := range sr.kept {
				c.dates.Observe(sr.kept[i].cells[c.slot], sr.dateContext(c))
			}
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput:
			for i := range sr.kept {
				c.sexes.Observe(sr.kept[i].cells[c.slot])
			}
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.ShuttleLevel:
			for i := range sr.kept {
				c.halves.Observe(sr.kept[i].cells[c.slot])
			}
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.Time:
			for i := range sr.kept {
				c.times.Observe(sr.kept[i].cells[c.slot], sr.timeContext(c, c.Meaning.Test))
			}
		case c.Meaning.Role == roster.Result:
			for i := range sr.kept {
				if t := sr.testBefore(&sr.kept[i], c); t != nil && t.HasResult(scoring.Time) {
					c.times.Observe(sr.kept[i].cells[c.slot], sr.timeContext(c, t))
				}
			}
		}
	}
}

// testBefore is the test that a row names to the left of a Result column.
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
	t, _ := sr.rd.testNamed(cell.Label(row.cells[name.slot]))
	return t
}

// remark is something said once of a column, however many cells it is about.
type remark uint8

const (
	readFromHours remark = iota
	readByEvidence
	readByPossibility
	readShortYear
	readYearOnly
	readNoSeconds
)

// tally counts the cells that a remark is about.
type tally struct {
	count int
	first roster.Problem
}

func (t *tally) add(p roster.Problem) {
	if t.count == 0 {
		t.first = p
	}
	t.count++
}

func (c *sheetColumn) remark(kind remark, p roster.Problem) {
	if c.remarked == nil {
		c.remarked = map[remark]*tally{}
	}
	if c.remarked[kind] == nil {
		c.remarked[kind] = &tally{}
	}
	c.remarked[kind].add(p)
}

// tellRemarks adds what is said once of each column and of the sheet.
func (sr *sheetReader) tellRemarks() {
	add := func(t *tally, what scoring.Said) {
		p := t.first
		p.Sheet, p.What = sr.sheet.Name, what
		if t.count > 1 {
			p.What = inCells.With(what, t.count)
		}
		sr.rd.roster.Problems = append(sr.rd.roster.Problems, p)
	}
	for _, c := range sr.columns {
		for kind := readFromHours; kind <= readNoSeconds; kind++ {
			if t := c.remarked[kind]; t != nil {
				add(t, remarkTexts[kind])
			}
		}
		if sr.rd.roster.In.Text && c.shuttles.possible() {
			sr.columnProblem(c, false, fixShuttle10, readNoShuttle10.With(c.shuttles.first))
		}
		if c.dates.Exchanged() {
			sr.columnProblem(c, false, fixExchanged, daysExchanged)
		}
	}
	if sr.skipped.count > 0 {
		add(&sr.skipped, takenAsNote)
	}
	if sr.headed.count > 0 {
		add(&sr.headed, sexFromLineBelow)
	}
	sr.tellHidden()
}

// tellHidden says that hidden rows and columns were read.
func (sr *sheetReader) tellHidden() {
	if n := sr.hidden.count; n > 0 {
		p := sr.hidden.first
		p.What = hiddenRows.With(n)
		if sr.filtered {
			p.What = filteredRows.With(n)
		}
		p.Fix = fixHiddenRows
		sr.rd.roster.Problems = append(sr.rd.roster.Problems, p)
	}
	var headers []string
	first := ""
	for _, c := range sr.used {
		if !sr.rows.HiddenColumn(c.Index) {
			continue
		}
		if first == "" {
			first = sr.headerCell(c)
		}
		headers = append(headers, c.Header)
	}
	if len(headers) > 0 {
		sr.rd.roster.Problems = append(sr.rd.roster.Problems, roster.Problem{Sheet: sr.sheet.Name, Cell: first,
			What: hiddenColumns.With(quotedList(headers)), Fix: fixHiddenColumns})
	}
}

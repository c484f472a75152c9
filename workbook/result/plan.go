package result

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tenback/scoring"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
	"tenback/workbook/splice"
)

// Plan returns the cells to write into the workbook src with this info: the result
// columns of every sheet of people, scored with the options.
// Cells that somebody typed into result columns are left as they are; notes name
// them.
func Plan(r *roster.Roster, outcomes []Outcome, options *scoring.Options, info splice.Info, src source.Plain, words *sheetwords.Words) (edit splice.Edit, notes []string, err error) {
	edits, err := planEdits(r, outcomes, options, info, src, &sheetWords{words})
	if err != nil {
		return splice.Edit{}, nil, err
	}
	edit = spliceEdit(edits)
	anchors := newAnchors(info.Named)
	for i := range edits {
		edit.Names = append(edit.Names, anchors.missing(&edits[i])...)
		notes = append(notes, edits[i].typed.notes(edits[i].name)...)
	}
	return edit, notes, nil
}

// sheetEdit is the plan for one sheet.
type sheetEdit struct {
	name      string
	headerRow int
	headLike  int            // column whose header ours are to look like
	columns   []placedColumn // by rising col
	table     splice.Address // a cell of the table that the people's rows lie in, if they do
	rows      []int          // rows to write, rising
	outcomes  map[int]*Outcome
	options   *scoring.Options // by which they were scored
	kept      []keptRows       // parts of rows, when all results have been worked out
	typed     typed
}

// placedColumn is a result column with its place in a sheet.
type placedColumn struct {
	Column
	col   int // 1-based
	isNew bool
	// renamed is set on a column of an earlier run whose header changes language or
	// was deleted.
	renamed bool
}

// planEdits places the result columns of every sheet of people to the right of its
// cells.
func planEdits(roster *roster.Roster, outcomes []Outcome, options *scoring.Options, info splice.Info, src source.Plain, words *sheetWords) ([]sheetEdit, error) {
	edits := make([]sheetEdit, 0, len(roster.Sheets))
	var book *ooxml.Book // opened if there was an earlier run
	var texts *texts
	for _, sheet := range roster.Sheets {
		edit := sheetEdit{name: sheet.Name, headerRow: sheet.HeaderRow, outcomes: map[int]*Outcome{}, options: options}
		at := slices.IndexFunc(info.Sheets, func(s splice.SheetInfo) bool { return s.Name == sheet.Name })
		if at < 0 {
			return nil, fmt.Errorf("sheet %q is not in the workbook any more: %w", sheet.Name, source.ErrChangedSinceRead)
		}
		if err := info.Sheets[at].Err; err != nil {
			return nil, err
		}
		seasons := slices.ContainsFunc(outcomes, func(o Outcome) bool { return o.Review != nil || !o.Doubt.IsZero() })
		if err := edit.place(sheet, info.Sheets[at], words, seasons); err != nil {
			return nil, err
		}
		edit.joinTable(sheet, info.Sheets[at].Tables)
		for i := range sheet.Rows {
			edit.rows = append(edit.rows, sheet.Rows[i].Number)
		}
		for i := range outcomes {
			for _, line := range outcomes[i].Lines() {
				if line.Row.Sheet == sheet.Name {
					edit.outcomes[line.Row.Number] = &outcomes[i]
					edit.rows = append(edit.rows, line.Row.Number)
				}
			}
		}
		slices.Sort(edit.rows)
		edit.rows = slices.Compact(edit.rows)
		if slices.ContainsFunc(edit.columns, func(c placedColumn) bool { return !c.isNew }) {
			if book == nil {
				var err error
				if book, err = ooxml.Open(src, src.Size); err != nil {
					return nil, err
				}
				texts = textsOf(words.Set, options.Adults)
			}
			if err := edit.readEarlier(book, texts); err != nil {
				return nil, err
			}
		}
		edits = append(edits, edit)
	}
	return edits, nil
}

// place finds the columns of an earlier run and puts missing ones to the right of all
// cells. Columns of seasons need seasons.
func (e *sheetEdit) place(sheet *roster.Sheet, info splice.SheetInfo, words *sheetWords, seasons bool) error {
	used := info.FreeCol - 1
	earlier := map[int]int{} // result column number to sheet column
	headers := map[int]string{}
	right := max(used, sheet.LastCol)
	for _, c := range sheet.Columns {
		right = max(right, c.Index)
		if c.Meaning.Role != roster.Ours {
			e.headLike = max(e.headLike, c.Index)
			continue
		}
		if n := numberOf(c.Own); n >= 0 {
			earlier[n], headers[n] = c.Index, c.Header
		}
	}
	for n, c := range Columns(words.Words) {
		if c.Seasons && !seasons && earlier[n] == 0 {
			continue
		}
		placed := placedColumn{Column: c, col: earlier[n]}
		if placed.col == 0 {
			right++
			placed.col, placed.isNew = right, true
		} else {
			// A header that someone typed stays. A table knows its columns by their
			// headers, so those stay too.
			at := splice.Address{Row: e.headerRow, Col: placed.col}
			inTable := slices.ContainsFunc(info.Tables, func(t splice.Table) bool { return t.Contains(at.Row, at.Col) })
			ours := headers[n] == "" || resultIndex(headers[n]) == n
			placed.renamed = ours && !strings.EqualFold(plainHeader(headers[n]), c.Header) && !inTable
		}
		e.columns = append(e.columns, placed)
	}
	if right > grid.MaxCol {
		return fmt.Errorf("sheet %q has no room for the result columns at its right edge: its last used column is %d of %d; delete what stands far to the right", e.name, used, grid.MaxCol)
	}
	slices.SortFunc(e.columns, func(a, b placedColumn) int { return a.col - b.col })
	return nil
}

// joinTable lets the columns that are new become part of the table that the
// people's rows lie in. No two columns of a table have one name, so a header
// that is taken there gets a number, as spreadsheet programs do it.
func (e *sheetEdit) joinTable(sheet *roster.Sheet, tables []splice.Table) {
	who := slices.IndexFunc(sheet.Columns, func(c roster.Column) bool { return c.Meaning.Role.IsPerson() })
	if who < 0 || len(sheet.Rows) == 0 {
		return
	}
	person := splice.Address{Row: sheet.Rows[0].Number, Col: sheet.Columns[who].Index}
	at := slices.IndexFunc(tables, func(t splice.Table) bool { return t.Contains(person.Row, person.Col) })
	if at < 0 {
		return
	}
	e.table = person
	first := slices.IndexFunc(e.columns, func(c placedColumn) bool { return c.isNew })
	if first < 0 || e.columns[first].col != tables[at].LastCol+1 {
		return // other cells are between them, so they will not join it
	}
	taken := map[string]bool{}
	for _, name := range tables[at].Columns {
		taken[strings.ToLower(name)] = true
	}
	for i := range e.columns {
		c := &e.columns[i]
		name := c.Header
		for n := 2; c.isNew && taken[strings.ToLower(c.Header)]; n++ {
			c.Header = name + strconv.Itoa(n)
		}
		taken[strings.ToLower(c.Header)] = true
	}
}

// earlier returns the sheet column of an earlier run's result column, or 0.
func (e *sheetEdit) earlier(id string) int {
	for _, c := range e.columns {
		if c.ID == id && !c.isNew {
			return c.col
		}
	}
	return 0
}

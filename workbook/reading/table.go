package reading

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"unsafe"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/rowwords"
	"tenback/workbook/source"
)

// Bounds of memory. Together with MaxPeople they keep a hostile workbook under
// about 1 GB; a roster of 100,000 people and 20 columns takes a tenth of it.
const (
	maxKept = 512 << 20 // bytes of cells and their texts
)

// rawRow is a row below the header, with the cells of the columns in use.
type rawRow struct {
	number   int
	afterGap bool // below an empty row
	summary  bool // has a word such as average or total
	cells    []cell.Raw
	notes    []scoring.DangerNote
}

// budget counts what is kept of a workbook.
type budget struct {
	path   string
	people int
	bytes  int64 // of cells
}

// take counts a row of so many cells; its error says that the workbook is too
// large.
func (b *budget) take(sheet string, cells int) error {
	b.bytes += int64(cells) * int64(unsafe.Sizeof(cell.Raw{}))
	b.people++
	switch {
	case b.people > MaxPeople:
		return &source.Error{Path: b.path, Sheet: sheet, Kind: source.ErrTooLarge,
			Why: fmt.Sprintf("the workbook has more than %d rows of people; split it", MaxPeople)}
	case b.bytes > maxKept:
		return &source.Error{Path: b.path, Sheet: sheet, Kind: source.ErrTooLarge,
			Why: "the workbook is larger than this program reads at once; split it"}
	}
	return nil
}

// table keeps the rows below a header, of the columns in use.
type table struct {
	sheet   *roster.Sheet
	columns columns.List
	used    columns.List
	idle    columns.List // the others, without those of an earlier run
	texts   columns.List // those of the idle that hold free text
	budget  *budget
	rows    []rawRow
	last    int           // number of the previous row
	right   int           // right edge of what is not ours
	hidden  columns.Tally // rows in use that are hidden
	alone   []lone
	tables  []ooxml.Table
	others  []ooxml.Table // those of tables that hold no people
}

// widen extends the right edge to the last cell that is not ours.
func (t *table) widen(cells []ooxml.Cell) {
	for i := len(cells) - 1; i >= 0 && cells[i].Col > t.right; i-- {
		if !t.isOurs(cells[i].Col) {
			t.right = cells[i].Col
		}
	}
}

func (t *table) isOurs(col int) bool {
	i, found := slices.BinarySearchFunc(t.columns, col, func(c *columns.Column, col int) int { return c.Index - col })
	return found && t.columns[i].Meaning.Role == roster.Ours
}

// end finds the right edge and the tables without people, once all rows are kept.
func (t *table) end(found []ooxml.Table, merged []grid.Range) (problems []roster.Problem) {
	for _, f := range found {
		t.right = max(t.right, f.LastCol)
	}
	for _, block := range merged {
		t.right = max(t.right, block.LastCol)
	}
	t.tables = found
	for _, f := range found {
		if f.FirstRow <= t.sheet.HeaderRow || !t.holdsWho(f) {
			continue
		}
		at, ok := slices.BinarySearchFunc(t.rows, f.FirstRow, func(r rawRow, n int) int { return r.number - n })
		body := f.FirstRow == t.sheet.HeaderRow+1 // the header is above a table without one
		if body || ok && t.repeatsHeader(&t.rows[at]) {
			continue
		}
		t.others = append(t.others, f)
		problems = append(problems, roster.Problem{Sheet: t.sheet.Name, Cell: grid.At(f.FirstCol, f.FirstRow), What: otherTable})
	}
	return problems
}

// holdsWho reports whether a table covers a column that identifies people.
func (t *table) holdsWho(other ooxml.Table) bool {
	return slices.ContainsFunc(t.used, func(c *columns.Column) bool {
		return c.Meaning.Role.IsPerson() && c.Index >= other.FirstCol && c.Index <= other.LastCol
	})
}

// keep stores the cells in use of a row, if any.
func (t *table) keep(number int, hidden bool, cells []ooxml.Cell) error {
	t.widen(cells)
	t.sample(cells)
	row := rawRow{number: number, afterGap: number > t.last+1}
	t.last = number
	at := 0
	for _, c := range cells {
		if c.Kind == cell.Text && !row.summary && !t.isOurs(c.Col) {
			row.summary, _ = rowwords.IsSummary(c.Text)
		}
		for at < len(t.used) && t.used[at].Index < c.Col {
			at++
		}
		if at == len(t.used) || t.used[at].Index != c.Col {
			continue
		}
		if row.cells == nil {
			row.cells = make([]cell.Raw, len(t.used))
		}
		row.cells[at] = c.Raw
		t.budget.bytes += int64(len(c.Text))
	}
	if len(cells) == 1 && cells[0].Kind == cell.Text && len(t.alone) < maxLone {
		t.alone = append(t.alone, lone{number, cells[0].Text})
	}
	if row.cells == nil {
		return nil
	}
	if row.notes = t.notes(number, cells); row.notes != nil {
		t.budget.bytes += int64(len(row.notes)) * int64(unsafe.Sizeof(row.notes[0]))
	}
	if hidden {
		t.hidden.Add(roster.Problem{Sheet: t.sheet.Name, Cell: grid.At(cells[0].Col, number)})
	}
	t.rows = append(t.rows, row)
	return t.budget.take(t.sheet.Name, len(t.used))
}

// sample keeps the first cells of the columns that are not used.
func (t *table) sample(cells []ooxml.Cell) {
	at := 0
	for _, c := range t.idle {
		for at < len(cells) && cells[at].Col < c.Index {
			at++
		}
		if at == len(cells) {
			return
		}
		if cells[at].Col != c.Index || cells[at].IsBlank() {
			continue
		}
		c.AddSample(cells[at].Raw)
	}
}

// cellsOf returns the cells of a column in use, from the top.
func (t *table) cellsOf(c *columns.Column) iter.Seq[cell.Raw] {
	return func(yield func(cell.Raw) bool) {
		for i := range t.rows {
			if !yield(t.rows[i].cells[c.Slot]) {
				return
			}
		}
	}
}

// isApart reports whether a row is the total of a table, or in another table.
func (t *table) isApart(raw *rawRow) bool {
	return slices.ContainsFunc(t.tables, func(o ooxml.Table) bool { return o.IsTotal(raw.number) && t.holdsWho(o) }) ||
		slices.ContainsFunc(t.others, func(o ooxml.Table) bool { return o.FirstRow <= raw.number && raw.number <= o.LastRow })
}

// onlyWords reports whether no cell in use has a digit.
func (r *rawRow) onlyWords() bool {
	return !slices.ContainsFunc(r.cells, func(c cell.Raw) bool { return strings.ContainsAny(c.Text, "0123456789") })
}

// repeatsHeader reports whether a row repeats the header, as on printed lists.
func (t *table) repeatsHeader(raw *rawRow) bool {
	same := 0
	for _, c := range t.used {
		if raw.cells[c.Slot].IsBlank() {
			continue
		}
		if text := raw.cells[c.Slot].Text; !c.SaysHeader(text) && (!raw.onlyWords() || !c.MeansHeader(text)) {
			return false
		}
		same++
	}
	return same >= 2
}

// mostJudged bounds the rows that columns are judged by, spread over the sheet.
const mostJudged = 2000

// judgedRows returns the cells of the rows that columns are judged by.
func (sr *sheetReader) judgedRows() (rows [][]cell.Raw) {
	for i := 0; i < len(sr.body.rows); i += len(sr.body.rows)/mostJudged + 1 {
		if row := &sr.body.rows[i]; !row.summary && !sr.body.isApart(row) && !sr.body.repeatsHeader(row) {
			rows = append(rows, row.cells)
		}
	}
	return rows
}

// anyResult reports whether some row has a result in the column.
func (sr *sheetReader) anyResult(c *columns.Column) bool {
	return slices.ContainsFunc(sr.body.rows, func(r rawRow) bool { return !r.cells[c.Slot].IsBlank() && !c.SaysNone(r.cells[c.Slot]) })
}

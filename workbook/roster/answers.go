package roster

import "strings"

// Answers holds what a person answered to questions about a roster.
type Answers struct {
	Columns []ColumnAnswer
	Cells   []CellAnswer
}

// ColumnAnswer says what one column holds.
type ColumnAnswer struct {
	Sheet, Header string
	Column        string // the letter, which tells columns of one header apart
	Meaning       string // a known header, or "ignore"; empty if not answered
	Place         string // of the answer, such as "week-questions.xlsx: Columns!H3"
}

// CellAnswer says what one cell holds.
type CellAnswer struct {
	Sheet, Cell string
	Person      string // of the row, because a row may be moved
	Was         string // the text of the cell when it was asked
	Instead     string // to read instead; empty if the cell is right as it is
	Place       string // of the answer
}

// AboutColumns returns the answers about the columns of a sheet.
func (a Answers) AboutColumns(sheet string) (of []ColumnAnswer) {
	for _, c := range a.Columns {
		if strings.EqualFold(c.Sheet, sheet) {
			of = append(of, c)
		}
	}
	return of
}

// AboutCells returns the answers about the cells of a sheet.
func (a Answers) AboutCells(sheet string) (of []CellAnswer) {
	for _, c := range a.Cells {
		if strings.EqualFold(c.Sheet, sheet) {
			of = append(of, c)
		}
	}
	return of
}

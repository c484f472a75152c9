package source

import (
	"fmt"
	"slices"

	"tenback/workbook/cell"
)

// Bounds of SheetText, which reads small tables.
const (
	maxTextRows = 2000
	maxTextCols = 100
)

// SheetText returns a sheet of the workbook at path as rows of text. Numbers have
// a full stop before the decimals, empty rows are left out, and rows end at their
// last filled cell. More than 2000 rows or 100 columns are an error. password is
// as in [Open].
func SheetText(path, sheet string, password func() (string, error)) ([][]string, error) {
	f, size, err := OpenFile(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	book, err := Open(path, f, size, password)
	if err != nil {
		return nil, err
	}
	s, ok := Named(book.Sheets(), sheet)
	if !ok || !s.Cells {
		var names []string
		for _, s := range book.Sheets() {
			names = append(names, s.Name)
		}
		return nil, &Error{Path: path, Kind: ErrNoSheet, Why: fmt.Sprintf("there is no sheet %q with cells; the sheets are %s", sheet, Quoted(names))}
	}
	rows, err := book.Rows(s)
	if err != nil {
		return nil, Fail(path, s.Name, err)
	}
	defer rows.Close()
	var all [][]string
	for rows.Next() {
		cells := rows.Row().Cells
		if last := cells[len(cells)-1].Col; last > maxTextCols || len(all) == maxTextRows {
			return nil, &Error{Path: path, Sheet: s.Name, Kind: ErrTooLarge,
				Why: fmt.Sprintf("a table has at most %d rows and %d columns", maxTextRows, maxTextCols)}
		}
		texts := make([]string, cells[len(cells)-1].Col)
		for _, c := range cells {
			texts[c.Col-1] = cell.Label(c.Raw)
		}
		if slices.ContainsFunc(texts, func(t string) bool { return t != "" }) {
			all = append(all, texts)
		}
	}
	if err := rows.Err(); err != nil {
		return nil, Fail(path, s.Name, err)
	}
	return all, nil
}

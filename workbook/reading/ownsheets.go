package reading

import (
	"fmt"
	"slices"

	"tenback/workbook/cell"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
)

// isGuide reports whether a sheet has the name of the guide in a starter roster.
func isGuide(sheet string) bool {
	return slices.ContainsFunc(sheetwords.Every("starter.sheet.guide"), func(name string) bool { return roster.IsNamed(sheet, name) })
}

// readPairs reads the first two columns of the sheets of a name, at most so many
// rows of each.
func (rd *reader) readPairs(name string, most int, take func(sheet string, row int, first, second string) error) error {
	for _, s := range rd.Book.Sheets() {
		if !s.Cells || !roster.IsNamed(s.Name, name) {
			continue
		}
		rows, err := rd.Book.Rows(s)
		if err != nil {
			return source.Fail(rd.path, s.Name, err)
		}
		err = rd.readPairsOf(s.Name, rows, most, take)
		rows.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

func (rd *reader) readPairsOf(sheet string, rows source.Rows, most int, take func(sheet string, row int, first, second string) error) error {
	for n := 0; rows.Next(); n++ {
		if n == most {
			return &source.Error{Path: rd.path, Sheet: sheet, Kind: source.ErrTooLarge, Why: fmt.Sprintf("there are more than %d lines", most)}
		}
		row := rows.Row()
		var texts [2]string
		for _, c := range row.Cells {
			if c.Col <= len(texts) {
				texts[c.Col-1] = cell.Label(c.Raw)
			}
		}
		if err := take(sheet, row.Number, texts[0], texts[1]); err != nil {
			return err
		}
	}
	if err := rows.Err(); err != nil {
		return source.Fail(rd.path, sheet, err)
	}
	return nil
}

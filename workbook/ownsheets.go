package workbook

import (
	"fmt"
	"strings"

	"tenback/workbook/cell"
)

// isNamed tells whether a sheet has the name of one of those that tell tenback
// something; blanks and case do not count.
func isNamed(sheet, want string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(sheet), " "), want)
}

// isOwnSheet tells a sheet that is for tenback and holds no people.
func isOwnSheet(name string) bool { return isNamed(name, MappingSheet) || isNamed(name, SettingsSheet) }

// readPairs reads the first two columns of the sheets of a name, at most so many
// lines of each.
func (rd *reader) readPairs(name string, most int, take func(sheet string, row int, first, second string) error) error {
	for _, s := range rd.book.Sheets() {
		if !s.Cells || !isNamed(s.Name, name) {
			continue
		}
		rows, err := rd.book.Rows(s)
		if err != nil {
			return fromFile(rd.path, s.Name, err)
		}
		err = rd.readPairsOf(s.Name, rows, most, take)
		rows.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

func (rd *reader) readPairsOf(sheet string, rows sheetRows, most int, take func(sheet string, row int, first, second string) error) error {
	for n := 0; rows.Next(); n++ {
		if n == most {
			return &OpenError{Path: rd.path, Sheet: sheet, Kind: ErrTooLarge, Why: fmt.Sprintf("there are more than %d lines", most)}
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
		return fromFile(rd.path, sheet, err)
	}
	return nil
}

package workbook

import (
	"fmt"
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
)

// MappingSheet is the name of a sheet that says what columns hold: a header in
// its first column, and beside it a header that is known, or "ignore".
const MappingSheet = "tenback columns"

// maxMapped bounds the rows of the mapping sheet.
const maxMapped = 1000

func isMappingSheet(name string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(name), " "), MappingSheet)
}

// readMapping takes the names that the workbook itself gives to columns. Those
// given in the options count first.
func (rd *reader) readMapping() error {
	for _, s := range rd.book.Sheets() {
		if !s.Cells || !isMappingSheet(s.Name) {
			continue
		}
		rows, err := rd.book.Rows(s)
		if err != nil {
			return fromFile(rd.path, s.Name, err)
		}
		err = rd.readMappings(s.Name, rows)
		rows.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

func (rd *reader) readMappings(sheet string, rows sheetRows) error {
	for n := 0; rows.Next(); n++ {
		row := rows.Row()
		if n == maxMapped {
			return &OpenError{Path: rd.path, Sheet: sheet, Kind: ErrTooLarge, Why: fmt.Sprintf("there are more than %d lines", maxMapped)}
		}
		var header, meaning string
		for _, c := range row.Cells {
			switch c.Col {
			case 1:
				header = cell.Label(c.Raw)
			case 2:
				meaning = cell.Label(c.Raw)
			}
		}
		if header == "" || meaning == "" || headerKey(meaning) == "meaning" {
			continue
		}
		if why := rd.unknownMeaning(meaning); why != "" {
			return &OpenError{Path: rd.path, Sheet: sheet, Kind: ErrColumn, Why: grid.At(2, row.Number) + ": " + why}
		}
		if key := headerKey(header); rd.renamed[key] == "" {
			rd.renamed[key] = meaning
		}
	}
	if err := rows.Err(); err != nil {
		return fromFile(rd.path, sheet, err)
	}
	return nil
}

// unknownMeaning says what is wrong with the name that the user gave to a
// column; empty if nothing is.
func (rd *reader) unknownMeaning(known string) string {
	if _, ok := rd.words.match(known); ok || headerKey(known) == ignored {
		return ""
	}
	why := fmt.Sprintf("%q is no column known here", known)
	if near, ok := rd.words.nearest(known); ok {
		why += fmt.Sprintf("; did you mean %q?", near)
	}
	return why
}

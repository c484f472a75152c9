package workbook

import (
	"fmt"

	"tenback/workbook/grid"
)

// MappingSheet is the name of a sheet that says what columns hold: a header in
// its first column, and beside it a header that is known, or "ignore".
const MappingSheet = "tenback columns"

// maxMapped bounds the rows of the mapping sheet.
const maxMapped = 1000

// readMapping takes the names that the workbook itself gives to columns. Those
// given in the options count first.
func (rd *reader) readMapping() error {
	return rd.readPairs(MappingSheet, maxMapped, func(sheet string, row int, header, meaning string) error {
		if header == "" || meaning == "" || headerKey(meaning) == "meaning" {
			return nil
		}
		if why := rd.unknownMeaning(meaning); why != "" {
			return &OpenError{Path: rd.path, Sheet: sheet, Kind: ErrColumn, Why: grid.At(2, row) + ": " + why}
		}
		if key := headerKey(header); rd.renamed[key] == "" {
			rd.renamed[key] = meaning
		}
		return nil
	})
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

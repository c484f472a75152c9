package reading

import (
	"fmt"

	"tenback/workbook/grid"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// maxMapped is the most rows of the mapping sheet.
const maxMapped = 1000

// readMapping reads the names that the workbook gives to columns. Those in the
// options win.
func (rd *reader) readMapping() error {
	return rd.readPairs(roster.MappingSheet, maxMapped, func(sheet string, row int, header, meaning string) error {
		if header == "" || meaning == "" || heading.Key(meaning) == "meaning" {
			return nil
		}
		if why := unknownMeaning(meaning); why != "" {
			return &source.Error{Path: rd.path, Sheet: sheet, Kind: source.ErrColumn, Why: grid.At(2, row) + ": " + why}
		}
		if key := heading.Key(header); rd.names.Renamed[key] == "" {
			rd.names.Renamed[key] = meaning
		}
		return nil
	})
}

// unknownMeaning returns what is wrong with a new name of a column; empty if
// nothing is.
func unknownMeaning(known string) string {
	if _, ok := heading.Match(known); ok || heading.Key(known) == header.Ignored {
		return ""
	}
	why := fmt.Sprintf("%q is not a known column", known)
	if near, ok := heading.Nearest(known); ok {
		why += fmt.Sprintf("; did you mean %q?", near)
	}
	return why
}

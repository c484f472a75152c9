package reading

import (
	"tenback/workbook/columns"
	"tenback/workbook/grid"
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
		if why := columns.UnknownMeaning(meaning); why != "" {
			return &source.Error{Path: rd.path, Sheet: sheet, Kind: source.ErrColumn, Why: grid.At(2, row) + ": " + why}
		}
		if key := heading.Key(header); rd.Names.Renamed[key] == "" {
			rd.Names.Renamed[key] = meaning
		}
		return nil
	})
}

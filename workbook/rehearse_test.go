package workbook

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
)

// TestRehearsal: the rehearsal fails exactly where writing does, and with the same
// words, whatever form strangers give a workbook.
func TestRehearsal(t *testing.T) {
	const (
		sheet  = "xl/worksheets/sheet1.xml"
		styles = "xl/styles.xml"
	)
	for name, c := range map[string]struct {
		part, from, to string
		why            string // empty if the results can be written
	}{
		"as it is":            {sheet, "", "", ""},
		"drop-down list":      {sheet, "</worksheet>", `<dataValidations count="1"><dataValidation type="list" sqref="B4:B7"><formula1>Other!$B$2:$B$3</formula1></dataValidation></dataValidations></worksheet>`, ""},
		"sparklines":          {sheet, "</worksheet>", `<extLst><ext uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}" xmlns:x14="u"><x14:sparkline xmlns:xm="m"><xm:f>Other!B2:B3</xm:f></x14:sparkline></ext></extLst></worksheet>`, ""},
		"rows out of order":   {sheet, "</sheetData>", `<row r="2"/></sheetData>`, "rows are out of order"},
		"cells out of order":  {sheet, "</sheetData>", `<row r="12"><c r="C12"/><c r="A12"/></row></sheetData>`, "cells are out of order"},
		"alternative formats": {styles, "</cellXfs>", `<mc:AlternateContent xmlns:mc="m"><mc:Choice><xf/></mc:Choice></mc:AlternateContent></cellXfs>`, "choice of formats"},
	} {
		t.Run(name, func(t *testing.T) {
			src := testWorkbook(t)
			odd := filepath.Join(filepath.Dir(src), "odd.xlsx")
			if c.from == "" {
				odd = src
			} else {
				rezip(t, src, odd, c.part, c.from, c.to)
			}
			roster := mustOpen(t, odd)
			_, rehearsed := Rehearse(context.Background(), roster, scoreAll(roster), WriteOptions{})
			_, written := WriteResults(context.Background(), roster, scoreAll(roster), odd, inPlace)
			if c.why == "" && (rehearsed != nil || written != nil) {
				t.Fatalf("rehearsed: %v; written: %v", rehearsed, written)
			}
			if c.why == "" {
				return
			}
			if written == nil || rehearsed == nil || !strings.Contains(rehearsed.Error(), c.why) ||
				strings.TrimPrefix(rehearsed.Error(), "the results cannot be written: ") != strings.TrimPrefix(written.Error(), "the results were not written: ") {
				t.Errorf("rehearsed: %v; written: %v", rehearsed, written)
			}
		})
	}
}

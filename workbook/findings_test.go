package workbook

import (
	"fmt"
	"slices"
	"testing"

	"tenback/scoring"
)

func TestFindings(t *testing.T) {
	roster := &Roster{Sheets: []*Sheet{{Name: "5a", HeaderRow: 2}, {Name: "5b", HeaderRow: 1}}}
	problem := func(sheet, cell, what string, blocking bool) Problem {
		return Problem{Sheet: sheet, Cell: cell, What: scoring.Verbatim(what), Blocking: blocking}
	}
	var all []Problem
	all = append(all, problem("5b", "A4", "there is no such date", true), problem("5a", "", "hidden", false), problem("5a", "F2", "header", false),
		problem("5a", "B9", "seconds beside minutes", true), problem("5a", "C2", "no test in the header", true))
	for row := 30; row > 2; row-- {
		all = append(all, problem("5a", fmt.Sprintf("F%d", row), fmt.Sprintf("this could be 11:%02d (minutes and seconds) or 11.%02d minutes", row, row), true))
	}
	all = append(all, problem("5b", "AA10", "read as not tested", false), problem("5b", "B10", "read as not tested", false), problem("5b", "B9", "read as not tested", false), problem("5b", "B9", "read as not tested", false))
	findings := roster.Findings(all)
	var got []string
	for i := range findings {
		got = append(got, findings[i].Where()+": "+findings[i].What.String())
	}
	want := []string{
		"5a!C2: no test in the header",
		"5a: 28 cells in column F: F3, F4, F5, F6, F7, F8, F9, F10, F11, F12 and 18 more: this could be 11:03 (minutes and seconds) or 11.03 minutes",
		"5a!B9: seconds beside minutes",
		"5b!A4: there is no such date",
		"5a: hidden", "5a!F2: header",
		"5b!B9: read as not tested", "5b!B10: read as not tested", "5b!AA10: read as not tested",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
	if n := CellCount(findings); n != 36 {
		t.Errorf("%d cells, want 36", n)
	}
	if len(roster.Findings(nil)) != 0 {
		t.Error("findings of nothing")
	}
}

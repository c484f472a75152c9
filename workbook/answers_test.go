package workbook

import (
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// TestAnswers holds that an answer is for its column or cell alone, and only
// while what was asked about is still there.
func TestAnswers(t *testing.T) {
	read := func(columns []roster.ColumnAnswer, cells ...roster.CellAnswer) *Roster {
		t.Helper()
		return readRows(t, ReadOptions{Answers: roster.Answers{Columns: columns, Cells: cells}},
			[]any{"Name", "Go", "Go", "Sex", "Age"}, []any{"Ann", "8:10", "9:00", "f", "12"}, []any{"Bo", "8:20", "9:10", "m", "120"})
	}
	mile := []roster.ColumnAnswer{{Sheet: "People", Column: "B", Header: "Go", Meaning: "1 mile run", Place: "q!B2"}, {Sheet: "People", Column: "C", Header: "Go", Meaning: "ignore", Place: "q!B3"}}
	r := read(mile, roster.CellAnswer{Sheet: "People", Cell: "E3", Person: "Bo", Was: "120", Instead: "12", Place: "q!C2"})
	row := r.Sheets[0].Rows[1]
	if age, _ := row.Entry.Get(scoring.Age); age.Amount != 12 || len(row.Entry.Trials) != 1 || len(row.Problems) > 0 {
		t.Errorf("read %v, %v, %v", row.Entry.Trials, age, row.Problems)
	}
	for name, r := range map[string]*Roster{
		"moved columns":  read([]roster.ColumnAnswer{mile[0], {Sheet: "People", Column: "A", Header: "Go", Meaning: "ignore", Place: "q!B3"}}),
		"changed cell":   read(mile, roster.CellAnswer{Sheet: "People", Cell: "E3", Person: "Bo", Was: "121", Instead: "12", Place: "q!C2"}),
		"moved person":   read(mile, roster.CellAnswer{Sheet: "People", Cell: "E3", Person: "Ann", Was: "120", Instead: "12", Place: "q!C2"}),
		"missing sheet":  read(append([]roster.ColumnAnswer{{Sheet: "old", Column: "B", Header: "Go", Meaning: "ID", Place: "q!B4"}}, mile...)),
		"missing column": read(append([]roster.ColumnAnswer{{Sheet: "People", Column: "F", Header: "Came", Meaning: "ID", Place: "q!B4"}}, mile...)),
	} {
		if !slices.ContainsFunc(r.Problems, func(p Problem) bool { return strings.Contains(p.What.String(), "not used") }) {
			t.Errorf("%s: said %v", name, r.Problems)
		}
	}
}

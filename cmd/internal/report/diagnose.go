package report

import (
	"fmt"
	"io"
	"maps"
	"slices"

	"tenback/cmd/internal/terminal"
	"tenback/workbook"
	"tenback/workbook/grid"
)

// Diagnose prints what was read, without any text of the roster.
func Diagnose(w io.Writer, read Scored) {
	roster, outcomes := read.Roster, read.Outcomes
	fmt.Fprintf(w, "text file %t, password %t, signed %t\n", roster.In.Text, roster.Locked(), roster.Signed)
	names := map[string]string{}
	for i, s := range slices.Concat(roster.Sheets, roster.Lists) {
		names[s.Name] = fmt.Sprintf("sheet %d", i+1)
		fmt.Fprintf(w, "\n%s, header in row %d, %s\n", names[s.Name], s.HeaderRow, terminal.Count(len(s.Rows), "row", "rows"))
		for _, c := range s.Columns {
			fmt.Fprintf(w, "  %-3s → %s\n", grid.Column(c.Index), c.Meaning)
		}
	}
	seen := map[string]int{}
	for i := range outcomes {
		score := outcomes[i].Score(&read.Options)
		if best := score.Best(); best != nil {
			seen["scored by "+best.Equation.ID]++
		}
		for _, r := range outcomes[i].TalkFirst {
			seen["to talk about: "+r.Input.Info().Name]++
		}
		for _, f := range score.Flags {
			seen["remark "+f.Code.ID()]++
		}
	}
	for _, f := range Findings(roster, outcomes) {
		kind := "remark"
		if f.Blocking {
			kind = "problem"
		}
		seen[fmt.Sprintf("%s in %s: %s", kind, names[f.Sheet], workbook.WordsAlone(f.What.String()))] += max(1, len(f.All))
	}
	fmt.Fprintf(w, "\n%s, %d left out\n", CountPeople(outcomes), countLeftOut(outcomes))
	for _, what := range slices.Sorted(maps.Keys(seen)) {
		fmt.Fprintf(w, "  %4d %s\n", seen[what], what)
	}
}

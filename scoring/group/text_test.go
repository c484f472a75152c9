package group

import (
	"fmt"
	"strings"
)

// text writes a summary as plain lines, for tests to compare and to look at.
func text(s Summary) string {
	var b strings.Builder
	for _, t := range s.Tables {
		fmt.Fprintf(&b, "%s\n", t.Title())
		for i, row := range t.Rows {
			fmt.Fprintf(&b, "  %s:", row.Text)
			for j, c := range t.Cells[i] {
				if len(t.Columns) > 1 {
					fmt.Fprintf(&b, " %s", t.Columns[j].Text)
				}
				fmt.Fprintf(&b, " %s", cellText(c))
			}
			b.WriteString("\n")
		}
	}
	for _, f := range s.Figures {
		fmt.Fprintf(&b, "%s, %s: %s, n %s: %s %s %s\n", [...]string{"VO2max", "resting rate"}[f.Quantity], f.Part, f.Of.Text, cellText(f.People),
			valueText(f.LowerQuartile), valueText(f.Median), valueText(f.UpperQuartile))
	}
	for _, p := range s.TooSmall {
		fmt.Fprintf(&b, "too small: %s\n", p)
	}
	for _, w := range s.Withheld {
		fmt.Fprintf(&b, "withheld: %s, %s\n", w.ID, w.Part)
	}
	return b.String()
}

func cellText(c Cell) string {
	switch {
	case !c.Shown:
		return "-"
	case c.HasShare:
		return fmt.Sprintf("%d (%.0f %%)", c.Count, 100*c.Share)
	}
	return fmt.Sprint(c.Count)
}

func valueText(v Value) string {
	if !v.Shown {
		return "-"
	}
	return fmt.Sprint(v.Amount)
}

// The names of tables in what tests print; those of the pages are in the templates.
var titles = [tableCount]string{
	PeopleTable: "People", ByGroup: "By class or department", BySex: "By sex", ByAge: "By age",
	ByTest: "Tests used", ByStanding: "Fitness", ByResting: "Resting heart rate", ByReason: "Why not", ByChange: "Change since the last round",
	GroupBySex: "By class or department and sex", AgeBySex: "By age and sex", GroupByStanding: "Fitness by class or department",
}

// String names the table without its part.
func (id TableID) String() string { return titles[id] }

// Title is the table's heading.
func (t *Table) Title() string {
	if t.ID == PeopleTable {
		return titles[t.ID]
	}
	return titles[t.ID] + ", " + t.Part.String()
}

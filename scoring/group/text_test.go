package group

import (
	"fmt"
	"strings"

	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// text writes a summary as plain lines, for tests to compare and to look at.
func text(s Summary) string {
	var b strings.Builder
	for _, t := range s.Tables {
		fmt.Fprintf(&b, "%s\n", t.Title())
		for i, row := range t.Rows {
			fmt.Fprintf(&b, "  %s:", textOf(row))
			for j, c := range t.Cells[i] {
				if len(t.Columns) > 1 {
					fmt.Fprintf(&b, " %s", textOf(t.Columns[j]))
				}
				fmt.Fprintf(&b, " %s", cellText(c))
			}
			b.WriteString("\n")
		}
	}
	for _, f := range s.Figures {
		fmt.Fprintf(&b, "%s, %s: %s, n %s: %s %s %s\n", [...]string{"VO2max", "resting rate"}[f.Quantity], partNames[f.Part], textOf(f.Of), cellText(f.People),
			valueText(f.LowerQuartile), valueText(f.Median), valueText(f.UpperQuartile))
	}
	for _, p := range s.TooSmall {
		fmt.Fprintf(&b, "too small: %s\n", partNames[p])
	}
	for _, w := range s.Withheld {
		fmt.Fprintf(&b, "withheld: %s, %s\n", w.ID, partNames[w.Part])
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
	return titles[t.ID] + ", " + partNames[t.Part]
}

var partNames = [partCount]string{"18 and over", "under 18", "without a place in the tables"}

// names are what tests print for keys.
var names = map[string]string{
	"all": "All", "adults": partNames[Adults], "youth": partNames[Youth], "unplaced": partNames[Unplaced],
	"no-group": "none given", "sex-female": "female", "sex-male": "male", "line-below": "below the health line", "line-above": "at the health line or above",
	"resting-not-given": "not given", "resting-given": "given", "resting-very-slow": "under 40", "resting-fit": "40–59", "resting-usual": "60–69",
	"resting-raised": "70–80", "resting-fast": "above 80",
	"adults-1": "lowest quarter", "adults-2": "second quarter", "adults-3": "third quarter", "adults-4": "top quarter", "adults-5": "top twentieth",
	"reason-no-result": "no test result", "reason-unreadable": "a cell could not be read", "reason-value-missing": "a value that the test needs is missing",
	"reason-not-usable": "the result cannot be used", "reason-own-norms": "a test that gives no VO2max", "reason-age-missing": "age not given",
	"reason-sex-missing": "sex not given", "reason-no-table": "no table for the age",
	"change-undated": "day of the test missing", "change-new": "tested for the first time", "change-other": "tested before, not compared",
	"change-fall": "really fell", "change-unclear": "no change that can be told", "change-rise": "really rose",
}

func textOf(l Label) string {
	if l.Ages != (reference.Ages{}) {
		return l.Ages.String()
	}
	if len(l.Of) == 0 {
		l.Of, l.Texts = []string{l.Key}, []string{l.Text}
	}
	var all []string
	for i, key := range l.Of {
		text := l.Texts[i]
		if test, ok := fieldtests.ByID(strings.TrimPrefix(key, "test-")); ok {
			text = test.Name
		} else if names[key] != "" {
			text = names[key]
		}
		all = append(all, text)
	}
	return strings.Join(all, ", ")
}

package group

import (
	"fmt"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/change"
)

// rowsOf is a table of one thing in words.
func rowsOf(s Summary, id TableID, part Part) string {
	for _, t := range s.Tables {
		if t.ID != id || t.Part != part {
			continue
		}
		var rows []string
		for i, l := range t.Rows {
			rows = append(rows, fmt.Sprintf("%s %d", l.Key, t.Cells[i][0].Count))
		}
		return strings.Join(rows, ", ")
	}
	return ""
}

func TestChangeOfAGroup(t *testing.T) {
	man := someone{group: "A", sex: scoring.Male, age: 40, vo2: 38}
	of := func(n int, key string) []someone {
		s := man
		s.change = key
		return times(n, s)
	}
	for _, c := range []struct {
		name   string
		people []someone
		left   int
		table  string
		mean   string // of how many, and whether that is told
		gone   string
		alike  bool // all changed by the same
	}{
		{"one round", times(12, man), 0, "", "", "", false},
		{"all told", all(of(6, "change-new"), of(5, "change-fall"), of(8, "change-unclear"), of(9, "change-rise")), 7,
			"change-new 6, change-fall 5, change-unclear 8, change-rise 9, all 28", "22 told", "7", false},
		{"few fell", all(of(6, "change-new"), of(2, "change-fall"), of(8, "change-unclear"), of(9, "change-rise")), 0,
			"change-new+change-fall 8, change-unclear 8, change-rise 9, all 25", "19", "hidden", false},
		{"one is new", all(of(1, "change-new"), of(9, "change-fall"), of(9, "change-rise")), 4,
			"change-new+change-fall 10, change-unclear+change-rise 9, all 19", "18", "hidden", false},
		{"the day of some is not known", all(of(6, "change-undated"), of(6, "change-new"), of(9, "change-fall"), of(9, "change-rise")), 0,
			"change-undated 6, change-new 6, change-fall 9, change-unclear+change-rise 9, all 30", "18 told", "hidden", false},
		{"nobody is new", all(of(9, "change-fall"), of(9, "change-rise")), 5, "change-fall 9, change-unclear+change-rise 9, all 18", "18 told", "5", false},
		{"nine compared", all(of(9, "change-rise"), of(6, "change-new")), 0, "change-new+change-fall 6, change-unclear+change-rise 9, all 15", "", "hidden", false},
		{"all rose", of(12, "change-rise"), 0, "", "12 told", "hidden", false},
		{"all rose by the same", of(12, "change-rise"), 0, "", "", "hidden", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var members []Member
			for i, p := range c.people {
				m := p.member()
				if m.Change != nil && !c.alike {
					m.Change.Difference += scoring.VO2(i % 3)
				}
				members = append(members, m)
			}
			for range c.left {
				members = append(members, Member{Presence: change.Left})
			}
			s, err := Summarise(members, DefaultSmallest)
			if err != nil {
				t.Fatal(err)
			}
			if got := rowsOf(s, ByChange, Adults); got != c.table {
				t.Errorf("table %q, want %q", got, c.table)
			}
			mean, gone := "", ""
			if s.Seasons != nil {
				gone = "hidden"
				if s.Seasons.Left.Shown {
					gone = fmt.Sprint(s.Seasons.Left.Count)
				}
				for _, m := range s.Seasons.Changes {
					n := 0
					for _, p := range c.people {
						if p.change == "change-fall" || p.change == "change-unclear" || p.change == "change-rise" {
							n++
						}
					}
					if mean = fmt.Sprint(n); m.People.Shown {
						mean += " told"
						if m.People.Count != n {
							t.Errorf("mean of %d people, said of %d", n, m.People.Count)
						}
					}
				}
			}
			if mean != c.mean || gone != c.gone {
				t.Errorf("mean of %q, left %q; want %q and %q", mean, gone, c.mean, c.gone)
			}
			for _, table := range s.Tables {
				if table.ID == PeopleTable && table.Cells[Adults][0].Count != len(c.people) {
					t.Errorf("who left is counted among the people: %d", table.Cells[Adults][0].Count)
				}
			}
		})
	}
}

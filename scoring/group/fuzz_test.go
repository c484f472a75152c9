package group

import "testing"

// palette is what the fuzz target picks people from.
var palette = []someone{
	{sex: f, age: 40, vo2: 20, resting: 60}, {sex: m, age: 40, vo2: 45, resting: 85}, {sex: f, age: 19, vo2: 60}, {sex: m, age: 85, vo2: 15, resting: 38},
	{sex: f, age: 12, vo2: 50, resting: 90}, {sex: m, age: 12, vo2: 30}, {sex: m, age: 9, vo2: 45}, {sex: f, age: 5, vo2: 45},
	{age: 40, vo2: 30}, {sex: f, vo2: 30}, {sex: f, age: 40}, {sex: m, age: 30, test: "run-1.5-mile 720"}, {sex: m, age: 30, test: "run-1.5-mile 300"},
	{sex: f, age: 70, test: "step-in-place-2-min 90"}, {leftOut: Unreadable}, {sex: f, age: 40, test: "walk-1-mile 900"},
}

// FuzzSummarise reads people as bytes, half for who they are and half for their
// group, and holds what must be true of any summary.
func FuzzSummarise(fz *testing.F) {
	fz.Add([]byte{0, 1, 2, 16, 17, 18, 32, 33, 4, 5, 20, 21}, "A\nB\na ", 5)
	fz.Add([]byte{0, 0, 0, 0, 16, 16, 16, 16, 16, 32, 32, 32, 32, 1, 1, 1, 1, 17, 17, 17, 17, 17}, "7a\n7b\n\xff", 3)
	fz.Fuzz(func(t *testing.T, people []byte, groups string, smallest int) {
		if len(people) > 300 {
			return
		}
		names := []string{""}
		from := 0
		for i, r := range groups {
			if r == '\n' {
				names, from = append(names, groups[from:i]), i+1
			}
		}
		names = append(names, groups[from:])
		var members []Member
		for _, b := range people {
			member := palette[b&15].member()
			member.Group = names[int(b>>4)%len(names)]
			members = append(members, member)
		}
		s, err := Summarise(members, smallest)
		if (err != nil) != (smallest < LeastSmallest) {
			t.Fatalf("smallest %d: %v", smallest, err)
		}
		parts := map[Part]int{}
		for _, table := range s.Tables {
			checkTable(t, &table, smallest, len(people))
			for p := range partCount {
				if table.ID == PeopleTable {
					parts[p] = table.Cells[p][0].Count
				}
			}
		}
		for _, figure := range s.Figures {
			if missing := parts[figure.Part] - figure.People.Count; figure.Quantity == RestingRate && figure.People.Shown && missing != 0 && missing < smallest {
				t.Errorf("a figure tells that %d people have no resting rate", missing)
			}
			if figure.People.Shown && (figure.People.Count < smallest || figure.People.Count > len(people)) {
				t.Errorf("a figure of %d people", figure.People.Count)
			}
			if l, h := figure.LowerQuartile, figure.UpperQuartile; l.Shown && h.Shown && l.Amount > h.Amount {
				t.Errorf("quartiles %v and %v", l.Amount, h.Amount)
			}
		}
	})
}

// checkTable holds that no cell is small and that all rows and columns add up.
func checkTable(t *testing.T, table *Table, smallest, people int) {
	rows, columns := len(table.Rows)-1, len(table.Columns)-1
	if len(table.Cells) != rows+1 || table.Rows[rows].Key != "all" || table.Columns[columns].Key != "all" {
		t.Fatalf("%s: its shape", table.Title())
	}
	for i, row := range table.Cells {
		sum := 0
		for j, c := range row {
			switch {
			case !c.Shown && c != Cell{}:
				t.Errorf("%s: a hidden cell holds %+v", table.Title(), c)
			case !c.Shown && table.ID != PeopleTable:
				t.Errorf("%s: row %d, column %d is hidden", table.Title(), i, j)
			case c.Shown && (c.Count < smallest || c.Count > people):
				t.Errorf("%s: %d people in a cell", table.Title(), c.Count)
			}
			if j < columns {
				sum += c.Count
			}
		}
		if columns > 0 && sum != row[columns].Count {
			t.Errorf("%s: row %d adds up to %d, not %d", table.Title(), i, sum, row[columns].Count)
		}
	}
	if table.ID == PeopleTable {
		return
	}
	for j := range columns + 1 {
		sum := 0
		for i := range rows {
			sum += table.Cells[i][j].Count
		}
		if sum != table.Cells[rows][j].Count {
			t.Errorf("%s: column %d adds up to %d, not %d", table.Title(), j, sum, table.Cells[rows][j].Count)
		}
	}
}

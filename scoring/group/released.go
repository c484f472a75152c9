package group

import (
	"slices"
	"strings"
	"time"

	"tenback/scoring/change"
)

// Release is what a summary printed, in counts. It says nothing about a person, and
// later summaries are held against it.
type Release struct {
	Round    time.Time // first day of the round of testing; zero if no day is known
	Smallest int
	Counts   []Count
}

// Count is one printed count of people.
type Count struct {
	Table  string // with the part of the people
	Row    []string
	Column []string // empty in a table by one variable
	People int
}

// Release returns what the summary prints of a round.
func (s *Summary) Release(round time.Time) Release {
	r := Release{Round: round, Smallest: s.Smallest}
	for _, t := range s.Tables {
		name := tableKeys[t.ID]
		if t.ID != PeopleTable {
			name += "/" + partKeys[t.Part]
		}
		for i, row := range t.Rows {
			for j, column := range t.Columns {
				cell := t.Cells[i][j]
				if row.Key == AllKey || len(t.Columns) > 1 && column.Key == AllKey || !cell.Shown {
					continue
				}
				c := Count{Table: name, Row: row.categories(), People: cell.Count}
				if len(t.Columns) > 1 {
					c.Column = column.categories()
				}
				r.Counts = append(r.Counts, c)
			}
		}
	}
	return r
}

// tableKeys are the stable names of the tables.
var tableKeys = [tableCount]string{"people", "group", "sex", "age", "test", "standing", "resting", "reason", "change", "group-sex", "age-sex", "group-standing"}

// mayBeNone are the tables in which zero says only that nobody of a kind was tested.
var mayBeNone = []string{"people", "group", "sex", "age", "test", "reason", "group-sex", "age-sex"}

// categories are what a row or column joins. Classes go by name, because their keys
// follow the order of a roster.
func (l Label) categories() []string {
	switch {
	case len(l.Texts) > 0:
		var all []string
		for i, text := range l.Texts {
			if text == "" {
				text = l.Of[i]
			}
			all = append(all, groupKey(text))
		}
		return all
	case l.Text != "":
		return []string{groupKey(l.Text)}
	case len(l.Of) > 0:
		return l.Of
	}
	return []string{l.Key}
}

// releasesMost bounds the summaries of one round, because each doubles the ways to
// combine them.
const releasesMost = 6

// SameRound reports whether two releases are of one round of testing, which an unknown
// day may be of.
func (r Release) SameRound(other Release) bool {
	return len(change.Rounds([][]time.Time{{r.Round, other.Round}})) < 2
}

// Exposes reports whether fewer people than the smallest count, or that a category is
// empty, could be worked out by adding this release and earlier ones of the same round
// to each other or subtracting them.
//
// Each difference must leave every count of a table as it is, or change every count by
// at least the smallest number. Rounds of testing are independent: everybody was
// measured again.
func (r Release) Exposes(earlier []Release) bool {
	smallest := r.Smallest
	var same []Release
	for _, e := range earlier {
		if r.SameRound(e) && !slices.ContainsFunc(same, e.equals) {
			same = append(same, e)
			smallest = max(smallest, e.Smallest)
		}
	}
	if slices.ContainsFunc(same, r.equals) {
		return false // nothing new
	}
	if len(same) > releasesMost {
		return true
	}
	combinations := 1
	for range same {
		combinations *= 3
	}
	for n := 1; n < combinations; n++ {
		used, signs := []Release{r}, []int{1}
		for i, rest := 0, n; i < len(same); i, rest = i+1, rest/3 {
			if sign := []int{0, -1, 1}[rest%3]; sign != 0 {
				used, signs = append(used, same[i]), append(signs, sign)
			}
		}
		if slices.Contains(signs, -1) && exposed(used, signs, smallest) {
			return true
		}
	}
	return false
}

func (r Release) equals(other Release) bool {
	return slices.EqualFunc(r.Counts, other.Counts, func(a, b Count) bool {
		return a.Table == b.Table && slices.Equal(a.Row, b.Row) && slices.Equal(a.Column, b.Column) && a.People == b.People
	})
}

// exposed reports whether the sum of releases, with signs, has a small count.
func exposed(releases []Release, signs []int, smallest int) bool {
	tables := map[string]int{} // in how many releases
	for _, r := range releases {
		seen := map[string]bool{}
		for _, c := range r.Counts {
			if !seen[c.Table] {
				seen[c.Table] = true
				tables[c.Table]++
			}
		}
	}
	for table, n := range tables {
		if n == len(releases) && exposedTable(table, releases, signs, smallest) {
			return true
		}
	}
	return false
}

// exposedTable reports the same of one table, whose rows and columns are joined until
// they are comparable.
func exposedTable(table string, releases []Release, signs []int, smallest int) bool {
	rows, columns := joined{}, joined{}
	for _, r := range releases {
		for _, c := range r.Counts {
			if c.Table == table {
				rows.join(c.Row)
				columns.join(c.Column)
			}
		}
	}
	sums := map[string]map[string]int{}
	for i, r := range releases {
		for _, c := range r.Counts {
			if c.Table != table {
				continue
			}
			row, column := rows.of(c.Row), columns.of(c.Column)
			if len(c.Column) == 0 { // a table by one variable is one row
				row, column = "", row
			}
			if sums[row] == nil {
				sums[row] = map[string]int{}
			}
			sums[row][column] += signs[i] * c.People
		}
	}
	name, _, _ := strings.Cut(table, "/")
	none := slices.Contains(mayBeNone, name)
	for _, row := range sums {
		zeros, small := 0, false
		for _, n := range row {
			switch {
			case n == 0:
				zeros++
			case n > -smallest && n < smallest:
				small = true
			}
		}
		if small || !none && zeros > 0 && zeros < len(row) {
			return true
		}
	}
	return false
}

// joined are categories that are counted together in some release.
type joined map[string]string

// join joins categories.
func (j joined) join(categories []string) {
	for _, c := range categories {
		if a, b := j.root(categories[0]), j.root(c); a != b {
			j[b] = a
		}
	}
}

// root returns the name of what a category is joined to.
func (j joined) root(category string) string {
	for j[category] != "" && j[category] != category {
		category = j[category]
	}
	return category
}

func (j joined) of(categories []string) string {
	if len(categories) == 0 {
		return ""
	}
	return j.root(categories[0])
}

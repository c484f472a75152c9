package group

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
)

// reader is someone who has nothing but what is printed, puts all of it
// together and wants to know how many people are in each category, and in each
// pair of categories that a table is about. An unknown is named by its part and
// the categories: "adults/group-2/sex-female".
type reader struct {
	at        map[string]int
	names     []string
	least     []float64
	equations []map[int]float64
	right     []float64
	spare     int // unknowns for what an inequality leaves open
}

// axes are what the rows and the columns of a table go by; the empty one is
// everyone.
var axes = map[TableID][2]string{
	ByGroup: {"group", ""}, BySex: {"sex", ""}, ByAge: {"age", ""}, ByTest: {"test", ""}, ByStanding: {"standing", ""},
	ByResting: {"resting", ""}, ByReason: {"reason", ""}, ByChange: {"change", ""},
	GroupBySex: {"group", "sex"}, AgeBySex: {"age", "sex"}, GroupByStanding: {"group", "standing"},
}

// named are the axes whose categories are there only if someone is in them.
var named = []string{"group", "sex", "age", "test", "reason"}

func (r *reader) unknown(name string) int {
	if r.at == nil {
		r.at = map[string]int{}
	}
	i, known := r.at[name]
	if !known {
		i = len(r.names)
		r.at[name] = i
		r.names = append(r.names, name)
		r.least = append(r.least, 0)
	}
	return i
}

// equals notes that some unknowns add up to a number, less another unknown if
// there is one.
func (r *reader) equals(names []string, less string, sum float64) {
	e := map[int]float64{}
	for _, n := range names {
		e[r.unknown(n)]++
	}
	if less != "" {
		e[r.unknown(less)]--
	}
	r.equations = append(r.equations, e)
	r.right = append(r.right, sum)
}

// atMost notes that some unknowns add up to no more than a number.
func (r *reader) atMost(names []string, sum float64) {
	r.spare++
	r.equals(append(slices.Clone(names), fmt.Sprint("spare/", r.spare)), "", sum)
}

func (r *reader) atLeast(names []string, sum float64) {
	r.spare++
	r.equals(names, fmt.Sprint("spare/", r.spare), sum)
}

// keysOf lists the categories that a label stands for.
func keysOf(l Label) []string {
	if len(l.Of) > 0 {
		return l.Of
	}
	return []string{l.Key}
}

// read takes in the tables of a summary.
func (r *reader) read(tables []Table) {
	categories := map[string][]string{} // of each part and axis
	add := func(part, axis string, labels []Label) {
		for _, l := range labels[:len(labels)-1] {
			for _, key := range keysOf(l) {
				if at := part + "/" + axis; !slices.Contains(categories[at], key) {
					categories[at] = append(categories[at], key)
				}
			}
		}
	}
	for _, t := range tables {
		if t.ID == PeopleTable {
			for i, row := range t.Rows {
				if t.Cells[i][0].Shown {
					r.equals([]string{row.Key}, "", float64(t.Cells[i][0].Count))
				}
			}
			r.equals(partKeys[:], "all", 0)
			continue
		}
		part, axis := partKeys[t.Part], axes[t.ID]
		add(part, axis[0], t.Rows)
		if axis[1] != "" {
			add(part, axis[1], t.Columns)
		}
		for i, row := range t.Rows {
			for j, column := range t.Columns {
				if c := t.Cells[i][j]; c.Shown {
					r.equals(product(part, keysOf(row), keysOf(column)), "", float64(c.Count))
				}
			}
		}
	}
	for at, keys := range categories {
		part, axis, _ := strings.Cut(at, "/")
		var names []string
		for _, key := range keys {
			names = append(names, part+"/"+key)
			if slices.Contains(named, axis) || slices.Contains([]string{"resting-not-given", "change-undated", "change-new", "change-other"}, key) {
				r.least[r.unknown(part+"/"+key)] = 1
			}
		}
		r.equals(names, part, 0)
	}
	// Every pair of things adds up to both, be there a table of it or not.
	for _, part := range partKeys[:2] {
		for _, pair := range [][2]string{{"group", "sex"}, {"age", "sex"}, {"group", "standing"}, {"sex", "standing"}, {"age", "standing"}} {
			rows, columns := categories[part+"/"+pair[0]], categories[part+"/"+pair[1]]
			if len(rows) == 0 || len(columns) == 0 {
				continue
			}
			for _, row := range rows {
				r.equals(product(part, []string{row}, columns), part+"/"+row, 0)
			}
			for _, column := range columns {
				r.equals(product(part, rows, []string{column}), part+"/"+column, 0)
			}
		}
	}
}

// product names the unknowns of rows and columns; "all" is no category.
func product(part string, rows, columns []string) []string {
	var names []string
	for _, row := range rows {
		for _, column := range columns {
			name := part
			for _, key := range []string{row, column} {
				if key != "all" {
					name += "/" + key
				}
			}
			names = append(names, name)
		}
	}
	return names
}

// finding is what the reader finds out of one unknown.
type finding struct {
	name      string
	low, high float64
	is        int
}

func (x finding) String() string {
	return fmt.Sprintf("%s is %d and could only be %v to %v", x.name, x.is, x.low, x.high)
}

// solve works out the range of every unknown. It fails the test if there is no
// solution, for then the tables contradict each other.
func (r *reader) solve(t testing.TB) []finding {
	t.Helper()
	right := slices.Clone(r.right)
	for i, e := range r.equations {
		for j, a := range e {
			right[i] -= a * r.least[j]
		}
	}
	p, ok := newProgram(len(r.names), r.equations, right)
	if !ok {
		t.Fatal("the tables contradict each other")
	}
	var all []finding
	for j, name := range r.names {
		if strings.HasPrefix(name, "spare/") {
			continue
		}
		low, high := p.bounds(j)
		all = append(all, finding{name: name, low: math.Round(low + r.least[j]), high: math.Round(high + r.least[j])})
	}
	return all
}

// truth counts people by the names of unknowns, on its own.
type truth map[string]int

func count(people []someone) truth {
	n := truth{}
	groups := map[string]string{}
	for _, s := range people {
		group := "no-group"
		if key := strings.ToLower(strings.ReplaceAll(s.group, " ", "")); key != "" {
			if groups[key] == "" {
				groups[key] = fmt.Sprint("group-", len(groups)+1)
			}
			group = groups[key]
		}
		score := s.member().Score
		n["all"]++
		best := score.Best()
		why := ""
		switch {
		case s.leftOut == Unreadable && (best == nil || s.age == 0 || s.sex == scoring.SexUnspecified):
			why = "reason-unreadable"
		case best == nil && s.test != "":
			why = map[bool]string{true: "reason-not-usable", false: "reason-value-missing"}[s.age > 0]
		case best == nil:
			why = "reason-no-result"
		case s.age == 0:
			why = "reason-age-missing"
		case s.sex == scoring.SexUnspecified:
			why = "reason-sex-missing"
		case s.age < 8:
			why = "reason-no-table"
		}
		if why != "" {
			n["unplaced"]++
			n["unplaced/"+why]++
			continue
		}
		part, standing, age, rate := "adults", "", "", "resting-not-given"
		if s.age < 18 {
			part = "youth"
			standing = map[bool]string{true: "line-above", false: "line-below"}[score.Youth[0].Above]
			age = map[bool]string{true: "ages-0-9", false: "ages-10-17"}[s.age < 10]
		} else {
			standing = fmt.Sprint("adults-", int(score.Adults[0].Group)+1)
			low := max(18, s.age/10*10)
			if low == 20 {
				low = 18
			}
			age = fmt.Sprintf("ages-%d-%d", low, s.age/10*10+9)
			if s.age < 20 {
				age = "ages-18-29"
			}
			if s.age >= 80 {
				age = "ages-80-120"
			}
			if x := s.resting; x > 0 {
				switch {
				case x < 40:
					rate = "resting-very-slow"
				case x < 60:
					rate = "resting-fit"
				case x < 70:
					rate = "resting-usual"
				case x <= 80:
					rate = "resting-raised"
				default:
					rate = "resting-fast"
				}
			}
		}
		sex := "sex-" + s.sex.String()
		keys := []string{group, sex, age, "test-" + best.Test.ID, standing, group + "/" + sex, age + "/" + sex, group + "/" + standing, sex + "/" + standing, age + "/" + standing}
		if part == "adults" {
			keys = append(keys, rate)
		}
		if s.change != "" {
			keys = append(keys, s.change)
		}
		n[part]++
		for _, key := range keys {
			n[part+"/"+key]++
		}
	}
	return n
}

// attack returns what a reader finds out that should be hidden: the unknowns that
// no table prints and whose range is too narrow.
func attack(t testing.TB, people []someone, s Summary, tables []Table, more func(*reader)) []finding {
	t.Helper()
	var r reader
	r.read(tables)
	if more != nil {
		more(&r)
	}
	if len(r.names) == 0 {
		return nil
	}
	n := count(people)
	open := map[string]bool{} // what is printed by itself
	for _, table := range tables {
		for i, row := range table.Rows {
			for j, column := range table.Columns {
				names := []string{row.Key}
				if table.ID != PeopleTable {
					names = product(partKeys[table.Part], keysOf(row), keysOf(column))
				}
				sum := 0
				for _, name := range names {
					sum += n[name]
				}
				if c := table.Cells[i][j]; c.Shown {
					open[names[0]] = open[names[0]] || len(names) == 1
					if sum != c.Count || c.Count < s.Smallest {
						t.Fatalf("%s: %s by %s is %d, printed as %d", table.Title(), row.Key, column.Key, sum, c.Count)
					}
				}
			}
		}
	}
	var found []finding
	for _, x := range r.solve(t) {
		is := float64(n[x.name])
		if is < x.low || is > x.high {
			t.Fatalf("%s is %v, but the tables say %v to %v", x.name, is, x.low, x.high)
		}
		// A sum over what is printed may be told: it is no small one.
		if open[x.name] || x.low == x.high && x.low >= float64(s.Smallest) {
			continue
		}
		if x.high < float64(s.Smallest) || x.high-x.low < float64(s.Smallest-1) {
			x.is = n[x.name]
			found = append(found, x)
		}
	}
	return found
}

// textbook makes the tables as they would be without anything taken together:
// every category has its row, every total stands there, and only the small
// counts are blank.
func textbook(n truth, smallest int) []Table {
	cell := func(name string) Cell { return Cell{Shown: n[name] >= smallest, Count: n[name]} }
	people := Table{ID: PeopleTable, Columns: []Label{labelAll}}
	for _, name := range append(partKeys[:], "all") {
		people.Rows = append(people.Rows, Label{Key: name})
		people.Cells = append(people.Cells, []Cell{cell(name)})
	}
	tables := []Table{people}
	for part := range partCount {
		for _, id := range []TableID{ByGroup, BySex, ByAge, ByTest, ByStanding, ByResting, ByReason, GroupBySex, AgeBySex, GroupByStanding} {
			rows, columns := categories(n, part, axes[id][0]), categories(n, part, axes[id][1])
			if len(rows) == 0 || axes[id][1] != "" && len(columns) == 0 {
				continue
			}
			t := Table{ID: id, Part: part, Rows: append(rows, labelAll), Columns: append(columns, labelAll)}
			for _, row := range t.Rows {
				var cells []Cell
				for _, column := range t.Columns {
					cells = append(cells, cell(product(partKeys[part], []string{row.Key}, []string{column.Key})[0]))
				}
				t.Cells = append(t.Cells, cells)
			}
			tables = append(tables, t)
		}
	}
	return tables
}

// categories lists those of an axis that there are people in, and those of the
// standing and the resting rate in any case.
func categories(n truth, part Part, axis string) []Label {
	fixed := map[string][]string{
		"adults/standing": {"adults-1", "adults-2", "adults-3", "adults-4", "adults-5"}, "youth/standing": {"line-below", "line-above"},
		"adults/resting": {"resting-very-slow", "resting-fit", "resting-usual", "resting-raised", "resting-fast"},
	}
	starts := map[string][]string{"group": {"group-", "no-group"}, "sex": {"sex-"}, "age": {"ages-"}, "test": {"test-"}, "reason": {"reason-"}, "resting": {"resting-not-given"}}
	if n[partKeys[part]] == 0 {
		return nil
	}
	keys := fixed[partKeys[part]+"/"+axis]
	for name := range n {
		key, isPart := strings.CutPrefix(name, partKeys[part]+"/")
		if !isPart || strings.Contains(key, "/") || part == Youth && axis == "resting" {
			continue
		}
		for _, start := range starts[axis] {
			if strings.HasPrefix(key, start) {
				keys = append(keys, key)
			}
		}
	}
	slices.Sort(keys)
	var labels []Label
	for _, key := range keys {
		labels = append(labels, Label{Key: key})
	}
	return labels
}

// hard are rosters made to trap the rule.
var hard = []struct {
	name   string
	people []someone
	// safe marks those from which a reader can't learn anything in any case.
	safe bool
}{
	{name: "one group of 4 among 3", people: all(
		times(4, someone{group: "A", sex: scoring.Female, age: 40, vo2: 30}), times(10, someone{group: "B", sex: scoring.Female, age: 40, vo2: 30}),
		times(10, someone{group: "C", sex: scoring.Female, age: 40, vo2: 30}))},
	{name: "two small cells in a row", people: all(
		times(3, someone{group: "A", sex: scoring.Female, age: 40, vo2: 20}), times(2, someone{group: "A", sex: scoring.Male, age: 40, vo2: 45}),
		times(9, someone{group: "B", sex: scoring.Female, age: 40, vo2: 20}), times(9, someone{group: "B", sex: scoring.Male, age: 40, vo2: 45}))},
	{name: "two small cells in a column", people: all(
		times(3, someone{group: "A", sex: scoring.Female, age: 40, vo2: 20}), times(12, someone{group: "A", sex: scoring.Male, age: 40, vo2: 45}),
		times(4, someone{group: "B", sex: scoring.Female, age: 40, vo2: 20}), times(9, someone{group: "B", sex: scoring.Male, age: 40, vo2: 45}))},
	{name: "one small cell in two of three groups", people: all(
		times(4, someone{group: "A", sex: scoring.Female, age: 40, vo2: 20}), times(12, someone{group: "A", sex: scoring.Male, age: 40, vo2: 45}),
		times(8, someone{group: "B", sex: scoring.Female, age: 40, vo2: 20}), times(9, someone{group: "B", sex: scoring.Male, age: 40, vo2: 45}),
		times(11, someone{group: "C", sex: scoring.Female, age: 40, vo2: 20}), times(1, someone{group: "C", sex: scoring.Male, age: 40, vo2: 45}))},
	{name: "a group with one sex only", people: all(
		times(12, someone{group: "A", sex: scoring.Female, age: 40, vo2: 30}), times(6, someone{group: "B", sex: scoring.Female, age: 40, vo2: 30}),
		times(7, someone{group: "B", sex: scoring.Male, age: 40, vo2: 30}))},
	{name: "everyone in one group and all alike", people: times(12, someone{group: "A", sex: scoring.Male, age: 30, vo2: 40, resting: 55})},
	{name: "everyone in one group", people: all(
		times(12, someone{group: "A", sex: scoring.Female, age: 40, vo2: 30}), times(3, someone{group: "A", sex: scoring.Male, age: 40, vo2: 30}))},
	{name: "names that differ by case and spaces", people: all(
		times(3, someone{group: "Stores", sex: scoring.Male, age: 40, vo2: 30}), times(3, someone{group: " stores ", sex: scoring.Male, age: 40, vo2: 30}),
		times(4, someone{group: "STO RES", sex: scoring.Male, age: 40, vo2: 30}), times(4, someone{group: "Yard", sex: scoring.Male, age: 40, vo2: 30}))},
	{name: "one whose sex is not given", people: all(
		times(12, someone{group: "A", sex: scoring.Female, age: 40, vo2: 30}), times(12, someone{group: "B", sex: scoring.Male, age: 40, vo2: 30}),
		times(1, someone{group: "B", age: 40, vo2: 30}))},
	{name: "people without a group", people: all(
		times(2, someone{sex: scoring.Female, age: 40, vo2: 30}), times(12, someone{group: "B", sex: scoring.Female, age: 40, vo2: 30}),
		times(9, someone{group: "C", sex: scoring.Female, age: 40, vo2: 30}))},
	{name: "nobody in a group has a result", people: all(
		times(3, someone{group: "A", sex: scoring.Female, age: 40}), times(12, someone{group: "B", sex: scoring.Female, age: 40, vo2: 30}),
		times(6, someone{group: "C", sex: scoring.Male, age: 40, vo2: 30}))},
	{name: "tables that differ by one", people: all(
		times(8, someone{group: "A", sex: scoring.Female, age: 40, vo2: 20}), times(7, someone{group: "A", sex: scoring.Male, age: 40, vo2: 45}),
		times(1, someone{group: "A", sex: scoring.Female, age: 40, vo2: 45}), times(8, someone{group: "B", sex: scoring.Female, age: 40, vo2: 20}),
		times(7, someone{group: "B", sex: scoring.Male, age: 40, vo2: 45}), times(1, someone{group: "B", sex: scoring.Male, age: 50, vo2: 20}))},
	{name: "three pupils among the teachers", people: all(
		times(14, someone{group: "staff", sex: scoring.Female, age: 40, vo2: 30}), times(3, someone{group: "1a", sex: scoring.Male, age: 12, vo2: 50}))},
	{name: "all but two above the line", people: all(
		times(28, someone{group: "3b", sex: scoring.Male, age: 12, vo2: 50}), times(2, someone{group: "3b", sex: scoring.Male, age: 12, vo2: 35}))},
	{name: "everyone by themselves", safe: true, people: []someone{
		{group: "Ann", sex: scoring.Female, age: 40, vo2: 30}, {group: "Bo", sex: scoring.Female, age: 40, vo2: 30},
		{group: "Cy", sex: scoring.Female, age: 40, vo2: 30}, {group: "Di", sex: scoring.Female, age: 40, vo2: 30}, {group: "Ed", sex: scoring.Female, age: 40, vo2: 30}}},
	{name: "four people", safe: true, people: times(4, someone{group: "A", sex: scoring.Female, age: 40, vo2: 30})},
	{name: "nobody", safe: true},
}

// TestAttackOnHardRosters holds that nothing can be found out from a summary,
// and that the same reader does find out where only small counts are blank.
func TestAttackOnHardRosters(t *testing.T) {
	for _, c := range hard {
		t.Run(c.name, func(t *testing.T) {
			s := summarise(t, c.people, DefaultSmallest)
			for _, x := range attack(t, c.people, s, s.Tables, nil) {
				t.Error(x)
			}
			blanked := attack(t, c.people, s, textbook(count(c.people), s.Smallest), nil)
			if len(blanked) == 0 && !c.safe {
				t.Error("the reader finds nothing in tables with only the small counts blank either")
			}
		})
	}
}

func TestAttackOnManyRosters(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 3))
	blanked, tried, printed := 0, 0, 0
	for range 400 {
		people := invent(r)
		smallest := 3 + r.IntN(4)
		s := summarise(t, people, smallest)
		for _, x := range attack(t, people, s, s.Tables, nil) {
			t.Errorf("%d people, smallest %d: %s", len(people), smallest, x)
		}
		tried++
		printed += len(s.Tables)
		if len(attack(t, people, s, textbook(count(people), smallest), nil)) > 0 {
			blanked++
		}
	}
	if blanked < tried*3/4 {
		t.Errorf("with only the small counts blank the reader finds something in %d of %d rosters: too few for a test", blanked, tried)
	}
	if printed < 5*tried {
		t.Errorf("%d tables of %d rosters: too little is printed for a test", printed, tried)
	}
	t.Logf("%d tables of %d rosters kept; with only the small counts blank %d rosters are told", printed, tried, blanked)
}

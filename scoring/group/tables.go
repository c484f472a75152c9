package group

import (
	"fmt"
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// Keys of labels with a meaning of their own.
const (
	AllKey             = "all" // of totals
	NoGroupKey         = "no-group"
	RestingNotGivenKey = "resting-not-given"
)

// labelAll heads totals.
var labelAll = Label{Key: AllKey}

// addPeople adds the table of the three parts. Beside a small part it hides the
// total and no other part, because parts must not depend on each other.
func (s *Summary) addPeople(parts [partCount][]person) {
	t := Table{ID: PeopleTable, Columns: []Label{labelAll}}
	hidden, people, total := 0, 0, 0
	for p := range partCount {
		n := len(parts[p])
		total += n
		t.Rows = append(t.Rows, Label{Key: partKeys[p]})
		cell := Cell{Shown: true, Count: n}
		if n < s.Smallest {
			s.TooSmall = append(s.TooSmall, p)
			cell = Cell{}
			hidden, people = hidden+1, people+n
		}
		t.Cells = append(t.Cells, []Cell{cell})
	}
	if hidden == int(partCount) {
		return
	}
	t.Rows = append(t.Rows, labelAll)
	t.Cells = append(t.Cells, []Cell{{}})
	if hidden == 0 || hidden > 1 && people >= s.Smallest {
		for _, row := range t.Cells {
			if row[0].Shown {
				row[0] = shown(row[0].Count, total)
			}
		}
		t.Cells[partCount][0] = shown(total, total)
	}
	s.Tables = append(s.Tables, t)
}

// addPart adds the tables and figures of a part with enough people.
func (s *Summary) addPart(part Part, people []person, names *roll) {
	if len(people) < s.Smallest {
		return
	}
	if part == Unplaced {
		s.addOneWay(ByReason, part, byReason(people).classify(s.Smallest))
		return
	}
	groups := byGroup(people, names).classify(s.Smallest)
	sexes := bySex(people).classify(s.Smallest)
	ages := byAge(people, part).classify(s.Smallest)
	standings := byStanding(people, part)
	standing, sides := standings.classify(s.Smallest), standings.sides(s.Smallest)
	resting := byResting(people, part).classify(s.Smallest)

	several := len(groups.categories) > 1
	if several {
		s.addOneWay(ByGroup, part, groups)
	}
	s.addOneWay(BySex, part, sexes)
	s.addOneWay(ByAge, part, ages)
	s.addOneWay(ByTest, part, byTest(people).classify(s.Smallest))
	s.addOneWay(ByStanding, part, standing)
	if part == Adults {
		s.addOneWay(ByResting, part, resting)
	}
	if s.Seasons != nil {
		s.addChange(part, people)
	}
	if several {
		s.addCross(GroupBySex, part, groups, sexes)
		s.addCross(GroupByStanding, part, groups, sides)
	}
	s.addCross(AgeBySex, part, ages, sexes)
	s.addFigures(part, people, standing, sides, groups, sexes, ages)
	s.addResting(part, people, resting)
}

// addOneWay adds a table by one variable, unless all its categories are joined.
func (s *Summary) addOneWay(id TableID, part Part, v *variable) {
	if len(v.classes) == 1 && v.classes[0].joined() {
		s.Withheld = append(s.Withheld, Withheld{part, id})
		return
	}
	t := Table{ID: id, Part: part, Rows: append(v.labels(), labelAll), Columns: []Label{labelAll}}
	for _, c := range v.classes {
		t.Cells = append(t.Cells, []Cell{shown(c.count, len(v.of))})
	}
	t.Cells = append(t.Cells, []Cell{shown(len(v.of), len(v.of))})
	s.Tables = append(s.Tables, t)
}

// shown returns a cell of n people out of a total that is shown too.
func shown(n, total int) Cell { return Cell{true, n, float64(n) / float64(total), true} }

// addCross adds a table by two variables, unless all its rows are joined.
func (s *Summary) addCross(id TableID, part Part, v, by *variable) {
	x := crossed(v, by, s.Smallest)
	if len(x.rows) == 1 || len(by.classes) == 1 {
		s.Withheld = append(s.Withheld, Withheld{part, id})
		return
	}
	t := Table{ID: id, Part: part, Columns: append(by.labels(), labelAll)}
	labels, everyone := v.labels(), len(v.of)
	add := func(label Label, counts []int, total int) {
		var cells []Cell
		for _, n := range counts {
			cells = append(cells, shown(n, total))
		}
		t.Rows = append(t.Rows, label)
		t.Cells = append(t.Cells, append(cells, shown(total, everyone)))
	}
	for _, r := range x.rows {
		total := 0
		for _, n := range r.counts {
			total += n
		}
		add(joint(labels[r.from:r.to]), r.counts, total)
	}
	var totals []int
	for _, c := range by.classes {
		totals = append(totals, c.count)
	}
	add(labelAll, totals, everyone)
	s.Tables = append(s.Tables, t)
}

// byGroup sorts people by class or department, those without one last.
func byGroup(people []person, names *roll) sorted {
	last := len(names.labels)
	all := append(slices.Clone(names.labels), Label{Key: NoGroupKey})
	return sortPeople(people, all, always, func(p *person) int {
		if p.group == noGroup {
			return last
		}
		return p.group
	})
}

func bySex(people []person) sorted {
	return sortPeople(people, []Label{{Key: "sex-female"}, {Key: "sex-male"}}, always,
		func(p *person) int { return int(p.sex - scoring.Female) })
}

// The bands of age: decades, but for the turn of 18, where the tables change.
var bands = [partCount][]reference.Ages{
	Adults: {{Min: 18, Max: 29}, {Min: 30, Max: 39}, {Min: 40, Max: 49}, {Min: 50, Max: 59}, {Min: 60, Max: 69}, {Min: 70, Max: 79}, {Min: 80, Max: 120}},
	Youth:  {{Min: 0, Max: 9}, {Min: 10, Max: 17}},
}

func byAge(people []person, part Part) sorted {
	var names []Label
	for _, b := range bands[part] {
		names = append(names, agesLabel(b))
	}
	return sortPeople(people, names, always, func(p *person) int {
		last := len(bands[part]) - 1
		return max(0, min(last, slices.IndexFunc(bands[part], func(b reference.Ages) bool { return p.years <= b.Max })))
	})
}

func byTest(people []person) sorted {
	var names []Label
	at := map[*scoring.Test]int{}
	for i, t := range fieldtests.All() {
		at[t] = i
		names = append(names, Label{Key: "test-" + t.ID})
	}
	return sortPeople(people, names, always, func(p *person) int { return at[p.test] })
}

func byReason(people []person) sorted {
	var names []Label
	for r := range reasonCount {
		names = append(names, Label{Key: "reason-" + reasonIDs[r]})
	}
	return sortPeople(people, names, always, func(p *person) int { return int(p.reason) })
}

// byStanding sorts adults by the five groups and youths by the side of the
// health line.
func byStanding(people []person, part Part) sorted {
	names := []Label{{Key: "line-below"}, {Key: "line-above"}}
	if part == Adults {
		names = nil
		for g := range people[0].table.Names {
			names = append(names, Label{Key: fmt.Sprintf("adults-%d", g+1)})
		}
	}
	return sortPeople(people, names, never, func(p *person) int { return p.standing })
}

// restingBands label the bands of the resting heart rate.
var restingBands = [...]Label{
	scoring.RestingVerySlow: {Key: "resting-very-slow"},
	scoring.RestingFit:      {Key: "resting-fit"},
	scoring.RestingUsual:    {Key: "resting-usual"},
	scoring.RestingRaised:   {Key: "resting-raised"},
	scoring.RestingFast:     {Key: "resting-fast"},
}

// restingLines are where each band but the first opens, in beats/min.
var restingLines = []float64{scoring.RestingFitFrom, scoring.RestingUsualFrom, scoring.RestingRaisedFrom, scoring.RestingFastAbove}

// byResting sorts adults by band, and youths by whether a rate is given. Those
// without one come first, to be joined with slow hearts rather than fast ones.
func byResting(people []person, part Part) sorted {
	names := []Label{{Key: RestingNotGivenKey, Text: "not given"}}
	if part == Adults {
		names = append(names, restingBands[:]...)
	} else {
		names = append(names, Label{Key: "resting-given"})
	}
	return sortPeople(people, names, func(i int) bool { return i == 0 }, func(p *person) int {
		switch {
		case p.resting == nil:
			return 0
		case part == Youth:
			return 1
		}
		return 1 + int(p.resting.Band)
	})
}

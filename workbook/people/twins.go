package people

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// Compare adds problems to rows that contradict each other, and to the roster where
// two people may be one.
func Compare(r *roster.Roster) {
	m := match(r)
	for _, c := range m.clashes {
		if !r.Bound.Admit() {
			break
		}
		line, other := m.lines[c.line], m.lines[c.other]
		p := m.pointAt(line, other, c)
		p.Blocking = true
		line.Row.Problems = append(line.Row.Problems, p)
	}
	for _, p := range m.strange {
		p.Blocking = true
		r.Problems = append(r.Problems, p)
	}
	t := twins{matching: m, roster: r, told: map[[2]int]bool{}}
	for _, c := range m.clashes {
		t.told[t.pair(c.line, c.other)] = true
	}
	t.sameIDs()
	t.sameNames()
	t.nearNames()
	if r.Bound.Exceeded() {
		r.Problems = append(r.Problems, roster.Problem{What: manyProblems.With(roster.MaxProblems), Fix: fixManyProblems, Blocking: true})
	}
}

// pointAt returns a problem about two rows. It names the contradictory cells where
// both are known, else the cells of the people.
func (m *matching) pointAt(line, other Line, c clash) roster.Problem {
	at, there, read := line.Row.Person.NameCell, other.Row.Person.NameCell, line.Row.Person.Label()
	if c.cell != nil {
		mine, said := c.cell(line.Row)
		if theirs, _ := c.cell(other.Row); mine != "" && theirs != "" {
			at, there, read = mine, theirs, said
		}
	}
	return roster.Problem{Sheet: line.Sheet.Name, Cell: at, Read: read,
		What: roster.InPlace.With(c.what, other.Sheet.Name+"!"+there), Fix: c.fix}
}

// twins finds people who may be one.
type twins struct {
	*matching
	roster *roster.Roster
	told   map[[2]int]bool // pairs of people
}

func (t *twins) pair(i, j int) [2]int {
	a, b := t.person[i], t.person[j]
	return [2]int{min(a, b), max(a, b)}
}

// tell adds one problem for each pair of people, about rows i and j.
func (t *twins) tell(i, j int, c clash) {
	pair := t.pair(i, j)
	if pair[0] == pair[1] || t.told[pair] {
		return
	}
	t.told[pair] = true
	if t.roster.Bound.Admit() {
		c.what = twoPeople.With(c.what)
		t.roster.Problems = append(t.roster.Problems, t.pointAt(t.lines[i], t.lines[j], c))
	}
}

// sameNames finds people of one name that nothing distinguishes.
func (t *twins) sameNames() {
	first := map[string][]int{}
	for i, line := range t.lines {
		visible := t.names[i].visible
		if visible == "" {
			continue
		}
		for _, j := range first[visible] {
			other := t.lines[j].Row
			switch {
			case !t.differ(line.Row, other):
				t.tell(i, j, clash{what: t.alike(i, j), fix: fixOneOrTwo})
			case birthSlip(line.Row, other):
				t.tell(i, j, clash{what: nearlyBirth, fix: fixNearlyBirth,
					cell: birthOf})
			}
		}
		if len(first[visible]) < maxAlike {
			first[visible] = append(first[visible], i)
		}
	}
}

// birthSlip reports whether two dates of birth may be one with a slip, and nothing
// else distinguishes the rows. In a slip day and month are exchanged, or one of day,
// month and year differs.
func birthSlip(a, b *roster.Row) bool {
	x, y := a.Entry.Born, b.Entry.Born
	sexes := a.Entry.Sex() != b.Entry.Sex() && a.Entry.Sex() != scoring.SexUnspecified && b.Entry.Sex() != scoring.SexUnspecified
	ids := a.Person.ID != "" && b.Person.ID != "" && a.Person.ID != b.Person.ID
	if x.IsZero() || y.IsZero() || x.Equal(y) || sexes || ids {
		return false
	}
	if x.Year() == y.Year() && x.Day() == int(y.Month()) && y.Day() == int(x.Month()) {
		return true
	}
	same := 0
	for _, alike := range []bool{x.Year() == y.Year(), x.Month() == y.Month(), x.Day() == y.Day()} {
		if alike {
			same++
		}
	}
	return same == 2
}

// differ reports whether two rows of one name are certainly about two people.
func (t *twins) differ(a, b *roster.Row) bool {
	sexes := a.Entry.Sex() != b.Entry.Sex() && a.Entry.Sex() != scoring.SexUnspecified && b.Entry.Sex() != scoring.SexUnspecified
	years := bornYear(a) != 0 && bornYear(b) != 0 && bornYear(a) != bornYear(b)
	days := !a.Entry.Born.IsZero() && !b.Entry.Born.IsZero() && !a.Entry.Born.Equal(b.Entry.Born)
	born := !a.Entry.Born.IsZero() && a.Entry.Born.Equal(b.Entry.Born)
	ids := a.Person.ID != "" && b.Person.ID != "" && !born && idKey(a.Person.ID) != idKey(b.Person.ID)
	return sexes || years || days || ids
}

// alike returns in what two lines of one name agree.
func (t *twins) alike(i, j int) scoring.Said {
	switch {
	case t.names[i].exact != t.names[j].exact:
		return unseenSigns
	case t.lines[i].Row.Person.ID != "" && t.lines[j].Row.Person.ID != "":
		return anotherIDToo
	}
	return anotherRowToo
}

// sameIDs finds IDs with the same [idKey].
func (t *twins) sameIDs() {
	first := map[string][]int{}
	for i, line := range t.lines {
		id := line.Row.Person.ID
		if id == "" || line.Row.Listed {
			continue
		}
		key := idKey(id)
		for _, j := range first[key] {
			if other := t.lines[j].Row.Person.ID; other != id {
				t.tell(i, j, clash{what: nearlyID.With(scoring.Quoted(id), scoring.Quoted(other)), fix: fixNearlyID})
			}
		}
		if !slices.ContainsFunc(first[key], func(j int) bool { return t.lines[j].Row.Person.ID == id }) && len(first[key]) < maxAlike {
			first[key] = append(first[key], i)
		}
	}
}

// nearNames finds people born on the same day whose names are [nearlySame].
func (t *twins) nearNames() {
	type named struct {
		line    int
		name    string
		letters letterSet
	}
	born := map[time.Time][]named{}
	compared := 0
	for i, line := range t.lines {
		visible := t.names[i].visible
		day := line.Row.Entry.Born
		if visible == "" || day.IsZero() {
			continue
		}
		letters := lettersOf(visible)
		for _, other := range born[day] {
			if compared++; compared > maxComparisons {
				t.roster.Problems = append(t.roster.Problems, roster.Problem{Sheet: line.Sheet.Name,
					What: tooManyBirths})
				return
			}
			if other.name == visible || t.person[other.line] == t.person[i] {
				continue
			}
			if letters.near(other.letters) && nearlySame(visible, other.name) {
				t.tell(i, other.line, clash{what: nearlyName, fix: fixOneOrTwo})
				break
			}
		}
		born[day] = append(born[day], named{i, visible, letters})
	}
}

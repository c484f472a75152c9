package people

import (
	"fmt"
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// Bounds on the comparing of people, for hostile rosters in which all are
// called or born alike.
const (
	maxAlike       = 50      // people of one ID or name that a row is compared with
	maxComparisons = 500_000 // of names letter by letter
)

// matching assigns each row to a person.
type matching struct {
	lines  []Line
	names  []nameKey // of each line
	person []int     // of each line, by first mention
	people int

	known   []*individual
	byID    map[string][]*individual
	byName  map[nameOfBirth][]*individual
	clashes []clash
	more    map[int][]Line   // by person: rows of lists that complete what is known
	strange []roster.Problem // rows of lists that contradict the person of their ID
	// listAsks is set if a list has a column of consent.
	listAsks bool
}

// nameOfBirth identifies people who have no ID.
type nameOfBirth struct {
	name string
	born time.Time
}

// individual is one person, with the facts of the rows so far.
type individual struct {
	lines  []int // of the person, in the order in which they were matched
	id     string
	name   string // key of the name
	named  int    // the line that gave the name; -1 if none has
	sex    scoring.Sex
	born   time.Time
	year   int // of birth
	listed bool
	tests  []placedTest
}

// placedTest is a test with the first sheet that has it.
type placedTest struct {
	test  *scoring.Test
	sheet *roster.Sheet
}

// testOn returns the first sheet with a test; nil if there is none.
func (p *individual) testOn(t *scoring.Test) *roster.Sheet {
	for _, placed := range p.tests {
		if placed.test == t {
			return placed.sheet
		}
	}
	return nil
}

// clash is a row with the identity of another and contradictory facts.
type clash struct {
	line, other int
	what, fix   scoring.Said
	// cell returns the contradictory cell of a row and its text; nil for the person
	// as such.
	cell func(*roster.Row) (at, read string)
}

// match assigns the rows of a roster to people.
func match(r *roster.Roster) *matching {
	m := &matching{byID: map[string][]*individual{}, byName: map[nameOfBirth][]*individual{}}
	for _, s := range r.Sheets {
		for i := range s.Rows {
			m.lines = append(m.lines, Line{s, &s.Rows[i]})
		}
	}
	m.names = make([]nameKey, len(m.lines))
	for i := range m.lines {
		m.names[i] = nameKeyOf(m.lines[i].Row.Person.Name)
	}
	for i, line := range m.lines {
		if line.Row.Person.ID != "" {
			m.placeByID(i)
		}
	}
	for i, line := range m.lines {
		if line.Row.Person.ID == "" {
			m.placeByName(i)
		}
	}
	m.number()
	m.complete(r.Lists)
	m.listAsks = slices.ContainsFunc(r.Lists, asksConsent)
	return m
}

// complete assigns rows of lists to people: by ID, else by a name that is unique
// among the people and in the lists.
func (m *matching) complete(lists []*roster.Sheet) {
	m.more = map[int][]Line{}
	if len(lists) == 0 {
		return
	}
	named, rows, logged := map[string][]*individual{}, map[string]int{}, map[string]bool{}
	for _, p := range m.known {
		if p.name != "" {
			named[p.name] = append(named[p.name], p)
		}
	}
	for _, s := range lists {
		for i := range s.Rows {
			// Several days of one person are a log and not several people.
			name := nameKeyOf(s.Rows[i].Person.Name).exact
			if day := s.Rows[i].Entry.Tested; day.IsZero() || !logged[name] {
				rows[name]++
				logged[name] = !day.IsZero()
			}
		}
	}
	for _, s := range lists {
		for i := range s.Rows {
			line := Line{s, &s.Rows[i]}
			name := nameKeyOf(line.Row.Person.Name).exact
			p := m.completed(line, name)
			if p == nil && rows[name] == 1 && len(named[name]) == 1 {
				only := named[name][0]
				other := only.id != "" && line.Row.Person.ID != "" && only.id != line.Row.Person.ID
				if _, no := m.contradicts(line, name, only); !no && !other {
					p = only
				}
			}
			if p != nil {
				n := m.person[p.lines[0]]
				m.more[n] = append(m.more[n], line)
			}
		}
	}
}

// completed returns the person with the ID of a list's row; nil if there is none.
func (m *matching) completed(line Line, name string) *individual {
	same := m.byID[line.Row.Person.ID]
	if len(same) == 0 || line.Row.Listed {
		return nil
	}
	for _, p := range same[:min(len(same), maxAlike)] {
		if _, no := m.contradicts(line, name, p); !no {
			return p
		}
	}
	if c, _ := m.contradicts(line, name, same[0]); !c.what.IsZero() {
		m.strange = append(m.strange, m.pointAt(line, m.lines[c.other], c))
	}
	return nil
}

// number numbers people by their first row.
func (m *matching) number() {
	owner := make([]*individual, len(m.lines))
	for _, p := range m.known {
		for _, i := range p.lines {
			owner[i] = p
		}
	}
	numbers := map[*individual]int{}
	m.person = make([]int, len(m.lines))
	for i, p := range owner {
		n, ok := numbers[p]
		if !ok {
			n = len(numbers)
			numbers[p] = n
		}
		m.person[i] = n
	}
	m.people = len(numbers)
}

// placeByID assigns a row with an ID.
func (m *matching) placeByID(i int) {
	row := m.lines[i].Row
	same := m.byID[row.Person.ID]
	var why clash
	for n, p := range same[:min(len(same), maxAlike)] {
		c, ok := m.contradicts(m.lines[i], m.names[i].exact, p)
		if !ok {
			m.add(p, i)
			return
		}
		c.line = i
		if n == 0 {
			why = c
		}
	}
	p := m.addNew(i)
	m.byID[row.Person.ID] = append(same, p)
	if !why.what.IsZero() {
		m.clashes = append(m.clashes, why)
	}
}

// placeByName assigns a row without an ID to the only person of that name and
// date of birth.
func (m *matching) placeByName(i int) {
	key, ok := m.nameAndBirth(i)
	if !ok {
		m.addNew(i)
		return
	}
	same := m.byName[key]
	switch len(same) {
	case 0:
	case 1:
		c, contradiction := m.contradicts(m.lines[i], m.names[i].exact, same[0])
		if !contradiction {
			m.add(same[0], i)
			return
		}
		c.line = i
		m.clashes = append(m.clashes, c)
	default:
		m.clashes = append(m.clashes, clash{line: i, other: same[0].lines[0],
			what: severalPeople, fix: addID})
	}
	m.addNew(i)
}

func (m *matching) nameAndBirth(i int) (nameOfBirth, bool) {
	key := nameOfBirth{m.names[i].exact, m.lines[i].Row.Entry.Born}
	return key, key.name != "" && !key.born.IsZero()
}

func (m *matching) addNew(i int) *individual {
	p := &individual{id: m.lines[i].Row.Person.ID, named: -1, listed: m.lines[i].Row.Listed}
	m.known = append(m.known, p)
	m.add(p, i)
	return p
}

// add assigns a row to a person.
func (m *matching) add(p *individual, i int) {
	line := m.lines[i]
	p.lines = append(p.lines, i)
	if exact := m.names[i].exact; exact != "" && p.named < 0 {
		p.name, p.named = exact, i
	}
	if p.sex == scoring.SexUnspecified {
		p.sex = line.Row.Entry.Sex()
	}
	if p.born.IsZero() {
		p.born = line.Row.Entry.Born
	}
	if p.year == 0 {
		p.year = bornYear(line.Row)
	}
	for _, t := range line.Row.Entry.Trials {
		if p.testOn(t.Test) == nil {
			p.tests = append(p.tests, placedTest{t.Test, line.Sheet})
		}
	}
	if key, ok := m.nameAndBirth(i); ok && !slices.Contains(m.byName[key], p) && len(m.byName[key]) < maxAlike {
		m.byName[key] = append(m.byName[key], p)
	}
}

// contradicts reports why line cannot belong to p, if anything.
func (m *matching) contradicts(line Line, name string, p *individual) (clash, bool) {
	row := line.Row
	c := clash{other: p.lines[0]}
	whose := thisNameBirth
	if row.Person.ID != "" {
		whose = thisID
	}
	switch {
	case name != "" && p.named >= 0 && name != p.name:
		c.other = p.named
		c.what, c.fix = otherName.With(whose), fixOtherName
	case row.Entry.Sex() != scoring.SexUnspecified && p.sex != scoring.SexUnspecified && row.Entry.Sex() != p.sex:
		c.what, c.fix = otherSex.With(whose), roster.CorrectOne
		c.cell = func(r *roster.Row) (at, read string) { return r.Entry.Cell(scoring.SexInput), r.Entry.Sex().String() }
	case !row.Entry.Born.IsZero() && !p.born.IsZero() && !row.Entry.Born.Equal(p.born), bornYear(row) != 0 && p.year != 0 && bornYear(row) != p.year:
		c.what, c.fix = otherBirth.With(whose), roster.CorrectOne
		c.cell = birthOf
	case row.Listed || p.listed:
		// A place in a list starts again with the next list.
		return clash{}, true
	case (name == "" || p.named < 0) && (row.Entry.Born.IsZero() || p.born.IsZero()):
		for _, t := range row.Entry.Trials {
			if s := p.testOn(t.Test); s != nil && s != line.Sheet && s.File == line.Sheet.File {
				c.what, c.fix = sameTestNoName.With(whose), fixNoName
				return c, true
			}
		}
		return clash{}, false
	default:
		return clash{}, false
	}
	return c, true
}

// birthOf returns the cell of the date of birth and its text.
func birthOf(r *roster.Row) (at, read string) {
	if r.Birth.YearOnly {
		return r.BirthCell, fmt.Sprint(bornYear(r))
	}
	return r.BirthCell, r.Birth.Time.Format(time.DateOnly)
}

// bornYear returns the year of birth; 0 if not given.
func bornYear(r *roster.Row) int {
	if r.Birth.Time.IsZero() {
		return 0
	}
	return r.Birth.Time.Year()
}

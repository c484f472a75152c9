package people

import (
	"fmt"
	"math/bits"
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/agnivade/levenshtein"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// Bounds on the comparing of people, for hostile rosters in which all are
// called or born alike.
const (
	maxAlike       = 50      // people of one ID or name that a row is compared with
	maxComparisons = 500_000 // of names letter by letter
)

// matching tells which rows are about the same person.
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
}

// nameOfBirth is what tells people apart who have no ID.
type nameOfBirth struct {
	name string
	born time.Time
}

// individual is one person with what the rows so far say of them.
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

// placedTest is a test with the sheet where it stands first.
type placedTest struct {
	test  *scoring.Test
	sheet *roster.Sheet
}

// testOn is the sheet where a test stands first; nil if it does not.
func (p *individual) testOn(t *scoring.Test) *roster.Sheet {
	for _, placed := range p.tests {
		if placed.test == t {
			return placed.sheet
		}
	}
	return nil
}

// clash is a row that should be about the same person as another and can't be.
type clash struct {
	line, other int
	what, fix   scoring.Said
	// cell finds what contradicts in a row, and what stands there; nil for the
	// person as such.
	cell func(*roster.Row) (at, read string)
}

// match finds the rows that are about the same person.
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
	return m
}

// complete finds in lists of people those who were tested: by ID, else by a
// name that only one person and one row of the lists has.
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

// completed finds the person of a list's row by the ID.
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

// number counts people by first mention.
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

// placeByID gives a row with an ID to its person.
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

// placeByName gives a row without an ID to the one person of that name and
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

// add notes what a row says of a person.
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

// contradicts tells what speaks against a row, of that name, being about a person.
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

// birthOf is the cell of the date of birth and what stands there.
func birthOf(r *roster.Row) (at, read string) {
	if r.Birth.YearOnly {
		return r.BirthCell, fmt.Sprint(bornYear(r))
	}
	return r.BirthCell, r.Birth.Time.Format(time.DateOnly)
}

// bornYear is the year of birth; 0 if not given.
func bornYear(r *roster.Row) int {
	if r.Birth.Time.IsZero() {
		return 0
	}
	return r.Birth.Time.Year()
}

// nameKey is what is compared of a name: its words without case, accents and
// order. Names that look alike and differ in signs that nobody sees have the
// same visible key and another exact one.
type nameKey struct{ visible, exact string }

func nameKeyOf(name string) nameKey {
	words := strings.FieldsFunc(cell.Fold(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r)
	})
	slices.Sort(words)
	visible := strings.Join(words, " ")
	exact := visible
	for _, r := range name {
		if r >= 0x80 && unicode.Is(unicode.Cf, r) {
			exact += string(r)
		}
	}
	return nameKey{visible, exact}
}

// idKey is an ID without what gets lost when it is typed or copied: case,
// leading zeros, blanks and signs that nobody sees.
func idKey(id string) string {
	key := strings.TrimLeft(strings.ReplaceAll(cell.Fold(id), " ", ""), "0")
	if key == "" {
		return "0"
	}
	return key
}

// Compare adds to the rows what contradicts itself between them and to
// the roster what looks like the same person twice.
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

// pointAt says something of a row that has to do with another one, and names
// the cells of both: those that contradict each other where both are known, else
// those of the people.
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

// twins looks for people who may be one.
type twins struct {
	*matching
	roster *roster.Roster
	told   map[[2]int]bool // pairs of people
}

func (t *twins) pair(i, j int) [2]int {
	a, b := t.person[i], t.person[j]
	return [2]int{min(a, b), max(a, b)}
}

// tell says once of two people what is suspicious about rows i and j.
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

// sameNames finds people of one name whom nothing tells apart.
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

// birthSlip tells that two rows which nothing but their dates of birth sets
// apart may be about one person: day and month are exchanged, or one of day,
// month and year is another.
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

// differ tells that two rows of one name are surely about two people.
func (t *twins) differ(a, b *roster.Row) bool {
	sexes := a.Entry.Sex() != b.Entry.Sex() && a.Entry.Sex() != scoring.SexUnspecified && b.Entry.Sex() != scoring.SexUnspecified
	years := bornYear(a) != 0 && bornYear(b) != 0 && bornYear(a) != bornYear(b)
	days := !a.Entry.Born.IsZero() && !b.Entry.Born.IsZero() && !a.Entry.Born.Equal(b.Entry.Born)
	born := !a.Entry.Born.IsZero() && a.Entry.Born.Equal(b.Entry.Born)
	ids := a.Person.ID != "" && b.Person.ID != "" && !born && idKey(a.Person.ID) != idKey(b.Person.ID)
	return sexes || years || days || ids
}

// alike says in what two lines of one name agree.
func (t *twins) alike(i, j int) scoring.Said {
	switch {
	case t.names[i].exact != t.names[j].exact:
		return unseenSigns
	case t.lines[i].Row.Person.ID != "" && t.lines[j].Row.Person.ID != "":
		return anotherIDToo
	}
	return anotherRowToo
}

// sameIDs finds IDs that differ only in what gets lost in typing.
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

// nearNames finds people born on the same day whose names are a slip of the
// hand apart.
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

// letterSet is which letters a text has, some of them taken together.
type letterSet uint64

func lettersOf(text string) (set letterSet) {
	for _, r := range text {
		set |= 1 << (r % 64)
	}
	return set
}

// near tells whether two texts may be nearlySame: a slip changes two letters at
// most, and where a word is left out, one text has no letter that the other lacks.
func (s letterSet) near(other letterSet) bool {
	return bits.OnesCount64(uint64(s^other)) <= 2*slipsMost || s&^other == 0 || other&^s == 0
}

// slipsMost is how many slips of the hand make two names nearlySame, at most.
const slipsMost = 2

// nearlySame tells whether two names, as compared, may be one with a slip of
// the hand or with a word left out. "Sample A" and "Sample B" are not: a word of
// one or two letters, or with a digit, is there to tell people apart.
func nearlySame(a, b string) bool {
	one, two := strings.Fields(a), strings.Fields(b)
	shared := 0
	for i := len(one) - 1; i >= 0; i-- {
		if at := slices.Index(two, one[i]); at >= 0 {
			one, two = slices.Delete(one, i, i+1), slices.Delete(two, at, at+1)
			shared++
		}
	}
	if len(one) == 0 || len(two) == 0 {
		return shared >= 2
	}
	for _, w := range append(slices.Clone(one), two...) {
		if len([]rune(w)) < 3 || strings.ContainsFunc(w, unicode.IsDigit) {
			return false
		}
	}
	x, y := strings.Join(one, " "), strings.Join(two, " ")
	return levenshtein.ComputeDistance(x, y) <= max(1, min(slipsMost, heading.Slips(min(len([]rune(a)), len([]rune(b))))))
}

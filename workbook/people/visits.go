// Package people finds who is one person: rows that belong together, names that
// are nearly alike, and each person's visits and seasons.
package people

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// Line is one row with its sheet.
type Line struct {
	Sheet *roster.Sheet
	Row   *roster.Row
}

// Visit is one person on one test day. It may span several rows.
type Visit struct {
	Sheet *roster.Sheet // of the first row
	// Row is the row as read, or several rows merged into the first. Cells of other
	// sheets then carry the name of the sheet, as in "5b!C7".
	Row    *roster.Row
	More   []Line // the other rows
	Person int    // visits of one person on several days have the same number, counted from 0
	// Doubt says why the visit is not compared with others of the person; empty
	// if it may be.
	Doubt scoring.Said
	// Withheld means that consent is asked for and not given. Nothing is scored.
	Withheld bool

	First *roster.Row // the first row as read
}

// Lines lists all rows of the visit, the first one first.
func (v *Visit) Lines() []Line {
	return append([]Line{{v.Sheet, v.Row}}, v.More...)
}

// Score scores the visit, which takes some microseconds.
func (v *Visit) Score(options *scoring.Options) *scoring.Score {
	score := options.Assess(v.Scored())
	return &score
}

// Scored returns the entry that is scored: an empty one without consent.
func (v *Visit) Scored() *scoring.Entry {
	if v.Withheld {
		return &scoring.Entry{}
	}
	return &v.Row.Entry
}

// Visits groups the rows by person and test day. Rows are about one person if they
// have the same ID or, where one has none, the same name and date of birth; never if
// their names, sexes or dates of birth contradict each other. A row without a date
// joins the visit of a person who was tested on a single day.
func Visits(r *roster.Roster) []Visit {
	return match(r).visits()
}

// visits makes the visits, in the order of the roster.
func (m *matching) visits() []Visit {
	type key struct {
		person int
		day    time.Time
	}
	days := make([][]time.Time, m.people) // the first two
	latest := make([]time.Time, m.people)
	for i, line := range m.lines {
		day := line.Row.Entry.Tested
		if p := m.person[i]; !day.IsZero() && (len(days[p]) == 0 || len(days[p]) == 1 && !days[p][0].Equal(day)) {
			days[p] = append(days[p], day)
		}
		if p := m.person[i]; day.After(latest[p]) {
			latest[p] = day
		}
	}
	of := make([][]int, m.people)
	for i := range m.lines {
		of[m.person[i]] = append(of[m.person[i]], i)
	}
	at := map[key]int{}
	var groups [][]Line
	var persons []int
	lost := map[int]scoring.Said{} // groups whose day is not known, and why that matters
	for i, line := range m.lines {
		k := key{m.person[i], line.Row.Entry.Tested}
		why := scoring.Said{}
		if k.day.IsZero() && len(days[k.person]) == 1 {
			if why = m.dayless(i, of[k.person]); why.IsZero() {
				k.day = days[k.person][0]
			}
		}
		n, known := at[k]
		if !known {
			n = len(groups)
			at[k] = n
			groups, persons = append(groups, nil), append(persons, k.person)
			if !why.IsZero() {
				lost[n] = why
			}
		}
		groups[n] = append(groups[n], line)
	}
	visits := make([]Visit, len(groups))
	for n, lines := range groups {
		visits[n] = Visit{Sheet: lines[0].Sheet, Row: lines[0].Row, Person: persons[n], Doubt: lost[n], First: lines[0].Row}
		if lists := listsFor(m.more[persons[n]], lines, latest[persons[n]]); len(lines)+len(lists) > 1 {
			visits[n].Row, visits[n].Doubt = joinRows(lines, lists)
			visits[n].More = lines[1:]
		}
		if why := lost[n]; !why.IsZero() {
			visits[n].Doubt = why
			visits[n].remark(roster.Problem{Sheet: lines[0].Sheet.Name, Cell: lines[0].Row.Person.NameCell, Read: lines[0].Row.Person.Label(), What: why, Fix: addDay})
		}
	}
	judge(visits)
	m.withhold(visits)
	return visits
}

// remark adds a problem to a copy of the visit's row.
func (v *Visit) remark(p roster.Problem) {
	row := *v.Row
	row.Problems = append(slices.Clone(row.Problems), p)
	v.Row = &row
}

// dayless returns why a line without a day does not join the only visit of its
// person: its day can't be read, or it has another result of a test on another
// sheet, as a new season's sheet has.
func (m *matching) dayless(i int, mine []int) scoring.Said {
	line := m.lines[i]
	if line.Row.DayUnread {
		return dayUnread
	}
	for _, j := range mine[:min(len(mine), maxAlike)] {
		other := m.lines[j]
		if other.Sheet == line.Sheet || other.Row.Entry.Tested.IsZero() {
			continue
		}
		if cell := otherResult(line.Row, other.Row); cell != "" {
			return dayMissing.With(other.Sheet.Name + "!" + cell)
		}
	}
	return scoring.Said{}
}

// otherResult returns the cell in other of a test with different results in the two
// rows; empty if there is none.
func otherResult(row, other *roster.Row) string {
	for i := range row.Entry.Trials {
		for j := range other.Entry.Trials {
			a, b := &row.Entry.Trials[i], &other.Entry.Trials[j]
			if in, differ := resultsDiffer(a, b); differ {
				return b.Cell(in)
			}
		}
	}
	return ""
}

// resultsDiffer reports whether two trials of one test have different results, and
// in which input of the second.
func resultsDiffer(a, b *scoring.Trial) (in scoring.Input, differ bool) {
	x, okA := a.ResultOf()
	y, okB := b.ResultOf()
	if a.Test != b.Test || !okA || !okB || x.Input != y.Input || a.Test == heading.Race {
		return 0, false
	}
	p, _ := a.Get(x.Input)
	q, _ := b.Get(y.Input)
	return y.Input, p.Amount != q.Amount
}

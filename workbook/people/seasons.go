package people

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// Seasons are the visits of a roster beside those of earlier workbooks, in
// which the same people have the same numbers.
type Seasons struct {
	Visits  []Visit // of the roster, in its order
	Earlier []Visit // of the earlier workbooks
}

// CellsToMend returns the number of cells that could not be read.
func CellsToMend(r *roster.Roster) int {
	var all []roster.Problem
	for _, p := range r.Problems {
		if p.Blocking {
			all = append(all, p)
		}
	}
	for _, v := range Visits(r) {
		for _, p := range v.Row.Problems {
			if p.Blocking && !p.OnlyUntested {
				all = append(all, p)
			}
		}
	}
	return roster.CellCount(r.Findings(all))
}

// NewSeasons finds the visits of the same people in the roster and in earlier
// workbooks, by the rules of [Visits]. What the rows of the roster say is
// not touched by the earlier ones. A visit that contradicts another season has a
// problem that names the cells of both, and a doubt: it is scored and not
// compared.
func NewSeasons(r *roster.Roster, earlier ...*roster.Roster) Seasons {
	own := match(r)
	s := Seasons{Visits: own.visits()}
	if len(earlier) > 0 {
		s.join(r, own, earlier)
	}
	s.tellSwappedSheets()
	return s
}

// TestDays returns the people of visits, by first mention, and the test days of each
// in the order of the visits. An unknown day is zero.
func TestDays(visits []Visit) (people []int, days [][]time.Time) {
	at := map[int]int{}
	for i := range visits {
		v := &visits[i]
		place, known := at[v.Person]
		if !known {
			place = len(people)
			at[v.Person] = place
			people, days = append(people, v.Person), append(days, nil)
		}
		days[place] = append(days[place], v.Row.Entry.Tested)
	}
	return people, days
}

// join adds the visits of earlier workbooks and numbers people across all files.
func (s *Seasons) join(r *roster.Roster, own *matching, earlier []*roster.Roster) {
	joint := &roster.Roster{Sheets: slices.Clone(r.Sheets)}
	for _, e := range earlier {
		joint.Sheets = append(joint.Sheets, e.Sheets...)
	}
	m := match(joint)
	person := map[*roster.Row]int{}
	for i, line := range m.lines {
		person[line.Row] = m.person[i]
	}
	number := func(v *Visit) { v.Person = person[v.First] }
	at := map[*roster.Row]*Visit{} // of the roster's rows
	for i := range s.Visits {
		v := &s.Visits[i]
		number(v)
		at[v.First] = v
		for _, line := range v.More {
			at[line.Row] = v
		}
	}
	for _, e := range earlier {
		for _, v := range Visits(e) {
			number(&v)
			s.Earlier = append(s.Earlier, v)
		}
	}
	mine := len(own.lines)
	for _, c := range m.clashes {
		line, other := c.line, c.other
		if other > line {
			line, other = other, line
		}
		v := at[m.lines[other].Row]
		if line < mine || v == nil {
			continue // within the roster it is told already; within the earlier ones it is theirs
		}
		p := m.pointAt(m.lines[other], m.lines[line], c)
		p.Blocking = true
		v.doubt(p)
	}
	s.tellNearlySame()
	s.tellLater()
}

// tellNearlySame adds a problem where someone in an earlier workbook may be the
// same person.
func (s *Seasons) tellNearlySame() {
	if len(s.Earlier) == 0 {
		return
	}
	type nameAndPerson struct {
		line   Line
		person int
	}
	known := map[string][]nameAndPerson{}
	for i := range s.Earlier {
		v := &s.Earlier[i]
		if visible := nameKeyOf(v.Row.Person.Name).visible; visible != "" && len(known[visible]) < maxAlike {
			known[visible] = append(known[visible], nameAndPerson{Line{v.Sheet, v.First}, v.Person})
		}
	}
	m := &matching{}
	for i := range s.Visits {
		v := &s.Visits[i]
		visible := nameKeyOf(v.Row.Person.Name).visible
		for _, other := range known[visible] {
			if visible == "" || other.person == v.Person || !v.Doubt.IsZero() || !birthSlip(v.First, other.line.Row) {
				continue
			}
			p := m.pointAt(Line{v.Sheet, v.First}, other.line, clash{what: earlierBirth, fix: fixNearlyBirth, cell: birthOf})
			v.doubt(p)
			break
		}
	}
}

// doubt adds a problem that excludes the visit from comparison.
func (v *Visit) doubt(p roster.Problem) {
	v.remark(p)
	v.Doubt = p.What
}

// tellLater adds a problem where a test of an earlier workbook is later than the
// roster's: the files may have been exchanged.
func (s *Seasons) tellLater() {
	first := map[int]*Visit{} // by person: the earliest of the roster
	for i := range s.Visits {
		v := &s.Visits[i]
		if f := first[v.Person]; !v.day().IsZero() && (f == nil || v.day().Before(f.day())) {
			first[v.Person] = v
		}
	}
	for i := range s.Earlier {
		e := &s.Earlier[i]
		v := first[e.Person]
		if v == nil || !e.Doubt.IsZero() || !e.day().After(v.day()) {
			continue
		}
		e.Doubt = laterThanRoster
		if v.Doubt.IsZero() {
			v.doubt(roster.Problem{Sheet: v.Sheet.Name, Cell: v.First.TestedCell, Read: v.day().Format(time.DateOnly), Blocking: true,
				What: earlierIsLater.With(e.Sheet.Name+"!"+e.First.TestedCell, e.day().Format(time.DateOnly)),
				Fix:  fixEarlierLater})
		}
	}
}

func (v *Visit) day() time.Time { return v.Row.Entry.Tested }

// yearInName matches a year in the name of a sheet.
var yearInName = regexp.MustCompile(`\b(?:19|20)\d\d\b`)

// NamesYear reports whether the name of a sheet contains a year.
func NamesYear(sheet string) bool { return yearInName.MatchString(sheet) }

// tellSwappedSheets adds a problem where a person's tests contradict the years in the
// names of their sheets: two seasons may have been pasted into each other's sheets.
func (s *Seasons) tellSwappedSheets() {
	byPerson := map[int][]*Visit{}
	for i := range s.Visits {
		v := &s.Visits[i]
		if v.yearOfSheet() != "" && !v.day().IsZero() && len(byPerson[v.Person]) < maxAlike {
			byPerson[v.Person] = append(byPerson[v.Person], v)
		}
	}
	for i := range s.Visits {
		v := &s.Visits[i]
		for _, other := range byPerson[v.Person] {
			swapped := v.yearOfSheet() != "" && v.yearOfSheet() < other.yearOfSheet() && v.day().After(other.day())
			if !swapped || !v.Doubt.IsZero() && !other.Doubt.IsZero() {
				continue
			}
			p := roster.Problem{Sheet: v.Sheet.Name, Cell: v.First.TestedCell, Read: v.day().Format(time.DateOnly), Blocking: true,
				What: sheetsExchanged.With(scoring.Quoted(v.Sheet.Name), scoring.Quoted(other.Sheet.Name),
					other.Sheet.Name+"!"+other.First.TestedCell, other.day().Format(time.DateOnly)),
				Fix: fixSheets}
			v.doubt(p)
			if other.Doubt.IsZero() {
				other.Doubt = p.What
			}
		}
	}
}

// yearOfSheet returns the only year in the name of the sheet; empty if there is none.
func (v *Visit) yearOfSheet() string {
	years := yearInName.FindAllString(v.Sheet.Name[strings.IndexByte(v.Sheet.Name, ']')+1:], 2)
	if len(years) != 1 {
		return ""
	}
	return years[0]
}

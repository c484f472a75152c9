package workbook

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
)

// Line is one row with its sheet.
type Line struct {
	Sheet *Sheet
	Row   *Row
}

// Visit is one person on one test day, which may stand on several rows.
type Visit struct {
	Sheet *Sheet // of the first row
	// Row is the row as read. Where several rows are about the visit, or one of
	// a list completes it, it is the first one with what all of them say; cells
	// of other sheets then carry the name of the sheet, as in "5b!C7".
	Row    *Row
	More   []Line // the other rows
	Person int    // visits of one person on several days have the same number, counted from 0
}

// Visits tells who did what when. Rows are about one person if they have the
// same ID or, where one has none, the same name and date of birth; never if
// their names, sexes or dates of birth contradict each other. Of such rows
// those of one test day make one visit; a row without a date joins the visit
// of a person who was tested on a single day.
func (r *Roster) Visits() []Visit {
	return r.match().visits()
}

// visits makes the visits, in the order of the roster.
func (m *matching) visits() []Visit {
	type key struct {
		person int
		day    time.Time
	}
	days := make([][]time.Time, m.people)
	for i, line := range m.lines {
		day := line.Row.Entry.Tested
		if p := m.person[i]; !day.IsZero() && (len(days[p]) == 0 || len(days[p]) == 1 && !days[p][0].Equal(day)) {
			days[p] = append(days[p], day)
		}
	}
	at := map[key]int{}
	var groups [][]Line
	var persons []int
	for i, line := range m.lines {
		k := key{m.person[i], line.Row.Entry.Tested}
		if k.day.IsZero() && len(days[k.person]) == 1 {
			k.day = days[k.person][0]
		}
		n, known := at[k]
		if !known {
			n = len(groups)
			at[k] = n
			groups, persons = append(groups, nil), append(persons, k.person)
		}
		groups[n] = append(groups[n], line)
	}
	visits := make([]Visit, len(groups))
	for n, lines := range groups {
		visits[n] = Visit{Sheet: lines[0].Sheet, Row: lines[0].Row, Person: persons[n]}
		if lists := m.more[persons[n]]; len(lines)+len(lists) > 1 {
			visits[n].Row, visits[n].More = joinRows(lines, lists), lines[1:]
		}
	}
	return visits
}

// joining makes one row of several.
type joining struct {
	row   *Row
	first string // name of the first row's sheet
}

// joinRows makes a row that says what all of the lines say, the first of them
// where they differ, and of the person what only lists say.
func joinRows(lines, lists []Line) *Row {
	first := lines[0].Row
	j := joining{first: lines[0].Sheet.Name, row: &Row{Sheet: first.Sheet, Number: first.Number, Person: first.Person, Report: first.Report, sheetGroup: first.sheetGroup}}
	for _, line := range lines {
		j.person(&line)
		j.row.Person.Contact.also(line.Row.Person.Contact)
		if j.row.Entry.Tested.IsZero() {
			j.row.Entry.Tested = line.Row.Entry.Tested
		}
		j.values(&line, false)
		j.trials(&line)
	}
	for _, line := range lists {
		j.person(&line)
		j.listContact(&line)
		j.values(&line, true)
	}
	noAge := j.age(lines, lists)
	for _, line := range append(slices.Clone(lines), lists...) {
		for _, p := range line.Row.Problems {
			needless := p.What == noResultHere && (len(j.row.Entry.Trials) > 0 || line.Row != first) || p.What == noTestDay
			if !needless {
				j.row.Problems = append(j.row.Problems, p)
			}
		}
	}
	j.row.Problems = append(j.row.Problems, noAge...)
	return j.row
}

// age works out the age where the day of the test and that of birth stand in
// different rows; it gives the problem if there is no day of the test.
func (j *joining) age(lines, lists []Line) []Problem {
	e := &j.row.Entry
	for _, line := range append(slices.Clone(lines), lists...) {
		born := line.Row.birth
		if e.Has(scoring.Age) || born.Time.IsZero() {
			continue
		}
		p := Problem{Sheet: line.Sheet.Name, Cell: line.Row.birthCell, Read: born.Time.Format(time.DateOnly), Blocking: true}
		if e.Tested.IsZero() {
			p.What, p.Fix = noTestDay, `add a column "Test date"`
			return []Problem{p}
		}
		years, err := scoring.AgeOn(born.Time, e.Tested)
		if err != nil || scoring.Age.CheckRange(scoring.Q(years, scoring.Years)) != "" {
			p.What, p.Fix = fmt.Sprintf("this does not fit to the test on %s", e.Tested.Format("2 January 2006")), "correct the date of birth or the test date"
			return []Problem{p}
		}
		e.Set(scoring.Age, scoring.Q(years, scoring.Years), j.at(&line, line.Row.birthCell))
	}
	return nil
}

// at is a cell as the joined row calls it.
func (j *joining) at(line *Line, cell string) string {
	if line.Sheet.Name == j.first || cell == "" {
		return cell
	}
	return line.Sheet.Name + "!" + cell
}

// from is a cell of the joined row as a line of any sheet calls it.
func (j *joining) from(line *Line, cell string) string {
	if line.Sheet.Name == j.first || strings.Contains(cell, "!") {
		return cell
	}
	return j.first + "!" + cell
}

// person takes over who the person is. The name of a sheet is a group only
// where no other is given.
func (j *joining) person(line *Line) {
	p, q := &j.row.Person, line.Row.Person
	if p.Name == "" {
		p.Name = q.Name
	}
	if p.ID == "" {
		p.ID = q.ID
	}
	if p.Group == "" || j.row.sheetGroup && q.Group != "" && !line.Row.sheetGroup {
		p.Group, j.row.sheetGroup = q.Group, line.Row.sheetGroup
	}
	p.Audience, p.Language = cmp.Or(p.Audience, q.Audience), cmp.Or(p.Language, q.Language)
}

// listContact takes from a list how the person can be reached, where the ID or
// the date of birth says that it is the same person. A name alone does not: a
// teacher may be called like a pupil, and a page would go to the wrong one.
func (j *joining) listContact(line *Line) {
	id, born := line.Row.Person.ID, line.Row.Entry.Born
	if id != "" && id == j.row.Person.ID || !born.IsZero() && born.Equal(j.row.Entry.Born) {
		j.row.Person.Contact.also(line.Row.Person.Contact)
	}
}

// values takes over what is known of the person. An age worked out from a date
// of birth counts before one that was typed; one that a list has for another
// day does not count.
func (j *joining) values(line *Line, list bool) {
	e, other := &j.row.Entry, &line.Row.Entry
	better := e.Born.IsZero() && !other.Born.IsZero()
	for in := range scoring.InputCount {
		q, ok := other.Get(in)
		if !ok || list && in == scoring.Age && !line.Row.birth.Time.IsZero() {
			continue
		}
		cell := j.at(line, other.Cell(in))
		had, known := e.Get(in)
		switch {
		case !known, in == scoring.Age && better:
			e.Set(in, q, cell)
		case in == scoring.Age && math.Abs(had.Amount-q.Amount) <= 1:
		case math.Abs(had.Amount-q.Amount) >= 0.05:
			j.row.Problems = append(j.row.Problems, Problem{Sheet: line.Sheet.Name, Cell: other.Cell(in), Read: q.String(),
				What: fmt.Sprintf("the %s differs from that in %s of the same person, which was used", in.Info().Name, j.from(line, e.Cell(in))),
				Fix:  "correct the one that is wrong"})
		}
	}
	if better {
		e.Born = other.Born
	}
}

// trials takes over the tests; one that stands there already, with every value
// the same, counts once.
func (j *joining) trials(line *Line) {
	for i := range line.Row.Entry.Trials {
		theirs := &line.Row.Entry.Trials[i]
		trial := scoring.Trial{Test: theirs.Test}
		for in := range scoring.InputCount {
			if q, ok := theirs.Get(in); ok {
				trial.Set(in, q, j.at(line, theirs.Cell(in)))
			}
		}
		if same := j.sameTrial(&trial); same != nil {
			result, _ := theirs.ResultOf()
			q, _ := theirs.Get(result.Input)
			j.row.Problems = append(j.row.Problems, Problem{Sheet: line.Sheet.Name, Cell: theirs.Cell(result.Input), Read: q.String(),
				What: fmt.Sprintf("the same person has the same result in %s; it was counted once", j.from(line, same.Cell(result.Input)))})
			continue
		}
		j.row.Entry.Trials = append(j.row.Entry.Trials, trial)
	}
}

func (j *joining) sameTrial(trial *scoring.Trial) *scoring.Trial {
	for i := range j.row.Entry.Trials {
		had := &j.row.Entry.Trials[i]
		same := had.Test == trial.Test
		for in := range scoring.InputCount {
			a, okA := had.Get(in)
			b, okB := trial.Get(in)
			same = same && okA == okB && a.Amount == b.Amount
		}
		if same {
			return had
		}
	}
	return nil
}

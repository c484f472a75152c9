package people

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/roster"
)

// nearVisit is how far from the test a morning's resting heart rate may be to
// count for it. Common practice, no source.
const nearVisit = 14 * 24 * time.Hour

// listsFor returns the rows of lists that belong to a visit: those without a day,
// and those near it. Where the person has several days, a resting heart rate
// without a day belongs to the last.
func listsFor(lists, lines []Line, latest time.Time) []Line {
	var day time.Time
	for _, line := range lines {
		if day.IsZero() {
			day = line.Row.Entry.Tested
		}
	}
	var mine []Line
	for _, line := range lists {
		on := line.Row.Entry.Tested
		near := on.IsZero() || day.IsZero() || on.Sub(day).Abs() <= nearVisit
		if !line.Row.Entry.Has(scoring.RestingHR) || near && (!on.IsZero() || day.Equal(latest)) {
			mine = append(mine, line)
		}
	}
	return mine
}

// joining makes one row of several.
type joining struct {
	row   *roster.Row
	first string       // name of the first row's sheet
	doubt scoring.Said // why the row is not compared with other days; empty if it may be
	lines []*Line      // those of the trials
}

// joinRows merges lines into one row. The first line counts where they differ; lists
// add what no line says of the person.
func joinRows(lines, lists []Line) (row *roster.Row, doubt scoring.Said) {
	first := lines[0].Row
	j := joining{first: lines[0].Sheet.Name, row: &roster.Row{Sheet: first.Sheet, Number: first.Number, Person: first.Person, Report: first.Report, ListNumber: first.ListNumber, SheetGroup: first.SheetGroup}}
	for i := range lines {
		line := &lines[i]
		j.person(line)
		j.row.Person.ReachedAlso(line.Row.Person.Contact)
		if j.row.Entry.Tested.IsZero() {
			j.row.Entry.Tested = line.Row.Entry.Tested
		}
		j.values(line, false)
		j.row.Entry.MayBeChild = j.row.Entry.MayBeChild || line.Row.Entry.MayBeChild
		j.row.ResultUnread = j.row.ResultUnread || line.Row.ResultUnread
		j.trials(line)
	}
	lists = j.mornings(lists)
	id, born := j.row.Person.ID, j.row.Entry.Born // before a list adds them
	for _, line := range lists {
		if line.isOf(id, born, cmp.Or(j.row.Person.Group, j.first)) {
			j.row.Person.ReachedAlso(line.Row.Person.Contact)
		}
		j.person(&line)
		j.values(&line, true)
	}
	noAge := j.age(lines, lists)
	for _, line := range append(slices.Clone(lines), lists...) {
		for _, p := range line.Row.Problems {
			needless := p.OnlyUntested && (len(j.row.Entry.Trials) > 0 || line.Row != first) || p.What == roster.NoTestDay
			if !needless {
				j.row.Problems = append(j.row.Problems, p)
			}
		}
	}
	j.row.Problems = append(j.row.Problems, noAge...)
	return j.row, j.doubt
}

// mornings merges the resting heart rates of several rows of a list, one a morning,
// into their median. It returns the lists without those rows.
func (j *joining) mornings(lists []Line) []Line {
	var rates []float64
	first := ""
	var rest []Line
	for i := range lists {
		q, ok := lists[i].Row.Entry.Get(scoring.RestingHR)
		if !ok || lists[i].Row.Entry.Tested.IsZero() {
			rest = append(rest, lists[i])
			continue
		}
		if rates = append(rates, q.Amount); first == "" {
			first = j.at(&lists[i], lists[i].Row.Entry.Cell(scoring.RestingHR))
		}
	}
	if len(rates) < 2 {
		return lists
	}
	e := &j.row.Entry
	e.Set(scoring.RestingHR, scoring.Q(change.Median(rates), scoring.BeatsPerMinute), first)
	e.Mornings = len(rates)
	return rest
}

// age computes the age where the test date and the date of birth are in different
// rows. It returns the problem, if any.
func (j *joining) age(lines, lists []Line) []roster.Problem {
	e := &j.row.Entry
	for _, line := range append(slices.Clone(lines), lists...) {
		born := line.Row.Birth
		if e.Has(scoring.Age) || born.Time.IsZero() {
			continue
		}
		p := roster.Problem{Sheet: line.Sheet.Name, Cell: line.Row.BirthCell, Read: born.Time.Format(time.DateOnly), Blocking: true}
		e.YearsAtMost = cmp.Or(e.YearsAtMost, line.Row.Entry.YearsAtMost)
		if e.Tested.IsZero() {
			p.What, p.Fix = roster.NoTestDay, line.Sheet.OrRename(roster.AddTestDate)
			return []roster.Problem{p}
		}
		years, err := scoring.AgeOn(born.Time, e.Tested)
		if err != nil || !scoring.Age.CheckRange(scoring.Q(years, scoring.Years)).IsZero() {
			p.What, p.Fix = doesNotFit.With(e.Tested), roster.FixEitherDate
			return []roster.Problem{p}
		}
		e.Set(scoring.Age, scoring.Q(years, scoring.Years), j.at(&line, line.Row.BirthCell))
	}
	return nil
}

// at returns the name of a cell within the joined row.
func (j *joining) at(line *Line, cell string) string {
	if line.Sheet.Name == j.first || cell == "" {
		return cell
	}
	return line.Sheet.Name + "!" + cell
}

// from returns the name of a cell of the joined row as seen from any sheet.
func (j *joining) from(line *Line, cell string) string {
	if line.Sheet.Name == j.first || strings.Contains(cell, "!") {
		return cell
	}
	return j.first + "!" + cell
}

// person merges the identity. The name of a sheet is a group only where no other
// is given.
func (j *joining) person(line *Line) {
	p, q := &j.row.Person, line.Row.Person
	if p.Name == "" {
		p.Name = q.Name
	}
	if p.ID == "" {
		p.ID = q.ID
	}
	if p.Group == "" || j.row.SheetGroup && q.Group != "" && !line.Row.SheetGroup {
		p.Group, j.row.SheetGroup = q.Group, line.Row.SheetGroup
	}
	p.Audience, p.Language = cmp.Or(p.Audience, q.Audience), cmp.Or(p.Language, q.Language)
}

// isOf reports whether a row of a list is surely of a person, whose address it then
// gives: by ID, by date of birth, or by class, as its name is unique in roster and
// lists. A name alone is not enough: a teacher may share it with a pupil.
func (l *Line) isOf(id string, born time.Time, group string) bool {
	p := l.Row.Person
	return id != "" && p.ID == id || !born.IsZero() && l.Row.Entry.Born.Equal(born) ||
		group != "" && strings.EqualFold(strings.Join(strings.Fields(p.Group), " "), strings.Join(strings.Fields(group), " "))
}

// values merges the values of the person. An age computed from a date of birth
// replaces a typed one; an age that a list computed for another day is ignored.
func (j *joining) values(line *Line, list bool) {
	e, other := &j.row.Entry, &line.Row.Entry
	better := e.Born.IsZero() && !other.Born.IsZero()
	for in := range scoring.InputCount {
		q, ok := other.Get(in)
		if !ok || list && in == scoring.Age && !line.Row.Birth.Time.IsZero() {
			continue
		}
		cell := j.at(line, other.Cell(in))
		had, known := e.Get(in)
		switch {
		case !known, in == scoring.Age && better:
			e.Take(in, &other.Values, cell)
		case in == scoring.Age && math.Abs(had.Amount-q.Amount) <= 1:
		case math.Abs(had.Amount-q.Amount) >= 0.05:
			if in.Info().YesNo {
				e.Set(in, scoring.Q(scoring.Unclear, scoring.NoUnit), e.Cell(in))
			}
			j.row.Problems = append(j.row.Problems, roster.Problem{Sheet: line.Sheet.Name, Cell: other.Cell(in), Read: q.String(),
				What: valueDiffers.With(in, j.from(line, e.Cell(in))), Fix: roster.CorrectOne})
		}
	}
	if e.HealthUnread == "" {
		e.HealthUnread = j.at(line, other.HealthUnread)
	}
	for _, d := range other.Doubts {
		if d.Unread {
			d.Cell = j.at(line, d.Cell)
			e.Doubts = append(e.Doubts, d)
		}
	}
	for _, n := range other.Notes {
		n.Cell = j.at(line, n.Cell)
		e.Notes = append(e.Notes, n)
	}
	if better {
		e.Born = other.Born
	}
	if e.Mornings == 0 && e.Cell(scoring.RestingHR) == j.at(line, other.Cell(scoring.RestingHR)) {
		e.Mornings = other.Mornings
	}
}

// trials adds the tests of a line. A test with the same values counts once.
func (j *joining) trials(line *Line) {
	for i := range line.Row.Entry.Trials {
		theirs := &line.Row.Entry.Trials[i]
		trial := scoring.Trial{Test: theirs.Test, Attempt: theirs.Attempt, Attempts: theirs.Attempts}
		for in := range scoring.InputCount {
			trial.Take(in, &theirs.Values, j.at(line, theirs.Cell(in)))
		}
		if same := j.sameTrial(&trial); same != nil {
			result, _ := theirs.ResultOf()
			q, _ := theirs.Get(result.Input)
			j.row.Problems = append(j.row.Problems, roster.Problem{Sheet: line.Sheet.Name, Cell: theirs.Cell(result.Input), Read: q.String(),
				What: countedOnce.With(j.from(line, same.Cell(result.Input)))})
			continue
		}
		if !j.isAttempt(line, theirs, trial) {
			j.row.Entry.Trials, j.lines = append(j.row.Entry.Trials, trial), append(j.lines, line)
		}
	}
}

// isAttempt reports whether the person has another result of the test in a row of
// the same sheet, and keeps the attempt that counts. On another sheet the day may
// not have been changed for the next season.
func (j *joining) isAttempt(line *Line, theirs *scoring.Trial, trial scoring.Trial) bool {
	for i := range j.row.Entry.Trials {
		had := &j.row.Entry.Trials[i]
		in, differ := resultsDiffer(had, theirs)
		if !differ {
			continue
		}
		q, _ := theirs.Get(in)
		p := roster.Problem{Sheet: line.Sheet.Name, Cell: theirs.Cell(in), Read: q.String(), Fix: fixOtherResult}
		other := j.from(line, had.Cell(in))
		switch {
		case j.lines[i].Sheet != line.Sheet:
			j.doubt = otherResultDay.With(other)
			p.What = j.doubt
		case trial.Test.ByPulse():
			p.What = lastCounts.With(other)
		default:
			p.What = betterCounts.With(other)
		}
		j.row.Problems = append(j.row.Problems, p)
		if j.lines[i].Sheet != line.Sheet {
			return false
		}
		all := max(had.Attempts, 1) + max(trial.Attempts, 1)
		had.Attempt, trial.Attempt = max(had.Attempt, 1), max(had.Attempts, 1)+max(trial.Attempt, 1)
		had.Attempts, trial.Attempts = all, all
		if trial.Supersedes(had) {
			*had = trial
		}
		return true
	}
	return false
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

package reading

import (
	"math"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// rowReader reads one row as a person.
type rowReader struct {
	cellReader
	survey *columns.Survey
	opt    *Options
	row    roster.Row
	days   map[*scoring.Test]time.Time // of the results that count, where their headers name them
}

// readPerson reads who the row is about.
func (rr *rowReader) readPerson() {
	p := &rr.row.Person
	var given, family []string
	idCell := ""
	for _, c := range rr.survey.Used {
		if d := rr.raw.cells[c.Slot].FormulaFault(fixWhose); d != nil && c.Meaning.Role.IsPerson() {
			rr.block(c, d.What, d.Fix)
		}
		text := cell.Label(rr.raw.cells[c.Slot])
		if text == "" || !cell.HasLetters(text) && cell.SaysNoResult(rr.raw.cells[c.Slot]) {
			continue
		}
		at := grid.At(c.Index, rr.raw.number)
		switch c.Meaning.Role {
		case roster.Name:
			if p.Name == "" {
				p.Name, p.NameCell = text, at
			}
		case roster.GivenName:
			given = append(given, text)
		case roster.FamilyName:
			family = append(family, text)
		case roster.ID:
			if cutShort(rr.raw.cells[c.Slot]) {
				rr.say(c, idCutShort, fixIDCutShort)
			} else if p.ID == "" {
				p.ID, idCell, rr.row.Listed = text, at, c.Listed
			}
		case roster.ListNumber:
			rr.row.ListNumber = text
		case roster.Group:
			if p.Group == "" {
				p.Group = text
			}
		case roster.Audience, roster.Language:
			rr.readWish(c, text)
		case roster.Email, roster.GuardianEmail, roster.PagePassword:
			rr.readContact(c)
		case roster.Ours:
			rr.row.Report = text
		}
		if p.NameCell == "" && (c.Meaning.Role == roster.GivenName || c.Meaning.Role == roster.FamilyName) {
			p.NameCell = at
		}
	}
	if p.Name == "" {
		p.Name = strings.Join(append(given, family...), " ")
	}
	if p.NameCell == "" {
		p.NameCell = idCell
	}
}

// filled returns the first column with a result, and counts the other filled
// cells that do not identify the person.
func (rr *rowReader) filled() (result *columns.Column, others int) {
	for _, c := range rr.survey.Used {
		if rr.raw.cells[c.Slot].IsBlank() {
			continue
		}
		switch c.Meaning.Role {
		case roster.Name, roster.GivenName, roster.FamilyName, roster.ID, roster.ListNumber, roster.Group, roster.Audience, roster.Language, roster.Ours:
			continue
		}
		if result == nil && c.IsResult() && !c.SaysNone(rr.raw.cells[c.Slot]) {
			result = c
		} else {
			others++
		}
	}
	return result, others
}

// readPersonal reads sex and the other values of the person.
func (rr *rowReader) readPersonal() {
	for _, c := range rr.survey.Used {
		m := c.Meaning
		if c.Repeats || m.Role != roster.InputData || m.Test != nil || m.Input == scoring.Age || !m.Input.Info().Personal {
			continue
		}
		before := rr.blocked
		if m.Input == scoring.SexInput {
			rr.readSex(c)
		} else if m.Input.Info().YesNo {
			rr.readAnswer(c)
		} else if c.Morning {
			rr.readMornings(c)
		} else if v, ok := rr.readOne(c, nil); ok {
			for _, v := range v {
				rr.row.Entry.Set(v.In, v.Q, v.Cell)
			}
		}
		if rr.blocked > before && !m.Input.Info().YesNo {
			rr.doubtUnread(m.Input)
		}
	}
}

// doubtUnread makes a value that could not be read a doubt, so that no equation that
// does without it gives another result.
func (rr *rowReader) doubtUnread(in scoring.Input) {
	if p := rr.problems[len(rr.problems)-1]; !p.Waits {
		rr.row.Entry.Doubts = append(rr.row.Entry.Doubts, scoring.Doubt{Inputs: []scoring.Input{in}, Cell: p.Cell, Read: p.Read,
			Impossible: true, What: p.What, Fix: p.Fix, Unread: true})
	}
}

// readMornings reads several resting heart rates as their median, with the first
// cell. One that can't be read is left out, with a problem.
func (rr *rowReader) readMornings(first *columns.Column) {
	var rates []float64
	at := ""
	for _, c := range first.Alike() {
		v, ok := rr.readCell(c, nil)
		if !ok {
			continue
		}
		if rates = append(rates, v[0].Q.In(scoring.BeatsPerMinute)); at == "" {
			at = v[0].Cell
		}
	}
	if len(rates) == 0 {
		return
	}
	rr.row.Entry.Set(scoring.RestingHR, scoring.Q(change.Median(rates), scoring.BeatsPerMinute), at)
	if len(rates) > 1 {
		rr.row.Entry.Mornings = len(rates)
	}
}

func (rr *rowReader) readSex(c *columns.Column) {
	for _, d := range c.Alike() {
		sex, doubt := d.Sexes.ParseSex(rr.raw.cells[d.Slot])
		if doubt != nil {
			rr.unread(d, doubt)
			return
		}
		if of := heading.SexIn(rr.row.Person.Group); sex != scoring.SexUnspecified && of != scoring.SexUnspecified && of != sex && !rr.confirmed(d) {
			rr.block(d, sexOfGroup.With(scoring.Quoted(rr.row.Person.Group)), roster.CorrectOne)
			return
		}
		if sex != scoring.SexUnspecified {
			rr.row.Entry.SetSex(sex, grid.At(d.Index, rr.raw.number))
			return
		}
	}
}

// readDay reads a date from the first filled column of the same meaning.
func (rr *rowReader) readDay(c *columns.Column) (day cell.Day, at *columns.Column) {
	if c == nil {
		return cell.Day{}, nil
	}
	for _, d := range c.Alike() {
		r := rr.raw.cells[d.Slot]
		if r.IsBlank() || cell.SaysNoResult(r) {
			continue
		}
		ctx := rr.facts.DateContext(d)
		if ctx.Ahead && rr.row.Entry.Tested.After(ctx.Latest) {
			ctx.Latest = rr.row.Entry.Tested // the latest day known to be past
		}
		day, doubt := cell.ParseDate(r, ctx)
		if doubt != nil {
			ctx.Order = cell.DayFirst
			if _, other := cell.ParseDate(r, ctx); d.Asked && other == nil {
				rr.unread(d, doubt)
			} else {
				rr.block(d, doubt.What, doubt.Fix)
			}
			return cell.Day{}, nil
		}
		if day.ShortYear {
			d.Remark(columns.ReadShortYear, rr.problem(d, scoring.Said{}, scoring.Said{}))
		}
		return day, d
	}
	return cell.Day{}, nil
}

// readAge works out the age on the test day from the date of birth, else reads
// the typed age.
func (rr *rowReader) readAge() {
	e := &rr.row.Entry
	e.Tested = rr.facts.TestDate
	if e.Tested.IsZero() {
		e.Tested = rr.day()
	}
	if e.Tested.IsZero() {
		e.Tested = rr.survey.Day
	}
	before := rr.blocked
	if day, c := rr.readDay(rr.survey.Columns.With(roster.TestDate)); c != nil {
		e.Tested, rr.row.TestedCell = day.Time, grid.At(c.Index, rr.raw.number)
	} else {
		rr.row.DayUnread = rr.blocked > before
	}
	var typed columns.Value
	hasTyped := false
	if rr.survey.Columns.Input(scoring.Age) != nil {
		if v, ok := rr.readOne(rr.survey.Columns.Input(scoring.Age), nil); ok {
			typed, hasTyped = v[0], true
			e.Set(scoring.Age, typed.Q, typed.Cell)
		}
	}
	born, c := rr.readDay(rr.survey.Columns.With(roster.Birth))
	if c == nil {
		return
	}
	at := grid.At(c.Index, rr.raw.number)
	rr.row.Birth, rr.row.BirthCell = born, at
	if !born.YearOnly {
		e.Born = born.Time
	}
	if e.Tested.IsZero() {
		e.YearsAtMost = rr.facts.OldestToday(born)
		switch {
		case hasTyped, rr.row.DayUnread: // there is a problem for the latter
		case rr.survey.NoResult(rr.raw.cells): // not tested, so there is no day
		case rr.survey.Columns.With(roster.TestDate) == nil:
			rr.block(c, roster.NoTestDay, rr.sheet.OrRename(roster.AddTestDate))
		default:
			rr.block(c, roster.NoTestDay, typeTestDate)
		}
		return
	}
	years, err := scoring.AgeOn(born.Time, e.Tested)
	if err != nil {
		e.Born = time.Time{}
		rr.block(c, bornAfter.With(born.Time, e.Tested), roster.FixEitherDate)
		return
	}
	q := scoring.Q(years, scoring.Years)
	if what := scoring.Age.CheckRange(q); !what.IsZero() {
		rr.block(c, ageOutside.With(what), roster.FixEitherDate)
		return
	}
	if born.YearOnly {
		c.Remark(columns.ReadYearOnly, rr.problem(c, scoring.Said{}, scoring.Said{}))
	}
	if hasTyped && math.Abs(typed.Q.Amount-math.Floor(years)) > 1 && !born.YearOnly {
		rr.say(rr.survey.Columns.Input(scoring.Age), ageByBirth.With(at, int(years)), roster.CorrectOne)
	}
	e.Set(scoring.Age, q, at)
}

// cutNumber matches a long number as a spreadsheet writes it, without its last
// digits.
var cutNumber = cell.Pattern(`^\d[.,]\d+E\+\d+$`)

func cutShort(r cell.Raw) bool {
	return r.Kind == cell.Text && cutNumber().MatchString(cell.Clean(r.Text))
}

package reading

import (
	"iter"
	"maps"
	"math"
	"slices"
	"strings"
	"time"
	"unicode"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// summaryWords stand in rows that sum up others, by headerKey.
var summaryWords = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields("average averages mean median total totals subtotal sum sd stdev count overall " +
		"durchschnitt mittelwert schnitt gesamt summe anzahl moyenne total médiane somme media promedio mediana suma média soma totale somma " +
		"gemiddelde totaal medel medelvärde summa średnia suma razem среднее средний итого всего 平均 平均值 合计 合計 总计 평균 합계 rata-rata jumlah ortalama toplam") {
		all[heading.Key(w)] = true
	}
	for _, w := range []string{"class average", "group average", "grand total", "std dev", "standard deviation", "classaverage", "average class"} {
		all[heading.Key(w)] = true
	}
	return all
}()

// starts are the first two letters of known words in small letters. Most texts
// of a roster are seen at that glance not to be one of them.
type starts map[[2]byte]bool

func startsOf(words iter.Seq[string]) starts {
	all := starts{}
	for w := range words {
		all[[2]byte{w[0], w[1]}] = true
	}
	return all
}

// ruleOut tells that a text begins with two plain letters, and none of the words
// does so.
func (s starts) ruleOut(text string) bool {
	if len(text) < 2 {
		return false
	}
	start := [2]byte{text[0] | 0x20, text[1] | 0x20}
	return isLetter(start[0]) && isLetter(start[1]) && !s[start]
}

// isLetter knows the plain small letters.
func isLetter(c byte) bool { return 'a' <= c && c <= 'z' }

var summaryStarts = startsOf(maps.Keys(summaryWords))

func isSummary(s string) bool {
	return len(s) < 40 && !summaryStarts.ruleOut(s) && summaryWords[heading.Key(s)]
}

// readRow makes a person of a row, if it is about one.
func (sr *sheetReader) readRow(raw *rawRow) {
	row := roster.Row{Sheet: sr.sheet.Name, Number: raw.number}
	sr.readPerson(raw, &row)
	results, others := sr.filled(raw)
	nobody := row.Person.Name == "" && row.Person.ID == ""
	switch {
	case sr.isApart(raw), raw.summary && (nobody || isSummary(row.Person.Label())), sr.repeatsHeader(raw):
		return
	case nobody && results == nil:
		return // a class heading, a note, a line of sums
	case nobody:
		p := sr.problem(raw, results, whoseResult, fixWhose)
		p.Blocking = true
		sr.rd.roster.Problems = append(sr.rd.roster.Problems, p)
		return
	case isExample(row.Person.Label()):
		sr.skipped.add(roster.Problem{Cell: row.Person.NameCell, Read: row.Person.Label()})
		return
	case results == nil && others == 0 && sr.headsSex(&row):
		return
	case results == nil && others == 0 && row.Person.ID == "" && isNote(row.Person.Name, raw.afterGap):
		sr.skipped.add(roster.Problem{Cell: row.Person.NameCell, Read: row.Person.Name})
		return
	}
	sr.readAge(raw, &row)
	sr.readPersonal(raw, &row)
	if sr.noSex && sr.sex != scoring.SexUnspecified {
		row.Entry.SetSex(sr.sex, "")
	}
	if !sr.isList {
		sr.readTrials(raw, &row)
	}
	row.Entry.Clip()
	sr.sheet.Rows = append(sr.sheet.Rows, row)
}

// isApart tells whether a row sums up a table, or belongs to another one.
func (sr *sheetReader) isApart(raw *rawRow) bool {
	return slices.ContainsFunc(sr.tables, func(t ooxml.Table) bool { return t.IsTotal(raw.number) && sr.holdsWho(t) }) ||
		slices.ContainsFunc(sr.others, func(t ooxml.Table) bool { return t.FirstRow <= raw.number && raw.number <= t.LastRow })
}

// readPerson finds who the row is about.
func (sr *sheetReader) readPerson(raw *rawRow, row *roster.Row) {
	p := &row.Person
	var given, family []string
	idCell := ""
	for _, c := range sr.used {
		text := cell.Label(raw.cells[c.slot])
		if text == "" || !cell.HasLetters(text) && cell.SaysNoResult(raw.cells[c.slot]) {
			continue
		}
		at := grid.At(c.Index, raw.number)
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
			if cutShort(raw.cells[c.slot]) {
				sr.say(row, raw, c, idCutShort, fixIDCutShort)
			} else if p.ID == "" {
				p.ID, idCell, row.Listed = text, at, c.listed
			}
		case roster.Group:
			if p.Group == "" {
				p.Group = text
			}
		case roster.Audience, roster.Language:
			sr.readWish(raw, row, c, text)
		case roster.Email, roster.GuardianEmail, roster.PagePassword:
			sr.readContact(raw, row, c)
		case roster.Ours:
			row.Report = text
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

// filled finds the first cell with a result, and counts the other filled
// cells that are not the person's name, ID or group.
func (sr *sheetReader) filled(raw *rawRow) (result *sheetColumn, others int) {
	for _, c := range sr.used {
		if raw.cells[c.slot].IsBlank() {
			continue
		}
		switch c.Meaning.Role {
		case roster.Name, roster.GivenName, roster.FamilyName, roster.ID, roster.Group, roster.Audience, roster.Language, roster.Ours:
			continue
		}
		if result == nil && c.isResult() && !cell.SaysNoResult(raw.cells[c.slot]) {
			result = c
		} else {
			others++
		}
	}
	return result, others
}

// repeatsHeader tells that a row is the header again, as on printed lists.
func (sr *sheetReader) repeatsHeader(raw *rawRow) bool {
	same := 0
	for _, c := range sr.used {
		if raw.cells[c.slot].IsBlank() {
			continue
		}
		if !c.saysHeader(raw.cells[c.slot].Text) {
			return false
		}
		same++
	}
	return same >= 2
}

// exampleWords begin a row that shows how to fill in the others, folded.
//
//nolint:misspell // one of them is French
var exampleWords = []string{"exemple", "example", "sample", "e.g.", "eg", "beispiel", "bsp", "z.b.", "ejemplo", "esempio", "exemplo", "voorbeeld", "exempel",
	"eksempel", "przyklad", "пример", "приклад", "esimerkki", "priklad", "pelda", "ornek", "例", "记入例", "記入例", "예", "예시", "contoh"}

var exampleStarts = startsOf(slices.Values(exampleWords))

// isExample tells whether a name is that of an example: the word alone, or
// with a colon or parentheses.
func isExample(name string) bool {
	if exampleStarts.ruleOut(name) {
		return false
	}
	s := cell.Fold(name)
	return slices.ContainsFunc(exampleWords, func(w string) bool {
		rest, ok := strings.CutPrefix(strings.TrimLeft(s, "( "), w)
		return ok && (rest == "" || strings.ContainsAny(rest[:1], ":)") || strings.HasPrefix(strings.TrimLeft(rest, ". "), ":"))
	})
}

// isNote tells whether a text alone in its row is a remark rather than a name.
func isNote(s string, afterGap bool) bool {
	fields := strings.Fields(s)
	words := len(fields)
	if headsGroup(fields) {
		return true
	}
	return strings.ContainsAny(s, ":=?!") || strings.HasPrefix(s, "*") || words > 6 ||
		words > 3 && strings.HasSuffix(s, ".") || afterGap && words > 4 ||
		!cell.HasLetters(s)
}

// headsGroup tells whether words alone in a row are the heading of a group, such
// as "Class 7a", "Team B" or "7a".
func headsGroup(words []string) bool {
	if len(words) == 0 || len(words) > 3 {
		return false
	}
	last := []rune(words[len(words)-1])
	counted := len(last) <= 3 && (unicode.IsDigit(last[0]) || len(last) == 1)
	if len(words) == 1 {
		return counted && unicode.IsDigit(last[0])
	}
	m, ok := heading.Match(words[0])
	return counted && ok && m.Role == roster.Group
}

// problem describes a cell of the row.
func (sr *sheetReader) problem(raw *rawRow, c *sheetColumn, what, fix scoring.Said) roster.Problem {
	return roster.Problem{Sheet: sr.sheet.Name, Cell: grid.At(c.Index, raw.number),
		Read: cell.Display(raw.cells[c.slot], sr.rd.book.Date1904()), What: what, Fix: fix}
}

// block adds a problem that may cost the row its score.
func (sr *sheetReader) block(row *roster.Row, raw *rawRow, c *sheetColumn, what, fix scoring.Said) {
	if !sr.rd.roster.Admit() && blockers(row) > 0 {
		return
	}
	p := sr.problem(raw, c, what, fix)
	p.Blocking = true
	row.Problems = append(row.Problems, p)
}

// say adds a remark.
func (sr *sheetReader) say(row *roster.Row, raw *rawRow, c *sheetColumn, what, fix scoring.Said) {
	if sr.rd.roster.Admit() {
		row.Problems = append(row.Problems, sr.problem(raw, c, what, fix))
	}
}

// readPersonal reads sex and the other values that belong to the person.
func (sr *sheetReader) readPersonal(raw *rawRow, row *roster.Row) {
	for _, c := range sr.used {
		m := c.Meaning
		if c.repeats || m.Role != roster.InputData || m.Test != nil || m.Input == scoring.Age || !m.Input.Info().Personal {
			continue
		}
		if m.Input == scoring.SexInput {
			sr.readSex(raw, row, c)
			continue
		}
		if c.morning {
			sr.readMornings(raw, row, c)
		} else if v, ok := sr.readOne(raw, row, c, nil); ok {
			row.Entry.Set(v[0].in, v[0].q, v[0].cell)
		}
	}
}

// readMornings takes the resting heart rates of several mornings as one: their
// median, with the first cell. A morning that can't be read is told and left
// out.
func (sr *sheetReader) readMornings(raw *rawRow, row *roster.Row, first *sheetColumn) {
	var rates []float64
	at := ""
	for _, c := range first.alike() {
		v, ok := sr.readCell(raw, row, c, nil)
		if !ok {
			continue
		}
		if rates = append(rates, v[0].q.In(scoring.BeatsPerMinute)); at == "" {
			at = v[0].cell
		}
	}
	if len(rates) == 0 {
		return
	}
	row.Entry.Set(scoring.RestingHR, scoring.Q(change.Median(rates), scoring.BeatsPerMinute), at)
	if len(rates) > 1 {
		row.Entry.Mornings = len(rates)
	}
}

func (sr *sheetReader) readSex(raw *rawRow, row *roster.Row, c *sheetColumn) {
	for _, d := range c.alike() {
		sex, doubt := d.sexes.ParseSex(raw.cells[d.slot])
		if doubt != nil {
			sr.block(row, raw, d, doubt.What, doubt.Fix)
			return
		}
		if sex != scoring.SexUnspecified {
			row.Entry.SetSex(sex, grid.At(d.Index, raw.number))
			return
		}
	}
}

// dateContext is what is known about a date on a sheet besides its cell. Today
// may be tomorrow elsewhere.
func (rd *reader) dateContext() cell.DateContext {
	ctx := cell.DateContext{Date1904: rd.book.Date1904(), Order: rd.opt.DateOrder, Latest: rd.opt.Today.AddDate(0, 0, 1)}
	if !rd.roster.WrongToday.IsZero() {
		ctx.Latest, ctx.Ahead = rd.opt.Since, true
	}
	return ctx
}

// dateContext is what is known about a date in a column besides its cell.
func (sr *sheetReader) dateContext(c *sheetColumn) cell.DateContext {
	ctx := sr.rd.dateContext()
	ctx.Birth = c.Meaning.Role == roster.Birth
	if ctx.Order == cell.AnyOrder {
		ctx.Order = c.dates.Order()
	}
	return ctx
}

// readDay reads a date from the first filled column of those that say the
// same.
func (sr *sheetReader) readDay(raw *rawRow, row *roster.Row, c *sheetColumn) (day cell.Day, at *sheetColumn) {
	if c == nil {
		return cell.Day{}, nil
	}
	for _, d := range c.alike() {
		r := raw.cells[d.slot]
		if r.IsBlank() || cell.SaysNoResult(r) {
			continue
		}
		ctx := sr.dateContext(d)
		if ctx.Ahead && row.Entry.Tested.After(ctx.Latest) {
			ctx.Latest = row.Entry.Tested // later than all else that is known of the present
		}
		day, doubt := cell.ParseDate(r, ctx)
		if doubt != nil {
			sr.block(row, raw, d, doubt.What, doubt.Fix)
			return cell.Day{}, nil
		}
		if day.ShortYear {
			d.remark(readShortYear, sr.problem(raw, d, scoring.Said{}, scoring.Said{}))
		}
		return day, d
	}
	return cell.Day{}, nil
}

// readAge works out the age on the test day from the date of birth, or takes
// the one that was typed.
func (sr *sheetReader) readAge(raw *rawRow, row *roster.Row) {
	e := &row.Entry
	e.Tested = sr.rd.opt.TestDate
	if e.Tested.IsZero() {
		e.Tested = sr.titled.day
	}
	before := blockers(row)
	if day, c := sr.readDay(raw, row, sr.tested); c != nil {
		e.Tested, row.TestedCell = day.Time, grid.At(c.Index, raw.number)
	} else {
		row.DayUnread = blockers(row) > before
	}
	var typed value
	hasTyped := false
	if sr.age != nil {
		if v, ok := sr.readOne(raw, row, sr.age, nil); ok {
			typed, hasTyped = v[0], true
			e.Set(scoring.Age, typed.q, typed.cell)
		}
	}
	born, c := sr.readDay(raw, row, sr.birth)
	if c == nil {
		return
	}
	at := grid.At(c.Index, raw.number)
	row.Birth, row.BirthCell = born, at
	if !born.YearOnly {
		e.Born = born.Time
	}
	if e.Tested.IsZero() {
		e.YearsAtMost = sr.rd.oldestToday(born)
		switch {
		case hasTyped, row.DayUnread: // the latter was said
		case sr.tested == nil:
			sr.block(row, raw, c, roster.NoTestDay, sr.sheet.OrRename(roster.AddTestDate))
		default:
			sr.block(row, raw, c, roster.NoTestDay, typeTestDate)
		}
		return
	}
	years, err := scoring.AgeOn(born.Time, e.Tested)
	if err != nil {
		e.Born = time.Time{}
		sr.block(row, raw, c, bornAfter.With(born.Time, e.Tested), roster.FixEitherDate)
		return
	}
	q := scoring.Q(years, scoring.Years)
	if what := scoring.Age.CheckRange(q); !what.IsZero() {
		sr.block(row, raw, c, ageOutside.With(what), roster.FixEitherDate)
		return
	}
	if born.YearOnly {
		c.remark(readYearOnly, sr.problem(raw, c, scoring.Said{}, scoring.Said{}))
	}
	if hasTyped && math.Abs(typed.q.Amount-math.Floor(years)) > 1 && !born.YearOnly {
		sr.say(row, raw, sr.age, ageByBirth.With(at, int(years)), roster.CorrectOne)
	}
	e.Set(scoring.Age, q, at)
}

// oldestToday is the age in years that somebody born then can't be above today, and
// so on no test day; 0 where the day of birth or today's date is not known.
func (rd *reader) oldestToday(born cell.Day) float64 {
	years, err := scoring.AgeOn(born.Time, rd.opt.Today)
	if err != nil || !rd.roster.WrongToday.IsZero() {
		return 0
	}
	if born.YearOnly {
		years++
	}
	return years
}

package reading

import (
	"math"
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/evidence"
	"tenback/workbook/grid"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// mostJudged bounds the rows that columns are judged by, spread over the sheet.
const mostJudged = 2000

// judge decides how each column is read by header, cells and the other columns,
// and asks where they do not agree.
func (sr *sheetReader) judge() (asked []roster.Question) {
	var rows []*rawRow
	for i := 0; i < len(sr.body.rows); i += len(sr.body.rows)/mostJudged + 1 {
		if row := &sr.body.rows[i]; !row.summary && !sr.body.isApart(row) && !sr.body.repeatsHeader(row) {
			rows = append(rows, row)
		}
	}
	sheet := evidence.Sheet{School: sr.school}
	var judged columns
	for _, c := range sr.used {
		if e := sr.evidenceOf(c, rows); e != nil {
			sheet.Columns, judged = append(sheet.Columns, e), append(judged, c)
		}
	}
	for _, row := range rows {
		sheet.Ages = append(sheet.Ages, sr.roughAge(row))
	}
	sheet.Judge()
	for i, e := range sheet.Columns {
		c := judged[i]
		if e.Meaning != c.Meaning {
			c.Meaning = e.Meaning
			at, _ := slices.BinarySearchFunc(sr.columns, c.Index, func(d *sheetColumn, index int) int { return d.Index - index })
			sr.sheet.Columns[at].Meaning = e.Meaning
		}
		c.style, c.order, c.asked = e.Style, e.Order, !e.Why.IsZero()
		switch {
		case c.asked:
			asked = append(asked, roster.Question{Sheet: sr.sheet.Name, Cell: grid.At(c.Index, sr.sheet.HeaderRow), Header: c.Header, What: e.Why, Choices: e.Asked})
		case !e.Remark.IsZero():
			sr.say(c, fixReadSo, e.Remark)
		}
	}
	return asked
}

// evidenceOf returns what is known of a column; nil for one that is not judged.
func (sr *sheetReader) evidenceOf(c *sheetColumn, rows []*rawRow) *evidence.Column {
	if !c.unclear.IsZero() {
		return nil // each cell has to name its unit
	}
	e := &evidence.Column{Header: c.known, Meaning: c.Meaning, Style: c.style, Told: c.told}
	switch c.Meaning.Role {
	case roster.Birth, roster.TestDate:
		e.Dates, e.Context, e.Order = &c.dates, sr.facts.dateContext(c), sr.facts.dates.Order
		e.Context.Order = cell.AnyOrder
	case roster.InputData, roster.Result, roster.HeartRate:
		e.Sexes = &c.sexes
	default:
		return nil
	}
	for _, row := range rows {
		e.Cells = append(e.Cells, row.cells[c.slot])
	}
	e.Limits = func(i int) (least, most time.Duration, isTime bool) {
		t := c.Meaning.Test
		if c.Meaning.Role == roster.Result {
			t = sr.testBefore(rows[i], c)
			isTime = t != nil && inputFor(c, t) == scoring.Time
		}
		ctx := sr.facts.timeContext(c, t)
		return ctx.Least, ctx.Most, isTime || c.Meaning.Role == roster.InputData
	}
	return e
}

// roughAge returns the age in years that a row gives, good enough to judge sizes.
func (sr *sheetReader) roughAge(row *rawRow) float64 {
	if c := sr.columns.input(scoring.Age); c != nil {
		if b, ok := cell.BareNumber(row.cells[c.slot]); ok {
			return b.Amount
		}
	}
	if c := sr.columns.with(roster.Birth); c != nil {
		if born, doubt := cell.ParseDate(row.cells[c.slot], sr.facts.dateContext(c)); doubt == nil {
			return sr.facts.opt.Today.Sub(born.Time).Hours() / 24 / 365.25
		}
	}
	return math.NaN()
}

// speaksOfSchool reports whether a sheet is of a school: by its setting, the word
// for a group, or words in its name, titles and headers.
func (rd *reader) speaksOfSchool(s *roster.Sheet, title header.Titles) bool {
	if v, given := rd.roster.Settings[roster.SetAudience]; given {
		setting, err := roster.ParseSetting(v.Value)
		return err == nil && setting == roster.School
	}
	if setting, ok := heading.SettingOf(s); ok {
		return setting == roster.School
	}
	texts := []string{s.Name}
	for _, row := range title.Above {
		for _, c := range row.Cells {
			texts = append(texts, c.Text)
		}
	}
	for _, c := range s.Columns {
		if r := c.Meaning.Role; r.IsPerson() || r == roster.Group {
			texts = append(texts, c.Header)
		}
	}
	return slices.ContainsFunc(texts, func(t string) bool { return len(t) <= heading.MaxLen && schoolWords().MatchString(cell.Fold(t)) })
}

// schoolWords matches words of a school, folded.
var schoolWords = cell.Pattern(`^form$|(?:^|[^\pL])(?:class(?:es|room)?|form (?:group|class|\d{1,2})|grade|homeroom|pupils?|students?|school|year (?:group|\d{1,2})|yr \d{1,2}|` +
	`klassen?|schuler\w*|schule|jahrgang|jgst|classes?|eleves?|ecole|college|lycee|clases?|cursos?|alumn[oa]s?|escuela|colegio|` +
	`classi|alunn[oie]s?|scuola|turma|escola|leerlingen|leerling|klas|klassar|elever?|klass|skola|skole|klasa|uczen|uczniowie|szkola)(?:$|[^\pL])|` +
	`класс|ученик|школ|班|年级|学年|学生|学校|クラス|生徒|학년|학교|학생`)

package starter

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/people"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// carriedRoles are the columns copied to the next season: identity, and which test.
var carriedRoles = []roster.Role{roster.Name, roster.GivenName, roster.FamilyName, roster.ID, roster.Group, roster.Birth, roster.Audience, roster.Language, roster.TestName,
	roster.Email, roster.GuardianEmail, roster.PagePassword}

// carriedInputs are the values copied to the next season: the sex and the conditions
// of a test. Body mass, heart rates and answers about health are asked again.
var carriedInputs = []scoring.Input{scoring.SexInput, scoring.PaceSpeed, scoring.ShuttleStart, scoring.BenchHeight,
	scoring.StepRate, scoring.StepRate2, scoring.StepRate3, scoring.StepRate4, scoring.Power, scoring.Power2, scoring.Power3, scoring.Power4,
	scoring.BeltSpeed, scoring.BeltSpeed2, scoring.BeltSpeed3, scoring.BeltSpeed4, scoring.Grade, scoring.Grade2, scoring.Grade3, scoring.Grade4, scoring.Gait}

func isCarried(m roster.Meaning) bool {
	return slices.Contains(carriedRoles, m.Role) || m.Role == roster.InputData && slices.Contains(carriedInputs, m.Input)
}

// NextSeason is a workbook for the next round of testing.
type NextSeason struct {
	Sheets []string
	People int
	Left   int // of them who were not tested in the last round
}

// WriteNextSeason writes a workbook for the next round of testing: the sheets of
// the last round with their own headers, everybody of the roster once, and the
// results, the body mass and the heart rates empty. People who were tested only in
// earlier rounds are kept, on the sheet of their group or else on the last one.
// The roster itself is not touched. password is as in [ReadOptions].
func WriteNextSeason(w io.Writer, r *roster.Roster, password func() (string, error)) (NextSeason, error) {
	plan := planNextSeason(r)
	cells, err := rawCells(r, plan, password)
	if err != nil {
		return NextSeason{}, err
	}
	if err := source.CheckUnchanged(r); err != nil {
		return NextSeason{}, err
	}
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "tenback plan", Title: "Next season"}); err != nil {
		return NextSeason{}, err
	}
	date := formatDate
	dated, err := f.NewStyle(&excelize.Style{CustomNumFmt: &date})
	if err != nil {
		return NextSeason{}, err
	}
	text := textCell
	typed, err := f.NewStyle(&excelize.Style{CustomNumFmt: &text})
	if err != nil {
		return NextSeason{}, err
	}
	done := NextSeason{}
	for i, s := range plan {
		if err := addSheet(f, i, s.name); err != nil {
			return done, err
		}
		if err := s.write(f, cells, dated, typed); err != nil {
			return done, err
		}
		done.Sheets = append(done.Sheets, s.name)
		done.People += len(s.people)
		done.Left += s.left
	}
	return done, f.Write(w)
}

// nextSheet is a sheet of the next season.
type nextSheet struct {
	name   string
	of     *roster.Sheet
	people []people.Line
	left   int
}

// planNextSeason assigns each person to one sheet, in the order of the roster.
func planNextSeason(r *roster.Roster) []*nextSheet {
	visits := people.Visits(r)
	everyone, days := people.TestDays(visits)
	starts := change.Rounds(days)
	latest := map[int]*people.Visit{}
	for i := range visits {
		v := &visits[i]
		if l := latest[v.Person]; l == nil || !v.Row.Entry.Tested.Before(l.Row.Entry.Tested) {
			latest[v.Person] = v
		}
	}
	var sheets []*nextSheet
	at := map[*roster.Sheet]*nextSheet{}
	ofGroup := map[string]*nextSheet{}
	var left []people.Line
	for i, p := range everyone {
		v := latest[p]
		line := people.Line{Sheet: v.Sheet, Row: v.First}
		if change.PresenceOf(days[i], starts) == change.Left {
			left = append(left, line)
			continue
		}
		s := at[v.Sheet]
		if s == nil {
			s = &nextSheet{name: nextName(v.Sheet.Name, sheets), of: v.Sheet}
			at[v.Sheet] = s
			sheets = append(sheets, s)
		}
		s.people = append(s.people, line)
		ofGroup[heading.Key(v.Row.Person.Group)] = s
	}
	for _, line := range left {
		s := ofGroup[heading.Key(line.Row.Person.Group)]
		if s == nil {
			s = sheets[len(sheets)-1]
		}
		s.people = append(s.people, line)
		s.left++
	}
	return sheets
}

// nextName names a sheet as it was, unless that is the name of a season, or that of
// a sheet before it.
func nextName(name string, before []*nextSheet) string {
	taken := func(name string) bool {
		return slices.ContainsFunc(before, func(s *nextSheet) bool { return strings.EqualFold(s.name, name) })
	}
	if people.NamesYear(name) && len(before) == 0 {
		return "Next season"
	}
	for n := len(before) + 1; people.NamesYear(name) || taken(name); n++ {
		name = "Next season " + strconv.Itoa(n)
	}
	return name
}

// rawCells reads again, as they were typed, the cells that are carried over, by
// sheet, row and column.
func rawCells(r *roster.Roster, plan []*nextSheet, password func() (string, error)) (map[*roster.Sheet]map[int]map[int]cell.Raw, error) {
	f, size, err := source.OpenFile(r.Path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	book, err := source.Open(r.Path, f, size, password)
	if err != nil {
		return nil, err
	}
	wanted := map[*roster.Sheet]map[int]map[int]cell.Raw{}
	for _, s := range plan {
		for _, line := range s.people {
			if wanted[line.Sheet] == nil {
				wanted[line.Sheet] = map[int]map[int]cell.Raw{}
			}
			wanted[line.Sheet][line.Row.Number] = map[int]cell.Raw{}
		}
	}
	for sheet, rows := range wanted {
		if err := readRaw(book, r.Path, sheet, rows); err != nil {
			return nil, err
		}
	}
	return wanted, nil
}

func readRaw(book source.Book, path string, sheet *roster.Sheet, wanted map[int]map[int]cell.Raw) error {
	at := slices.IndexFunc(book.Sheets(), func(s ooxml.Sheet) bool { return s.Name == sheet.Name })
	if at < 0 {
		return &source.Error{Path: path, Sheet: sheet.Name, Kind: source.ErrNoSheet, Why: "the sheet is not there any more"}
	}
	rows, err := book.Rows(book.Sheets()[at])
	if err != nil {
		return source.Fail(path, sheet.Name, err)
	}
	defer rows.Close()
	for rows.Next() {
		row := rows.Row()
		if into := wanted[row.Number]; into != nil {
			for _, c := range row.Cells {
				into[c.Col] = c.Raw
			}
		}
	}
	if err := rows.Err(); err != nil {
		return source.Fail(path, sheet.Name, err)
	}
	return nil
}

// write writes the header and the people. Of people who come from another sheet
// it takes what stands there under the same meaning.
func (s *nextSheet) write(f *excelize.File, cells map[*roster.Sheet]map[int]map[int]cell.Raw, dated, typed int) error {
	var columns []roster.Column
	for _, c := range s.of.Columns {
		if c.Meaning.Role != roster.Ours {
			columns = append(columns, c)
		}
	}
	if err := writeHeader(f, s.name, 1, len(columns), func(i int) (string, float64) {
		return columns[i].Header, min(28, max(11, float64(len(columns[i].Header))))
	}); err != nil {
		return err
	}
	for n, line := range s.people {
		for i, c := range columns {
			if !isCarried(c.Meaning) {
				continue
			}
			from := c.Index
			if line.Sheet != s.of {
				if from = columnLike(line.Sheet, c.Meaning); from == 0 {
					continue
				}
			}
			if err := carry(f, s.name, grid.At(i+1, n+2), c.Meaning, line.Row, cells[line.Sheet][line.Row.Number][from], dated, typed); err != nil {
				return err
			}
		}
	}
	return nil
}

// columnLike returns the column of a sheet with the same meaning; 0 if there is none.
func columnLike(sheet *roster.Sheet, m roster.Meaning) int {
	for _, c := range sheet.Columns {
		if c.Meaning.Role == m.Role && (m.Role != roster.InputData || c.Meaning.Input == m.Input && c.Meaning.Test == m.Test && c.Meaning.Unit == m.Unit) {
			return c.Index
		}
	}
	return 0
}

// carry writes one cell: dates as dates, numbers as numbers, all else as text.
func carry(f *excelize.File, sheet, at string, m roster.Meaning, row *roster.Row, raw cell.Raw, dated, typed int) error {
	var value any = cell.Label(raw)
	style := typed
	switch {
	case raw.IsBlank():
		return nil
	case m.Role == roster.Birth && !row.Birth.Time.IsZero() && !row.Birth.YearOnly:
		value, style = row.Birth.Time, dated
	case m.Role == roster.ID:
		value = row.Person.ID
	case raw.Kind == cell.Number && (m.Role == roster.InputData || m.Role == roster.Birth):
		x, err := strconv.ParseFloat(raw.Text, 64)
		if err != nil {
			break // a damaged number stays what it is
		}
		if value, style = x, 0; m.Role == roster.Birth { // no date that could be read
			style = dated
		}
	}
	if err := f.SetCellValue(sheet, at, value); err != nil || style == 0 {
		return err
	}
	return f.SetCellStyle(sheet, at, at, style)
}

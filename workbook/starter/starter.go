// Package starter writes workbooks that people begin with: starter rosters with a
// guide, the next season's roster, and the group summary's sheet.
package starter

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/templates/wording"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// The rows of a starter roster that are prepared for people.
const (
	starterFirst = 2
	starterLast  = 1001
)

// Write writes an empty roster with the columns that suit a setting:
// drop-down lists, number formats, bounds and a comment on each column, and a
// second sheet that explains the columns and how each test is run.
// It is in the given words, or in English where there are none.
func Write(w io.Writer, setting roster.Setting, words *templates.Set) error {
	f := excelize.NewFile()
	defer f.Close()
	s := &starter{sheetWords: wordsOf(words), f: f}
	s.people, s.guide = s.Say("starter.sheet.people", nil), s.Say("starter.sheet.guide", nil)
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "tenback", Title: s.Say("starter.document", nil), Language: s.Set.Lang()}); err != nil {
		return err
	}
	if err := addSheet(f, 0, s.people); err != nil {
		return err
	}
	columns := s.columns(setting)
	if err := writeHeader(f, s.people, 1, len(columns), func(i int) (string, float64) { return columns[i].header, columns[i].width() }); err != nil {
		return err
	}
	for i := range columns {
		if err := s.write(&columns[i], i+1); err != nil {
			return fmt.Errorf("column %q: %w", columns[i].header, err)
		}
	}
	if err := s.writeGuide(setting, columns); err != nil {
		return err
	}
	if s.Failure() != nil {
		return s.Failure()
	}
	return f.Write(w)
}

// starter writes a starter roster.
type starter struct {
	*sheetWords
	f             *excelize.File
	people, guide string // its sheets
}

// starterColumn is one column of a starter roster.
type starterColumn struct {
	header  string
	meaning string
	unit    string // empty for none
	format  string // number format code
	example string
	choices []string // of the drop-down list
	// between bounds a number; dates bounds a date. A result may be
	// something else as well, such as a note that someone stopped.
	between *[2]float64
	date    bool
	result  bool
	isName  bool
	// isAddress marks the column that tenback deliver takes addresses from.
	isAddress bool
}

// columns returns the columns for a setting: identity, the person, the tests.
func (s *starter) columns(setting roster.Setting) []starterColumn {
	tests := testsOf(setting)
	born := "1987-04-30"
	if setting == roster.School {
		born = "2013-04-30"
	}
	column := func(id string, c starterColumn) starterColumn {
		c.header, c.meaning = s.Say("starter."+id+".header", nil), s.Say("starter."+id+".meaning", nil)
		return c
	}
	address := "email"
	if setting == roster.School {
		address = "guardian"
	}
	name := column("name", starterColumn{format: textCell, example: s.Say("starter.name.example", nil)})
	name.isName = true
	columns := []starterColumn{name,
		column("id", starterColumn{format: textCell, example: "0417"}),
		{header: s.Say(setting.GroupKey(), nil), meaning: s.Say("starter.group.meaning", nil), format: textCell,
			example: s.Say("starter.group.example."+string(setting), nil)},
		column(address, starterColumn{format: textCell, example: "sample@mail.example", isAddress: true}),
		s.inputColumn(s.Say("starter.sex.header", nil), scoring.SexInput),
		column("born", starterColumn{format: formatDate, date: true, example: born}),
		column("tested", starterColumn{format: formatDate, date: true, example: "2026-09-14"}),
	}
	for _, in := range slices.Concat(personalInputs(tests), screeningOf(setting)) {
		columns = append(columns, s.inputColumn(s.inputHeader(in), in))
	}
	for _, f := range s.fieldsOf(tests) {
		c := s.inputColumn(f.header, f.input)
		if f.test != nil {
			c.meaning = s.Test(f.test) + ". " + c.meaning
			if e, ok := testExamples[f.test.ID][f.input]; ok {
				c.example = e
			}
		}
		c.result = f.result
		columns = append(columns, c)
	}
	return columns
}

const formatDate = "yyyy-mm-dd"

// choicesOf are the words of the lists for inputs that are chosen, the first of
// them the one of the examples.
var choicesOf = map[scoring.Input][2]string{
	scoring.SexInput: {"choice.female", "choice.male"},
	scoring.Effort:   {"choice.all-out", "choice.steady"},
	scoring.Gait:     {"choice.walk", "choice.run"},
}

// inputColumn makes the column of an input from its declaration.
func (s *starter) inputColumn(header string, in scoring.Input) starterColumn {
	info := in.Info()
	c := starterColumn{header: header, meaning: s.Meaning(in), unit: s.Unit(info.Unit), example: starterExamples[in]}
	keys, chosen := choicesOf[in]
	if info.YesNo {
		keys, chosen = [2]string{"choice.no", "choice.yes"}, true
		if in == scoring.Consent || in == scoring.Cleared {
			keys = [2]string{"choice.yes", "choice.no"}
		}
	}
	switch {
	case chosen:
		c.choices = []string{s.Say(keys[0], nil), s.Say(keys[1], nil)}
		c.unit, c.example = "", c.choices[0]
	case in == scoring.ShuttleStart:
		c.choices = []string{s.Number(fieldtests.ShuttleStart80, 1), s.Number(fieldtests.ShuttleStart85, 1)}
		c.example = c.choices[1]
	case in == scoring.Time:
		// As text it stays what was typed: a spreadsheet takes 11:30 for a
		// time of day.
		c.unit = s.Say("starter.unit.time", nil)
	case in == scoring.ShuttleLevel:
		// As text 7.10 does not turn into 7.1.
		c.unit = s.Say("starter.unit.level", nil)
	default:
		c.between = &[2]float64{info.Min, info.Max}
		if x, err := strconv.ParseFloat(c.example, 64); err == nil {
			c.example = s.bound(x)
		}
		return c
	}
	c.format = textCell
	return c
}

// bound formats a number as one would type it.
func (s *starter) bound(x float64) string { return s.Quantity(scoring.Q(x, scoring.NoUnit)) }

// starterExamples fill the example column of the guide, but for what is chosen
// from a list.
var starterExamples = map[scoring.Input]string{
	scoring.SystolicBP: "122", scoring.DiastolicBP: "78", scoring.BodyMass: "58.5", scoring.Stature: "166", scoring.RestingHR: "64", scoring.MaxHR: "187",
	scoring.Time: "11:30", scoring.ShuttleLevel: "7.10",
	scoring.ExerciseHR: "148", scoring.RecoveryHR: "132", scoring.BenchHeight: "30",
	scoring.StepRate: "24", scoring.StageTime: "4", scoring.Power: "100", scoring.BeltSpeed: "5.5", scoring.Grade: "6",
	scoring.StepsInPlace: "88", scoring.MeasuredVO2: "44.2",
}

// testExamples are those that differ from test to test.
var testExamples = map[string]map[scoring.Input]string{
	"run-12-minute": {scoring.Distance: "2400"},
	"run-1-mile":    {scoring.Time: "8:45"},
	"jog-1-mile":    {scoring.Time: "9:30"},
	"race":          {scoring.Time: "23:10", scoring.Distance: "5000"},
	"walk-1-mile":   {scoring.Time: "15:20"},
	"walk-2-km":     {scoring.Time: "17:40"},
	"walk-6-minute": {scoring.Distance: "560"},
}

func (c *starterColumn) width() float64 {
	switch {
	case c.isName, c.isAddress:
		return 28
	case c.date:
		return 13
	}
	longest := 0 // a word is not broken
	for word := range strings.FieldsSeq(c.header) {
		longest = max(longest, utf8.RuneCountInString(word))
	}
	return max(12.5, float64(longest)*1.1+1.5, min(20, float64(utf8.RuneCountInString(c.header))*0.75))
}

// help returns the text of the comment on the header and of the guide's line.
func (s *starter) help(c *starterColumn) string {
	lines := []string{c.meaning}
	if c.unit != "" {
		lines = append(lines, s.Say("starter.help.unit", wording.Slots{"Unit": c.unit}))
	}
	if len(c.choices) > 0 {
		lines = append(lines, s.Say("starter.help.choose", wording.Slots{"First": c.choices[0], "Second": c.choices[1]}))
	}
	if c.between != nil {
		lines = append(lines, s.Say("starter.help.bounds", s.bounds(c)))
	}
	return strings.Join(lines, "\n")
}

// bounds returns slots for the allowed range and its unit.
func (s *starter) bounds(c *starterColumn) wording.Slots {
	return wording.Slots{"From": s.bound(c.between[0]), "To": s.bound(c.between[1]), "Unit": c.unit}
}

// write puts everything but the header into a column of the people sheet.
func (s *starter) write(c *starterColumn, col int) error {
	f, letter := s.f, grid.Column(col)
	if c.format != "" {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &c.format})
		if err != nil {
			return err
		}
		cells := [2]string{fmt.Sprintf("%s%d", letter, starterFirst), fmt.Sprintf("%s%d", letter, starterLast)}
		if err := f.SetCellStyle(s.people, cells[0], cells[1], style); err != nil {
			return err
		}
	}
	if err := f.AddComment(s.people, excelize.Comment{Cell: letter + "1", Author: "tenback", Text: s.help(c), Width: 280, Height: 110}); err != nil {
		return err
	}
	v, err := s.validation(c, letter)
	if err != nil {
		return err
	}
	return f.AddDataValidation(s.people, v)
}

// The longest texts that a spreadsheet takes in a message at a cell.
const (
	maxMessageTitle = 32
	maxMessage      = 255
)

// validation returns the list or the bounds of a column with their messages. Only
// columns without results refuse other values.
func (s *starter) validation(c *starterColumn, letter string) (*excelize.DataValidation, error) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(fmt.Sprintf("%s%d:%s%d", letter, starterFirst, letter, starterLast))
	title := cut(c.header, maxMessageTitle)
	v.SetInput(title, cut(strings.ReplaceAll(s.help(c), "\n", " "), maxMessage))
	style := excelize.DataValidationErrorStyleWarning
	if !c.result {
		style = excelize.DataValidationErrorStyleStop
	}
	var err error
	switch {
	case len(c.choices) > 0:
		v.SetError(style, title, cut(s.Say("starter.error.choose", nil), maxMessage))
		err = v.SetDropList(c.choices)
	case c.between != nil:
		v.SetError(style, title, cut(s.Say("starter.error.bounds", s.bounds(c)), maxMessage))
		err = v.SetRange(c.between[0], c.between[1], excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
	case c.date:
		v.SetError(style, title, cut(s.Say("starter.error.date", nil), maxMessage))
		err = v.SetRange("TODAY()-365.25*110", "TODAY()", excelize.DataValidationTypeDate, excelize.DataValidationOperatorBetween)
	}
	return v, err
}

// cut shortens a text to at most n characters, at a blank.
func cut(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	short := string(r[:n-1])
	if at := strings.LastIndex(short, " "); at > 0 {
		short = short[:at]
	}
	return short + "…"
}

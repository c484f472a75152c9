package workbook

import (
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
)

// The sheets of a starter roster, and the rows that are prepared for people.
const (
	peopleSheet  = "People"
	guideSheet   = "Guide"
	starterFirst = 2
	starterLast  = 1001
)

// WriteStarter writes an empty roster with the columns that suit a setting:
// drop-down lists, number formats, bounds and a comment on each column, and a
// second sheet that explains the columns and how each test is run.
func WriteStarter(w io.Writer, setting Setting) error {
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "tenback", Title: "Fitness test roster"}); err != nil {
		return err
	}
	if err := f.SetSheetName("Sheet1", peopleSheet); err != nil {
		return err
	}
	columns := starterColumns(setting)
	if err := writeHeader(f, peopleSheet, 1, len(columns), func(i int) (string, float64) { return columns[i].header, columns[i].width() }); err != nil {
		return err
	}
	for i := range columns {
		if err := columns[i].write(f, i+1); err != nil {
			return fmt.Errorf("column %q: %w", columns[i].header, err)
		}
	}
	if err := writeGuide(f, setting, columns); err != nil {
		return err
	}
	return f.Write(w)
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
}

// starterColumns are the columns for a setting: who, what is known of the
// person, the tests.
func starterColumns(setting Setting) []starterColumn {
	tests := setting.tests()
	columns := []starterColumn{
		{header: "Name", meaning: "The person's name. A name or an ID is needed.", format: formatText, example: "Kim Sample"},
		{header: "ID", meaning: "A number or code of your own, if you have one. Leading zeros stay.", format: formatText, example: "0417"},
		{header: setting.groupHeader(), meaning: "What the person belongs to. May be left empty.", format: formatText,
			example: map[Setting]string{School: "7C", Workplace: "Stores", Squad: "Juniors"}[setting]},
	}
	columns = append(columns, inputStarter("Sex", scoring.SexInput))
	columns = append(columns,
		starterColumn{header: "Date of birth", meaning: "Needed for most tests and for all tables.", format: formatDate, date: true,
			example: map[Setting]string{School: "2013-04-30"}[setting]},
		starterColumn{header: "Test date", meaning: "The day of the test; the age is worked out for it.", format: formatDate, date: true, example: "2026-09-14"})
	if setting != School {
		columns[4].example = "1987-04-30"
	}
	for _, in := range personalInputs(tests) {
		columns = append(columns, inputStarter(inputHeader(in), in))
	}
	for _, f := range fieldsOf(tests) {
		c := inputStarter(f.header, f.input)
		if f.test != nil {
			c.meaning = f.test.Name + ". " + c.meaning
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

// inputStarter makes the column of an input from its declaration.
func inputStarter(header string, in scoring.Input) starterColumn {
	info := in.Info()
	c := starterColumn{header: header, meaning: info.Meaning, unit: info.Unit.String(), example: starterExamples[in]}
	switch in {
	case scoring.SexInput:
		c.unit, c.choices = "", []string{"female", "male"}
	case scoring.Effort:
		c.choices = []string{"all-out", "steady"}
	case scoring.Gait:
		c.choices = []string{"walk", "run"}
	case scoring.ShuttleStart:
		c.choices = []string{"8.0", "8.5"}
	case scoring.Time:
		// As text it stays what was typed: a spreadsheet takes 11:30 for a
		// time of day.
		c.unit = "minutes:seconds"
	case scoring.ShuttleLevel:
		// As text 7.10 does not turn into 7.1.
		c.unit = "level.shuttle"
	default:
		if info.YesNo {
			c.choices = []string{"yes", "no"}
			break
		}
		c.between = &[2]float64{info.Min, info.Max}
		return c
	}
	c.format = formatText
	return c
}

// starterExamples fill the example column of the guide.
var starterExamples = map[scoring.Input]string{
	scoring.SexInput: "female", scoring.BodyMass: "58.5", scoring.Stature: "166", scoring.RestingHR: "64", scoring.MaxHR: "187",
	scoring.Time: "11:30", scoring.ShuttleLevel: "7.10", scoring.ShuttleStart: "8.5",
	scoring.ExerciseHR: "148", scoring.RecoveryHR: "132", scoring.Effort: "all-out", scoring.BenchHeight: "30",
	scoring.StepRate: "24", scoring.StageTime: "4", scoring.Power: "100", scoring.BeltSpeed: "5.5", scoring.Grade: "6",
	scoring.Gait: "walk", scoring.StepsInPlace: "88", scoring.MeasuredVO2: "44.2",
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
	case c.header == "Name":
		return 28
	case c.date:
		return 13
	}
	return min(20, max(12.5, float64(len(c.header))*0.75))
}

// help is the text of the comment on the header and of the guide's line.
func (c *starterColumn) help() string {
	lines := []string{c.meaning}
	if c.unit != "" {
		lines = append(lines, "Unit: "+c.unit+".")
	}
	if len(c.choices) > 0 {
		lines = append(lines, "Choose: "+strings.Join(c.choices, " or ")+".")
	}
	if r := c.bounds(); r != "" {
		lines = append(lines, "From "+r+".")
	}
	return strings.Join(lines, "\n")
}

// bounds is the allowed range in words, or empty.
func (c *starterColumn) bounds() string {
	if c.between == nil {
		return ""
	}
	return fmt.Sprintf("%g to %g", c.between[0], c.between[1])
}

// write puts everything but the header into a column of the people sheet.
func (c *starterColumn) write(f *excelize.File, col int) error {
	letter, err := excelize.ColumnNumberToName(col)
	if err != nil {
		return err
	}
	if c.format != "" {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &c.format})
		if err != nil {
			return err
		}
		cells := [2]string{fmt.Sprintf("%s%d", letter, starterFirst), fmt.Sprintf("%s%d", letter, starterLast)}
		if err := f.SetCellStyle(peopleSheet, cells[0], cells[1], style); err != nil {
			return err
		}
	}
	if err := f.AddComment(peopleSheet, excelize.Comment{Cell: letter + "1", Author: "tenback", Text: c.help(), Width: 280, Height: 110}); err != nil {
		return err
	}
	v, err := c.validation(letter)
	if err != nil {
		return err
	}
	return f.AddDataValidation(peopleSheet, v)
}

// The longest texts that a spreadsheet takes in a message at a cell.
const (
	maxMessageTitle = 32
	maxMessage      = 255
)

// validation is the list or the bounds of a column, with what is said when
// someone enters the cell or types something else. A stop is set only where
// nothing else can be meant.
func (c *starterColumn) validation(letter string) (*excelize.DataValidation, error) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(fmt.Sprintf("%s%d:%s%d", letter, starterFirst, letter, starterLast))
	title := cut(c.header, maxMessageTitle)
	v.SetInput(title, cut(strings.ReplaceAll(c.help(), "\n", " "), maxMessage))
	style := excelize.DataValidationErrorStyleWarning
	if !c.result {
		style = excelize.DataValidationErrorStyleStop
	}
	var err error
	switch {
	case len(c.choices) > 0:
		v.SetError(style, title, "Please choose from the list, or leave the cell empty.")
		err = v.SetDropList(c.choices)
	case c.between != nil:
		v.SetError(style, title, cut(fmt.Sprintf("This should be a number from %s. Please look at it again, or leave the cell empty.", strings.TrimSpace(c.bounds()+" "+c.unit)), maxMessage))
		err = v.SetRange(c.between[0], c.between[1], excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
	case c.date:
		v.SetError(style, title, "Please type a date that lies in the past, in the way that your computer writes dates.")
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

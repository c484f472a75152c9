package starter

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
)

// afterAll is a present day later than every date that we write.
var afterAll = workbook.ReadOptions{Today: time.Date(2027, time.January, 1, 0, 0, 0, 0, time.UTC)}

func TestEmptyStarterHasNobody(t *testing.T) {
	for _, s := range roster.Settings() {
		path := filepath.Join(t.TempDir(), "starter.xlsx")
		if err := os.WriteFile(path, starterBytes(t, s), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := workbook.Open(path, afterAll); !errors.Is(err, source.ErrNoPeople) {
			t.Errorf("%s: %v, want that nobody is in it", s, err)
		}
	}
}

// A starter roster of any language, filled in as its guide shows, is read without
// a word, one person for each test.
func TestFilledInStarterReadsBack(t *testing.T) {
	for _, lang := range templates.Languages() {
		for _, s := range roster.Settings() {
			t.Run(lang+" "+string(s), func(t *testing.T) { readsBack(t, sheetwords.Builtin()[lang], s) })
		}
	}
}

func readsBack(t *testing.T, words *templates.Set, s roster.Setting) {
	var starterFile bytes.Buffer
	if err := Write(&starterFile, s, words); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "starter.xlsx")
	if err := os.WriteFile(path, starterFile.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	tests := testsOf(s)
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := errors.Join(fillStarter(f, wordsOf(words), s, tests), f.Save()); err != nil {
		t.Fatal(err)
	}
	book, err := workbook.Open(path, afterAll)
	if err != nil {
		t.Fatal(err)
	}
	if len(book.Sheets) != 1 || len(book.Sheets[0].Rows) != len(tests) {
		t.Fatalf("%d sheets of people, %v", len(book.Sheets), book.Problems)
	}
	for _, p := range book.Problems {
		t.Error(p)
	}
	if got, ok := heading.SettingOf(book.Sheets[0]); !ok || got != s {
		t.Errorf("the setting is read as %q, %v", got, ok)
	}
	for i := range book.Sheets[0].Rows {
		row := &book.Sheets[0].Rows[i]
		for _, p := range row.Problems {
			t.Errorf("%s: %v", tests[i].Name, p)
		}
		if len(row.Entry.Trials) != 1 || row.Entry.Trials[0].Test != tests[i] {
			t.Errorf("%s: trials %v", tests[i].Name, row.Entry.Trials)
		}
		address := row.Person.Reached().Email
		if s == roster.School {
			address = row.Person.Reached().Guardian
		}
		if address.Text != "sample@mail.example" {
			t.Errorf("%s: the address reads back as %+v", tests[i].Name, row.Person.Reached())
		}
		score := scoring.Assess(&row.Entry)
		for _, r := range score.Refused {
			if r.Input != scoring.Age { // one example cannot be of every age
				t.Errorf("%s: refused: %s", tests[i].Name, r.Why)
			}
		}
	}
}

// fillStarter types the examples of the guide: in row 2 for the first test,
// in row 3 for the second ...
func fillStarter(f *excelize.File, words *sheetWords, s roster.Setting, tests []*scoring.Test) error {
	people := words.Say("starter.sheet.people", nil)
	fields := words.fieldsOf(tests)
	for i, test := range tests {
		for c, column := range (&starter{sheetWords: words}).columns(s) {
			mine := true
			for _, fd := range fields {
				if fd.header == column.header {
					mine = fd.test == test || fd.test == nil && uses(test, fd.input)
				}
			}
			example := column.example
			switch {
			case !mine:
				continue
			case c == 0: // the name
				example += " " + string(rune('A'+i))
			case c == 1: // the ID
				example += strconv.Itoa(i)
			}
			cell, err := excelize.CoordinatesToCellName(c+1, i+2)
			if err != nil {
				return err
			}
			if err := typeInto(f, people, cell, column, example); err != nil {
				return err
			}
		}
	}
	return nil
}

func uses(test *scoring.Test, in scoring.Input) bool {
	for _, need := range test.Needs() {
		if need == in && in != test.Results[0].Input && !hasOwn(test, in) {
			return true
		}
	}
	return false
}

func typeInto(f *excelize.File, people, cell string, column starterColumn, example string) error {
	switch {
	case column.date:
		day, err := time.Parse("2006-01-02", example)
		if err != nil {
			return err
		}
		style, err := f.GetCellStyle(people, cell)
		if err != nil {
			return err
		}
		return errors.Join(f.SetCellValue(people, cell, day), f.SetCellStyle(people, cell, cell, style))
	case column.between != nil:
		x, err := strconv.ParseFloat(strings.Replace(example, ",", ".", 1), 64)
		if err != nil {
			return err
		}
		return f.SetCellValue(people, cell, x)
	}
	return f.SetCellStr(people, cell, example)
}

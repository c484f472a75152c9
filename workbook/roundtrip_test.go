package workbook

import (
	"bytes"
	"context"
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
	"tenback/testdata/demo"
	"tenback/workbook/heading"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
)

// afterAll is a present day later than every date that we write.
var afterAll = ReadOptions{Today: time.Date(2027, time.January, 1, 0, 0, 0, 0, time.UTC)}

func openBytes(t *testing.T, name string, data []byte) *Roster {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return mustOpen(t, path)
}

func mustOpen(t *testing.T, path string) *Roster {
	t.Helper()
	roster, err := Open(path, afterAll)
	if err != nil {
		t.Fatal(err)
	}
	return roster
}

func TestEmptyStarterHasNobody(t *testing.T) {
	for _, s := range Settings() {
		path := filepath.Join(t.TempDir(), "starter.xlsx")
		if err := os.WriteFile(path, starterBytes(t, s), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(path, afterAll); !errors.Is(err, source.ErrNoPeople) {
			t.Errorf("%s: %v, want that nobody is in it", s, err)
		}
	}
}

// A starter roster of any language, filled in as its guide shows, is read without
// a word, one person for each test.
func TestFilledInStarterReadsBack(t *testing.T) {
	for _, lang := range templates.Languages() {
		for _, s := range Settings() {
			t.Run(lang+" "+string(s), func(t *testing.T) { readsBack(t, sheetwords.Builtin()[lang], s) })
		}
	}
}

func readsBack(t *testing.T, words *templates.Set, s Setting) {
	var starterFile bytes.Buffer
	if err := WriteStarter(&starterFile, s, words); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "starter.xlsx")
	if err := os.WriteFile(path, starterFile.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	tests := testsOf(s)
	edit(t, path, func(f *excelize.File) error { return fillStarter(f, wordsOf(words), s, tests) })
	roster := mustOpen(t, path)
	if len(roster.Sheets) != 1 || len(roster.Sheets[0].Rows) != len(tests) {
		t.Fatalf("%d sheets of people, %v", len(roster.Sheets), roster.Problems)
	}
	for _, p := range roster.Problems {
		t.Error(p)
	}
	if got, ok := heading.SettingOf(roster.Sheets[0]); !ok || got != s {
		t.Errorf("the setting is read as %q, %v", got, ok)
	}
	for i := range roster.Sheets[0].Rows {
		row := &roster.Sheets[0].Rows[i]
		for _, p := range row.Problems {
			t.Errorf("%s: %v", tests[i].Name, p)
		}
		if len(row.Entry.Trials) != 1 || row.Entry.Trials[0].Test != tests[i] {
			t.Errorf("%s: trials %v", tests[i].Name, row.Entry.Trials)
		}
		address := row.Person.Reached().Email
		if s == School {
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
func fillStarter(f *excelize.File, words *sheetWords, s Setting, tests []*scoring.Test) error {
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

// The whole way round, twice: what was scored is read again without the result
// columns in the way, and written again the same.
func TestScoredDemoIsReadAndWrittenAgain(t *testing.T) {
	first := openBytes(t, "demo.xlsx", demo.Roster)
	dir := filepath.Dir(first.Path)
	once, twice := filepath.Join(dir, "once.xlsx"), filepath.Join(dir, "twice.xlsx")
	if _, err := WriteResults(context.Background(), first, scoreAll(first), once, WriteOptions{}); err != nil {
		t.Fatal(err)
	}
	second := mustOpen(t, once)
	for i, sheet := range second.Sheets {
		ours := 0
		for _, c := range sheet.Columns {
			if c.Meaning.Role == Ours {
				ours++
			}
		}
		want := 0
		for _, c := range resultColumns {
			if !c.seasons {
				want++ // nothing is reviewed here
			}
		}
		if ours != want {
			t.Errorf("sheet %s: %d result columns are known again, want %d", sheet.Name, ours, want)
		}
		if len(sheet.Rows) != len(first.Sheets[i].Rows) || sheet.LastCol != first.Sheets[i].LastCol {
			t.Errorf("sheet %s: %d people up to column %d, were %d up to %d", sheet.Name, len(sheet.Rows), sheet.LastCol, len(first.Sheets[i].Rows), first.Sheets[i].LastCol)
		}
	}
	if a, b := len(first.Problems), len(second.Problems); a != b {
		t.Errorf("%d problems, then %d: %v", a, b, second.Problems)
	}
	if _, err := WriteResults(context.Background(), second, scoreAll(second), twice, WriteOptions{}); err != nil {
		t.Fatal(err)
	}
	for _, sheet := range first.Sheets {
		a, b := cellsOf(t, once, sheet.Name), cellsOf(t, twice, sheet.Name)
		if len(a) != len(b) {
			t.Errorf("sheet %s: %d cells, then %d", sheet.Name, len(a), len(b))
		}
		for cell, v := range a {
			if b[cell] != v {
				t.Errorf("sheet %s, cell %s was %q and is %q", sheet.Name, cell, v, b[cell])
			}
		}
	}
}

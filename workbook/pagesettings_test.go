package workbook

import (
	"errors"
	"maps"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

var onePerson = sheetOf{"People", [][]any{{"Name", "1.5 mile run"}, {"Ada", "11:30"}}}

func TestSettings(t *testing.T) {
	read, err := openBook(buildBook(t, nil, onePerson, sheetOf{" Tenback  Settings", [][]any{
		{"Setting", "Value"},
		{"organization", "Quillhaven School"},
		{"LOGO:", "logo.png"},
		{"Accent colour", 123456},
		{"Contact", nil},
		{"Audience", " school "},
		{"Languge", "en"},
		{"Organisation", "Another"},
		{nil, "a note"},
		{"Language", "en"},
		{"Colour of the sky", "grey"},
	}}), ReadOptions{Settings: roster.SettingValues{roster.SetAccent: {Value: "654321", Place: "--set", ByOption: true}}})
	if err != nil {
		t.Fatal(err)
	}
	want := roster.SettingValues{
		roster.SetOrganisation: {Value: "Quillhaven School", Place: "roster.xlsx:  Tenback  Settings!B2"},
		roster.SetLogo:         {Value: "logo.png", Place: "roster.xlsx:  Tenback  Settings!B3"},
		roster.SetAccent:       {Value: "654321", Place: "--set", ByOption: true},
		roster.SetAudience:     {Value: "school", Place: "roster.xlsx:  Tenback  Settings!B6"},
		roster.SetLanguage:     {Value: "en", Place: "roster.xlsx:  Tenback  Settings!B10"},
	}
	if !maps.Equal(read.Settings, want) {
		t.Errorf("got %+v", read.Settings)
	}
	var said []string
	for _, p := range read.Problems {
		if p.Blocking {
			t.Errorf("a setting blocks: %v", p)
		}
		said = append(said, p.String())
	}
	text := strings.Join(said, "\n")
	for _, part := range []string{"A7", "Languge", "unknown setting", `call it "Language"`, "A8", "twice", "A11", "Organisation, Logo"} {
		if !strings.Contains(text, part) {
			t.Errorf("the problems do not say %q:\n%s", part, text)
		}
	}
	if len(read.Sheets) != 1 {
		t.Errorf("%d sheets of people", len(read.Sheets))
	}
}

// TestReadingSettings: what a workbook says of its own cells, and what is wrong
// with that.
func TestReadingSettings(t *testing.T) {
	people := sheetOf{"People", [][]any{{"Name", "Sex", "Date of birth", "Test date", "1.5 mile run"}, {"Ada", 2, "05/06/1981", "2026-05-11", "11:30"}}}
	read, err := openBook(buildBook(t, nil, people, sheetOf{roster.SettingsSheet, [][]any{{"Sex code", "1=M, 2=F"}, {"Datumsfolge", "month-first"}}}), ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	row := read.Sheets[0].Rows[0]
	if row.Entry.Sex() != scoring.Female || row.Birth.Time.Month() != time.May || len(row.Problems) != 0 {
		t.Errorf("%+v", row)
	}
	for _, bad := range [][]any{{"Sex code", "1=M, 2=X"}, {"Date order", "year-first"}} {
		_, err := openBook(buildBook(t, nil, people, sheetOf{roster.SettingsSheet, [][]any{bad}}), ReadOptions{})
		var failed *roster.SettingError
		if !errors.As(err, &failed) || failed.ByOption || !strings.Contains(err.Error(), "tenback settings!B1: ") {
			t.Errorf("%v: %v", bad, err)
		}
	}
}

func TestTooManySettings(t *testing.T) {
	rows := make([][]any, 201)
	for i := range rows {
		rows[i] = []any{"Contact", "x"}
	}
	_, err := openBook(buildBook(t, nil, onePerson, sheetOf{roster.SettingsSheet, rows}), ReadOptions{})
	if !errors.Is(err, source.ErrTooLarge) {
		t.Errorf("error %v", err)
	}
}

// TestWishes: a person's page may be for another audience and in another
// language than those of the others.
func TestWishes(t *testing.T) {
	language := func(text string) (string, error) {
		if text != "English" {
			return "", errors.New("unknown")
		}
		return "en", nil
	}
	roster := readRows(t, ReadOptions{Language: language},
		[]any{"Name", "Audience", "Language", "1.5 mile run"},
		[]any{"Ada", "Squad", "English", "11:30"},
		[]any{"Ben", "parents", "Norn", "11:30"},
		[]any{"Cleo", nil, nil, "11:30"},
		[]any{"Dan", "-", "n/a", "11:30"})
	rows := roster.Sheets[0].Rows
	if len(rows) != 4 {
		t.Fatalf("%d rows", len(rows))
	}
	if p := rows[0].Person; p.Audience != Squad || p.Language != "en" || len(rows[0].Problems) != 0 {
		t.Errorf("Ada: %+v, %v", p, rows[0].Problems)
	}
	for _, row := range rows[1:] {
		if row.Person.Audience != "" || row.Person.Language != "" {
			t.Errorf("%+v", row.Person)
		}
	}
	text := ""
	for _, p := range rows[1].Problems {
		if p.Blocking {
			t.Errorf("a wish blocks: %v", p)
		}
		text += p.String() + "\n"
	}
	for _, part := range []string{"B3", `"parents" is not school, workplace or squad`, "C3", ` "Norn"`, "language of the others"} {
		if !strings.Contains(text, part) {
			t.Errorf("the problems do not say %q:\n%s", part, text)
		}
	}
	for _, row := range rows[2:] {
		if len(row.Problems) != 0 {
			t.Errorf("cells that say nothing are a problem: %v", row.Problems)
		}
	}
	// Nobody asked for languages: the column is left alone.
	roster = readRows(t, ReadOptions{}, []any{"Name", "Language", "1.5 mile run"}, []any{"Ben", "Norn", "11:30"})
	if row := roster.Sheets[0].Rows[0]; row.Person.Language != "" || len(row.Problems) != 0 {
		t.Errorf("%+v, %v", row.Person, row.Problems)
	}
}

func TestSettingOfSheet(t *testing.T) {
	for header, want := range map[string]Setting{"Class": School, "department ": Workplace, "SQUAD": Squad, "Team": "", "Group": ""} {
		roster := readRows(t, ReadOptions{}, []any{"Name", header, "1.5 mile run"}, []any{"Ada", "x", "11:30"})
		if got, ok := heading.SettingOf(roster.Sheets[0]); got != want || ok != (want != "") {
			t.Errorf("%s: %q, %v", header, got, ok)
		}
	}
	for name, want := range map[string]Setting{"Otter squad": Squad, "Class 8B": School, "Classics": "", "People": ""} {
		s := Sheet{Name: name}
		if got, _ := heading.SettingOf(&s); got != want {
			t.Errorf("sheet %s: %q", name, got)
		}
	}
}

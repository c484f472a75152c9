package workbook

import (
	"errors"
	"strings"
	"testing"

	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

var onePerson = sheetOf{"People", [][]any{{"Name", "1.5 mile run"}, {"Ada", "11:30"}}}

func TestPageSettings(t *testing.T) {
	roster, err := openBook(buildBook(t, nil, onePerson, sheetOf{" Tenback  Settings", [][]any{
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
	}}), ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	want := PageSettings{
		Organisation: PageSetting{Value: "Quillhaven School", Place: " Tenback  Settings!B2"},
		Logo:         PageSetting{Value: "logo.png", Place: " Tenback  Settings!B3"},
		Accent:       PageSetting{Value: "123456", Place: " Tenback  Settings!B4"},
		Audience:     PageSetting{Value: "school", Place: " Tenback  Settings!B6"},
		Language:     PageSetting{Value: "en", Place: " Tenback  Settings!B10"},
	}
	if roster.Pages != want {
		t.Errorf("got %+v", roster.Pages)
	}
	var said []string
	for _, p := range roster.Problems {
		if p.Blocking {
			t.Errorf("a setting blocks: %v", p)
		}
		said = append(said, p.String())
	}
	text := strings.Join(said, "\n")
	for _, part := range []string{"A7", "Languge", "no such setting", "Organisation, Logo", "A8", "twice"} {
		if !strings.Contains(text, part) {
			t.Errorf("the problems do not say %q:\n%s", part, text)
		}
	}
	if len(roster.Sheets) != 1 {
		t.Errorf("%d sheets of people", len(roster.Sheets))
	}
}

func TestTooManyPageSettings(t *testing.T) {
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
	for _, part := range []string{"B3", `"parents" is none of school, workplace and squad`, "C3", `no words in this language: "Norn"`, "language of the others"} {
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

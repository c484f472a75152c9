package questions

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/templates"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

func sample() *Book {
	return &Book{
		Columns: []Column{
			{Sheet: "8B", Letter: "C", Header: "=1+1", Values: []string{"@SUM(A1)", "2"}, ReadAs: "Name", Why: "why", Choices: []string{"Weight (lb)"}, Answer: "Weight (lb)"},
			{Sheet: "8B", Letter: "D", Header: "Hat", ReadAs: "ID", Answer: Ignored},
		},
		Cells: []Cell{
			{Sheet: "8B", Cell: "F7", Link: "F7", Person: "Ida O'Neil", Was: "=7.1", What: "what", Fix: "fix", Answer: "7.10"},
			{Sheet: "8B", Cell: "F8", Link: "F8", Person: "Jo", Was: "9", What: "what", MayBeRight: true, Right: true},
			{Sheet: "8B", Cell: "F9", Link: "F9", Person: "Al", Was: "8", What: "what"},
		},
	}
}

func write(t testing.TB, b *Book, words *templates.Set) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.Write(&out, "fitness week.xlsx", words); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func read(data []byte) (*Book, error) {
	return Read("week-questions.xlsx", bytes.NewReader(data), int64(len(data)), nil)
}

// TestRoundTrip holds that what was written is read again in every language, and
// that nothing becomes a formula.
func TestRoundTrip(t *testing.T) {
	for lang, words := range sheetwords.Builtin() {
		data := write(t, sample(), words)
		got, err := read(data)
		if err != nil {
			t.Fatalf("%s: %v", lang, err)
		}
		want := sample()
		want.Columns[0].Choices = nil
		for i := range got.Columns {
			got.Columns[i].place = ""
		}
		for i := range got.Cells {
			got.Cells[i].place = ""
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: read %#v", lang, got)
		}
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			if err != nil {
				t.Fatal(err)
			}
			for r, row := range rows {
				for c := range row {
					at, _ := excelize.CoordinatesToCellName(c+1, r+1)
					if formula, _ := f.GetCellFormula(sheet, at); formula != "" {
						t.Errorf("%s: %s!%s is a formula", lang, sheet, at)
					}
				}
			}
		}
	}
}

// TestKnownHeaders holds that every language can name each kind of column.
func TestKnownHeaders(t *testing.T) {
	english := len(knownHeaders(sheetwords.Of(nil)))
	for lang, words := range sheetwords.Builtin() {
		known := knownHeaders(sheetwords.Of(words))
		for _, b := range roleBlocks {
			if !slices.ContainsFunc(known, func(k knownHeader) bool { return k.meaning.Role == b.role }) {
				t.Errorf("%s: no header of a column is read as %s", lang, roster.Meaning{Role: b.role})
			}
		}
		if len(known) < english*9/10 {
			t.Errorf("%s: %d headers, English has %d", lang, len(known), english)
		}
	}
}

// TestAnswersAreKept holds that no answer is lost when the questions change.
func TestAnswersAreKept(t *testing.T) {
	old, err := read(write(t, sample(), nil))
	if err != nil {
		t.Fatal(err)
	}
	now := &Book{Columns: []Column{{Sheet: "8B", Letter: "E", Header: "Hat"}}, Cells: []Cell{{Sheet: "8B", Cell: "F7", Link: "F7", Was: "7.10", What: "still wrong"}}}
	now.Keep(old, map[string]bool{old.Columns[0].place: true})
	if len(now.Columns) != 2 || now.Columns[0].Answer != Ignored || now.Columns[1].Answer != "Weight (lb)" {
		t.Errorf("columns %+v", now.Columns)
	}
	if len(now.Cells) != 2 || now.Cells[0].Answer != "7.10" || now.Cells[0].Was != "=7.1" || now.Cells[0].What != "still wrong" || !now.Cells[1].Right {
		t.Errorf("cells %+v", now.Cells)
	}
}

// TestBadAnswers holds that an error names the sheet and the cell.
func TestBadAnswers(t *testing.T) {
	for name, c := range map[string]struct {
		sheet, at, text, want string
	}{
		"unknown answer": {"Columns", "F2", "Wait", `"Columns": F2: "Wait" is not a known column`},
		"no address":     {"Cells", "B2", "F", `"Cells": G2: "F" beside it is not the address of a cell`},
		"no header":      {"Cells", "G1", "", `"Cells": its first row is not the headers`},
	} {
		f, err := excelize.OpenReader(bytes.NewReader(write(t, sample(), nil)))
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStr(c.sheet, c.at, c.text); err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatal(err)
		}
		if _, err := read(out.Bytes()); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(write(f, sample(), nil))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := read(data)
		if err != nil {
			return
		}
		again, err := read(write(t, b, nil))
		if err != nil || len(again.Answers().Cells) != len(b.Answers().Cells) {
			t.Errorf("%v; %v became %v", err, b.Answers(), again.Answers())
		}
	})
}

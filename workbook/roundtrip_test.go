package workbook

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tenback/testdata/demo"
	"tenback/workbook/result"
	"tenback/workbook/sheetwords"
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
		for _, c := range result.Columns(sheetwords.Of(nil)) {
			if !c.Seasons {
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

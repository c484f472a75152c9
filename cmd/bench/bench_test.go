package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/cmd/internal/batch"
	"tenback/pdfreport"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
)

func rosterOf(t *testing.T, dir string, n int, who names) (path string, outcomes []workbook.Outcome) {
	t.Helper()
	s, err := readSource(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(dir, "people.xlsx")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.write(f, n, who); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	roster, err := workbook.Open(path, workbook.ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return path, batch.Score(roster, scoring.Options{})
}

// Everyone on a roster is scored, and no two have one name.
func TestRoster(t *testing.T) {
	for _, who := range []names{european, otherScript} {
		const n = 120
		_, outcomes := rosterOf(t, t.TempDir(), n, who)
		if len(outcomes) != n {
			t.Errorf("%d visits of %d people", len(outcomes), n)
		}
		seen := map[string]bool{}
		for _, o := range outcomes {
			if o.LeftOut() || seen[o.Row.Person.Name] {
				t.Errorf("row %d, %s: left out %v, or had before", o.Row.Number, o.Row.Person.Name, o.LeftOut())
			}
			seen[o.Row.Person.Name] = true
		}
	}
}

// The bare programs draw and write what they are said to: all pieces of a page
// of ours, and cells beside the roster's.
func TestBarePrograms(t *testing.T) {
	dir := t.TempDir()
	path, outcomes := rosterOf(t, dir, 2, european)
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	page := filepath.Join(dir, "page.pdf")
	f, err := os.Create(page)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := pdfreport.WritePerson(f, pdfreport.Person{Name: "Ida Calloway", Score: outcomes[0].Score(), Words: words}); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	fonts := filepath.Join("..", "..", "pdfreport", "fonts", "cut")
	font, err := readFont(fonts)
	if err != nil {
		t.Fatal(err)
	}
	ours, err := record(page, font.chars)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(ours[0], func(s stroke) bool { return s.Op == "Tj" && strings.Contains(s.Text, "Ida Calloway") }) {
		t.Error("the name is not among the pieces of the page")
	}
	if !slices.ContainsFunc(ours[0], func(s stroke) bool { return s.Op == "Tf" && s.Bold }) {
		t.Error("no bold letters are among the pieces of the page")
	}
	drawn := filepath.Join(dir, "drawing.json")
	if err := ours.save(drawn); err != nil {
		t.Fatal(err)
	}
	if err := barePages(path, drawn, fonts, dir); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"000000.pdf", "000001.pdf"} {
		bare, err := record(filepath.Join(dir, name), font.chars)
		if err != nil {
			t.Fatal(err)
		}
		for _, op := range []string{"Tj", "re", "m", "l", "c", "f", "S"} {
			want, got := ours.count(op), bare.count(op)
			if op == "Tj" {
				want += len(ours) // the name on each page
			}
			if got != want || len(bare) != len(ours) {
				t.Errorf("%s: %d times %q on %d pages; ours has %d on %d", name, got, op, len(bare), want, len(ours))
			}
		}
	}
	book, err := excelize.OpenFile(filepath.Join(dir, "scored.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	rows, err := book.GetRows(book.GetSheetName(0))
	if err != nil || len(rows) != 3 || len(rows[2]) != rosterCols+bareResults {
		t.Errorf("%d rows, the last with %d cells, %v", len(rows), len(rows[len(rows)-1]), err)
	}
}

func (d drawing) count(op string) (n int) {
	for _, page := range d {
		for _, s := range page {
			if s.Op == op {
				n++
			}
		}
	}
	return n
}

package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/cmd/internal/batch"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
)

// Everyone on a roster is scored, and no two share a name.
func TestRoster(t *testing.T) {
	for kind := range names {
		const n = 120
		path := filepath.Join(t.TempDir(), "people.xlsx")
		if err := writeRoster(path, kind, n); err != nil {
			t.Fatal(err)
		}
		roster, err := workbook.Open(path, workbook.ReadOptions{})
		if err != nil {
			t.Fatal(err)
		}
		outcomes := batch.Score(roster, scoring.Options{})
		if len(outcomes) != n {
			t.Errorf("%d visits of %d people", len(outcomes), n)
		}
		for _, o := range outcomes {
			if o.LeftOut() {
				t.Errorf("%s: row %d is left out", kind, o.Row.Number)
			}
		}
		seen := map[string]bool{}
		for i := range 100_000 {
			name := nameOf(kind, i)
			if seen[name] {
				t.Fatalf("%s: person %d has the name of another, %s", kind, i, name)
			}
			seen[name] = true
		}
	}
}

// The bare program draws all pieces of a report of ours, and writes cells next to
// the roster's.
func TestBarePages(t *testing.T) {
	dir := t.TempDir()
	roster, report := filepath.Join(dir, "people.xlsx"), filepath.Join(dir, "report.pdf")
	if err := writeRoster(roster, "european", 2); err != nil {
		t.Fatal(err)
	}
	read, err := workbook.Open(roster, workbook.ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(report)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := person.Write(f, person.Person{Name: "Ida Calloway", Score: batch.Score(read, scoring.Options{})[0].Score(&scoring.Options{}), Words: words}); err != nil {
		t.Fatal(err)
	}
	if err := barePages(roster, report, filepath.Join("..", "..", "pdfreport", "kit", "fonts", "cut"), dir); err != nil {
		t.Fatal(err)
	}
	ours, err := readPages(report)
	if err != nil {
		t.Fatal(err)
	}
	bare, err := readPages(filepath.Join(dir, "000001.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, op := range []string{"Tj", "re", "m", "l", "c", "f", "S"} {
		want, got := count(ours, op), count(bare, op)
		if got != want || len(bare) != len(ours) || want == 0 {
			t.Errorf("%d times %q on %d pages; ours has %d on %d", got, op, len(bare), want, len(ours))
		}
	}
	book, err := excelize.OpenFile(filepath.Join(dir, "scored.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	rows, err := book.GetRows("Sheet1")
	if err != nil || len(rows) != 3 || len(rows[2]) != rosterCols+bareResults {
		t.Errorf("%d rows, the last with %d cells, %v", len(rows), len(rows[len(rows)-1]), err)
	}
}

func count(pages [][]piece, op string) (n int) {
	for _, page := range pages {
		for _, p := range page {
			if p.op == op {
				n++
			}
		}
	}
	return n
}

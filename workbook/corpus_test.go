package workbook

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/people"
	"tenback/workbook/source"
)

// hang is far beyond what any workbook of the corpus takes.
const hang = time.Minute

// TestCorpus runs a folder of real, odd and damaged workbooks, which is kept
// beside the repository, through reading, scoring and writing. Hardly any is a
// roster, so each sheet also gets people: see corpusPeople.
func TestCorpus(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 300 workbooks")
	}
	files, err := filepath.Glob("../../shared/corpus/*.xl*")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) == 0 {
		t.Skip("the folder shared/corpus is not there")
	}
	counts := map[string]int{}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		counts[corpusFile(t, filepath.Base(path), data)]++
		if d := time.Since(start); d > hang {
			t.Errorf("%s took %v", filepath.Base(path), d)
		}
	}
	for _, outcome := range slices.Sorted(maps.Keys(counts)) {
		t.Logf("%4d  %s", counts[outcome], outcome)
	}
	if written := counts["written"]; written < len(files)/2 {
		t.Errorf("results were written into %d of %d workbooks only", written, len(files))
	}
}

// corpusFile reads a workbook as a roster, which nearly always is refused, and
// then writes results for people made up into it.
func corpusFile(t *testing.T, name string, data []byte) (outcome string) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s: panic: %v", name, p)
		}
	}()
	dir := t.TempDir()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	unchanged := func() {
		t.Helper()
		if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, data) {
			t.Errorf("%s: the file was touched, %v", name, err)
		}
	}
	roster, err := Open(path, ReadOptions{Today: testToday})
	unchanged()
	if err != nil {
		if kind := kindOf(err); kind != source.ErrNoHeader && kind != source.ErrNoPeople {
			return "refused: " + fmt.Sprint(kind)
		}
		if roster, err = corpusPeople(path); err != nil {
			return "refused: " + fmt.Sprint(kindOf(err))
		}
	} else {
		t.Logf("%s is a roster of %d people", name, len(people.Visits(roster)))
	}
	outcomes := scoreAll(roster)
	dst := filepath.Join(dir, "scored"+filepath.Ext(name))
	_, errCopy := WriteResults(context.Background(), roster, outcomes, dst, WriteOptions{})
	unchanged()
	if errCopy != nil {
		if _, err := os.Stat(dst); err == nil {
			t.Errorf("%s: refused, and %s is there", name, dst)
		}
	}
	_, rehearsed := Rehearse(context.Background(), roster, outcomes, WriteOptions{})
	written, err := WriteResults(context.Background(), roster, outcomes, path, WriteOptions{InPlace: true, Now: testToday})
	template := filepath.Ext(name) == ".xltx" // in place it is refused for its ending
	if !template && (rehearsed == nil) != (err == nil) {
		t.Errorf("%s: rehearsed: %v; in place: %v", name, rehearsed, err)
	}
	if err != nil {
		unchanged()
		t.Logf("%s: in place: %v", name, err)
		return "refused in writing"
	}
	if errCopy != nil {
		t.Errorf("%s: written in place and not as a copy: %v", name, errCopy)
	}
	if backup, err := os.ReadFile(written.Backup); err != nil || !bytes.Equal(backup, data) {
		t.Errorf("%s: the backup is not the file, %v", name, err)
	}
	wantOldCells(t, roster, written.Backup, path)
	if added, err := oldCellsKept(written.Backup, path); err != nil || added < 8 {
		t.Errorf("%s: %d cells were added, %v", name, added, err)
	}
	for _, note := range written.Notes {
		t.Logf("%s: %s", name, note)
	}
	wantClean(t, written.Backup, path)
	return "written"
}

func kindOf(err error) error {
	var known *source.Error
	if errors.As(err, &known) {
		return known.Kind
	}
	return err
}

// corpusPeople makes a roster of a workbook that is none: the first row with
// cells of each sheet is taken for a header, the two rows below it for people
// who walked a mile.
func corpusPeople(path string) (*Roster, error) {
	seen, err := source.FingerprintOf(path)
	if err != nil {
		return nil, err
	}
	roster := &Roster{Path: path, Seen: seen}
	err = eachSheet(path, func(book *ooxml.Book, s ooxml.Sheet) error {
		rows, err := book.Rows(s)
		if err != nil {
			return err
		}
		defer rows.Close()
		sheet := &Sheet{Name: s.Name}
		for rows.Next() {
			row := rows.Row()
			if sheet.HeaderRow == 0 {
				sheet.HeaderRow = row.Number
				sheet.Columns = []Column{{Index: row.Cells[0].Col, Header: "Name", Meaning: Meaning{Role: Name}}}
			}
			sheet.LastCol = max(sheet.LastCol, row.Cells[len(row.Cells)-1].Col)
		}
		if sheet.HeaderRow == 0 || sheet.HeaderRow+2 > grid.MaxRow {
			return rows.Err()
		}
		for i := 1; i <= 2; i++ {
			sheet.Rows = append(sheet.Rows, corpusWalker(s.Name, sheet.HeaderRow+i))
		}
		roster.Sheets = append(roster.Sheets, sheet)
		return rows.Err()
	})
	if err == nil && len(roster.Sheets) == 0 {
		err = source.ErrNoCells
	}
	return roster, err
}

func corpusWalker(sheet string, number int) Row {
	row := Row{Sheet: sheet, Number: number, Person: Person{Name: fmt.Sprintf("=Person %d", number)}}
	row.Entry.SetSex(scoring.Female, "")
	row.Entry.Set(scoring.Age, scoring.Q(45, scoring.Years), "")
	row.Entry.Set(scoring.BodyMass, scoring.Q(60, scoring.Kilograms), "")
	trial := scoring.Trial{Test: heading.MustTest("walk-1-mile")}
	trial.Set(scoring.Time, scoring.Q(14, scoring.Minutes), "")
	trial.Set(scoring.ExerciseHR, scoring.Q(130, scoring.BeatsPerMinute), "")
	row.Entry.Trials = []scoring.Trial{trial}
	return row
}

// eachSheet visits the sheets with cells of a workbook.
func eachSheet(path string, visit func(*ooxml.Book, ooxml.Sheet) error) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	book, err := ooxml.Open(f, info.Size())
	if err != nil {
		return err
	}
	for _, s := range book.Sheets() {
		if !s.Cells {
			continue
		}
		if err := visit(book, s); err != nil {
			return err
		}
	}
	return nil
}

// oldCellsKept compares every cell of a workbook with the one in a later
// version, as the reader of rosters sees them, and counts the new ones.
func oldCellsKept(before, after string) (added int, err error) {
	type place struct {
		sheet    string
		row, col int
	}
	cells := func(path string) (map[place]cell.Raw, error) {
		all := map[place]cell.Raw{}
		return all, eachSheet(path, func(book *ooxml.Book, s ooxml.Sheet) error {
			rows, err := book.Rows(s)
			if err != nil {
				return err
			}
			defer rows.Close()
			for rows.Next() {
				for _, c := range rows.Row().Cells {
					all[place{s.Name, rows.Row().Number, c.Col}] = c.Raw
				}
			}
			return rows.Err()
		})
	}
	was, err := cells(before)
	if err != nil {
		return 0, err
	}
	is, err := cells(after)
	if err != nil {
		return 0, err
	}
	for at, old := range was {
		if is[at] != old {
			return 0, fmt.Errorf("%s!%s was %q and is %q", at.sheet, grid.At(at.col, at.row), old.Text, is[at].Text)
		}
	}
	return len(is) - len(was), nil
}

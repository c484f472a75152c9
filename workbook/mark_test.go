package workbook

import (
	"context"
	"errors"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/workbook/splice"
)

// marksOf plans the comments of a sheet with one result column and one row that
// has the problems.
func marksOf(ofFile, ofRow []Problem) []splice.Comment {
	row := &Row{Sheet: "People", Number: 4, Problems: ofRow}
	roster := &Roster{Sheets: []*Sheet{{Name: "People", Rows: []Row{*row}}}, Problems: ofFile}
	e := &sheetEdit{name: "People", headerRow: 3, outcomes: map[int]*Outcome{4: {Row: row, score: &scoring.Score{}}},
		columns: []placedColumn{{ResultColumn: ResultColumn{Explain: "What it says."}, col: 7}}}
	e.mark(roster, wordsOf(nil))
	return e.marks
}

func TestMarks(t *testing.T) {
	at := func(sheet, cell, what, fix string, blocking bool) Problem {
		return Problem{Sheet: sheet, Cell: cell, Read: "x", What: scoring.Verbatim(what), Fix: scoring.Verbatim(fix), Blocking: blocking}
	}
	header := splice.Comment{Row: 3, Col: 7, Text: "What it says."}
	for _, c := range []struct {
		name          string
		ofFile, ofRow []Problem
		want          []splice.Comment // besides the header's
	}{
		{"nothing wrong", nil, nil, nil},
		{"what to type", nil, []Problem{at("People", "D4", "11.3 is unclear", "type 11:30", true)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "11.3 is unclear.\nType 11:30."}}},
		{"a remark asks for nothing", nil, []Problem{at("People", "D4", "taken as no value", "type 0", false)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "Taken as no value."}}},
		{"nothing to type", nil, []Problem{at("People", "D4", "étrange!", "", true)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "Étrange!"}}},
		{"faults before remarks", nil, []Problem{at("People", "B4", "a remark", "", false), at("People", "D4", "a fault", "mend it", true)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "A fault.\nMend it."}, {Row: 4, Col: 2, Text: "A remark."}}},
		{"several at one cell", nil, []Problem{at("People", "D4", "a remark", "", false), at("People", "D4", "one", "do this", true), at("People", "D4", "two", "do that", true)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "One.\nDo this.\nTwo.\nDo that.\nA remark."}}},
		{"the same twice", nil, []Problem{at("People", "D4", "one", "do this", true), at("People", "D4", "one", "do this", true)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "One.\nDo this."}}},
		{"of a header", []Problem{at("People", "B3", "two columns claim it", "rename one", true)}, nil,
			[]splice.Comment{{Row: 3, Col: 2, Text: "Two columns claim it.\nRename one."}}},
		{"of a whole sheet, and of another", []Problem{at("People", "", "hidden", "", false), at("Other", "B3", "empty", "", true)}, nil, nil},
		{"very long", nil, []Problem{at("People", "D4", strings.Repeat("long ", 1000), "", true)},
			[]splice.Comment{{Row: 4, Col: 4, Text: "L" + strings.Repeat("long ", 200)[1:]}}},
	} {
		want := append([]splice.Comment{header}, c.want...)
		for i := range want {
			want[i].Text += "\nThis comment is kept up to date until you change it."
		}
		if got := marksOf(c.ofFile, c.ofRow); !slices.Equal(got, want) {
			t.Errorf("%s:\n got %+v\nwant %+v", c.name, got, want)
		}
	}
}

// comments reads the comments of a sheet by cell with another reader.
func comments(t *testing.T, path, sheet string) map[string]string {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := f.GetComments(sheet)
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, c := range all {
		if _, twice := texts[c.Cell]; twice {
			t.Errorf("cell %s has two comments", c.Cell)
		}
		texts[c.Cell] = c.Author + ": " + c.Text
		for _, run := range c.Paragraph {
			texts[c.Cell] += run.Text
		}
	}
	return texts
}

// Comments appear with Mark only, keep up with the roster, and leave those of
// the user alone.
func TestMarkedWorkbook(t *testing.T) {
	src := testWorkbook(t)
	dir := filepath.Dir(src)
	path := func(name string) string { return filepath.Join(dir, name) }
	edit(t, src, func(f *excelize.File) error {
		return errors.Join(f.SetCellStr("People", "C5", "11.30"), f.SetCellStr("People", "C6", "a stroll"), f.SetCellStr("People", "C7", "??!"),
			f.AddComment("People", excelize.Comment{Cell: "C7", Author: "A. Teacher", Text: "watch stopped"}))
	})
	w := mustWrite(t, src, path("plain.xlsx"), WriteOptions{})
	if got := comments(t, w.Path, "People"); len(got) != 1 || got["C7"] != "A. Teacher: watch stopped" {
		t.Errorf("without marks: %q", got)
	}

	w = mustWrite(t, src, path("marked.xlsx"), WriteOptions{Mark: true})
	first := comments(t, w.Path, "People")
	if !strings.HasPrefix(first["C6"], "tenback: ") || strings.Count(first["C6"], "\n") < 2 || first["C7"] != "A. Teacher: watch stopped" {
		t.Errorf("comments %q", first)
	}
	for i, c := range ResultColumns(nil) {
		if c.Seasons { // nobody was tested before
			continue
		}
		cell, _ := excelize.CoordinatesToCellName(7+i, testHeader)
		if !strings.HasPrefix(first[cell], "tenback: "+c.Explain) {
			t.Errorf("the header %s says %q", cell, first[cell])
		}
	}
	if len(w.Notes) != 1 || !strings.Contains(w.Notes[0], "C7 already had a comment") {
		t.Errorf("notes %q", w.Notes)
	}
	if got := comments(t, w.Path, "Other"); len(got) != 0 {
		t.Errorf("the other sheet has comments: %q", got)
	}

	// The same again, then with a mended cell, in place and with all its checks.
	again := mustWrite(t, w.Path, path("again.xlsx"), WriteOptions{Mark: true})
	if got := comments(t, again.Path, "People"); !maps.Equal(got, first) {
		t.Errorf("a second run: %q", got)
	}
	edit(t, again.Path, func(f *excelize.File) error { return f.SetCellStr("People", "C6", "11:32") })
	mustWrite(t, again.Path, again.Path, WriteOptions{Mark: true, InPlace: true, Now: backupTime})
	delete(first, "C6")
	if got := comments(t, again.Path, "People"); !maps.Equal(got, first) {
		t.Errorf("after mending: %q\nwant %q", got, first)
	}

	// What a user writes into a comment of ours is the user's.
	edit(t, again.Path, func(f *excelize.File) error {
		return errors.Join(f.DeleteComment("People", "G3"), f.AddComment("People", excelize.Comment{Cell: "G3", Author: "tenback", Text: "my words"}))
	})
	kept := mustWrite(t, again.Path, path("kept.xlsx"), WriteOptions{Mark: true})
	if got := comments(t, kept.Path, "People")["G3"]; got != "tenback: my words" {
		t.Errorf("G3 says %q", got)
	}
}

// More problems than comments fit on a sheet, or comments of an odd form, never
// stand in the way of the results.
func TestMarksNeverStopTheResults(t *testing.T) {
	src := testWorkbook(t)
	roster := mustOpen(t, src)
	outcomes := scoreAll(roster)
	for i := range splice.MaxComments {
		cell, _ := excelize.CoordinatesToCellName(1+i%200, 20+i/200)
		roster.Problems = append(roster.Problems, Problem{Sheet: "People", Cell: cell, What: scoring.Verbatim(strings.Repeat("w", 50_000)), Blocking: true})
	}
	dst := filepath.Join(filepath.Dir(src), "scored.xlsx")
	w, err := WriteResults(context.Background(), roster, outcomes, dst, WriteOptions{Mark: true})
	if err != nil {
		t.Fatal(err)
	}
	if cellsOf(t, dst, "People")["Q3"] != "Report" {
		t.Error("the results are missing")
	}
	if len(w.Notes) != 1 || !strings.Contains(w.Notes[0], "comments were left out") {
		t.Errorf("notes %q", w.Notes)
	}
	if got := comments(t, dst, "People"); len(got) != splice.MaxComments {
		t.Errorf("%d comments", len(got))
	}
}

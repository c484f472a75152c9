package workbook

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/workbook/grid"
	"tenback/workbook/people"
	"tenback/workbook/result"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
	"tenback/workbook/splice"
)

// The test sheet: a title above the header, a formula, a comment row below the
// people, a merged note at the right, and names that look like formulas.
var testNames = []string{"=HYPERLINK(\"http://example.invalid\")", "+Zoë", "-Łukasz", "@Đặng"}

const testHeader = 3

// testWorkbook writes a roster of three columns that covers more than one
// sheet and returns its path.
func testWorkbook(t *testing.T) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(f.SetSheetName("Sheet1", "People"))
	must(f.SetCellStr("People", "A1", "Spring test"))
	bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"DDEBF7"}}})
	must(err)
	must(f.SetSheetRow("People", "A3", &[]string{"Name", "Age", "1.5 mile run"}))
	must(f.SetCellStyle("People", "A3", "C3", bold))
	for i, n := range testNames {
		must(f.SetCellStr("People", fmt.Sprintf("A%d", testHeader+1+i), n))
		must(f.SetCellValue("People", fmt.Sprintf("B%d", testHeader+1+i), 40+i))
		must(f.SetCellStr("People", fmt.Sprintf("C%d", testHeader+1+i), fmt.Sprintf("11:%d", 30+i)))
	}
	must(f.SetCellFormula("People", "C9", "AVERAGE(C4:C7)"))
	must(f.SetCellValue("People", "C10", 12345678901234567.0))
	must(f.MergeCell("People", "E1", "F2"))
	must(f.SetCellStr("People", "E1", "a note of the teacher"))
	_, err = f.NewSheet("Other")
	must(err)
	must(f.SetCellStr("Other", "B2", "keep"))
	path := filepath.Join(t.TempDir(), "roster.xlsx")
	must(f.SaveAs(path))
	return path
}

func scoreAll(roster *Roster) []result.Outcome {
	var all []result.Outcome
	for _, v := range people.Visits(roster) {
		o := result.New(&v, &scoring.Options{}, nil)
		o.Report = "=" + v.Row.Person.Name + ".pdf"
		all = append(all, o)
	}
	return all
}

func mustWrite(t *testing.T, path, dst string, opt WriteOptions) Written {
	t.Helper()
	roster := mustOpen(t, path)
	w, err := WriteResults(context.Background(), roster, scoreAll(roster), dst, opt)
	if err != nil {
		t.Fatal(err)
	}
	before := path
	if opt.InPlace {
		before = w.Backup
	}
	if source.Foreign(path) == "" && roster.In.Scheme == 0 {
		wantOldCells(t, roster, before, dst)
	}
	return w
}

// cellsOf reads all raw values and formulas of a sheet.
func cellsOf(t *testing.T, path, sheet string) map[string]string {
	t.Helper()
	f, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	cells := map[string]string{}
	for r, row := range rows {
		for c := range max(len(row), 3) {
			name, _ := excelize.CoordinatesToCellName(c+1, r+1)
			if v := cellAt(row, c+1); v != "" {
				cells[name] = v
			}
			if formula, _ := f.GetCellFormula(sheet, name); formula != "" {
				cells[name] = "=" + formula
			}
		}
	}
	return cells
}

// resultColumns lists the IDs of the columns that a run without seasons writes.
func resultColumns() []string {
	var ids []string
	for _, c := range result.Columns(sheetwords.Of(nil)) {
		if !c.Seasons {
			ids = append(ids, c.ID)
		}
	}
	return ids
}

// resultAt is the address of a cell of a result column, where the first one is
// column G; the ID "next free" is that of the column behind the last.
func resultAt(id string, row int) string {
	at := slices.Index(append(resultColumns(), "next free"), id)
	return grid.At(7+at, row)
}

func TestWriteResultsKeepsTheOldAndAddsTheNew(t *testing.T) {
	src := testWorkbook(t)
	dst := filepath.Join(filepath.Dir(src), "scored.xlsx")
	mustWrite(t, src, dst, WriteOptions{})

	old, now := cellsOf(t, src, "People"), cellsOf(t, dst, "People")
	for cell, v := range old {
		if now[cell] != v {
			t.Errorf("cell %s was %q and is %q", cell, v, now[cell])
		}
	}
	if got := cellsOf(t, dst, "Other")["B2"]; got != "keep" {
		t.Errorf("the other sheet holds %q", got)
	}
	// The merged note ends in column F, so the results begin in G.
	for id, want := range map[string]string{"vo2max": "VO2max (mL/kg/min)", "report": "Report", "flags": "Flags"} {
		if at := resultAt(id, 3); now[at] != want {
			t.Errorf("%s is %q, want %q", at, now[at], want)
		}
	}
	for i, name := range testNames {
		if got, want := now[resultAt("report", 4+i)], "="+name+".pdf"; got != want {
			t.Errorf("report of %q is %q", name, got)
		}
	}
	f, err := excelize.OpenFile(dst)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if formula, _ := f.GetCellFormula("People", resultAt("report", 4)); formula != "" {
		t.Errorf("the file name became the formula %q", formula)
	}
	if typ, _ := f.GetCellType("People", resultAt("vo2max", 4)); typ != excelize.CellTypeUnset && typ != excelize.CellTypeNumber {
		t.Errorf("VO2max is stored as type %v, want a number", typ)
	}
	if shown, _ := f.GetCellValue("People", resultAt("vo2max", 4)); len(strings.Split(shown, ".")) != 2 || len(shown) != 4 {
		t.Errorf("VO2max shows as %q, want one decimal", shown)
	}
	if dim, _ := f.GetSheetDimension("People"); dim != "A1:"+grid.At(6+len(resultColumns()), 10) {
		t.Errorf("dimension is %s", dim)
	}
	source := strings.TrimSuffix(resultAt("estimated-from", 1), "1")
	if w, _ := f.GetColWidth("People", source); w < 40 {
		t.Errorf("column %s is %v wide", source, w)
	}
	beside, _ := f.GetCellStyle("People", "C3")
	if head, _ := f.GetCellStyle("People", resultAt("vo2max", 3)); head == 0 || !sameLook(t, f, head, beside) {
		t.Error("the new headers do not look like the old ones")
	}
	wantPrivate(t, dst)
}

func sameLook(t *testing.T, f *excelize.File, a, b int) bool {
	t.Helper()
	x, err := f.GetStyle(a)
	if err != nil {
		t.Fatal(err)
	}
	y, err := f.GetStyle(b)
	if err != nil {
		t.Fatal(err)
	}
	return x.Font != nil && y.Font != nil && x.Font.Bold == y.Font.Bold && slices.Equal(x.Fill.Color, y.Fill.Color)
}

func wantPrivate(t *testing.T, path string) {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if os.PathSeparator == '/' && info.Mode().Perm() != 0o600 {
		t.Errorf("mode is %v, want 0600", info.Mode().Perm())
	}
}

func TestRunningAgainWritesTheSame(t *testing.T) {
	src := testWorkbook(t)
	once := filepath.Join(filepath.Dir(src), "once.xlsx")
	twice := filepath.Join(filepath.Dir(src), "twice.xlsx")
	mustWrite(t, src, once, WriteOptions{})
	mustWrite(t, once, twice, WriteOptions{})
	a, b := cellsOf(t, once, "People"), cellsOf(t, twice, "People")
	if len(a) != len(b) {
		t.Errorf("%d cells, then %d", len(a), len(b))
	}
	for cell, v := range a {
		if b[cell] != v {
			t.Errorf("cell %s was %q and is %q", cell, v, b[cell])
		}
	}
}

// edit changes a workbook as a user would.
func edit(t *testing.T, path string, change func(f *excelize.File) error) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := change(f); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
}

func TestResultsFollowTheirPeople(t *testing.T) {
	src := testWorkbook(t)
	scored := filepath.Join(filepath.Dir(src), "scored.xlsx")
	again := filepath.Join(filepath.Dir(src), "again.xlsx")
	mustWrite(t, src, scored, WriteOptions{})
	before := cellsOf(t, scored, "People")
	edit(t, scored, func(f *excelize.File) error {
		return errors.Join(
			f.RemoveRow("People", 4),                                            // someone has left
			f.InsertRows("People", 5, 1),                                        // someone came
			f.SetCellStr("People", "A5", "New"),                                 //
			f.SetCellStr("People", "A7", ""),                                    // a name wiped, results left
			f.SetCellStr("People", resultAt("vo2max", 10), "mean of the class"), // the user's own, in our column
			f.SetCellStr("People", resultAt("next free", 3), "Notes"),
			f.SetCellStr("People", resultAt("next free", 4), "well done"),
		)
	})
	mustWrite(t, scored, again, WriteOptions{})
	now := cellsOf(t, again, "People")
	for _, id := range resultColumns() {
		was, is := before[resultAt(id, 5)], now[resultAt(id, 4)]
		if was != is {
			t.Errorf("%s in row 4 is %q, want %q as before in row 5", id, is, was)
		}
		if v := now[resultAt(id, 7)]; v != "" {
			t.Errorf("%s in row 7 still holds %q of someone who is gone", id, v)
		}
	}
	if got := now[resultAt("report", 5)]; got != "=New.pdf" {
		t.Errorf("the new person's report is %q", got)
	}
	if now[resultAt("vo2max", 10)] != "mean of the class" || now[resultAt("next free", 3)] != "Notes" || now[resultAt("next free", 4)] != "well done" {
		t.Error("something that the user typed is gone")
	}
	if beyond := now[grid.At(8+len(resultColumns()), 3)]; beyond != "" {
		t.Errorf("there is a header %q: the columns were written twice", beyond)
	}
}

func TestMissingResultColumnComesBackAtTheRight(t *testing.T) {
	src := testWorkbook(t)
	scored, again := filepath.Join(filepath.Dir(src), "scored.xlsx"), filepath.Join(filepath.Dir(src), "again.xlsx")
	mustWrite(t, src, scored, WriteOptions{})
	ids := resultColumns()
	edit(t, scored, func(f *excelize.File) error {
		return f.RemoveCol("People", strings.TrimSuffix(resultAt("group", 1), "1"))
	})
	mustWrite(t, scored, again, WriteOptions{})
	now := cellsOf(t, again, "People")
	if now[resultAt("group", 3)] != "Percentile" || now[resultAt(ids[len(ids)-1], 3)] != "Group" || now[resultAt("next free", 3)] != "" {
		t.Errorf("the headers are %v", now)
	}
}

func TestRowsWithoutOutcomeAreBlank(t *testing.T) {
	src := testWorkbook(t)
	dst := filepath.Join(filepath.Dir(src), "scored.xlsx")
	roster := mustOpen(t, src)
	outcomes := scoreAll(roster)
	if _, err := WriteResults(context.Background(), roster, outcomes[1:], dst, WriteOptions{}); err != nil {
		t.Fatal(err)
	}
	now := cellsOf(t, dst, "People")
	for _, id := range resultColumns() {
		if v := now[resultAt(id, 4)]; v != "" {
			t.Errorf("%s in row 4 holds %q", id, v)
		}
	}
	if now[resultAt("vo2max", 5)] == "" {
		t.Error("row 5 has no result")
	}
}

// What somebody typed into a result cell is kept and named, and the results beside
// it are written.
func TestTypedTextIsKept(t *testing.T) {
	src := testWorkbook(t)
	scored, again := filepath.Join(filepath.Dir(src), "scored.xlsx"), filepath.Join(filepath.Dir(src), "again.xlsx")
	mustWrite(t, src, scored, WriteOptions{})
	at := resultAt("flags", 5)
	edit(t, scored, func(f *excelize.File) error {
		return errors.Join(f.SetCellStr("People", at, "see doctor first!"), f.SetCellStr("People", "C5", "9:59"))
	})
	roster := mustOpen(t, scored)
	notes, err := Rehearse(context.Background(), roster, scoreAll(roster), WriteOptions{})
	if err != nil {
		t.Fatal(err)
	}
	before, written := cellsOf(t, scored, "People"), mustWrite(t, scored, again, WriteOptions{})
	now := cellsOf(t, again, "People")
	if now[at] != "see doctor first!" || now[resultAt("vo2max", 5)] == before[resultAt("vo2max", 5)] {
		t.Errorf("%s holds %q, and the VO2max of its row %s", at, now[at], now[resultAt("vo2max", 5)])
	}
	for _, said := range [][]string{notes, written.Notes} {
		if len(said) != 1 || !strings.Contains(said[0], at+` "see doctor first!"`) {
			t.Errorf("the notes are %q", said)
		}
	}
}

// What the user put into our columns in the row of a person is not ours to
// remove, and is named.
func TestUsersFormulaInAResultColumnIsRefused(t *testing.T) {
	src := testWorkbook(t)
	scored, again := filepath.Join(filepath.Dir(src), "scored.xlsx"), filepath.Join(filepath.Dir(src), "again.xlsx")
	mustWrite(t, src, scored, WriteOptions{})
	edit(t, scored, func(f *excelize.File) error {
		return f.SetCellFormula("People", resultAt("likely-low", 5), resultAt("vo2max", 5)+"*0.9")
	})
	roster := mustOpen(t, scored)
	_, err := WriteResults(context.Background(), roster, scoreAll(roster), again, WriteOptions{})
	if !errors.Is(err, splice.ErrFormula) || !strings.Contains(err.Error(), resultAt("likely-low", 5)) {
		t.Errorf("error is %v", err)
	}
	if _, err := os.Stat(again); !errors.Is(err, fs.ErrNotExist) {
		t.Error("a file was left behind")
	}
}

// Sorting by a filter that ends before our columns would part people from
// their results.
func TestFilterGrowsOverTheResults(t *testing.T) {
	src := testWorkbook(t)
	dst := filepath.Join(filepath.Dir(src), "scored.xlsx")
	edit(t, src, func(f *excelize.File) error {
		return errors.Join(f.UnmergeCell("People", "E1", "F2"), f.SetCellValue("People", "E1", nil),
			f.AutoFilter("People", "A3:C7", nil))
	})
	roster := mustOpen(t, src)
	if _, err := WriteResults(context.Background(), roster, scoreAll(roster), dst, WriteOptions{}); err != nil {
		t.Fatal(err)
	}
	z, err := zip.OpenReader(dst)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	sheet, err := fs.ReadFile(z, "xl/worksheets/sheet1.xml")
	// The results begin in D.
	if want := `<autoFilter ref="A3:` + grid.At(3+len(resultColumns()), 7); err != nil || !strings.Contains(string(sheet), want) {
		t.Errorf("no %s: %v", want, err)
	}
}

var backupTime = time.Date(2026, 11, 25, 14, 12, 0, 0, time.UTC)

var inPlace = WriteOptions{InPlace: true, Now: backupTime}

func TestInPlace(t *testing.T) {
	src := testWorkbook(t)
	if err := os.Chmod(src, 0o640); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(filepath.Dir(src), "link.xlsx")
	if err := os.Symlink("roster.xlsx", link); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	original, err := os.ReadFile(src)
	if err != nil {
		t.Fatal(err)
	}
	w := mustWrite(t, link, link, inPlace)
	if got, want := filepath.Base(w.Backup), "roster (backup 2026-11-25 1412).xlsx"; got != want {
		t.Errorf("backup is %q, want %q", got, want)
	}
	if saved, err := os.ReadFile(w.Backup); err != nil || string(saved) != string(original) {
		t.Errorf("the backup is not the original: %v", err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Error("the link is no link any more")
	}
	if info, err := os.Stat(src); err != nil || (os.PathSeparator == '/' && info.Mode().Perm() != 0o640) {
		t.Errorf("mode was not kept: %v", err)
	}
	if cellsOf(t, src, "People")[resultAt("report", 3)] != "Report" {
		t.Error("the roster has no results")
	}
}

func TestRefusals(t *testing.T) {
	src := testWorkbook(t)
	dir := filepath.Dir(src)
	original, err := os.ReadFile(src)
	if err != nil {
		t.Fatal(err)
	}
	hard := filepath.Join(dir, "hard.xlsx")
	if err := os.Link(src, hard); err != nil {
		t.Skipf("no hard links here: %v", err)
	}
	for _, c := range []struct {
		name, dst string
		opt       WriteOptions
	}{
		{"onto itself", src, WriteOptions{}},
		{"onto itself by another name", hard, WriteOptions{}},
		{"another kind of file", filepath.Join(dir, "scored.xlsm"), WriteOptions{}},
		{"in place elsewhere", filepath.Join(dir, "scored.xlsx"), inPlace},
		{"in place, changed since", src, inPlace},
		{"copy, changed since", filepath.Join(dir, "scored.xlsx"), WriteOptions{}},
		{"a folder", dir + string(os.PathSeparator) + "sub.xlsx", WriteOptions{}},
	} {
		if c.name == "a folder" {
			if err := os.Mkdir(c.dst, 0o700); err != nil {
				t.Fatal(err)
			}
		}
		roster := mustOpen(t, src)
		if strings.Contains(c.name, "changed") {
			roster.Seen = Fingerprint{1}
		}
		if _, err := WriteResults(context.Background(), roster, scoreAll(roster), c.dst, c.opt); err == nil {
			t.Errorf("%s: no error", c.name)
		} else if strings.Contains(c.name, "changed") && !errors.Is(err, source.ErrChangedSinceRead) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if now, err := os.ReadFile(src); err != nil || string(now) != string(original) {
		t.Errorf("the roster was touched: %v", err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != 3 { // roster, its hard link, the folder
		t.Errorf("something was left behind: %v", entries)
	}
}

func inspect(t *testing.T, path string) splice.Info {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	stat, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	info, err := splice.Inspect(context.Background(), f, stat.Size())
	if err != nil {
		t.Fatal(err)
	}
	return info
}

// TestCommentsStay: comments that others made are the same before and after.
func TestCommentsStay(t *testing.T) {
	src := testWorkbook(t)
	edit(t, src, func(f *excelize.File) error {
		return f.AddComment("People", excelize.Comment{Cell: "C7", Author: "A. Teacher", Text: "watch stopped"})
	})
	comments := func(path string) []excelize.Comment {
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		all, err := f.GetComments("People")
		if err != nil || len(all) != 1 {
			t.Fatalf("%v, %v", all, err)
		}
		return all
	}
	before := comments(src)
	mustWrite(t, src, src, WriteOptions{InPlace: true, Now: backupTime})
	if after := comments(src); !reflect.DeepEqual(after, before) {
		t.Errorf("%v, want %v", after, before)
	}
}

// A difference in any old cell must be seen, or the comparison guards nothing.
func TestCompareSeesEveryKindOfChange(t *testing.T) {
	for name, change := range map[string]func(f *excelize.File) error{
		"value":          func(f *excelize.File) error { return f.SetCellStr("People", "A4", "someone else") },
		"value vanished": func(f *excelize.File) error { return f.SetCellStr("People", "A4", "") },
		"value added":    func(f *excelize.File) error { return f.SetCellStr("People", "B40", "x") },
		"digits":         func(f *excelize.File) error { return f.SetCellValue("People", "C4", 0.00798611) },
		"above our header": func(f *excelize.File) error {
			return f.SetCellStr("People", "H1", "x")
		},
		"other sheet":   func(f *excelize.File) error { return f.SetCellStr("Other", "B2", "lost") },
		"sheet renamed": func(f *excelize.File) error { return f.SetSheetName("Other", "Else") },
		"sheet removed": func(f *excelize.File) error { return f.DeleteSheet("Other") },
	} {
		src := testWorkbook(t)
		dst := filepath.Join(filepath.Dir(src), "scored.xlsx")
		mustWrite(t, src, dst, WriteOptions{})
		planned, _, err := result.Plan(mustOpen(t, src), nil, &scoring.Options{}, inspect(t, src), onDisk(t, src), sheetwords.Of(nil))
		if err != nil {
			t.Fatal(err)
		}
		if err := compareOldCells(context.Background(), onDisk(t, src), onDisk(t, dst), planned, false); err != nil {
			t.Fatalf("nothing changed: %v", err)
		}
		edit(t, dst, change)
		if err := compareOldCells(context.Background(), onDisk(t, src), onDisk(t, dst), planned, false); err == nil {
			t.Errorf("%s: not seen", name)
		}
	}
}

func TestCancelledRunLeavesNothing(t *testing.T) {
	src := testWorkbook(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	roster := mustOpen(t, src)
	if _, err := WriteResults(ctx, roster, scoreAll(roster), filepath.Join(filepath.Dir(src), "scored.xlsx"), WriteOptions{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error is %v, want context.Canceled", err)
	}
	if entries, _ := os.ReadDir(filepath.Dir(src)); len(entries) != 1 {
		t.Errorf("something was left behind: %v", entries)
	}
}

// onDisk opens a workbook until the end of the test.
func onDisk(t *testing.T, path string) source.Plain {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	info, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	return source.Plain{ReaderAt: f, Size: info.Size()}
}

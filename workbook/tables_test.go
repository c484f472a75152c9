package workbook

import (
	"archive/zip"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/grid"
)

// tableBook is a roster in a table in A1:F4, and what change adds to it.
func tableBook(t *testing.T, change func(*excelize.File) error) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range [][]any{
		{"Name", "Sex", "Age", "Weight", "1.5 mile run", "Group"},
		{"Ada Lind", "F", 31, 58, "13:05", "Blue"}, {"Ben Ohm", "M", 44, 72, "11:30", "Red"}, {"Cyd Rue", "F", 29, 60, "12:40", "Red"},
	} {
		at, _ := excelize.CoordinatesToCellName(1, i+1)
		if err := f.SetSheetRow("Sheet1", at, &row); err != nil {
			t.Fatal(err)
		}
	}
	err := f.AddTable("Sheet1", &excelize.Table{Range: "A1:F4", Name: "People", StyleName: "TableStyleMedium4"})
	path := filepath.Join(t.TempDir(), "roster.xlsx")
	if err := errors.Join(err, change(f), f.SaveAs(path)); err != nil {
		t.Fatal(err)
	}
	return path
}

// partOf is the text of one part of a workbook.
func partOf(t *testing.T, path, part string) string {
	t.Helper()
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	f, err := z.Open(part)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

const table1 = "xl/tables/table1.xml"

// overResults puts the last result column in place of §, where the first one is G.
func overResults(text string) string {
	return strings.ReplaceAll(text, "§", grid.Column(6+len(resultColumns())))
}

// Results of people in a table become columns of the table, and are found
// there again.
func TestResultsJoinTheTable(t *testing.T) {
	same := func(*excelize.File) error { return nil }
	for _, tc := range []struct {
		name   string
		change func(*excelize.File) error
		part   [3]string // of the workbook: a part, a text in it, and what it becomes
		want   string    // text of the table's part
		notes  string    // printed unless empty
		first  int       // column of the results
	}{
		{"plain", same, [3]string{}, `ref="A1:§4"`, "", 7},
		{"with a row of totals", func(f *excelize.File) error {
			return errors.Join(f.SetCellValue("Sheet1", "A5", "Everyone"), f.SetCellFormula("Sheet1", "C5", "SUBTOTAL(101,C2:C4)"))
		}, [3]string{table1, `ref="A1:F4"`, `ref="A1:F5" totalsRowCount="1"`}, `ref="A1:§5" totalsRowCount="1"`, "", 7},
		{"sorted and filtered", same, [3]string{table1, `<autoFilter ref="A1:F4"></autoFilter>`, `<autoFilter ref="A1:F4"><filterColumn colId="1"><filters><filter val="F"/></filters></filterColumn></autoFilter><sortState ref="A2:F4"><sortCondition ref="C2:C4"/></sortState>`},
			`<autoFilter ref="A1:§4"><filterColumn colId="1"><filters><filter val="F"/></filters></filterColumn></autoFilter><sortState ref="A2:§4"><sortCondition ref="C2:C4"/></sortState>`, "", 7},
		{"without a row of headers of its own", same, [3]string{table1, `ref="A1:F4"`, `ref="A2:F4" headerRowCount="0"`}, `ref="A2:§4" headerRowCount="0"`, "", 7},
		{"another table below", func(f *excelize.File) error {
			return errors.Join(f.SetSheetRow("Sheet1", "A8", &[]any{"Station", "Place"}), f.SetSheetRow("Sheet1", "A9", &[]any{"Run", "Track"}),
				f.AddTable("Sheet1", &excelize.Table{Range: "A8:B9", Name: "Stations"}))
		}, [3]string{}, `ref="A1:§4"`, "", 7},
		{"another table at the right", func(f *excelize.File) error {
			return errors.Join(f.SetSheetRow("Sheet1", "I1", &[]any{"Station", "Place"}), f.SetSheetRow("Sheet1", "I2", &[]any{"Run", "Track"}),
				f.AddTable("Sheet1", &excelize.Table{Range: "I1:J2", Name: "Stations"}))
		}, [3]string{}, `ref="A1:F4"`, `the results are beside the table "People", not in it, because other cells are between them`, 11},
		{"notes at the right", func(f *excelize.File) error { return f.SetCellValue("Sheet1", "H9", "rain") }, [3]string{}, `ref="A1:F4"`, "other cells are between them", 9},
		{"rows from elsewhere", same, [3]string{table1, `ref="A1:F4"`, `tableType="queryTable" ref="A1:F4"`}, `ref="A1:F4"`, "its rows come from elsewhere", 7},
		{"a list of columns that does not fit", same, [3]string{table1, `<autoFilter ref="A1:F4">`, `<autoFilter ref="A1:E4">`}, `<autoFilter ref="A1:E4">`, "does not fit", 7},
	} {
		t.Run(tc.name, func(t *testing.T) {
			src := tableBook(t, tc.change)
			if tc.part[0] != "" {
				odd := filepath.Join(t.TempDir(), "roster.xlsx")
				rezip(t, src, odd, tc.part[0], tc.part[1], tc.part[2])
				src = odd
			}
			if tc.name == "without a row of headers of its own" {
				rezip(t, src, src+".xlsx", table1, `<autoFilter ref="A1:F4"></autoFilter>`, "")
				src += ".xlsx"
			}
			before := src + "-before.xlsx"
			copyFile(t, src, before)
			roster := mustOpen(t, src)
			if n := len(roster.Sheets[0].Rows); n != 3 {
				t.Errorf("%d people", n)
			}
			written, err := WriteResults(context.Background(), roster, scoreAll(roster), src, inPlace)
			if err != nil {
				t.Fatal(err)
			}
			wantOldCells(t, roster, before, src)
			if part := partOf(t, src, table1); !strings.Contains(part, overResults(tc.want)) {
				t.Errorf("the table is %s, want %s", part, overResults(tc.want))
			}
			if notes := strings.Join(written.Notes, "\n"); tc.notes == "" && notes != "" || !strings.Contains(notes, tc.notes) {
				t.Errorf("notes %q, want %q", notes, tc.notes)
			}
			group := "Group2"
			if tc.notes == "other cells are between them" || strings.HasPrefix(tc.notes, "the results are beside") {
				group = "Group" // the table keeps its columns, so no name is taken
			}
			first := cellsOf(t, src, "Sheet1")
			at := grid.At(tc.first+slices.Index(resultColumns(), "group"), 1)
			if got := first[at]; got != group {
				t.Errorf("%s is %q, want %q", at, got, group)
			}
			wantClean(t, before, src)
			mustWrite(t, src, src, WriteOptions{InPlace: true, Now: inPlace.Now.AddDate(0, 0, 1)})
			for at, v := range cellsOf(t, src, "Sheet1") {
				if first[at] != v {
					t.Errorf("the second run made %q of %q in %s", v, first[at], at)
				}
			}
			wantClean(t, before, src)
		})
	}
}

// A table grows with the results of an earlier run in it, someone new, and
// a column of ours that was deleted.
func TestTableOfAnEarlierRun(t *testing.T) {
	src := tableBook(t, func(*excelize.File) error { return nil })
	mustWrite(t, src, src, inPlace)
	edit(t, src, func(f *excelize.File) error {
		return errors.Join(f.SetSheetRow("Sheet1", "A5", &[]any{"Dot Fell", "F", 40, 61, "12:59", "Red"}))
	})
	rezip(t, src, src+".xlsx", table1, overResults(`ref="A1:§4"`), overResults(`ref="A1:§5"`))
	rezip(t, src+".xlsx", src, table1, overResults(`autoFilter ref="A1:§4"`), overResults(`autoFilter ref="A1:§5"`))
	mustWrite(t, src, src, WriteOptions{InPlace: true, Now: inPlace.Now.AddDate(0, 0, 1)})
	if got := cellsOf(t, src, "Sheet1"); got[resultAt("vo2max", 5)] == "" || got[resultAt("next free", 1)] != "" {
		t.Errorf("the cells are %v", got)
	}
	wantClean(t, src, src)
}

// A Strict workbook has its tables in another namespace.
func TestTableOfAStrictWorkbook(t *testing.T) {
	src := tableBook(t, func(*excelize.File) error { return nil })
	const loose, strict = "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main"
	odd := filepath.Join(t.TempDir(), "strict.xlsx")
	for i, part := range []string{"xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/sharedStrings.xml", table1} {
		from, to := []string{src, odd}[i%2], []string{odd, src}[i%2]
		rezip(t, from, to, part, loose, strict)
	}
	dst := filepath.Join(t.TempDir(), "scored.xlsx")
	mustWrite(t, odd, dst, WriteOptions{})
	if part := partOf(t, dst, table1); !strings.Contains(part, overResults(`ref="A1:§4"`)) {
		t.Errorf("the table is %s", part)
	}
	wantClean(t, odd, dst)
}

func copyFile(t *testing.T, src, dst string) {
	t.Helper()
	data, err := os.ReadFile(src)
	if err == nil {
		err = os.WriteFile(dst, data, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}

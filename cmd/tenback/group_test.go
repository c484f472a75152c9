package main

import (
	"bytes"
	"compress/zlib"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// markedFirst is the row of the first person in a marked roster: a number that no
// count or share can be.
const markedFirst = 4001

// markedRoster writes a roster in which every name and ID bears a mark.
func markedRoster(t *testing.T, path string, people int, groups []string) {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	set := func(cell string, values ...any) {
		if err := f.SetSheetRow("Sheet1", cell, &values); err != nil {
			t.Fatal(err)
		}
	}
	set("A1", "Name", "ID", "Department", "Sex", "Age", "Test date", "Measured VO2max (mL/kg/min)", "Resting heart rate")
	for i := range people {
		group := groups[i%len(groups)]
		values := []any{fmt.Sprintf("Qzx%c%c Markedname", 'a'+i%26, 'a'+i/26), fmt.Sprintf("MARK%06d", 864200+i), group, []string{"F", "M"}[i/3%2],
			20 + i*7%48, "2026-05-12", 25 + i*11%30, 50 + i*5%40}
		if i%9 == 0 {
			values[6] = "could not finish, Qzx"
		}
		set(fmt.Sprintf("A%d", markedFirst+i), values...)
	}
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
}

// everyText is all texts of the summary's two files, and all parts of the
// workbook as they stand in the file.
func everyText(t *testing.T, pdf, sheet string) string {
	t.Helper()
	var b strings.Builder
	data, err := os.ReadFile(pdf)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range titleText.FindAllSubmatch(data, -1) {
		fmt.Fprintf(&b, "%s\n", bytes.ReplaceAll(m[2], []byte{0}, nil))
	}
	for _, at := range streamStart.FindAllSubmatchIndex(data, -1) {
		length, _ := strconv.Atoi(string(data[at[2]:at[3]]))
		reader, err := zlib.NewReader(bytes.NewReader(data[at[1] : at[1]+length]))
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range drawnText.FindAllSubmatch(content, -1) {
			fmt.Fprintf(&b, "%s\n", m[1])
		}
	}
	f, err := excelize.OpenFile(sheet)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	f.Pkg.Range(func(name, part any) bool {
		fmt.Fprintf(&b, "%s %s\n", name, part)
		return true
	})
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			fmt.Fprintln(&b, strings.Join(row, "\t"))
		}
	}
	return b.String()
}

// TestGroupNamesNobody: no name, no ID, nothing that was typed of a person and no
// row number is in the summary, but the names of departments.
func TestGroupNamesNobody(t *testing.T) {
	// Row numbers as words of their own, not in the midst of an identifier.
	rowNumber := regexp.MustCompile(`(^|[^0-9A-Za-z#.;:/-])4[0-2][0-9][0-9]([^0-9A-Za-z]|$)`)
	for _, people := range []int{3, 7, 24, 180} {
		for _, groups := range [][]string{{"Stores"}, {"Stores", "Gate", "Kitchen", "Offices, north"}} {
			dir := t.TempDir()
			roster := filepath.Join(dir, "week.xlsx")
			markedRoster(t, roster, people, groups)
			var out, errs bytes.Buffer
			if status := run(context.Background(), []string{"tenback", "group", roster}, &out, &errs); status != 0 {
				t.Fatalf("%d people: status %d: %s", people, status, &errs)
			}
			text := everyText(t, filepath.Join(dir, "week-group.pdf"), filepath.Join(dir, "week-group.xlsx"))
			if !strings.Contains(text, "Group summary") || people == 180 && !strings.Contains(text, "Stores") && len(groups) > 1 {
				t.Fatalf("%d people: the summary was not read: %.300q", people, text)
			}
			for _, mark := range []string{"Qzx", "Markedname", "MARK", "8642", "8643", "could not finish"} {
				if strings.Contains(text, mark) || strings.Contains(out.String(), mark) {
					t.Errorf("%d people in %d groups: %q is in the summary or was printed", people, len(groups), mark)
				}
			}
			if found := rowNumber.FindString(text); found != "" {
				t.Errorf("%d people in %d groups: the number of a row, %q", people, len(groups), found)
			}
		}
	}
}

package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// hostileNames are names that want to be paths, formulas, devices or two people
// in one.
var hostileNames = []string{
	"../../x", `..\..\x`, "/etc/passwd", "a/b", "C:evil", "CON", "con.pdf", "NUL", "COM1", ".", "..", "-rf", "~root", "$HOME", "`id`", "%PATH%",
	strings.Repeat("long ", 60), strings.Repeat("ß", 300), "tab\tand\nline", "bell\a", "\u202egnp.exe", "\u2066isolated\u2069", "_xD800_ lone", "_x0000_",
	"=cmd|' /C calc'!A0", "+1+1", "-1+1", "@SUM(A1)", "=HYPERLINK(\"http://example.invalid\")", "{{.Value}}", "<b>bold</b>", "%s%n", "'quoted'", "\"quoted\"",
	"Ada Lind", "Ada\u200b Lind", "Аda Lind", "ada lind", "ADA LIND", "Ada Lind.", "Ada Lind ", "\u0301", "🏃🏽\u200d♀️", "\U0001F3F4\U000E0067\U000E007F",
}

// Whatever a name says, it stays a name: every person has a page of a file name
// of its own inside the folder, no cell becomes a formula, and nothing is
// written anywhere else.
func TestHostileNames(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "in", "work")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	f := excelize.NewFile()
	set := func(cell string, v any) {
		t.Helper()
		if err := f.SetCellValue("Sheet1", cell, v); err != nil {
			t.Fatal(err)
		}
	}
	for i, head := range []string{"ID", "Name", "Class", "Sex", "Age", "Body mass (kg)", "1 mile walk", "1 mile walk pulse"} {
		set(fmt.Sprintf("%c1", 'A'+i), head)
	}
	for i, name := range hostileNames {
		row := i + 2
		for column, v := range map[string]any{"A": fmt.Sprintf("Q%03d", i), "B": name, "C": name, "D": "F", "E": 44, "F": 70, "G": "14:30", "H": 128} {
			set(fmt.Sprintf("%s%d", column, row), v)
		}
	}
	roster := filepath.Join(dir, "roster.xlsx")
	if err := f.SaveAs(roster); err != nil {
		t.Fatal(err)
	}
	if f, _ = excelize.OpenFile(roster); f == nil { // as it stands in the file
		t.Fatal("the roster cannot be opened again")
	}
	finish(t, command("run", roster, "--combined"))
	finish(t, command("group", roster))
	finish(t, command("sheets", roster))

	pages := 0
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil || strings.HasPrefix(rel, "..") {
			t.Errorf("written outside the folder: %s", path)
		}
		if filepath.Dir(rel) == "roster-reports" && filepath.Ext(rel) == ".pdf" {
			pages++
			if len(filepath.Base(rel)) > 240 {
				t.Errorf("a file name of %d bytes", len(filepath.Base(rel)))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if pages != len(hostileNames) {
		t.Errorf("%d pages for %d people", pages, len(hostileNames))
	}
	g, err := excelize.OpenFile(filepath.Join(dir, "roster-scored.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	rows, err := g.GetRows("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	for r, row := range rows {
		for c, got := range row {
			cell, err := excelize.CoordinatesToCellName(c+1, r+1)
			if err != nil {
				t.Fatal(err)
			}
			if formula, err := g.GetCellFormula("Sheet1", cell); err != nil || formula != "" {
				t.Errorf("%s is a formula: %s (%v)", cell, formula, err)
			}
			if was, err := f.GetCellValue("Sheet1", cell); r > 0 && c < 8 && (err != nil || got != was) {
				t.Errorf("%s was %q and is %q (%v)", cell, was, got, err)
			}
		}
	}
}

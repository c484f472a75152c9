package main

import (
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
)

var update = flag.Bool("update", false, "rewrite the expected output in the scripts")

// TestMain lets the scripts run the program as a user does: its own main loop,
// in a process of its own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"tenback": func() { os.Exit(run(context.Background(), os.Args, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs every script in testdata/script. Besides the usual commands
// a script may say
//
//	workbook FILE.xlsx SHEET=FILE.csv...   make a workbook of CSV files
//	cells FILE.xlsx SHEET [COLUMN...]      print a sheet, or the columns with these headers
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           filepath.Join("testdata", "script"),
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("LANG", "C") // A4
			e.Setenv("LC_ALL", "")
			e.Setenv("LC_PAPER", "")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"workbook": makeWorkbook,
			"cells":    printCells,
		},
	})
}

// makeWorkbook writes CSV files as sheets. A field that is a number becomes a
// number, one in the form {h:mm} a time of day as Excel stores it when 11:30
// is typed, one that starts with an apostrophe a text.
func makeWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: workbook FILE.xlsx SHEET=FILE.csv...")
	}
	f := excelize.NewFile()
	defer f.Close()
	clock, err := f.NewStyle(&excelize.Style{NumFmt: 20})
	ts.Check(err)
	for i, arg := range args[1:] {
		sheet, file, _ := strings.Cut(arg, "=")
		if i == 0 {
			ts.Check(f.SetSheetName("Sheet1", sheet))
		} else if _, err := f.NewSheet(sheet); err != nil {
			ts.Fatalf("%v", err)
		}
		reader := csv.NewReader(strings.NewReader(ts.ReadFile(file)))
		reader.FieldsPerRecord = -1
		rows, err := reader.ReadAll()
		ts.Check(err)
		for r, row := range rows {
			for c, field := range row {
				cell, err := excelize.CoordinatesToCellName(c+1, r+1)
				ts.Check(err)
				ts.Check(setField(f, sheet, cell, field, clock))
			}
		}
	}
	ts.Check(f.SaveAs(ts.MkAbs(args[0])))
}

func setField(f *excelize.File, sheet, cell, field string, clock int) error {
	if text, ok := strings.CutPrefix(field, "'"); ok {
		return f.SetCellStr(sheet, cell, text)
	}
	if h, m, ok := strings.Cut(strings.Trim(field, "{}"), ":"); ok && strings.HasPrefix(field, "{") {
		hours, err := strconv.Atoi(h)
		if err != nil {
			return err
		}
		minutes, err := strconv.Atoi(m)
		if err != nil {
			return err
		}
		if err := f.SetCellFloat(sheet, cell, float64(hours*60+minutes)/1440, -1, 64); err != nil {
			return err
		}
		return f.SetCellStyle(sheet, cell, cell, clock)
	}
	if x, err := strconv.ParseFloat(field, 64); err == nil {
		return f.SetCellFloat(sheet, cell, x, -1, 64)
	}
	return f.SetCellStr(sheet, cell, field)
}

// printCells prints a sheet as CSV, as another program sees it.
func printCells(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: cells FILE.xlsx SHEET [COLUMN...]")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	rows, err := f.GetRows(args[1])
	ts.Check(err)
	var at []int
	for _, want := range args[2:] {
		found := -1
		for _, row := range rows {
			for i, cell := range row {
				if cell == want && found < 0 {
					found = i
				}
			}
		}
		if found < 0 {
			ts.Fatalf("no column %q in %q", want, rows)
		}
		at = append(at, found)
	}
	out := csv.NewWriter(ts.Stdout())
	for _, row := range rows {
		if at != nil {
			picked := make([]string, len(at))
			for i, c := range at {
				if c < len(row) {
					picked[i] = row[c]
				}
			}
			row = picked
		}
		ts.Check(out.Write(row))
	}
	out.Flush()
	if err := out.Error(); err != nil {
		fmt.Fprintln(ts.Stderr(), err)
	}
}

package main

import (
	"bytes"
	"compress/zlib"
	"encoding/csv"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"

	"tenback/workbook/locked"
)

var update = flag.Bool("update", false, "rewrite the expected output in the scripts")

// TestMain lets the scripts run the program as a user does: its own main loop,
// in a process of its own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tenback": main})
}

// TestScripts runs every script in testdata/script. Besides the usual commands
// a script may say
//
//	workbook FILE.xlsx SHEET=FILE.csv...   make a workbook of CSV files
//	cells FILE.xlsx SHEET [COLUMN...]      print a sheet, or the columns with these headers
//	pdftext FILE.pdf                       print the text of a page, a piece a line
//	picture FILE.png WIDTH HEIGHT          make a picture, for a logo
//	enter FILE.xlsx SHEET CELL TEXT        type a text into a cell and save
//	lock FILE.xlsx PASSWORD                give a workbook a password
//	unlock FILE.xlsx PASSWORD TO.xlsx      make a copy without the password
//	sign FILE.xlsx                         give a workbook the parts of a signature
//	await FILE REGEXP                      wait until a file is there and matches
//	await FILE.xlsx SHEET REGEXP           wait until a sheet, as CSV, does
func TestScripts(t *testing.T) {
	t.Parallel()
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
			"pdftext":  printText,
			"picture":  makePicture,
			"enter":    enterText,
			"lock":     lockWorkbook,
			"unlock":   unlockWorkbook,
			"sign":     signWorkbook,
			"await":    await,
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

// awaitMost is how long a script waits for something that should happen; how
// soon it does says nothing.
const awaitMost = 2 * time.Minute

// await lets a script go on as soon as a program in the background has done
// something.
func await(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || len(args) > 3 {
		ts.Fatalf("usage: await FILE REGEXP, or await FILE.xlsx SHEET REGEXP")
	}
	pattern, err := regexp.Compile("(?m)" + args[len(args)-1])
	ts.Check(err)
	var last string
	for began := time.Now(); time.Since(began) < awaitMost; time.Sleep(20 * time.Millisecond) {
		if len(args) == 2 {
			data, err := os.ReadFile(ts.MkAbs(args[0]))
			last = fmt.Sprintf("%s, %v", data, err)
			if err == nil && pattern.Match(data) {
				return
			}
			continue
		}
		f, err := excelize.OpenFile(ts.MkAbs(args[0]))
		if err != nil {
			last = err.Error()
			continue
		}
		rows, err := f.GetRows(args[1])
		f.Close()
		var text bytes.Buffer
		_ = csv.NewWriter(&text).WriteAll(rows)
		if last = text.String(); err == nil && pattern.MatchString(last) {
			return
		}
	}
	ts.Fatalf("%s does not match %q after %v: %s", args[0], pattern, awaitMost, last)
}

// enterText changes a workbook as someone does who mends a cell.
func enterText(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: enter FILE.xlsx SHEET CELL TEXT")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	ts.Check(f.SetCellStr(args[1], args[2], args[3]))
	ts.Check(f.Save())
}

var (
	streamStart = regexp.MustCompile(`/Length (\d+)>>\nstream\n`)
	drawnText   = regexp.MustCompile(`\(((?:\\.|[^\\)])*)\) Tj`)
	titleText   = regexp.MustCompile(`/(Title|Author|Lang) \(((?:\\.|[^\\)])*)\)`)
)

// printText prints title, author, language and bookmarks of a document, then the
// text drawn on its pages. Letters beyond ASCII are printed as a question mark.
func printText(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: pdftext FILE.pdf")
	}
	data := []byte(ts.ReadFile(args[0]))
	plain := func(text []byte) string {
		var b strings.Builder
		for _, c := range bytes.TrimPrefix(text, []byte("\xfe\xff")) {
			switch {
			case c == 0: // the upper half of UTF-16
			case c < ' ' || c > '~':
				b.WriteByte('?')
			default:
				b.WriteByte(c)
			}
		}
		return b.String()
	}
	for _, m := range titleText.FindAllSubmatch(data, -1) {
		fmt.Fprintf(ts.Stdout(), "%s: %s\n", m[1], plain(m[2]))
	}
	for _, at := range streamStart.FindAllSubmatchIndex(data, -1) {
		length, err := strconv.Atoi(string(data[at[2]:at[3]]))
		ts.Check(err)
		reader, err := zlib.NewReader(bytes.NewReader(data[at[1] : at[1]+length]))
		if err != nil {
			continue // a picture
		}
		content, err := io.ReadAll(reader)
		if err != nil || !bytes.Contains(content, []byte(" Tj")) {
			continue
		}
		for _, m := range drawnText.FindAllSubmatch(content, -1) {
			fmt.Fprintln(ts.Stdout(), plain(m[1]))
		}
	}
}

// makePicture writes a dark picture.
func makePicture(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: picture FILE.png WIDTH HEIGHT")
	}
	width, err := strconv.Atoi(args[1])
	ts.Check(err)
	height, err := strconv.Atoi(args[2])
	ts.Check(err)
	p := image.NewPaletted(image.Rect(0, 0, width, height), color.Palette{color.NRGBA{20, 60, 120, 255}})
	var out bytes.Buffer
	ts.Check(png.Encode(&out, p))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), out.Bytes(), 0o600))
}

func lockWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: lock FILE.xlsx PASSWORD")
	}
	raw, err := locked.Close([]byte(ts.ReadFile(args[0])), args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), raw, 0o600))
}

func unlockWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: unlock FILE.xlsx PASSWORD TO.xlsx")
	}
	plain, _, err := locked.Open([]byte(ts.ReadFile(args[0])), args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), plain, 0o600))
}

func signWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: sign FILE.xlsx")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	f.Pkg.Store("_xmlsignatures/sig1.xml", []byte("<Signature/>"))
	ts.Check(f.Save())
}

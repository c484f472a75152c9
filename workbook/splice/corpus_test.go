package splice

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
)

// twoColumns asks for a header and a number right of everything on every
// sheet that Inspect found editable.
func twoColumns(info Info) Edit {
	edit := Edit{Styles: []Style{{NumberFormat: "@", Horizontal: "center"}, {NumberFormat: "0.0", Horizontal: "right"}}}
	for _, s := range info.Sheets {
		if s.Err != nil || s.FreeCol+1 > grid.MaxCol {
			continue
		}
		var cells []Cell
		for row := 1; row <= 20; row++ {
			if row == 1 {
				cells = append(cells, Cell{Row: row, Col: s.FreeCol, Kind: Text, Text: "new <header> & text", Style: 1})
			} else {
				cells = append(cells, Cell{Row: row, Col: s.FreeCol, Kind: Text, Text: " = 1 ", Style: 2})
			}
			cells = append(cells, Cell{Row: row, Col: s.FreeCol + 1, Kind: Number, Number: 40 + float64(row)/7, Style: 2})
		}
		edit.Sheets = append(edit.Sheets, Sheet{Name: s.Name, Cells: slices.Values(cells),
			Widths: map[int]float64{s.FreeCol: 22, s.FreeCol + 1: 9.5}})
	}
	return edit
}

// hang is far beyond what any of the workbooks takes, however busy the
// machine: the slowest needs about a second.
const hang = 2 * time.Minute

// TestCorpus edits every workbook of a folder of real, odd and damaged files
// that is kept beside the repository.
func TestCorpus(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 300 workbooks")
	}
	files, _ := filepath.Glob("../../../shared/corpus/*.xl*")
	if len(files) == 0 {
		t.Skip("the folder shared/corpus is not there")
	}
	counts := map[string]int{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		outcome := corpusFile(t, filepath.Base(name), data)
		if d := time.Since(start); d > hang {
			t.Errorf("%s: took %v", filepath.Base(name), d)
		}
		counts[outcome]++
	}
	for _, k := range slices.Sorted(maps.Keys(counts)) {
		t.Logf("%4d  %s", counts[k], k)
	}
	if counts["ok"] < len(files)*3/4 {
		t.Errorf("only %d of %d files could be edited", counts["ok"], len(files))
	}
}

func corpusFile(t *testing.T, name string, data []byte) (outcome string) {
	t.Helper()
	ctx := context.Background()
	in := bytes.NewReader(data)
	info, err := inspectAll(data, defaultLimits)
	if err != nil {
		t.Logf("%s: inspect: %v", name, err)
		return "refused: " + kindOf(t, name, err)
	}
	for _, s := range info.Sheets {
		if s.Err != nil {
			t.Logf("%s: %v", name, s.Err)
			kindOf(t, name, s.Err)
		}
	}
	edit := twoColumns(info)
	if len(edit.Sheets) == 0 {
		t.Logf("%s: no sheet to edit", name)
		return "no sheet to edit"
	}
	var out bytes.Buffer
	report, err := Apply(ctx, in, in.Size(), &out, edit)
	if err != nil {
		t.Logf("%s: apply: %v", name, err)
		return "refused: " + kindOf(t, name, err)
	}
	for _, n := range report.Notes {
		t.Logf("%s: note: %s", name, n)
	}
	edited := bytes.NewReader(out.Bytes())
	if err := Verify(ctx, in, in.Size(), edited, edited.Size(), edit); err != nil {
		t.Errorf("%s: verify: %v", name, err)
	}
	again, err := Inspect(ctx, edited, edited.Size())
	if err != nil {
		t.Errorf("%s: the copy cannot be inspected: %v", name, err)
	}
	for i, s := range again.Sheets {
		if was := info.Sheets[i]; was.Err == nil && was.FreeCol+1 <= grid.MaxCol && s.FreeCol != was.FreeCol+2 {
			t.Errorf("%s: sheet %q: free column %d before and %d after", name, s.Name, was.FreeCol, s.FreeCol)
		}
	}
	corpusAgain(t, name, out.Bytes(), edit)
	corpusExcelize(t, name, data, out.Bytes(), edit)
	if dir := os.Getenv("SPLICE_KEEP"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return "ok"
}

// corpusAgain replaces the new columns by the same ones, which must leave every
// part as it is.
func corpusAgain(t *testing.T, name string, once []byte, edit Edit) {
	t.Helper()
	sheets := slices.Clone(edit.Sheets)
	for i := range sheets {
		for c := range sheets[i].Cells {
			sheets[i].Clear = append(sheets[i].Clear, Address{Row: c.Row, Col: c.Col}.Range())
		}
	}
	edit.Sheets = sheets
	twice, _, err := apply(t, once, edit)
	if err != nil {
		t.Errorf("%s: second run: %v", name, err)
		return
	}
	if err := verify(once, twice, edit); err != nil {
		t.Errorf("%s: verify after the second run: %v", name, err)
	}
	before, after := unzip(t, once), unzip(t, twice)
	for part, content := range before {
		if after[part] != content {
			t.Errorf("%s: the second run changed part %s", name, part)
		}
	}
}

// corpusExcelize reads the new cells back with an independent reader, if that
// could open the original.
func corpusExcelize(t *testing.T, name string, before, after []byte, edit Edit) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(before))
	if err != nil {
		return
	}
	f.Close()
	if f, err = excelize.OpenReader(bytes.NewReader(after)); err != nil {
		t.Errorf("%s: excelize opened the original but not the copy: %v", name, err)
		return
	}
	defer f.Close()
	for _, sh := range edit.Sheets {
		n := 0
		for c := range sh.Cells {
			if n++; n > 4 {
				break
			}
			got, err := f.GetCellValue(sh.Name, Address{Row: c.Row, Col: c.Col}.String(), excelize.Options{RawCellValue: true})
			if err != nil {
				t.Logf("%s: excelize cannot read sheet %q: %v", name, sh.Name, err)
				break
			}
			if want := cellText(c); got != want {
				t.Errorf("%s: sheet %q cell %v: excelize reads %q, want %q", name, sh.Name, Address{Row: c.Row, Col: c.Col}, got, want)
			}
		}
	}
}

func cellText(c Cell) string {
	if c.Kind == Number {
		return string(appendNumber(nil, c.Number))
	}
	return c.Text
}

var kinds = []error{opc.ErrLocked, opc.ErrNotWorkbook, opc.ErrDamaged, opc.ErrLimit, opc.ErrUnsupported, ErrNoSheet,
	ErrOccupied, ErrMerged, ErrTable, ErrFormula, ErrRequest, ErrChanged}

func kindOf(t *testing.T, name string, err error) string {
	t.Helper()
	for _, k := range kinds {
		if errors.Is(err, k) {
			return k.Error()
		}
	}
	t.Errorf("%s: an error of no kind: %v", name, err)
	return "?"
}

package splice

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

// excelizeBook is a small workbook with much in it.
func excelizeBook(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for r := 1; r < 6; r++ {
		must(f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", r), &[]any{"name", r, 1.5, true}))
	}
	must(f.SetCellFormula("Sheet1", "E2", "B2*2"))
	must(f.MergeCell("Sheet1", "A8", "C9"))
	must(f.SetColWidth("Sheet1", "B", "H", 13))
	must(f.AutoFilter("Sheet1", "A1:E5", nil))
	_, err := f.NewSheet("Second")
	must(err)
	must(f.SetSheetRow("Second", "A1", &[]any{"x", "y"}))
	must(f.SetSheetRow("Second", "A2", &[]any{1, 2}))
	must(f.AddTable("Second", &excelize.Table{Range: "A1:B2", Name: "T"}))
	var b bytes.Buffer
	must(f.Write(&b))
	return b.Bytes()
}

// FuzzApply edits whatever it is given: no panic, errors of a known kind, and
// what is written passes Verify.
func FuzzApply(f *testing.F) {
	f.Add(excelizeBook(f))
	f.Add(oneSheet(data(`<row r="1"><c r="A1"><v>1</v></c></row>`)).zip(f))
	f.Add(withStyles(smallStyles, data(`<row/>`)).zip(f))
	f.Add(slices.Clone(opc.Magic))
	f.Fuzz(func(t *testing.T, file []byte) { fuzzFile(t, file) })
}

// FuzzSheet gets at the XML, which the checksums of a zip keep random bytes
// away from.
func FuzzSheet(f *testing.F) {
	f.Add(`<dimension ref="A1:B2"/><cols><col min="1" max="3" width="9"/></cols><sheetData><row r="1" spans="1:2"><c r="A1" s="1"><v>1</v></c><c r="B1" t="inlineStr"><is><t>x</t></is></c></row></sheetData><autoFilter ref="A1:B2"/><mergeCells count="1"><mergeCell ref="A5:B6"/></mergeCells>`, smallStyles)
	f.Add(`<sheetData><row><c/><c><f t="array" ref="A1:B2">1</f></c></row><!-- --><row r='7' customFormat="1" s="1"/><?p ?></sheetData>`, `<styleSheet xmlns="`+ooxml.NSMain+`"><fonts/><cellXfs count="0"/></styleSheet>`)
	f.Add(`<sheetData/>`, `<x:styleSheet xmlns:x="`+ooxml.NSMain+`"></x:styleSheet>`)
	f.Fuzz(func(t *testing.T, sheet, styles string) {
		fuzzFile(t, withStyles(styles, wrap(sheet)).zip(t))
	})
}

func fuzzFile(t *testing.T, file []byte) {
	known := func(step string, err error) {
		t.Helper()
		var e *Error
		if !errors.As(err, &e) || errors.Is(err, ErrChanged) {
			t.Fatalf("%s: %v", step, err)
		}
	}
	lim := defaultLimits
	lim.Part, lim.Total = 1<<20, 4<<20
	info, err := inspectAll(file, lim)
	if err != nil {
		known("inspect", err)
		return
	}
	edit := twoColumns(info)
	if len(edit.Sheets) == 0 {
		return
	}
	edit.Styles = append(edit.Styles, Style{Like: Address{Row: 3, Col: 1}, NumberFormat: "0.00000", Horizontal: "left"})
	for i := range edit.Sheets {
		s := &edit.Sheets[i]
		cells := slices.Collect(s.Cells)
		cells[len(cells)-1].Style = 3
		s.Cells = slices.Values(cells)
		s.Places = func(yield func(Cell) bool) {
			for _, c := range cells {
				if c.Row > cells[0].Row {
					c.Kind, c.Text, c.Number = Empty, "", 0
				}
				if !yield(c) {
					return
				}
			}
		}
		s.Widths[1] = 5
	}
	out, _, err := apply(t, file, edit)
	if err != nil {
		known("apply", err)
		return
	}
	if err := verify(file, out, edit); err != nil {
		t.Fatalf("verify: %v", err)
	}
	for i := range edit.Sheets {
		s := &edit.Sheets[i]
		for c := range s.Cells {
			s.Clear = append(s.Clear, Address{Row: c.Row, Col: c.Col}.Range())
		}
	}
	twice, _, err := apply(t, out, edit)
	if err != nil {
		t.Fatalf("the second run: %v", err)
	}
	if err := verify(out, twice, edit); err != nil {
		t.Fatalf("verify after the second run: %v", err)
	}
	after := unzip(t, twice)
	for name, content := range unzip(t, out) {
		if after[name] != content {
			t.Fatalf("the second run changed part %s from\n%s\nto\n%s", name, content, after[name])
		}
	}
}

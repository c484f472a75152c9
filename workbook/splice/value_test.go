package splice

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
)

func TestAppendCell(t *testing.T) {
	const preserve = ` xml:space="preserve"`
	text := func(attr, s string) string {
		return `<c r="A1" t="inlineStr"><is><t` + attr + `>` + s + `</t></is></c>`
	}
	tests := []struct {
		cell Cell
		xf   int
		want string
	}{
		{Cell{Row: 1, Col: 1}, 0, `<c r="A1"/>`},
		{Cell{Row: 9, Col: 26}, 7, `<c r="Z9" s="7"/>`},
		{num(1, 703, 62.7), 3, `<c r="AAA1" s="3"><v>62.7</v></c>`},
		{num(grid.MaxRow, grid.MaxCol, math.Nextafter(0.3, 1)), 0, `<c r="XFD1048576"><v>0.30000000000000004</v></c>`},
		{num(1, 1, math.Copysign(0, -1)), 0, `<c r="A1"><v>0</v></c>`},
		{num(1, 1, -1e-7), 0, `<c r="A1"><v>-1e-07</v></c>`},
		{txt(1, 1, ""), 0, text("", "")},
		{txt(1, 1, "=HYPERLINK(\"a\")&<>"), 0, text("", `=HYPERLINK("a")&amp;&lt;&gt;`)},
		{txt(1, 1, " a"), 0, text(preserve, " a")},
		{txt(1, 1, "a  b"), 0, text(preserve, "a  b")},
		{txt(1, 1, "a\tb\nc\r"), 0, text(preserve, "a\tb\nc&#13;")},
		{txt(1, 1, "a\x00\x1fb\uFFFE\uFFFFc"), 0, text("", "a\uFFFD\uFFFDb\uFFFD\uFFFDc")},
		{txt(1, 1, "\xffé\xe9\xed\xa0\x80"), 0, text("", "\uFFFDé\uFFFD\uFFFD\uFFFD\uFFFD")},
		{txt(1, 1, "😀 ]]>"), 0, text("", "😀 ]]&gt;")},
		{txt(1, 1, "_x000D_"), 0, text("", "_x005F_x000D_")},
		{txt(1, 1, "_x000d_x0041_"), 0, text("", "_x005F_x000d_x005F_x0041_")},
		{txt(1, 1, "_x00G0_ _x0041 __x0041_"), 0, text("", "_x00G0_ _x0041 __x005F_x0041_")},
	}
	for _, tt := range tests {
		if got := string(appendCell(nil, "", &tt.cell, tt.xf)); got != tt.want {
			t.Errorf("%+v: got  %s\nwant %s", tt.cell, got, tt.want)
		}
	}
}

// TestDecodeEscapes checks that what appendText escapes comes back.
func TestDecodeEscapes(t *testing.T) {
	for _, s := range []string{"", "_", "_x0041_", "_x000d_x0041_", "__x0041__", "a_x005F_x0041_b"} {
		if got := ooxml.Unescape(string(ooxml.AppendText(nil, s))); got != s {
			t.Errorf("%q came back as %q", s, got)
		}
	}
	if got := ooxml.Unescape("a_x000a_b_x00e9_"); got != "a\nbé" {
		t.Errorf("got %q", got)
	}
}

// TestReadBack writes awkward values and reads them with another library.
func TestReadBack(t *testing.T) {
	values := []Cell{
		num(1, 3, 62.7), num(1, 4, math.Nextafter(0.3, 1)), num(1, 5, 1e21), num(1, 6, -5e-324),
		txt(2, 3, "=1+1"), txt(2, 4, "  padded  "), txt(2, 5, "two\nlines\tand a tab"), txt(2, 6, "<&>\"'"),
		txt(3, 3, "Łukasz 😀 李"), txt(3, 4, "007"), txt(3, 5, "1e5"), txt(3, 6, ""),
		txt(4, 3, "_x0041_"), txt(4, 4, "_x000D_x000D_"),
	}
	f := excelize.NewFile()
	defer f.Close()
	for cell, v := range map[string]any{"A1": "old", "B2": 3.25, "B4": true} {
		if err := f.SetCellValue("Sheet1", cell, v); err != nil {
			t.Fatal(err)
		}
	}
	var in bytes.Buffer
	if err := f.Write(&in); err != nil {
		t.Fatal(err)
	}
	out, _ := mustApply(t, in.Bytes(), Edit{Sheets: []Sheet{{Name: "SHEET1", Cells: slices.Values(values)}}})
	g, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	want := append(values, txt(1, 1, "old"), num(2, 2, 3.25), txt(4, 2, "1"))
	for _, c := range want {
		got, err := g.GetCellValue("Sheet1", Address{Row: c.Row, Col: c.Col}.String(), excelize.Options{RawCellValue: true})
		if err != nil || got != cellText(c) {
			t.Errorf("%v: got %q (%v), want %q", Address{Row: c.Row, Col: c.Col}, got, err, cellText(c))
		}
	}
	if formula, err := g.GetCellFormula("Sheet1", "C2"); err != nil || formula != "" {
		t.Errorf("the text =1+1 became the formula %q (%v)", formula, err)
	}
}

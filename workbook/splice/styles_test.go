package splice

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

const xmlnsMain = ` xmlns="` + ooxml.NSMain + `"`

// smallStyles has two fonts, two fills and two formats.
const smallStyles = `<styleSheet` + xmlnsMain + `><numFmts count="1"><numFmt numFmtId="170" formatCode="0.0 &quot;min&quot;"/></numFmts>` +
	`<fonts count="2"><font><sz val="11"/></font><font><b val="0"/><i/></font></fonts>` +
	`<fills count="2"><fill/><fill><patternFill patternType="gray125"/></fill></fills>` +
	`<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>` +
	`<cellXfs count='2'><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
	`<xf numFmtId='170' fontId="1" fillId="1" borderId="0"><alignment horizontal="left" indent="2"/><protection locked="0"/></xf></cellXfs>` +
	`<cellStyles count="1"><cellStyle name="Normal" xfId="0"/></cellStyles></styleSheet>`

func TestStylesRefused(t *testing.T) {
	root := func(s string) string { return `<styleSheet` + xmlnsMain + `>` + s + `</styleSheet>` }
	tests := []struct {
		name, styles string
		style        Style
		kind         error
		says         string
	}{
		{"alternative formats", root(`<cellXfs><mc:AlternateContent xmlns:mc="m"/></cellXfs>`), Style{NumberFormat: "0.0"}, opc.ErrUnsupported, `part "xl/styles.xml": the styles part has a choice of formats`},
		{"unusual entry", root(`<cellXfs><font/></cellXfs>`), Style{NumberFormat: "0.0"}, opc.ErrUnsupported, "an unusual entry in its list cellXfs"},
		{"list twice", root(`<cellXfs/><cellXfs/>`), Style{NumberFormat: "0.0"}, opc.ErrUnsupported, "twice"},
		{"something else", `<theme` + xmlnsMain + `></theme>`, Style{NumberFormat: "0.0"}, opc.ErrUnsupported, "something else"},
		{"empty root", `<styleSheet` + xmlnsMain + `/>`, Style{NumberFormat: "0.0"}, opc.ErrUnsupported, "empty"},
		{"full", root(`<cellXfs>` + strings.Repeat("<xf/>", 65_000) + `</cellXfs>`), Style{NumberFormat: "0.0"}, opc.ErrLimit, "65000 cell formats"},
		{"too many", root(`<numFmts>` + strings.Repeat("<numFmt/>", 200_001) + `</numFmts>`), Style{NumberFormat: "0.0"}, opc.ErrLimit, "more formats"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := roster(Cell{Row: 1, Col: 1, Style: 1})
			edit.Styles = []Style{tt.style}
			out, _, err := apply(t, withStyles(tt.styles, data(``)).zip(t), edit)
			wantRefusal(t, out, err, tt.kind, tt.says)
		})
	}
}

func withStyles(styles, sheet string) parts {
	p := oneSheet(sheet).with("xl/styles.xml", styles)
	p["xl/_rels/workbook.xml.rels"] = strings.Replace(p["xl/_rels/workbook.xml.rels"], "</Relationships>",
		`<Relationship Id="rId9" Type="`+relType+`styles" Target="styles.xml"/></Relationships>`, 1)
	p["[Content_Types].xml"] = strings.Replace(p["[Content_Types].xml"], "</Types>",
		`<Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/></Types>`, 1)
	return p
}

func TestLike(t *testing.T) {
	sheet := wrap(`<cols><col min="2" max="9" style="1"/></cols><sheetData>` +
		`<row r="1" s="3" customFormat="1"><c r="A1" s="2"/><c r="B1"/></row><row r="2" s="3"><c r="A2" s="5"/></row></sheetData>`)
	tests := []struct {
		name string
		like Address
		want string
	}{
		{"cell", Address{Row: 1, Col: 1}, `s="2"`},
		{"cell without a format", Address{Row: 1, Col: 2}, ``},
		{"row", Address{Row: 1, Col: 3}, `s="3"`},
		{"column, since the row's format is not in force", Address{Row: 2, Col: 3}, `s="1"`},
		{"column of a missing row", Address{Row: 7, Col: 3}, `s="1"`},
		{"nothing", Address{Row: 7, Col: 1}, ``},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := roster(Cell{Row: 2, Col: 11, Style: 1})
			edit.Styles = []Style{{Like: tt.like}}
			// A copied format needs no styles part, so none may be made.
			out, _ := mustApply(t, oneSheet(sheet).zip(t), edit)
			after := unzip(t, out)
			want := strings.TrimSpace(`<c r="K2" `+tt.want) + `/>`
			if !strings.Contains(after["xl/worksheets/sheet1.xml"], want) {
				t.Errorf("no %s in %s", want, after["xl/worksheets/sheet1.xml"])
			}
			if len(after) != 5 {
				t.Errorf("%d parts", len(after))
			}
		})
	}
}

// TestStylesPartAdded: a workbook without styles gets a part that other
// libraries understand, and keeps one that happens to have the same name.
func TestStylesPartAdded(t *testing.T) {
	edit := roster(Cell{Row: 1, Col: 1, Kind: Number, Number: 62.73, Style: 1})
	edit.Styles = []Style{{NumberFormat: "0.0"}}
	file := oneSheet(data(``)).with("xl/styles.xml", "not the styles").zip(t)
	out, _ := mustApply(t, file, edit)
	after := unzip(t, out)
	if after["xl/styles.xml"] != "not the styles" || !strings.Contains(after["xl/styles1.xml"], `formatCode="0.0"`) {
		t.Fatalf("styles parts: %q and %q", after["xl/styles.xml"], after["xl/styles1.xml"])
	}
	for part, want := range map[string]string{
		"[Content_Types].xml":        `PartName="/xl/styles1.xml"`,
		"xl/_rels/workbook.xml.rels": `Target="/xl/styles1.xml"/></Relationships>`,
	} {
		if !strings.Contains(after[part], want) {
			t.Errorf("%s does not contain %s: %s", part, want, after[part])
		}
	}
	out, _ = mustApply(t, oneSheet(data(``)).zip(t), edit)
	f, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if got, err := f.GetCellValue("Roster", "A1"); err != nil || got != "62.7" {
		t.Errorf("got %q (%v), want 62.7", got, err)
	}
}

// TestStylesReadBack compares the look of new cells as another library reads it.
func TestStylesReadBack(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	model, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Italic: true, Family: "Arial", Size: 13},
		Border: []excelize.Border{{Type: "left", Style: 1, Color: "000000"}}})
	if err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellValue("Sheet1", "A1", "Name"); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellStyle("Sheet1", "A1", "A1", model); err != nil {
		t.Fatal(err)
	}
	var in bytes.Buffer
	if err := f.Write(&in); err != nil {
		t.Fatal(err)
	}
	edit := Edit{
		Styles: []Style{
			{Like: Address{Row: 1, Col: 1}},
			{Like: Address{Row: 1, Col: 1}, NumberFormat: "0.00", Horizontal: "center"},
			{NumberFormat: "0.000", Horizontal: "right"},
		},
		Sheets: []Sheet{{Name: "Sheet1", Widths: map[int]float64{2: 33}, Cells: slices.Values([]Cell{
			{Row: 1, Col: 2, Kind: Text, Text: "a", Style: 1},
			{Row: 1, Col: 3, Kind: Text, Text: "b", Style: 2},
			{Row: 1, Col: 4, Kind: Number, Number: 0.5, Style: 3},
		})}},
	}
	out, _ := mustApply(t, in.Bytes(), edit)
	g, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	style := func(cell string) (int, *excelize.Style) {
		id, err := g.GetCellStyle("Sheet1", cell)
		if err != nil {
			t.Fatal(err)
		}
		st, err := g.GetStyle(id)
		if err != nil {
			t.Fatal(err)
		}
		return id, st
	}
	a, _ := style("A1")
	if b, _ := style("B1"); b != a {
		t.Errorf("B1 has format %d, A1 has %d", b, a)
	}
	_, c := style("C1")
	if !c.Font.Italic || c.Font.Family != "Arial" || c.NumFmt != 2 || c.Alignment.Horizontal != "center" || len(c.Border) != 1 {
		t.Errorf("C1 looks %+v, font %+v", c, c.Font)
	}
	if _, d := style("D1"); d.CustomNumFmt == nil || *d.CustomNumFmt != "0.000" || d.Alignment.Horizontal != "right" {
		t.Errorf("D1 looks %+v", d)
	}
	if w, err := g.GetColWidth("Sheet1", "B"); err != nil || w != 33 {
		t.Errorf("column B is %v wide (%v)", w, err)
	}
}

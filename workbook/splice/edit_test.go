package splice

import (
	"bytes"
	"context"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

// TestSheetXML compares whole sheets, byte by byte, before and after.
func TestSheetXML(t *testing.T) {
	const c3 = `<c r="C1"><v>3</v></c>`
	x := func(s string) string {
		return `<x:worksheet xmlns:x="` + ooxml.NSMain + `">` + s + `</x:worksheet>`
	}
	tests := []struct {
		name     string
		in, want string
		cells    []Cell
		change   func(*Sheet)
	}{
		{name: "number after the last cell",
			in:    data(`<row r="1"><c r="A1"><v>1</v></c></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1"><c r="A1"><v>1</v></c>` + c3 + `</row>`)},
		{name: "row without number, cells without address",
			in:    data(`<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>9</v></c></row>`),
			cells: []Cell{num(1, 3, 3), num(2, 2, 4)},
			want:  data(`<row><c><v>1</v></c><c><v>2</v></c>` + c3 + `</row><row><c><v>9</v></c><c r="B2"><v>4</v></c></row>`)},
		{name: "self-closed row",
			in:    data(`<row r="1" ht="20"/>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1" ht="20">` + c3 + `</row>`)},
		{name: "self-closed row with a blank before the slash",
			in:    data(`<row r='1' />`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r='1' >` + c3 + `</row>`)},
		{name: "self-closed sheet data",
			in:    wrap(`<sheetData/><pageMargins left="1"/>`),
			cells: []Cell{num(1, 3, 3)},
			want:  wrap(`<sheetData><row r="1">` + c3 + `</row></sheetData><pageMargins left="1"/>`)},
		{name: "self-closed sheet data without new cells",
			in:   wrap(`<sheetData/>`),
			want: wrap(`<sheetData/>`)},
		{name: "prefix",
			in:    x(`<x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c></x:row></x:sheetData>`),
			cells: []Cell{num(1, 3, 3), txt(2, 3, "a")},
			want: x(`<x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c><x:c r="C1"><x:v>3</x:v></x:c></x:row>` +
				`<x:row r="2"><x:c r="C2" t="inlineStr"><x:is><x:t>a</x:t></x:is></x:c></x:row></x:sheetData>`)},
		{name: "prefix and default namespace in one sheet",
			in:    `<x:worksheet xmlns:x="` + ooxml.NSMain + `" xmlns="` + ooxml.NSMain + `"><sheetData><row r="1"/></sheetData></x:worksheet>`,
			cells: []Cell{num(1, 3, 3)},
			want:  `<x:worksheet xmlns:x="` + ooxml.NSMain + `" xmlns="` + ooxml.NSMain + `"><sheetData><row r="1">` + c3 + `</row></sheetData></x:worksheet>`},
		{name: "single quotes and blanks around the equals sign",
			in:    data(`<row r = '1' spans='1:1'><c r='A1' t='s'><v>0</v></c></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r = '1'><c r='A1' t='s'><v>0</v></c>` + c3 + `</row>`)},
		{name: "a quote mark and a greater-than sign inside a value",
			in:    data(`<row r="1" x='">'><c r="A1"/></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1" x='">'><c r="A1"/>` + c3 + `</row>`)},
		{name: "missing rows before, between and after",
			in:    data(`<row r="2"/><row r="5"/>`),
			cells: []Cell{num(1, 1, 1), num(3, 1, 3), num(4, 1, 4), num(5, 1, 5), num(7, 1, 7)},
			want: data(`<row r="1"><c r="A1"><v>1</v></c></row><row r="2"/><row r="3"><c r="A3"><v>3</v></c></row>` +
				`<row r="4"><c r="A4"><v>4</v></c></row><row r="5"><c r="A5"><v>5</v></c></row><row r="7"><c r="A7"><v>7</v></c></row>`)},
		{name: "between old cells",
			in:    data(`<row r="1"><c r="A1"/><c r="D1"/></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1"><c r="A1"/>` + c3 + `<c r="D1"/></row>`)},
		{name: "before the extension list of a row",
			in:    data(`<row r="1"><c r="A1"/><extLst><ext uri="u"/></extLst></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1"><c r="A1"/>` + c3 + `<extLst><ext uri="u"/></extLst></row>`)},
		{name: "spans stay on rows that get nothing",
			in:    data(`<row r="1" spans="1:1" s="4"><c r="A1"/></row><row r="2" spans="1:1"><c r="A2"/></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1" s="4"><c r="A1"/>` + c3 + `</row><row r="2" spans="1:1"><c r="A2"/></row>`)},
		{name: "dimension grows",
			in:    wrap(`<dimension ref='A1:B2'/><sheetData><row r="2"><c r="B2"/></row></sheetData>`),
			cells: []Cell{num(2, 27, 3)},
			want:  wrap(`<dimension ref='A1:AA2'/><sheetData><row r="2"><c r="B2"/><c r="AA2"><v>3</v></c></row></sheetData>`)},
		{name: "dimension of an empty sheet and a wrong one",
			in:    wrap(`<dimension ref="A1"/><sheetData><row r="9"><c r="D9"/></row></sheetData>`),
			cells: []Cell{num(9, 5, 3)},
			want:  wrap(`<dimension ref="A1:E9"/><sheetData><row r="9"><c r="D9"/><c r="E9"><v>3</v></c></row></sheetData>`)},
		{name: "comments, CDATA and processing instructions",
			in:    data(`<!-- <row> --><row r="1"><!--</row>--><c r="A1" t="str"><v><![CDATA[</c>]]></v></c><?p </row> ?></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<!-- <row> --><row r="1"><!--</row>--><c r="A1" t="str"><v><![CDATA[</c>]]></v></c><?p </row> ?>` + c3 + `</row>`)},
		{name: "byte order mark and declaration",
			in:    "\xEF\xBB\xBF" + `<?xml version="1.0" encoding="UTF-8"?>` + "\r\n" + data(`<row r="1"/>`) + "\n",
			cells: []Cell{num(1, 3, 3)},
			want:  "\xEF\xBB\xBF" + `<?xml version="1.0" encoding="UTF-8"?>` + "\r\n" + data(`<row r="1">`+c3+`</row>`) + "\n"},
		{name: "another encoding",
			in:    `<?xml version='1.0' encoding='ISO-8859-1'?>` + data(`<row r="1"><c r="A1" t="str"><v>`+"Ren\xe9"+`</v></c></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  `<?xml version='1.0' encoding='UTF-8'?>` + data(`<row r="1"><c r="A1" t="str"><v>René</v></c>`+c3+`</row>`)},
		{name: "UTF-16",
			in:    utf16(`<?xml version="1.0" encoding="UTF-16"?>` + data(`<row r="1"><c r="A1" t="str"><v>青木 😀</v></c></row>`)),
			cells: []Cell{num(1, 3, 3)},
			want:  `<?xml version="1.0" encoding="UTF-8"?>` + data(`<row r="1"><c r="A1" t="str"><v>青木 😀</v></c>`+c3+`</row>`)},
		{name: "strict namespace",
			in:    `<worksheet xmlns="` + ooxml.NSStrict + `"><sheetData><row r="1"/></sheetData></worksheet>`,
			cells: []Cell{num(1, 3, 3)},
			want:  `<worksheet xmlns="` + ooxml.NSStrict + `"><sheetData><row r="1">` + c3 + `</row></sheetData></worksheet>`},
		{name: "shared and array formulas elsewhere",
			in:    data(`<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">1+1</f><v>2</v></c><c r="B1"><f t="array" ref="B1:B9">1</f></c></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">1+1</f><v>2</v></c><c r="B1"><f t="array" ref="B1:B9">1</f></c>` + c3 + `</row>`)},
		{name: "earlier results are replaced or removed",
			in: data(`<row r="1"><c r="A1"/><c r="C1" s="5" t="inlineStr"><is><t>old</t></is></c><c r="D1"/></row>` +
				`<row r="2"><c r="A2"/><c r="C2"><v>1</v></c></row>`),
			cells:  []Cell{num(1, 3, 3)},
			change: func(s *Sheet) { s.Clear = []Range{wholeColumns(3, 4)} },
			want:   data(`<row r="1"><c r="A1"/>` + c3 + `</row><row r="2"><c r="A2"/></row>`)},
		{name: "cleared range ends at its rows",
			in:     data(`<row r="1"><c r="C1"/></row><row r="2"><c r="C2"/></row>`),
			change: func(s *Sheet) { s.Clear = []Range{{FirstRow: 2, FirstCol: 3, LastRow: 9, LastCol: 3}} },
			want:   data(`<row r="1"><c r="C1"/></row><row r="2"></row>`)},
		{name: "over a blank cell",
			in:    data(`<row r="1"><c r="A1"/><c r="C1" s="7"> </c></row>`),
			cells: []Cell{num(1, 3, 3)},
			want:  data(`<row r="1"><c r="A1"/>` + c3 + `</row>`)},
		{name: "a cell without address stays in place when the one before is replaced",
			in:     data(`<row r="1"><c r="C1"><v>1</v></c><c><v>4</v></c></row>`),
			cells:  []Cell{num(1, 3, 3)},
			change: func(s *Sheet) { s.Clear = []Range{wholeColumns(3, 3)} },
			want:   data(`<row r="1">` + c3 + `<c><v>4</v></c></row>`)},
		{name: "widths where there are none",
			in:     wrap(`<sheetFormatPr/><sheetData/>`),
			change: func(s *Sheet) { s.Widths = map[int]float64{5: 12.5, 4: 9} },
			want: wrap(`<sheetFormatPr/><cols><col min="4" max="4" width="9" customWidth="1"/>` +
				`<col min="5" max="5" width="12.5" customWidth="1"/></cols><sheetData/>`)},
		{name: "widths before, inside and after ranges",
			in:     wrap(`<cols><col min="2" max="3" width="7" hidden="1"/>` + "\n" + `<col min="5" max="9" style="3" width="8"></col></cols><sheetData/>`),
			change: func(s *Sheet) { s.Widths = map[int]float64{1: 1, 4: 4, 5: 5, 7: 6, 12: 12} },
			want: wrap(`<cols><col min="1" max="1" width="1" customWidth="1"/><col min="2" max="3" width="7" hidden="1"/>` + "\n" +
				`<col min="4" max="4" width="4" customWidth="1"/><col min="5" max="5" style="3" width="5" customWidth="1"/>` +
				`<col min="6" max="6" style="3" width="8"/><col min="7" max="7" style="3" width="6" customWidth="1"/>` +
				`<col min="8" max="9" style="3" width="8"/><col min="12" max="12" width="12" customWidth="1"/></cols><sheetData/>`)},
		{name: "width in an empty list",
			in:     x(`<x:cols/><x:sheetData/>`),
			change: func(s *Sheet) { s.Widths = map[int]float64{4: 9} },
			want:   x(`<x:cols><x:col min="4" max="4" width="9" customWidth="1"/></x:cols><x:sheetData/>`)},
		{name: "filter beside the new columns",
			in:    wrap(`<sheetData/><autoFilter ref="A3:B9"><filterColumn colId="0"/></autoFilter>`),
			cells: []Cell{num(3, 3, 3), num(3, 4, 4)},
			want: wrap(`<sheetData><row r="3"><c r="C3"><v>3</v></c><c r="D3"><v>4</v></c></row></sheetData>` +
				`<autoFilter ref="A3:D9"><filterColumn colId="0"/></autoFilter>`)},
		{name: "filter with a gap stays",
			in:    wrap(`<sheetData/><autoFilter ref="A1:A9"/>`),
			cells: []Cell{num(1, 3, 3)},
			want:  wrap(`<sheetData><row r="1">` + c3 + `</row></sheetData><autoFilter ref="A1:A9"/>`)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			file := oneSheet(tt.in).zip(t)
			edit := roster(tt.cells...)
			if tt.change != nil {
				tt.change(&edit.Sheets[0])
			}
			out, _ := mustApply(t, file, edit)
			before, after := unzip(t, file), unzip(t, out)
			if got := after["xl/worksheets/sheet1.xml"]; got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
			for name := range before {
				if name != "xl/worksheets/sheet1.xml" && before[name] != after[name] {
					t.Errorf("part %s changed", name)
				}
			}
			again := edit
			again.Sheets = slices.Clone(edit.Sheets)
			for _, c := range tt.cells {
				again.Sheets[0].Clear = append(again.Sheets[0].Clear, Address{Row: c.Row, Col: c.Col}.Range())
			}
			twice, _ := mustApply(t, out, again)
			if got := unzip(t, twice)["xl/worksheets/sheet1.xml"]; got != tt.want {
				t.Errorf("a second run changed the sheet to %s", got)
			}
		})
	}
}

func TestRefused(t *testing.T) {
	merged := wrap(`<sheetData/><mergeCells count="1"><mergeCell ref="B2:D4"/></mergeCells>`)
	deep := strings.Repeat("<a>", opc.MaxDepth+1)
	clear3 := func(s *Sheet) { s.Clear = []Range{wholeColumns(3, 3)} }
	tests := []struct {
		name   string
		sheet  string
		cells  []Cell
		change func(*Sheet)
		kind   error
		says   string
	}{
		{"occupied", data(`<row r="1"><c r="C1"><v>1</v></c></row>`), []Cell{num(1, 3, 3)}, nil, ErrOccupied, `sheet "Roster", cell C1`},
		{"formula in the way", data(`<row r="1"><c r="C1"><f>A1</f></c></row>`), []Cell{num(1, 3, 3)}, clear3, ErrFormula, "cell C1: a formula"},
		{"master of a shared formula", data(`<row r="1"><c r="C1"><f t="shared" ref="C1:C2" si="0">A1</f></c></row>`), nil, clear3, ErrFormula, "C1"},
		{"new cell in an array formula", data(`<row r="1"><c r="B1"><f t="array" ref="B1:C2">A1</f></c></row>`), []Cell{num(2, 3, 3)}, nil, ErrFormula, "cell C2"},
		{"cleared cell in an array formula", data(`<row r="1"><c r="B1"><f t="array" ref="B1:C2">A1</f></c><c r="C1"><v>1</v></c></row>`), nil, clear3, ErrFormula, "array formula in B1:C2"},
		{"merged", merged, []Cell{num(1, 2, 1), num(3, 4, 3)}, nil, ErrMerged, "cell D3: the cell belongs to the merged cells B2:D4"},
		{"merged and cleared", merged, nil, clear3, ErrMerged, "cell C2"},
		{"rows out of order", data(`<row r="2"/><row r="1"/>`), nil, nil, opc.ErrUnsupported, "row 1 follows row 2"},
		{"row twice", data(`<row r="2"/><row r="2"/>`), nil, nil, opc.ErrUnsupported, "out of order"},
		{"cells out of order", data(`<row r="1"><c r="B1"/><c r="A1"/></row>`), nil, nil, opc.ErrUnsupported, "cell A1 after B1"},
		{"cell of another row", data(`<row r="1"><c r="A2"/></row>`), nil, nil, opc.ErrUnsupported, `address "A2"`},
		{"address that is none", data(`<row r="1"><c r="7"/></row>`), nil, nil, opc.ErrUnsupported, `address "7"`},
		{"row number that is none", data(`<row r="x"/>`), nil, nil, opc.ErrDamaged, `number "x"`},
		{"row past the end", data(`<row r="1048577"/>`), nil, nil, opc.ErrDamaged, "more rows"},
		{"column past the end", data(`<row r="1"><c r="XFD1"/><c/></row>`), nil, nil, opc.ErrDamaged, "more columns"},
		{"clearing would shift one without address", data(`<row r="1"><c r="C1"/><c/></row>`), nil, clear3, opc.ErrUnsupported, "cell D1"},
		{"cells after an extension list", data(`<row r="1"><extLst/><c r="A1"/></row>`), nil, nil, opc.ErrUnsupported, "behind other things"},
		{"something else among the rows", data(`<other/>`), nil, nil, opc.ErrUnsupported, "other than rows"},
		{"alternative cells", wrap(`<sheetData><row r="1"><mc:AlternateContent xmlns:mc="m"/></row></sheetData>`), nil, nil, opc.ErrUnsupported, "alternative"},
		{"two lists of cells", wrap(`<sheetData/><sheetData/>`), nil, nil, opc.ErrDamaged, "twice"},
		{"no list of cells", wrap(``), nil, nil, opc.ErrDamaged, "no cell data"},
		{"chart sheet under a worksheet's name", `<chartsheet xmlns="` + ooxml.NSMain + `"/>`, nil, nil, opc.ErrUnsupported, "not a worksheet"},
		{"foreign namespace", `<worksheet xmlns="urn:x"><sheetData/></worksheet>`, nil, nil, opc.ErrUnsupported, "namespace"},
		{"namespace changed on the way", wrap(`<sheetData xmlns="urn:x"/>`), nil, nil, opc.ErrUnsupported, "namespaces in the middle"},
		{"namespace changed on a cell", data(`<row r="1"><c r="A1" xmlns="urn:x"/></row>`), nil, nil, opc.ErrUnsupported, "namespaces in the middle"},
		{"unknown encoding", `<?xml version="1.0" encoding="EBCDIC"?>` + data(``), nil, nil, opc.ErrUnsupported, `"ebcdic", an encoding that is not read`},
		{"document type", `<!DOCTYPE worksheet [<!ENTITY a "b">]>` + data(``), nil, nil, opc.ErrUnsupported, "document type"},
		{"too deep", wrap(`<sheetData/>` + deep), nil, nil, opc.ErrLimit, "levels deep"},
		{"cut short in a tag", data(``)[:90], nil, nil, opc.ErrDamaged, "too early"},
		{"cut short between tags", wrap(`<sheetData><row r="1">`)[:100], nil, nil, opc.ErrDamaged, "too early"},
		{"tags that cross", data(`<row r="1"><c r="A1"></row></c>`), nil, nil, opc.ErrDamaged, "do not match"},
		{"two roots", data(``) + data(``), nil, nil, opc.ErrDamaged, "two roots"},
		{"nothing", ``, nil, nil, opc.ErrDamaged, "too early"},
		{"two slashes", wrap(`<sheetData//>`), nil, nil, opc.ErrDamaged, "attribute without a value"},
		{"attribute twice", data(`<row r="1" r="2"/>`), nil, nil, opc.ErrDamaged, `"r" twice`},
		{"no blank before an attribute", data(`<row r="1"s="2"/>`), nil, nil, opc.ErrDamaged, "no blank"},
		{"no end of a value", data(`<row r="1/>`), nil, nil, opc.ErrDamaged, "'<' inside a tag"},
		{"tag without a name", data(`< row/>`), nil, nil, opc.ErrDamaged, "without a name"},
		{"value without quotes", data(`<row r=1/>`), nil, nil, opc.ErrDamaged, "without quotes"},
		{"merge without range", wrap(`<sheetData/><mergeCells><mergeCell ref="?"/></mergeCells>`), nil, nil, opc.ErrDamaged, "merged cells without"},

		{"not a number", data(``), []Cell{num(1, 1, math.NaN())}, nil, ErrRequest, "cell A1: the new cell's number is not a finite number"},
		{"infinite", data(``), []Cell{num(1, 1, math.Inf(-1))}, nil, ErrRequest, "finite"},
		{"long text", data(``), []Cell{txt(1, 1, strings.Repeat("é", MaxText+1))}, nil, ErrRequest, "32767"},
		{"long text of wide characters", data(``), []Cell{txt(1, 1, strings.Repeat("😀", MaxText/2+1))}, nil, ErrRequest, "32767"},
		{"column too far right", data(``), []Cell{num(1, grid.MaxCol+1, 1)}, nil, ErrRequest, "outside the sheet"},
		{"row too far down", data(``), []Cell{num(grid.MaxRow+1, 1, 1)}, nil, ErrRequest, "outside the sheet"},
		{"no such place", data(``), []Cell{num(0, 1, 1)}, nil, ErrRequest, "outside the sheet"},
		{"new rows out of order", data(``), []Cell{num(2, 1, 1), num(1, 1, 1)}, nil, ErrRequest, "order"},
		{"new cell twice", data(``), []Cell{num(2, 1, 1), num(2, 1, 1)}, nil, ErrRequest, "order"},
		{"style not listed", data(``), []Cell{{Row: 1, Col: 1, Style: 1}}, nil, ErrRequest, "style"},
		{"kind unknown", data(``), []Cell{{Row: 1, Col: 1, Kind: 9}}, nil, ErrRequest, "kind"},
		{"range to clear upside down", data(``), nil, func(s *Sheet) { s.Clear = []Range{{FirstRow: 2, FirstCol: 1, LastRow: 1, LastCol: 1}} }, ErrRequest, "range to clear"},
		{"width", data(``), nil, func(s *Sheet) { s.Widths = map[int]float64{1: math.NaN()} }, ErrRequest, "width NaN"},
		{"sheet name", data(``), nil, func(s *Sheet) { s.Name = "Missing" }, ErrNoSheet, `sheet "Missing"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := roster(tt.cells...)
			if tt.change != nil {
				tt.change(&edit.Sheets[0])
			}
			out, _, err := apply(t, oneSheet(tt.sheet).zip(t), edit)
			wantRefusal(t, out, err, tt.kind, tt.says)
		})
	}
}

func TestCellsMustRepeat(t *testing.T) {
	runs := 0
	edit := roster()
	edit.Sheets[0].Cells = func(yield func(Cell) bool) {
		if runs++; runs == 1 {
			yield(num(1, 1, 1))
		}
	}
	in := bytes.NewReader(oneSheet(data(``)).zip(t))
	if _, err := Apply(context.Background(), in, in.Size(), io.Discard, edit); err == nil || !strings.Contains(err.Error(), "differ between") {
		t.Errorf("got error %v", err)
	}
}

func TestIrregularWidthsAreLeft(t *testing.T) {
	for _, cols := range []string{
		`<cols><col min="3" max="4"/><col min="4" max="5"/></cols>`,
		`<cols><col min="1" max="1"/></cols><cols><col min="2" max="2"/></cols>`,
		`<cols><col min="x" max="1"/></cols>`,
		`<cols><col min="1" max="99999"/></cols>`,
	} {
		sheet := wrap(cols + `<sheetData/>`)
		edit := roster()
		edit.Sheets[0].Widths = map[int]float64{4: 9}
		out, report := mustApply(t, oneSheet(sheet).zip(t), edit)
		if got := unzip(t, out)["xl/worksheets/sheet1.xml"]; got != sheet {
			t.Errorf("%s became %s", cols, got)
		}
		if len(report.Notes) != 1 || !strings.Contains(report.Notes[0], "widths") {
			t.Errorf("%s: notes %q", cols, report.Notes)
		}
	}
}

func TestTables(t *testing.T) {
	const tableXML = `<table xmlns="` + ooxml.NSMain + `" id="1" name="People" displayName="People" ref="A1:C4" totalsRowCount="1">` +
		`<autoFilter ref="A1:C3"/><tableColumns count="3"><tableColumn id="1" name="Name"/><tableColumn id="2" name="Age"/>` +
		`<tableColumn id="3" name="Level &amp;_x000a_x"/></tableColumns></table>`
	file := func(kind, part string) []byte {
		return oneSheet(data(`<row r="1"><c r="C1"><v>1</v></c></row><row r="2"><c r="C2"><v>1</v></c></row>`)).
			with("xl/worksheets/_rels/sheet1.xml.rels", relsHead+`<Relationship Id="rId1" Type="`+relType+kind+`" Target="/xl/tables/t1.xml"/></Relationships>`).
			with("xl/tables/t1.xml", part).zip(t)
	}
	clear3 := []Range{{FirstRow: 1, FirstCol: 3, LastRow: 3, LastCol: 3}}
	header := txt(1, 3, "Level &\nx")
	tests := []struct {
		name  string
		cells []Cell
		clear []Range
		says  string // "" if allowed
	}{
		{"beside the table", []Cell{num(2, 4, 1)}, nil, ""},
		{"below the table", []Cell{num(5, 3, 1)}, nil, ""},
		{"in the table", []Cell{num(3, 3, 1)}, nil, `cell C3: the cell belongs to the table "People" in A1:C4`},
		{"own column in the table", []Cell{header, num(2, 3, 5)}, clear3, ""},
		{"own rows in the table", []Cell{num(2, 3, 5)}, []Range{{FirstRow: 2, FirstCol: 3, LastRow: 3, LastCol: 3}}, ""},
		{"own column with another header", []Cell{txt(1, 3, "Other"), num(2, 3, 5)}, clear3, "cell C1"},
		{"own column without header", []Cell{num(2, 3, 5)}, clear3, "header would be removed"},
		{"own column with the row of totals", []Cell{header}, []Range{wholeColumns(3, 3)}, `table "People"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := roster(tt.cells...)
			edit.Sheets[0].Clear = tt.clear
			if tt.says == "" {
				mustApply(t, file("table", tableXML), edit)
				return
			}
			out, _, err := apply(t, file("table", tableXML), edit)
			wantRefusal(t, out, err, ErrTable, tt.says)
		})
	}
	t.Run("whole column of a table without totals", func(t *testing.T) {
		edit := roster(header)
		edit.Sheets[0].Clear = []Range{wholeColumns(3, 3)}
		mustApply(t, file("table", strings.Replace(tableXML, ` totalsRowCount="1"`, "", 1)), edit)
	})
	t.Run("pivot table", func(t *testing.T) {
		pivot := `<pivotTableDefinition xmlns="` + ooxml.NSMain + `" name="Sums"><location ref="E1:G9"/></pivotTableDefinition>`
		out, _, err := apply(t, file("pivotTable", pivot), roster(num(2, 6, 1)))
		wantRefusal(t, out, err, ErrTable, `pivot table "Sums" in E1:G9`)
		mustApply(t, file("pivotTable", pivot), roster(num(2, 8, 1)))
	})
	t.Run("table without range", func(t *testing.T) {
		out, _, err := apply(t, file("table", `<table xmlns="`+ooxml.NSMain+`"/>`), roster())
		wantRefusal(t, out, err, opc.ErrDamaged, "states no range")
	})
}

func TestFilterName(t *testing.T) {
	book := func(name string) parts {
		p := oneSheet(wrap(`<sheetData/><autoFilter ref="A1:B9"/>`))
		p["xl/workbook.xml"] = strings.Replace(p["xl/workbook.xml"], "</sheets>", "</sheets><definedNames>"+name+"</definedNames>", 1)
		return p
	}
	const hidden = `<definedName name="_xlnm._FilterDatabase" localSheetId="0" hidden="1">`
	tests := []struct {
		name, in, want string
		extended       bool
	}{
		{"mirrors the filter", hidden + `'My Sheet'!$A$1:$B$9</definedName>`, hidden + `'My Sheet'!$A$1:$D$9</definedName>`, true},
		{"another sheet's", `<definedName name="_xlnm._FilterDatabase" localSheetId="1">X!$A$1:$B$9</definedName>`,
			`<definedName name="_xlnm._FilterDatabase" localSheetId="1">X!$A$1:$B$9</definedName>`, true},
		{"differs", hidden + `Roster!$A$1:$C$9</definedName>`, hidden + `Roster!$A$1:$C$9</definedName>`, false},
		{"empty", hidden + `</definedName>`, hidden + `</definedName>`, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := roster(num(1, 3, 3), num(1, 4, 4))
			out, _ := mustApply(t, book(tt.in).zip(t), edit)
			after := unzip(t, out)
			if got, want := after["xl/workbook.xml"], book(tt.want)["xl/workbook.xml"]; got != want {
				t.Errorf("workbook\ngot  %s\nwant %s", got, want)
			}
			if got := strings.Contains(after["xl/worksheets/sheet1.xml"], `ref="A1:D9"`); got != tt.extended {
				t.Errorf("filter extended: %v, want %v", got, tt.extended)
			}
		})
	}
}

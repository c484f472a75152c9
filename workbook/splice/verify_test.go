package splice

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"strings"
	"testing"
)

// TestVerifyNotices changes one thing in a good copy at a time.
func TestVerifyNotices(t *testing.T) {
	sheet := wrap(`<dimension ref="A1:B3"/><cols><col min="1" max="2" width="9"/></cols><sheetData>` +
		`<row r="1" ht="20"><c r="A1" s="1"><v>1</v></c><c r="B1"/><c r="C1"><v>8</v></c></row>` + "\n" +
		`<row r="3" spans="1:2"/><row r="5"><c r="A5"><f>A1+1</f><v>5</v></c></row><row r="6"><!-- c --><c r="A6"><v>6</v></c></row></sheetData>` +
		`<autoFilter ref="A1:B3"/><mergeCells><mergeCell ref="A8:B8"/></mergeCells>`)
	book := withStyles(smallStyles, sheet).with("xl/theme.xml", "colours")
	book["xl/workbook.xml"] = strings.Replace(book["xl/workbook.xml"], "</sheets>",
		`</sheets><definedNames><definedName name="_xlnm._FilterDatabase" localSheetId="0">Roster!$A$1:$B$3</definedName></definedNames>`, 1)
	edit := roster(num(1, 3, 3), Cell{Row: 3, Col: 3, Kind: Text, Text: "t", Style: 1}, num(4, 3, 4))
	edit.Styles = []Style{{NumberFormat: "0.000"}}
	edit.Sheets[0].Clear = []Range{wholeColumns(3, 3)}
	edit.Sheets[0].Widths = map[int]float64{3: 12}
	orig := book.zip(t)
	out, _ := mustApply(t, orig, edit)
	good := unzip(t, out)
	if err := verify(orig, good.zip(t), edit); err != nil {
		t.Fatalf("the good copy, packed again: %v", err)
	}

	const s, st, wb = "xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml"
	tests := []struct{ name, part, old, new string }{
		{"part lost", "xl/theme.xml", "colours", ""},
		{"part changed", "xl/theme.xml", "colours", "colors!"},
		{"part longer", "xl/theme.xml", "colours", "colours."},
		{"old value", s, `<v>1</v>`, `<v>2</v>`},
		{"old formula", s, `<f>A1+1</f>`, `<f>A1+2</f>`},
		{"old formula made a value", s, `<f>A1+1</f>`, ``},
		{"text before an old cell", s, `</c></row></sheetData>`, `</c> </row></sheetData>`},
		{"comment moved over an old cell", s, "<!-- c --><c r=\"A6\"><v>6</v></c>", "<c r=\"A6\"><v>6</v></c><!-- c -->"},
		{"old format", s, `<c r="A1" s="1">`, `<c r="A1" s="0">`},
		{"old cell lost", s, `<c r="A5"><f>A1+1</f><v>5</v></c>`, ``},
		{"old cell moved", s, `<c r="A5">`, `<c r="B5">`},
		{"cell not asked for", s, `<c r="A5"><f>A1+1</f><v>5</v></c>`, `<c r="A5"><f>A1+1</f><v>5</v></c><c r="D5"/>`},
		{"cleared cell still there", s, `<row r="5"><c r="A5"><f>A1+1</f><v>5</v></c>`, `<row r="5"><c r="A5"><f>A1+1</f><v>5</v></c><c r="C5"/>`},
		{"new cell lost", s, `<c r="C1"><v>3</v></c>`, ``},
		{"last new cell lost", s, `<row r="4"><c r="C4"><v>4</v></c></row>`, ``},
		{"new cell moved", s, `<c r="C1"><v>3</v></c>`, `<c r="D1"><v>3</v></c>`},
		{"row height", s, `ht="20"`, `ht="21"`},
		{"row attribute on a row that got cells", s, `<row r="3">`, `<row r="3" hidden="1">`},
		{"attribute on a new row", s, `<row r="4">`, `<row r="4" hidden="1">`},
		{"row lost", s, `<row r="5"><c r="A5"><f>A1+1</f><v>5</v></c></row>`, ``},
		{"row not asked for", s, `</sheetData>`, `<row r="9"></row></sheetData>`},
		{"blanks between rows", s, "\n", " "},
		{"text in a new row", s, `<row r="4">`, `<row r="4">x`},
		{"width of another column", s, `width="9"`, `width="10"`},
		{"width for a column not asked for", s, `</cols>`, `<col min="4" max="4" width="1"/></cols>`},
		{"merge", s, `ref="A8:B8"`, `ref="A8:C8"`},
		{"filter rows", s, `<autoFilter ref="A1:C3"`, `<autoFilter ref="A1:C4"`},
		{"filter and name differ", s, `<autoFilter ref="A1:C3"`, `<autoFilter ref="A1:B3"`},
		{"something more at the end", s, `</worksheet>`, `<extLst/></worksheet>`},
		{"not readable", s, `</worksheet>`, ``},
		{"hidden name", wb, `$C$3`, `$D$3`},
		{"workbook", wb, `sheetId="1"`, `sheetId="2"`},
		{"format changed", st, `borderId="0" xfId="0"/>`, `borderId="1" xfId="0"/>`},
		{"format put before the old ones", st, `<cellXfs count='3'>`, `<cellXfs count='4'><xf/>`},
		{"format put between", st, `<xf numFmtId='170'`, `<xf/><xf numFmtId='170'`},
		{"font lost", st, `<font><sz val="11"/></font>`, ``},
		{"other list longer", st, `</borders>`, `<border/></borders>`},
		{"other list new", st, `</styleSheet>`, `<dxfs/></styleSheet>`},
		{"content type", "[Content_Types].xml", `Extension="xml"`, `Extension="xmm"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			bad := maps.Clone(good)
			bad[tt.part] = strings.Replace(good[tt.part], tt.old, tt.new, 1)
			if bad[tt.part] == good[tt.part] {
				t.Fatalf("nothing to change in %s", good[tt.part])
			}
			if bad[tt.part] == "" {
				delete(bad, tt.part)
			}
			if err := verify(orig, bad.zip(t), edit); !errors.Is(err, ErrChanged) {
				t.Errorf("got error %v", err)
			}
		})
	}
	t.Run("part added", func(t *testing.T) {
		bad := maps.Clone(good)
		bad["xl/more.xml"] = "x"
		if err := verify(orig, bad.zip(t), edit); !errors.Is(err, ErrChanged) {
			t.Errorf("got error %v", err)
		}
	})
	t.Run("checksum of the copy", func(t *testing.T) {
		if err := verify(orig, flip(t, good.zip(t), "xl/theme.xml"), edit); !errors.Is(err, ErrChanged) {
			t.Errorf("got error %v", err)
		}
	})
	t.Run("nothing done", func(t *testing.T) {
		if err := verify(orig, orig, edit); !errors.Is(err, ErrChanged) {
			t.Errorf("got error %v", err)
		}
	})
	t.Run("the copy is no zip", func(t *testing.T) {
		err := Verify(context.Background(), bytes.NewReader(orig), int64(len(orig)), strings.NewReader("x"), 1, edit)
		if !errors.Is(err, ErrChanged) {
			t.Errorf("got error %v", err)
		}
	})
}

// TestVerifyRows changes one thing in rows that are compared whole.
func TestVerifyRows(t *testing.T) {
	const s = "xl/worksheets/sheet1.xml"
	orig := oneSheet(data(`<row r="1"><c r="A1"><v>1</v></c><c r="B1"/></row>` +
		`<row r="2"><!--</row>--><c r="A2"><v>2</v></c></row><row r="3"><c><v>3</v></c></row><row r="4"><c r="A4"/><extLst><c r="Z4"/></extLst></row>`)).zip(t)
	edit := roster(num(1, 3, 3), num(2, 3, 3), num(3, 3, 3), num(4, 3, 3))
	out, _ := mustApply(t, orig, edit)
	good := unzip(t, out)
	for _, change := range [][2]string{
		{`<v>1</v>`, `<v>7</v>`}, {`<c r="B1"/>`, ``}, {`<c r="B1"/>`, `<c r="B1"/><c r="B1"/>`}, {`<c r="C1">`, `<c r="B1">`}, {`<c r="C1">`, `<c r="D1">`},
		{`<v>2</v>`, `<v>7</v>`}, {`<!--</row>-->`, ``}, {`<c><v>3</v></c>`, `<c><v>7</v></c>`}, {`<c r="C3">`, `<c r="A3">`}, {`<c r="Z4"/>`, `<c r="Y4"/>`},
	} {
		bad := maps.Clone(good)
		if bad[s] = strings.Replace(good[s], change[0], change[1], 1); bad[s] == good[s] {
			t.Fatalf("no %s in %s", change[0], good[s])
		}
		if err := verify(orig, bad.zip(t), edit); !errors.Is(err, ErrChanged) {
			t.Errorf("%s instead of %s: %v", change[1], change[0], err)
		}
	}
}

// TestVerifyFormula: a formula in a cleared range is refused by Apply, so a
// copy without it is wrong.
func TestVerifyFormula(t *testing.T) {
	edit := roster()
	edit.Sheets[0].Clear = []Range{wholeColumns(3, 3)}
	orig := oneSheet(data(`<row r="1"><c r="C1"><f>1</f></c></row>`)).zip(t)
	bad := oneSheet(data(`<row r="1"></row>`)).zip(t)
	if err := verify(orig, bad, edit); !errors.Is(err, ErrChanged) {
		t.Errorf("got error %v", err)
	}
}

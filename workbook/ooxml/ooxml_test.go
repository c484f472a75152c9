package ooxml

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/opc"
)

const (
	mainNS = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	relNS  = `xmlns="http://schemas.openxmlformats.org/package/2006/relationships"`
	relURL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
)

// parts is a workbook as its parts; minimal gives one with a single sheet.
type parts map[string]string

func minimal(sheetData string) parts {
	return parts{
		"_rels/.rels":                `<Relationships ` + relNS + `><Relationship Id="r1" Type="` + relURL + `officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook ` + mainNS + `><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships ` + relNS + `><Relationship Id="r1" Type="` + relURL + `worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   `<worksheet ` + mainNS + `><sheetData>` + sheetData + `</sheetData></worksheet>`,
	}
}

func (p parts) with(name, content string) parts {
	p[name] = content
	return p
}

// withStrings adds shared texts at a place of its own.
func (p parts) withStrings(target, items string) parts {
	rels := p["xl/_rels/workbook.xml.rels"]
	p["xl/_rels/workbook.xml.rels"] = strings.Replace(rels, "</Relationships>", `<Relationship Id="r2" Type="`+relURL+`sharedStrings" Target="`+target+`"/></Relationships>`, 1)
	name := strings.TrimPrefix("xl/"+target, "xl//")
	p[name] = `<sst ` + mainNS + `>` + items + `</sst>`
	return p
}

func (p parts) withStyles(styles string) parts {
	rels := p["xl/_rels/workbook.xml.rels"]
	p["xl/_rels/workbook.xml.rels"] = strings.Replace(rels, "</Relationships>", `<Relationship Id="r3" Type="`+relURL+`styles" Target="styles.xml"/></Relationships>`, 1)
	p["xl/styles.xml"] = `<styleSheet ` + mainNS + `>` + styles + `</styleSheet>`
	return p
}

func (p parts) zip(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, content := range p {
		f, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(f, content); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// cellsOf reads the first sheet in words: address, kind and text of each cell.
func cellsOf(data []byte, lim limits) (string, error) {
	book, err := open(bytes.NewReader(data), int64(len(data)), lim)
	if err != nil {
		return "", err
	}
	rows, err := book.Rows(book.Sheets()[0])
	if err != nil {
		return "", err
	}
	defer rows.Close()
	var all []string
	for rows.Next() {
		row := rows.Row()
		for _, c := range row.Cells {
			kind := [...]string{"blank", "number", "text", "bool", "error", "date", "uncached"}[c.Kind]
			all = append(all, fmt.Sprintf("%s %s %q", grid.At(c.Col, row.Number), kind, c.Text))
		}
	}
	return strings.Join(all, "; "), rows.Err()
}

func TestCells(t *testing.T) {
	for _, tc := range []struct {
		name string
		book parts
		want string
		kind error
	}{
		{name: "kinds", book: minimal(`<row r="2"><c r="A2"><v>1.50</v></c><c r="B2" t="inlineStr"><is><t>x</t></is></c><c r="C2" t="b"><v>1</v></c>` +
			`<c r="D2" t="e"><v>#N/A</v></c><c r="E2" t="d"><v>2010-06-01</v></c><c r="F2" t="str"><f>A1</f><v>y</v></c><c r="G2"><f>A1</f></c><c r="H2" s="1"/></row>`),
			want: `A2 number "1.50"; B2 text "x"; C2 bool "TRUE"; D2 error "#N/A"; E2 date "2010-06-01"; F2 text "y"; G2 uncached ""`},
		{name: "no addresses", book: minimal(`<row><c><v>1</v></c><c><v>2</v></c></row><row r="5"><c><v>3</v></c></row><row><c r="C6"><v>4</v></c><c><v>5</v></c></row>`),
			want: `A1 number "1"; B1 number "2"; A5 number "3"; C6 number "4"; D6 number "5"`},
		{name: "an empty style, small letters", book: minimal(`<row r="1"><c r="a1" s=""><v>1</v></c><c r="b1"><v>2</v></c></row>`),
			want: `A1 number "1"; B1 number "2"`},
		{name: "cells out of order", book: minimal(`<row r="1"><c r="C1"><v>3</v></c><c r="A1"><v>1</v></c></row>`),
			want: `A1 number "1"; C1 number "3"`},
		{name: "a number that is none", book: minimal(`<row r="1"><c r="A1"><v>abc</v></c><c r="B1"><v>NaN</v></c></row>`),
			want: `A1 text "abc"; B1 text "NaN"`},
		{name: "a formula that gives no text", book: minimal(`<row r="1"><c r="A1" t="str"><f>""</f><v></v></c><c r="B1"><v>1</v></c></row>`),
			want: `B1 number "1"`},
		{name: "shared texts with runs, phonetics and escapes",
			book: minimal(`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v> 1 </v></c><c r="C1" t="s"><v>2</v></c></row>`).
				withStrings("sharedStrings.xml", `<si><r><t>a</t></r><r><t xml:space="preserve"> b</t></r></si><si><t>青木</t><rPh><t>アオキ</t></rPh></si><si><t>x_x0041__x005F_</t></si>`),
			want: `A1 text "a b"; B1 text "青木"; C1 text "xA_"`},
		{name: "shared texts at an unusual place",
			book: minimal(`<row r="1"><c r="A1" t="s"><v>0</v></c></row>`).withStrings("/wtf/Texts.xml", `<si><t>a</t></si>`).with("wtf/Texts.xml", `<sst `+mainNS+`><si><t>a</t></si></sst>`),
			want: `A1 text "a"`},
		{name: "a text that is not there", book: minimal(`<row r="1"><c r="A1" t="s"><v>7</v></c></row>`), kind: opc.ErrDamaged},
		{name: "an address that is none", book: minimal(`<row r="1"><c r="1A"><v>1</v></c></row>`), kind: opc.ErrDamaged},
		{name: "an address with dollar signs, which splicing would not take either", book: minimal(`<row r="1"><c r="$B$1"><v>2</v></c></row>`), kind: opc.ErrDamaged},
		{name: "a row that is none", book: minimal(`<row r="0"><c><v>1</v></c></row>`), kind: opc.ErrDamaged},
		{name: "a row too far", book: minimal(`<row r="1048577"><c><v>1</v></c></row>`), kind: opc.ErrDamaged},
		{name: "the last cell there can be", book: minimal(`<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`), want: `XFD1048576 number "1"`},
		{name: "a row after the last", book: minimal(`<row r="1048576"><c r="A1048576"><v>1</v></c></row><row><c><v>1</v></c></row>`), kind: opc.ErrLimit},
		{name: "a row twice", book: minimal(`<row r="3"/><row r="2"/><row r="3"/>`), kind: opc.ErrDamaged},
		{name: "a cell twice", book: minimal(`<row r="3"><c r="B3"><v>1</v></c><c r="A3"><v>1</v></c><c r="B3"><v>2</v></c></row>`), kind: opc.ErrDamaged},
		{name: "cut XML", book: minimal("").with("xl/worksheets/sheet1.xml", `<worksheet `+mainNS+`><sheetData><row r="1"><c r="A1"><v>1</v></c></row>`), kind: opc.ErrDamaged},
		{name: "cut in a cell", book: minimal("").with("xl/worksheets/sheet1.xml", `<worksheet `+mainNS+`><sheetData><row r="1"><c r="A1"><v>1`), kind: opc.ErrDamaged},
		{name: "bad UTF-8", book: minimal("<row r=\"1\"><c r=\"A1\"><v>\xff</v></c></row>"), kind: opc.ErrDamaged},
		{name: "entities", book: minimal("").with("xl/worksheets/sheet1.xml", `<!DOCTYPE x [<!ENTITY a "aaaa">]><worksheet><sheetData><row r="1"><c r="A1"><v>&a;</v></c></row></sheetData></worksheet>`), kind: opc.ErrUnsupported},
		{name: "nested too deep", book: minimal(`<row r="1"><c r="A1"><v>` + strings.Repeat("<a>", 1000)), kind: opc.ErrLimit},
		{name: "a character that XML cannot hold", book: minimal(`<row r="1"><c r="A1"><v>&#1;</v></c></row>`), kind: opc.ErrDamaged},
		{name: "an address with an entity that is none", book: minimal(`<row r="1"><c r="&x;"><v>1</v></c></row>`), kind: opc.ErrDamaged},
		{name: "the same in a row's number", book: minimal(`<row r="&x;"><c><v>1</v></c></row>`), kind: opc.ErrDamaged},
		{name: "other namespaces and prefixes", book: minimal("").with("xl/worksheets/sheet1.xml",
			`<x:worksheet xmlns:x="http://purl.oclc.org/ooxml/spreadsheetml/main"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>`),
			want: `A1 number "1"`},
	} {
		got, err := cellsOf(tc.book.zip(t), defaultLimits)
		if !errors.Is(err, tc.kind) || tc.kind == nil && got != tc.want {
			t.Errorf("%s: %s, %v; want %s, %v", tc.name, got, err, tc.want, tc.kind)
		}
		var known *opc.Error
		if err != nil && (!errors.As(err, &known) || known.Why == "") {
			t.Errorf("%s: %v says nothing", tc.name, err)
		}
	}
}

func TestFormats(t *testing.T) {
	book := minimal(`<row r="1"><c r="A1"><v>1</v></c><c r="B1" s="1"><v>1</v></c><c r="C1" s="2"><v>1</v></c><c r="D1" s="3"><v>1</v></c><c r="E1" s="9"><v>1</v></c></row>`).
		withStyles(`<numFmts><numFmt numFmtId="170" formatCode="mm:ss.0"/></numFmts><cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>` +
			`<cellXfs><xf numFmtId="0"/><mc:AlternateContent xmlns:mc="m"><mc:Choice><xf numFmtId="9"/></mc:Choice><mc:Fallback><xf numFmtId="20"/></mc:Fallback></mc:AlternateContent>` +
			`<xf numFmtId="170"/><xf numFmtId="14"/></cellXfs>`)
	data := book.zip(t)
	b, err := Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := b.Rows(b.Sheets()[0])
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	if !rows.Next() {
		t.Fatal(rows.Err())
	}
	want := []cell.FormatClass{cell.General, cell.Clock, cell.Stopwatch, cell.Date, cell.General}
	for i, c := range rows.Row().Cells {
		if c.Format.Class != want[i] {
			t.Errorf("%s has format class %d, want %d", grid.At(c.Col, 1), c.Format.Class, want[i])
		}
	}
}

func TestBook(t *testing.T) {
	p := minimal("")
	p["xl/workbook.xml"] = `<workbook ` + mainNS + `><workbookPr date1904="1"/><sheets><sheet name="A" r:id="r1"/><sheet name="B" state="hidden" r:id="r8"/><sheet name="C" r:id="r9"/></sheets></workbook>`
	p["xl/worksheets/sheet2.xml"] = p["xl/worksheets/sheet1.xml"]
	p["xl/_rels/workbook.xml.rels"] = strings.Replace(p["xl/_rels/workbook.xml.rels"], "</Relationships>", `<Relationship Id="r8" Type="`+relURL+`worksheet" Target="worksheets/sheet2.xml"/>`+
		`<Relationship Id="r9" Type="`+relURL+`chartsheet" Target="chart.xml"/></Relationships>`, 1)
	p["xl/worksheets/sheet1.xml"] = `<worksheet ` + mainNS + `><sheetData><row r="3" hidden="1"><c r="A3"><v>1</v></c></row></sheetData><mergeCells><mergeCell ref="A1:P1"/><mergeCell ref="bad"/></mergeCells></worksheet>`
	p["xl/worksheets/_rels/sheet1.xml.rels"] = `<Relationships ` + relNS + `><Relationship Id="r1" Type="` + relURL + `table" Target="../tables/table1.xml"/></Relationships>`
	p["xl/tables/table1.xml"] = `<table ` + mainNS + ` ref="A3:T9" totalsRowCount="1"/>`
	data := p.zip(t)
	b, err := Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if s := b.Sheets(); len(s) != 3 || !s[0].Cells || s[0].Hidden || !s[1].Hidden || s[2].Cells || !b.Date1904() {
		t.Errorf("sheets %+v, 1904 %v", s, b.Date1904())
	}
	rows, err := b.Rows(b.Sheets()[0])
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	if !rows.Next() || !rows.Row().Hidden || rows.Next() || rows.Err() != nil {
		t.Errorf("row %+v, %v", rows.Row(), rows.Err())
	}
	if m := rows.Merged(); len(m) != 1 || m[0] != (grid.Range{FirstRow: 1, FirstCol: 1, LastRow: 1, LastCol: 16}) {
		t.Errorf("merged %v", m)
	}
	if tables, filtered, err := b.Tables(b.Sheets()[0]); err != nil || filtered || len(tables) != 1 || tables[0].Range != (grid.Range{FirstRow: 3, FirstCol: 1, LastRow: 9, LastCol: 20}) || tables[0].Totals != 1 {
		t.Errorf("tables %v, %v, %v", tables, filtered, err)
	}
}

func TestFiles(t *testing.T) {
	good := minimal(`<row r="1"><c r="A1"><v>1</v></c></row>`).zip(t)
	flipped := bytes.Clone(stored(t, minimal(`<row r="1"><c r="A1"><v>1234567</v></c></row>`)))
	at := bytes.Index(flipped, []byte("1234567"))
	flipped[at] = '9'
	for name, tc := range map[string]struct {
		data []byte
		kind error
	}{
		"empty":       {nil, opc.ErrEmpty},
		"old":         {append(bytes.Clone(opc.Magic), make([]byte, 1000)...), opc.ErrLocked},
		"text":        {[]byte("Name,Age\nAda,30\n"), opc.ErrNotWorkbook},
		"binary":      {[]byte{0, 1, 2, 3, 255}, opc.ErrNotWorkbook},
		"cut":         {good[:len(good)-30], opc.ErrDamaged},
		"checksum":    {flipped, opc.ErrDamaged},
		"other zip":   {parts{"readme.txt": "x"}.zip(t), opc.ErrNotWorkbook},
		"document":    {minimal("").with("xl/workbook.xml", `<document/>`).zip(t), opc.ErrNotWorkbook},
		"open doc":    {parts{"content.xml": "<x/>"}.zip(t), opc.ErrNotWorkbook},
		"sheet gone":  {func() []byte { p := minimal(""); delete(p, "xl/worksheets/sheet1.xml"); return p.zip(t) }(), opc.ErrDamaged},
		"shared":      {minimal("").with("xl/workbook.xml", `<workbook `+mainNS+`><sheets><sheet name="A" r:id="r1"/><sheet name="B" r:id="r1"/></sheets></workbook>`).zip(t), opc.ErrDamaged},
		"binary book": {parts{"_rels/.rels": `<Relationships ` + relNS + `><Relationship Id="r1" Type="` + relURL + `officeDocument" Target="xl/workbook.bin"/></Relationships>`, "xl/workbook.bin": "x"}.zip(t), opc.ErrUnsupported},
	} {
		_, err := Open(bytes.NewReader(tc.data), int64(len(tc.data)))
		if !errors.Is(err, tc.kind) {
			t.Errorf("%s: %v, want %v", name, err, tc.kind)
		}
	}
	for i := range good { // cut anywhere
		if _, err := Open(bytes.NewReader(good[:i]), int64(i)); err == nil {
			t.Errorf("cut after %d of %d bytes: no error", i, len(good))
		}
	}
}

// stored makes a zip whose parts are not packed.
func stored(t testing.TB, p parts) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, content := range p {
		f, err := w.CreateRaw(&zip.FileHeader{Name: name, Method: zip.Store, CRC32: crc32.ChecksumIEEE([]byte(content)),
			CompressedSize64: uint64(len(content)), UncompressedSize64: uint64(len(content))})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(f, content); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestLimits(t *testing.T) {
	small := defaultLimits
	for name, tc := range map[string]struct {
		change func(*limits)
		book   parts
	}{
		"entries": {func(l *limits) { l.Entries = 3 }, minimal("")},
		"part":    {func(l *limits) { l.Part = 1000 }, minimal(strings.Repeat(" ", 2000))},
		"total":   {func(l *limits) { l.Total = 1000 }, minimal(strings.Repeat(" ", 2000))},
		"tags":    {func(l *limits) { l.Tags = 100 }, minimal(strings.Repeat("<row/>", 200))},
		"ratio":   {func(l *limits) { l.Ratio, l.RatioFrom = 10, 1000 }, minimal(strings.Repeat(" ", 20000))},
		"texts":   {func(l *limits) { l.texts = 10 }, minimal("").withStrings("sharedStrings.xml", `<si><t>a long text</t></si>`)},
		"styles":  {func(l *limits) { l.Small = 2000 }, minimal("").withStyles(strings.Repeat(" ", 3000))},
	} {
		lim := small
		tc.change(&lim)
		if _, err := cellsOf(tc.book.zip(t), lim); !errors.Is(err, opc.ErrLimit) {
			t.Errorf("%s: %v, want %v", name, err, opc.ErrLimit)
		}
	}
}

// A single text between two tags may not grow without end, for the decoder
// keeps it whole.
func TestHugeTextIsRefused(t *testing.T) {
	text := strings.Repeat("abcdefghijklmnop", (maxTag+1<<16)/16)
	_, err := cellsOf(minimal(`<row r="1"><c r="A1" t="str"><v>`+text+`</v></c></row>`).zip(t), defaultLimits)
	if !errors.Is(err, opc.ErrLimit) {
		t.Errorf("%v, want %v", err, opc.ErrLimit)
	}
}

// A small file with one cell at the far right of many rows takes no memory.
func TestSparseSheetTakesLittleMemory(t *testing.T) {
	var b strings.Builder
	for i := 1; i <= 20_000; i++ {
		fmt.Fprintf(&b, `<row r="%d"><c r="XFD%d"><v>1</v></c></row>`, i, i)
	}
	data := minimal(b.String()).zip(t)
	book, err := Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := book.Rows(book.Sheets()[0])
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	n := 0
	for rows.Next() {
		n += len(rows.Row().Cells)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	if n != 20_000 || rows.Err() != nil {
		t.Errorf("%d cells, %v", n, rows.Err())
	}
	if grown := int64(after.HeapAlloc) - int64(before.HeapAlloc); grown > 4<<20 {
		t.Errorf("%d bytes are kept of a sheet that is only passed through", grown)
	}
}

// Real workbooks from public test collections: none may panic, hang or be
// half read without an error.
func TestCorpus(t *testing.T) {
	files, _ := filepath.Glob("../../../shared/corpus/*.*")
	if len(files) == 0 {
		t.Skip("the folder of public workbooks is not there")
	}
	read, refused := 0, map[error]int{}
	for _, path := range files {
		if ext := filepath.Ext(path); ext != ".xlsx" && ext != ".xlsm" && ext != ".xltx" {
			continue
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		book, err := Open(bytes.NewReader(data), int64(len(data)))
		if err == nil {
			for _, s := range book.Sheets() {
				if !s.Cells {
					continue
				}
				var rows *Rows
				if rows, err = book.Rows(s); err != nil {
					break
				}
				for rows.Next() {
				}
				err = rows.Err()
				rows.Close()
				if err != nil {
					break
				}
			}
		}
		if err == nil {
			read++
			continue
		}
		var known *opc.Error
		if !errors.As(err, &known) {
			t.Errorf("%s: %v is no error of this package", filepath.Base(path), err)
			continue
		}
		refused[known.Kind]++
		t.Logf("%s: %v", filepath.Base(path), err)
	}
	t.Logf("%d read, refused: %v", read, refused)
	if read < 100 {
		t.Errorf("only %d workbooks could be read", read)
	}
}

// FuzzSheet puts fuzzed XML into a sound file, where checksums would keep a
// fuzzer of whole files out.
func FuzzSheet(f *testing.F) {
	f.Add(`<worksheet><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c t="inlineStr"><is><r><t>x</t></r></is></c></row></sheetData><mergeCells><mergeCell ref="A1:B2"/></mergeCells></worksheet>`, `<sst><si><t>_x0041_</t></si></sst>`, `<styleSheet><cellXfs><xf numFmtId="20"/></cellXfs></styleSheet>`)
	f.Fuzz(func(t *testing.T, sheet, texts, styles string) {
		p := minimal("").withStrings("sharedStrings.xml", "").withStyles("")
		p["xl/worksheets/sheet1.xml"], p["xl/sharedStrings.xml"], p["xl/styles.xml"] = sheet, texts, styles
		_, err := cellsOf(p.zip(t), defaultLimits)
		var known *opc.Error
		if err != nil && !errors.As(err, &known) {
			t.Errorf("%v is no error of this package", err)
		}
	})
}

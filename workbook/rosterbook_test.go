package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tenback/workbook/grid"
)

// rosterBook is a workbook as a spreadsheet program would store it, with what
// the spreadsheet library can't write: results of formulas, errors, the 1904
// calendar. The same rosterBook gives the same bytes on every machine.
type rosterBook struct {
	date1904 bool
	tabs     []tab
	names    string // XML of the list of names
}

// tab is one sheet. Cells are nil, text, numbers, bools, typed values, or one
// of the two types below.
type tab struct {
	name       string
	hidden     bool
	merged     []string
	hiddenRows []int
	hiddenCols []int
	filter     string // range of a filter that is on
	rows       [][]any
}

// cached is a formula with its stored result.
type cached struct {
	formula string
	result  any
}

// typed is what someone typed into a cell: the value as the spreadsheet keeps
// it, and the number format that came with it. A nil value is an empty cell.
type typed struct {
	value  any
	format string
}

// errorValue is an error such as #N/A.
type errorValue string

const xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// bookWriter collects what the sheets share.
type bookWriter struct {
	rosterBook
	texts   []string
	formats []string
}

// bytes makes the file. Nothing is packed, for the packed bytes may change
// with the version of Go.
func (b rosterBook) bytes(t testing.TB) []byte {
	t.Helper()
	w := &bookWriter{rosterBook: b}
	const ns = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	const relationships = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	type part struct{ name, content string }
	var sheets []part
	var list, rels, types strings.Builder
	for i, s := range b.tabs {
		name := fmt.Sprintf("worksheets/sheet%d.xml", i+1)
		sheets = append(sheets, part{"xl/" + name, xmlHead + `<worksheet ` + ns + `>` + w.sheet(s) + `</worksheet>`})
		state := ""
		if s.hidden {
			state = ` state="hidden"`
		}
		fmt.Fprintf(&list, `<sheet name="%s" sheetId="%d"%s r:id="rId%d"/>`, escaped(s.name), i+1, state, i+1)
		fmt.Fprintf(&rels, `<Relationship Id="rId%d" Type="%sworksheet" Target="%s"/>`, i+1, relationships, name)
		fmt.Fprintf(&types, `<Override PartName="/xl/%s" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, name)
	}
	const relNS = `xmlns="http://schemas.openxmlformats.org/package/2006/relationships"`
	var texts strings.Builder
	for _, s := range w.texts {
		fmt.Fprintf(&texts, `<si><t xml:space="preserve">%s</t></si>`, escaped(s))
	}
	properties := ""
	if b.date1904 {
		properties = `<workbookPr date1904="1"/>`
	}
	parts := append([]part{
		{"[Content_Types].xml", xmlHead + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` + types.String() +
			`<Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>`},
		{"_rels/.rels", xmlHead + `<Relationships ` + relNS + `><Relationship Id="rId1" Type="` + relationships + `officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", xmlHead + `<workbook ` + ns + `>` + properties + `<sheets>` + list.String() + `</sheets>` + b.names + `</workbook>`},
		{"xl/_rels/workbook.xml.rels", xmlHead + `<Relationships ` + relNS + `>` + rels.String() +
			fmt.Sprintf(`<Relationship Id="rId%d" Type="%sstyles" Target="styles.xml"/><Relationship Id="rId%d" Type="%ssharedStrings" Target="sharedStrings.xml"/></Relationships>`, len(b.tabs)+1, relationships, len(b.tabs)+2, relationships)},
		{"xl/styles.xml", xmlHead + `<styleSheet ` + ns + `>` + w.styles() + `</styleSheet>`},
		{"xl/sharedStrings.xml", xmlHead + `<sst ` + ns + `>` + texts.String() + `</sst>`},
	}, sheets...)
	var file bytes.Buffer
	z := zip.NewWriter(&file)
	for _, p := range parts {
		f, err := z.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write([]byte(p.content)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

func escaped(s string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		panic(err)
	}
	return b.String()
}

func (w *bookWriter) styles() string {
	var formats, cells strings.Builder
	for i, code := range w.formats {
		fmt.Fprintf(&formats, `<numFmt numFmtId="%d" formatCode="%s"/>`, 164+i, escaped(code))
		fmt.Fprintf(&cells, `<xf numFmtId="%d" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>`, 164+i)
	}
	numFmts := ""
	if len(w.formats) > 0 {
		numFmts = fmt.Sprintf(`<numFmts count="%d">%s</numFmts>`, len(w.formats), formats.String())
	}
	return numFmts + `<fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		fmt.Sprintf(`<cellXfs count="%d"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>%s</cellXfs>`, len(w.formats)+1, cells.String())
}

func (w *bookWriter) sheet(s tab) string {
	var b strings.Builder
	if len(s.hiddenCols) > 0 {
		b.WriteString("<cols>")
		for _, c := range s.hiddenCols {
			fmt.Fprintf(&b, `<col min="%d" max="%d" width="9" hidden="1" customWidth="1"/>`, c, c)
		}
		b.WriteString("</cols>")
	}
	b.WriteString("<sheetData>")
	for r, row := range s.rows {
		hidden := ""
		if slices.Contains(s.hiddenRows, r+1) {
			hidden = ` hidden="1"`
		}
		fmt.Fprintf(&b, `<row r="%d"%s>`, r+1, hidden)
		for c, v := range row {
			if v != nil {
				b.WriteString(w.cell(grid.At(c+1, r+1), v, 0))
			}
		}
		b.WriteString("</row>")
	}
	b.WriteString("</sheetData>")
	if s.filter != "" {
		fmt.Fprintf(&b, `<autoFilter ref="%s"><filterColumn colId="0"><filters><filter val="x"/></filters></filterColumn></autoFilter>`, s.filter)
	}
	if len(s.merged) > 0 {
		fmt.Fprintf(&b, `<mergeCells count="%d">`, len(s.merged))
		for _, ref := range s.merged {
			fmt.Fprintf(&b, `<mergeCell ref="%s"/>`, ref)
		}
		b.WriteString("</mergeCells>")
	}
	return b.String()
}

func (w *bookWriter) cell(at string, v any, style int) string {
	open := fmt.Sprintf(`<c r="%s"`, at)
	if style > 0 {
		open += fmt.Sprintf(` s="%d"`, style)
	}
	number := func(x float64) string {
		return open + `><v>` + strconv.FormatFloat(x, 'g', -1, 64) + `</v></c>`
	}
	switch v := v.(type) {
	case string:
		i := slices.Index(w.texts, v)
		if i < 0 {
			i = len(w.texts)
			w.texts = append(w.texts, v)
		}
		return open + fmt.Sprintf(` t="s"><v>%d</v></c>`, i)
	case int:
		return number(float64(v))
	case float64:
		return number(v)
	case bool:
		return open + map[bool]string{true: ` t="b"><v>1</v></c>`, false: ` t="b"><v>0</v></c>`}[v]
	case errorValue:
		return open + ` t="e"><v>` + string(v) + `</v></c>`
	case time.Time:
		first := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
		if w.date1904 {
			first = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
		}
		return number(v.Sub(first).Hours() / 24)
	case typed:
		i := slices.Index(w.formats, v.format)
		if i < 0 {
			i = len(w.formats)
			w.formats = append(w.formats, v.format)
		}
		return w.cell(at, v.value, i+1)
	case cached:
		return w.formula(open, v)
	}
	panic(fmt.Sprintf("no cell can hold %T", v))
}

func (w *bookWriter) formula(open string, v cached) string {
	f := `<f>` + escaped(v.formula) + `</f>`
	switch r := v.result.(type) {
	case nil:
		return open + `>` + f + `</c>`
	case string:
		return open + ` t="str">` + f + `<v>` + escaped(r) + `</v></c>`
	case errorValue:
		return open + ` t="e">` + f + `<v>` + string(r) + `</v></c>`
	case float64:
		return open + `>` + f + `<v>` + strconv.FormatFloat(r, 'g', -1, 64) + `</v></c>`
	}
	panic(fmt.Sprintf("no formula can give %T", v.result))
}

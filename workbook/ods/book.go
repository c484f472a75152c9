package ods

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf16"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
)

// book writes a workbook part by part.
type book struct {
	zip    *zip.Writer
	sheets []*sheet
	codes  []string // number formats; that of cell format i is codes[i]
	byCode map[string]int
}

func newBook(w io.Writer) *book {
	return &book{zip: zip.NewWriter(w), codes: []string{"General"}, byCode: map[string]int{"": 0, "General": 0}}
}

// format returns the number of the cell format with a number format.
func (b *book) format(code string) int {
	n, ok := b.byCode[code]
	if !ok {
		n = len(b.codes)
		b.codes = append(b.codes, code)
		b.byCode[code] = n
	}
	return n
}

// sheet is a sheet being written.
type sheet struct {
	book    *book
	name    string
	hidden  bool
	columns []column
	merged  []grid.Range
	out     io.Writer // nil before the first row
	line    []byte
}

// column is a range of columns that look the same.
type column struct {
	first, last int
	width       float64 // in characters, 0 if it is not known
	hidden      bool
}

// maxName is the length of a sheet's name, in UTF-16 code units.
const maxName = 31

// add begins a sheet. A name that a workbook cannot hold is shortened.
func (b *book) add(name string, hidden bool) *sheet {
	units := utf16.Encode([]rune(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\`, r) {
			return ' '
		}
		return r
	}, name)))
	name = string(utf16.Decode(units[:min(len(units), maxName)]))
	taken := func(s *sheet) bool { return strings.EqualFold(s.name, name) }
	if name == "" || slices.ContainsFunc(b.sheets, taken) {
		name = fmt.Sprintf("Sheet %d", len(b.sheets)+1)
	}
	s := &sheet{book: b, name: name, hidden: hidden}
	b.sheets = append(b.sheets, s)
	return s
}

const (
	xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	relBase = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	partRel = "http://schemas.openxmlformats.org/package/2006/relationships"
)

// begin writes what comes before the rows.
func (s *sheet) begin() (err error) {
	if s.out != nil {
		return nil
	}
	if s.out, err = s.book.zip.Create(fmt.Sprintf("xl/worksheets/sheet%d.xml", len(s.book.sheets))); err != nil {
		return err
	}
	b := append([]byte(xmlHead), `<worksheet xmlns="`+ooxml.NSMain+`">`...)
	for i, c := range s.columns {
		if i == 0 {
			b = append(b, "<cols>"...)
		}
		b = fmt.Appendf(b, `<col min="%d" max="%d"`, c.first, c.last)
		if c.width > 0 {
			b = fmt.Appendf(b, ` width="%.2f" customWidth="1"`, c.width)
		}
		if c.hidden {
			b = append(b, ` hidden="1"`...)
		}
		b = append(b, "/>"...)
	}
	if len(s.columns) > 0 {
		b = append(b, "</cols>"...)
	}
	_, err = s.out.Write(append(b, "<sheetData>"...))
	return err
}

// write writes a row.
func (s *sheet) write(number int, hidden bool, cells []filled) error {
	if err := s.begin(); err != nil {
		return err
	}
	b := fmt.Appendf(s.line[:0], `<row r="%d"`, number)
	if hidden {
		b = append(b, ` hidden="1"`...)
	}
	b = append(b, '>')
	for i := range cells {
		b = cells[i].append(b, number)
	}
	s.line = append(b, "</row>"...)
	_, err := s.out.Write(s.line)
	return err
}

func (f *filled) append(b []byte, row int) []byte {
	b = append(b, `<c r="`...)
	b = grid.Address{Row: row, Col: f.col}.Append(b)
	b = append(b, '"')
	if f.format > 0 {
		b = fmt.Appendf(b, ` s="%d"`, f.format)
	}
	switch f.kind {
	case text:
		b = append(b, ` t="inlineStr"><is><t xml:space="preserve">`...)
		return append(ooxml.AppendText(b, f.text), "</t></is></c>"...)
	case boolean:
		b = append(b, ` t="b"`...)
	case failed:
		b = append(b, ` t="e"`...)
	}
	b = append(b, '>')
	if f.formula != "" {
		b = append(append(append(b, "<f>"...), f.formula...), "</f>"...)
	}
	if f.kind != uncached {
		b = append(ooxml.AppendText(append(b, "<v>"...), f.text), "</v>"...)
	}
	return append(b, "</c>"...)
}

// end writes what comes after the rows.
func (s *sheet) end() error {
	if err := s.begin(); err != nil {
		return err
	}
	b := []byte("</sheetData>")
	for i, r := range s.merged {
		if i == 0 {
			b = append(b, "<mergeCells>"...)
		}
		b = fmt.Appendf(b, `<mergeCell ref="%v"/>`, r)
	}
	if len(s.merged) > 0 {
		b = append(b, "</mergeCells>"...)
	}
	_, err := s.out.Write(append(b, "</worksheet>"...))
	s.columns, s.merged, s.line = nil, nil, nil
	return err
}

// close writes the parts that list the sheets and the formats.
func (b *book) close() error {
	var types, sheets, rels, codes, formats bytes.Buffer
	for i, s := range b.sheets {
		n, state := i+1, ""
		if s.hidden {
			state = ` state="hidden"`
		}
		fmt.Fprintf(&types, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, n)
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d"%s r:id="rId%d"/>`, attribute(s.name), n, state, n)
		fmt.Fprintf(&rels, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, n, relBase, n)
	}
	const firstOwn = 164 // numbers below are built in
	for i, code := range b.codes {
		id := 0
		if i > 0 {
			id = firstOwn + i
			fmt.Fprintf(&codes, `<numFmt numFmtId="%d" formatCode="%s"/>`, id, attribute(code))
		}
		fmt.Fprintf(&formats, `<xf numFmtId="%d" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>`, id)
	}
	numFmts := ""
	if n := len(b.codes) - 1; n > 0 {
		numFmts = fmt.Sprintf(`<numFmts count="%d">%s</numFmts>`, n, &codes)
	}
	for _, part := range []struct{ name, content string }{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
			`<Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>` + types.String() + `</Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + partRel + `"><Relationship Id="rId1" Type="` + relBase + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + ooxml.NSMain + `" xmlns:r="` + relBase + `"><sheets>` + sheets.String() + `</sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + partRel + `">` + rels.String() +
			fmt.Sprintf(`<Relationship Id="rId%d" Type="%s/styles" Target="styles.xml"/></Relationships>`, len(b.sheets)+1, relBase)},
		{"xl/styles.xml", `<styleSheet xmlns="` + ooxml.NSMain + `">` + numFmts +
			`<fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
			`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
			fmt.Sprintf(`<cellXfs count="%d">%s</cellXfs>`, len(b.codes), &formats) +
			`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`},
	} {
		w, err := b.zip.Create(part.name)
		if err != nil {
			return err
		}
		if _, err := io.WriteString(w, xmlHead+part.content); err != nil {
			return err
		}
	}
	return b.zip.Close()
}

// attribute returns a text as the value of an attribute.
func attribute(s string) string {
	return strings.ReplaceAll(string(ooxml.AppendText(nil, s)), `"`, "&quot;")
}

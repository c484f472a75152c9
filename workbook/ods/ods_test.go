package ods

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

const (
	openTag  = `<office:document-content><office:automatic-styles>%s</office:automatic-styles><office:body><office:spreadsheet>`
	closeTag = `</office:spreadsheet></office:body></office:document-content>`
	kindODS  = "application/vnd.oasis.opendocument.spreadsheet"
)

// content returns the main part of a spreadsheet.
func content(styles, tables string) string { return fmt.Sprintf(openTag, styles) + tables + closeTag }

func zipOf(t testing.TB, parts ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for i := 0; i < len(parts); i += 2 {
		f, err := w.Create(parts[i])
		if err == nil {
			_, err = f.Write([]byte(parts[i+1]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func converted(data []byte, lim limits) ([]byte, error) {
	var b bytes.Buffer
	err := convert(&b, bytes.NewReader(data), int64(len(data)), lim)
	return b.Bytes(), err
}

// cellsOf describes the cells of a workbook: address, kind, text and what the
// number format shows.
func cellsOf(t testing.TB, data []byte) string {
	t.Helper()
	book, err := ooxml.Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, s := range book.Sheets() {
		rows, err := book.Rows(s)
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			for _, c := range rows.Row().Cells {
				fmt.Fprintf(&b, "%s %d %q %d.%d", grid.At(c.Col, rows.Row().Number), c.Kind, c.Text, c.Format.Class, c.Format.Decimals)
				if c.Sums {
					b.WriteString(" sums")
				}
				b.WriteByte('\n')
			}
		}
		for _, m := range rows.Merged() {
			fmt.Fprintf(&b, "merged %v\n", m)
		}
		if err := rows.Err(); err != nil {
			t.Fatal(err)
		}
		rows.Close()
	}
	return strings.TrimSpace(b.String())
}

func TestCells(t *testing.T) {
	const styles = `<number:number-style style:name="N2"><number:number number:decimal-places="2" number:min-integer-digits="1"/></number:number-style>` +
		`<number:number-style style:name="N9P0"><number:number number:decimal-places="1" number:min-integer-digits="1"/><number:text> kg</number:text></number:number-style>` +
		`<number:number-style style:name="N9"><number:text>-</number:text><number:number number:decimal-places="3"/><style:map style:condition="value()&gt;=0" style:apply-style-name="N9P0"/></number:number-style>` +
		`<number:time-style style:name="N5" number:truncate-on-overflow="false"><number:minutes/><number:text>:</number:text><number:seconds number:style="long" number:decimal-places="1"/></number:time-style>` +
		`<number:date-style style:name="N6"><number:day/><number:text>. </number:text><number:month number:textual="true"/><number:text> </number:text><number:year number:style="long"/></number:date-style>` +
		`<style:style style:name="two" style:data-style-name="N2"/><style:style style:name="child" style:parent-style-name="two"/>` +
		`<style:style style:name="kg" style:data-style-name="N9"/><style:style style:name="watch" style:data-style-name="N5"/><style:style style:name="day" style:data-style-name="N6"/>` +
		`<style:style style:name="round1" style:parent-style-name="round2"/><style:style style:name="round2" style:parent-style-name="round1"/>`
	for name, c := range map[string]struct{ rows, want string }{
		"numbers": {`<table:table-row><table:table-cell office:value-type="float" office:value="7.10" table:style-name="child"><text:p>other</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="float" office:value="63.5" table:style-name="kg"/><table:table-cell office:value-type="percentage" office:value="0.5"/>` +
			`<table:table-cell office:value-type="currency" office:value="-3" table:style-name="round1"/><table:table-cell office:value-type="float" office:value="0x10"/></table:table-row>`,
			"A1 1 \"7.10\" 1.2\nB1 1 \"63.5\" 1.1\nC1 1 \"0.5\" 2.0\nD1 1 \"-3\" 0.0\nE1 2 \"0x10\" 0.0"},
		"dates": {`<table:table-row><table:table-cell office:value-type="date" office:date-value="2026-05-18" table:style-name="day"/>` +
			`<table:table-cell office:value-type="date" office:date-value="2026-05-18T18:00:00"/><table:table-cell office:value-type="date" office:date-value="1899-12-31"/></table:table-row>`,
			"A1 1 \"46160\" 3.0\nB1 1 \"46160.75\" 6.0\nC1 2 \"1899-12-31\" 0.0"},
		"times": {`<table:table-row><table:table-cell office:value-type="time" office:time-value="PT00H12M00S" table:style-name="watch"/>` +
			`<table:table-cell office:value-type="time" office:time-value="P1DT6H"/><table:table-cell office:value-type="time" office:time-value="-PT0,75S"/><table:table-cell office:value-type="time" office:time-value="soon"/></table:table-row>`,
			"A1 1 \"0.008333333333333333\" 5.0\nB1 1 \"1.25\" 4.0\nC1 1 \"-0.000008680555555555556\" 4.0\nD1 2 \"soon\" 0.0"},
		"texts": {`<table:table-row><table:table-cell office:value-type="string"><text:p> one<text:s text:c="2"/>
   <text:span>two</text:span><text:line-break/>three</text:p><text:p>&lt;four&gt;<office:annotation><text:p>a note</text:p></office:annotation></text:p><office:annotation><text:p>another</text:p></office:annotation></table:table-cell>` +
			`<table:table-cell office:value-type="string" office:string-value="stored"><text:p>shown</text:p></table:table-cell><table:table-cell><text:p>untyped</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="string"><text:p/></table:table-cell></table:table-row>`,
			"A1 2 \"one  two\\nthree\\n<four>\" 0.0\nB1 2 \"stored\" 0.0\nC1 2 \"untyped\" 0.0"},
		"others": {`<table:table-row><table:table-cell office:value-type="boolean" office:boolean-value="true"/><table:table-cell table:formula="of:=1/0" office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>#DIV/0!</text:p></table:table-cell>` +
			`<table:table-cell table:formula="of:=[.A1]"/><table:table-cell table:formula="of:=AVERAGE([.D$3:.D7])" office:value-type="float" office:value="4"/><table:table-cell table:formula="of:=&quot;&quot;" office:value-type="string" office:string-value=""/></table:table-row>`,
			"A1 3 \"TRUE\" 0.0\nB1 4 \"#DIV/0!\" 0.0\nC1 6 \"\" 0.0\nD1 1 \"4\" 0.0 sums"},
		"repeated": {`<table:table-header-rows><table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="3"/><table:table-cell office:value-type="float" office:value="1" table:number-columns-repeated="2"/></table:table-row></table:table-header-rows>` +
			`<table:table-row table:number-rows-repeated="1048574"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>`,
			"D1 1 \"1\" 0.0\nE1 1 \"1\" 0.0\nD2 1 \"1\" 0.0\nE2 1 \"1\" 0.0"},
		"merged": {`<table:table-row><table:table-cell table:number-columns-spanned="2" table:number-rows-spanned="2"><text:p>both</text:p></table:table-cell><table:covered-table-cell><text:p>below</text:p></table:covered-table-cell><table:table-cell><text:p>next</text:p></table:table-cell></table:table-row>`,
			"A1 2 \"both\" 0.0\nC1 2 \"next\" 0.0\nmerged A1:B2"},
		"styles of columns and rows": {`<table:table-column table:number-columns-repeated="2" table:default-cell-style-name="two"/><table:table-row><table:table-cell/><table:table-cell office:value-type="float" office:value="1"/></table:table-row>` +
			`<table:table-row table:default-cell-style-name="kg"><table:table-cell office:value-type="float" office:value="1"/></table:table-row>`,
			"B1 1 \"1\" 1.2\nA2 1 \"1\" 1.1"},
		"drawings and sheets in sheets": {`<table:shapes><draw:frame><table:table table:name="in"><table:table-row><table:table-cell><text:p>no</text:p></table:table-cell></table:table-row></table:table></draw:frame></table:shapes>` +
			`<table:table-row><table:table-cell><table:table><table:table-row><table:table-cell><text:p>no</text:p></table:table-cell></table:table-row></table:table><text:p>yes</text:p></table:table-cell></table:table-row>`,
			"A1 2 \"yes\" 0.0"},
	} {
		t.Run(name, func(t *testing.T) {
			book, err := converted(zipOf(t, "content.xml", content(styles, `<table:table table:name="S">`+c.rows+`</table:table>`)), defaultLimits)
			if err != nil {
				t.Fatal(err)
			}
			if got := cellsOf(t, book); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

func TestSheets(t *testing.T) {
	long := strings.Repeat("ab", 20)
	data := zipOf(t, "content.xml", content(`<style:style style:name="off"><style:table-properties table:display="false"/></style:style>`,
		`<table:table table:name="A/B"/><table:table table:name="Old" table:style-name="off"/><table:table table:name="'file:///x.ods'#$S"/>`+
			`<table:table table:name="`+long+`1"/><table:table table:name="`+long+`2"/>`))
	plain, err := converted(data, defaultLimits)
	if err != nil {
		t.Fatal(err)
	}
	book, err := ooxml.Open(bytes.NewReader(plain), int64(len(plain)))
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, s := range book.Sheets() {
		got += fmt.Sprintf("%s %v; ", s.Name, s.Hidden)
	}
	if want := "A B false; Old true; " + long[:31] + " false; Sheet 4 false; "; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

func TestRefused(t *testing.T) {
	table := func(rows string) string {
		return content("", `<table:table table:name="S">`+rows+`</table:table>`)
	}
	const one = `<table:table-cell office:value-type="float" office:value="1"`
	small := defaultLimits
	small.cells, small.styles, small.text = 100, 2, 10
	for name, c := range map[string]struct {
		parts []string
		kind  error
		why   string
	}{
		"filled rows":    {[]string{"content.xml", table(`<table:table-row table:number-rows-repeated="101">` + one + `/></table:table-row>`)}, opc.ErrLimit, "more filled cells"},
		"filled columns": {[]string{"content.xml", table(`<table:table-row>` + one + ` table:number-columns-repeated="99999999999"/></table:table-row>`)}, opc.ErrLimit, "more columns"},
		"too far down":   {[]string{"content.xml", table(`<table:table-row table:number-rows-repeated="1048576"/><table:table-row>` + one + `/></table:table-row>`)}, opc.ErrLimit, "more rows"},
		"text":           {[]string{"content.xml", table(`<table:table-row><table:table-cell><text:p>a<text:s text:c="1000000"/></text:p></table:table-cell></table:table-row>`)}, opc.ErrLimit, "larger than a cell"},
		"styles":         {[]string{"content.xml", content(strings.Repeat(`<style:style style:name="a"/><style:style style:name="b"/>`, 2), "")}, opc.ErrLimit, "more styles"},
		"password": {[]string{"content.xml", "\x01\x02", "META-INF/manifest.xml", `<manifest:manifest><manifest:encryption-data/></manifest:manifest>`},
			opc.ErrUnsupported, "password of the OpenDocument kind"},
		"whole password": {[]string{"encrypted-package", "\x01\x02"}, opc.ErrUnsupported, "password of the OpenDocument kind"},
		"text document":  {[]string{"mimetype", "application/vnd.oasis.opendocument.text", "content.xml", `<office:document-content><office:body><office:text/></office:body></office:document-content>`}, opc.ErrNotWorkbook, "holds no spreadsheet"},
		"workbook":       {[]string{"xl/workbook.xml", "<workbook/>"}, opc.ErrNotWorkbook, "give it the ending .xlsx"},
		"other zip":      {[]string{"photo.png", ""}, opc.ErrNotWorkbook, "no workbook"},
		"not XML":        {[]string{"content.xml", "<a><b></a>"}, opc.ErrDamaged, "tags do not match"},
	} {
		_, err := converted(zipOf(t, c.parts...), small)
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzConvert(f *testing.F) {
	for _, name := range []string{"week", "evening"} {
		data, err := os.ReadFile("testdata/" + name + ".ods")
		if err != nil {
			f.Fatal(err)
		}
		p, err := opc.Open(bytes.NewReader(data), int64(len(data)), opc.Default)
		if err != nil {
			f.Fatal(err)
		}
		xml, err := p.Load(p.Part("content.xml"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(xml))
	}
	f.Fuzz(func(t *testing.T, xml string) {
		lim := defaultLimits
		lim.cells = 10_000
		book, err := converted(zipOf(t, "mimetype", kindODS, "content.xml", xml), lim)
		if err == nil {
			cellsOf(t, book) // what is written can be read
		}
	})
}

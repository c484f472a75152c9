package splice

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/encoding/unicode"

	"tenback/workbook/ooxml"
)

const (
	relsHead = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
	relType  = `http://schemas.openxmlformats.org/officeDocument/2006/relationships/`
)

// parts is a small workbook in the making, by part name.
type parts map[string]string

// oneSheet is a workbook without styles whose only sheet has this XML.
func oneSheet(sheet string) parts {
	return parts{
		"[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
		"_rels/.rels": relsHead + `<Relationship Id="rId1" Type="` + relType + `officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml": `<workbook xmlns="` + ooxml.NSMain + `" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">` +
			`<sheets><sheet name="Roster" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": relsHead + `<Relationship Id="rId1" Type="` + relType + `worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   sheet,
	}
}

func (p parts) with(name, content string) parts { p[name] = content; return p }

// wrap puts what is inside a worksheet's root into one.
func wrap(inside string) string {
	return `<worksheet xmlns="` + ooxml.NSMain + `">` + inside + `</worksheet>`
}

func data(rows string) string { return wrap(`<sheetData>` + rows + `</sheetData>`) }

// utf16 encodes a text with a byte order mark.
func utf16(s string) string {
	b, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(s)
	if err != nil {
		panic(err)
	}
	return b
}

// zip packs the parts in order of name.
func (p parts) zip(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	zw := zip.NewWriter(&b)
	var names []string
	for name := range p {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		w, err := zw.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, p[name]); err != nil {
			t.Fatal(err)
		}
	}
	if err := zw.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func unzip(t testing.TB, file []byte) parts {
	t.Helper()
	zr, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	p := parts{}
	for _, f := range zr.File {
		rc, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(rc)
		rc.Close()
		if err != nil {
			t.Fatal(err)
		}
		p[f.Name] = string(content)
	}
	return p
}

// inspectAll checks all parts, as opening a roster does, and inspects the sheets.
func inspectAll(file []byte, lim limits) (Info, error) {
	r := bytes.NewReader(file)
	p, err := openPackage(r, r.Size(), lim)
	if err == nil {
		err = p.Check(p.Parts...)
	}
	if err != nil {
		return Info{}, err
	}
	return inspect(context.Background(), r, r.Size(), lim)
}

// apply edits a file. The rehearsal must come to the same result, and so must an
// edit that knows the file.
func apply(t testing.TB, file []byte, edit Edit) ([]byte, Report, error) {
	t.Helper()
	var out bytes.Buffer
	in := bytes.NewReader(file)
	report, err := Apply(context.Background(), in, in.Size(), &out, edit)
	rehearsed, errToo := Rehearse(context.Background(), in, in.Size(), edit)
	if fmt.Sprint(err) != fmt.Sprint(errToo) || err == nil && !reflect.DeepEqual(report, rehearsed) {
		t.Fatalf("the rehearsal: %+v, %v; in earnest: %+v, %v", rehearsed, errToo, report, err)
	}
	if info, bad := Inspect(context.Background(), in, in.Size()); bad == nil {
		var again bytes.Buffer
		edit.Known = info
		_, errToo = Apply(context.Background(), in, in.Size(), &again, edit)
		if fmt.Sprint(err) != fmt.Sprint(errToo) || !bytes.Equal(again.Bytes(), out.Bytes()) {
			t.Fatalf("with what Inspect found: %v\n%q\nwithout: %v\n%q", errToo, again.Bytes(), err, out.Bytes())
		}
	}
	return out.Bytes(), report, err
}

func verify(orig, edited []byte, edit Edit) error {
	return Verify(context.Background(), bytes.NewReader(orig), int64(len(orig)), bytes.NewReader(edited), int64(len(edited)), edit)
}

// mustApply edits, verifies and gives the copy.
func mustApply(t testing.TB, file []byte, edit Edit) ([]byte, Report) {
	t.Helper()
	out, report, err := apply(t, file, edit)
	if err != nil {
		t.Fatalf("Apply: %v", err)
	}
	if err := verify(file, out, edit); err != nil {
		t.Fatalf("Verify: %v", err)
	}
	return out, report
}

// wantRefusal checks the kind and text of an error, and that nothing was written.
func wantRefusal(t *testing.T, out []byte, err, kind error, says string) {
	t.Helper()
	var e *Error
	if !errors.Is(err, kind) || !errors.As(err, &e) {
		t.Fatalf("got error %v, want one of kind %q", err, kind)
	}
	if !strings.Contains(err.Error(), says) {
		t.Errorf("the message %q does not say %q", err, says)
	}
	if len(out) > 0 {
		t.Errorf("%d bytes were written before the refusal", len(out))
	}
}

func num(row, col int, x float64) Cell { return Cell{Row: row, Col: col, Kind: Number, Number: x} }
func txt(row, col int, s string) Cell  { return Cell{Row: row, Col: col, Kind: Text, Text: s} }

func roster(cells ...Cell) Edit {
	return Edit{Sheets: []Sheet{{Name: "Roster", Cells: slices.Values(cells)}}}
}

package splice

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"tenback/workbook/opc"
)

func TestNotAWorkbook(t *testing.T) {
	full := oneSheet(data(``)).zip(t)
	tests := []struct {
		name string
		file []byte
		kind error
		says string
	}{
		{"empty", nil, opc.ErrEmpty, "the file is empty"},
		{"text", []byte("name,age\n"), opc.ErrNotWorkbook, "not a workbook"},
		{"OLE", append(slices.Clone(opc.Magic), make([]byte, 600)...), opc.ErrLocked, "protected by a password or is an old .xls file"},
		{"cut short", full[:len(full)-30], opc.ErrDamaged, "not copied to its end"},
		{"another zip", parts{"a.txt": "a"}.zip(t), opc.ErrNotWorkbook, "no workbook"},
		{"a document", parts{"_rels/.rels": relsHead + `<Relationship Id="r" Type="` + relType + `officeDocument" Target="d.xml"/></Relationships>`,
			"d.xml": `<document/>`}.zip(t), opc.ErrNotWorkbook, "no workbook"},
		{"binary workbook", parts{"_rels/.rels": relsHead + `<Relationship Id="r" Type="` + relType + `officeDocument" Target="xl/workbook.bin"/></Relationships>`,
			"xl/workbook.bin": "\x01"}.zip(t), opc.ErrUnsupported, ".xlsb"},
		{"names that differ only in case", oneSheet(data(``)).with("XL/Workbook.xml", "x").zip(t), opc.ErrDamaged, "same name"},
		{"broken relationships", oneSheet(data(``)).with("_rels/.rels", "<Relationships>").zip(t), opc.ErrDamaged, `part "_rels/.rels"`},
		{"sheet that is not there", func() []byte { p := oneSheet(""); delete(p, "xl/worksheets/sheet1.xml"); return p.zip(t) }(), opc.ErrDamaged, "is missing in the file"},
		{"chart sheet", oneSheet("").with("xl/_rels/workbook.xml.rels", relsHead+`<Relationship Id="rId1" Type="`+relType+`chartsheet" Target="worksheets/sheet1.xml"/></Relationships>`).zip(t),
			ErrNoSheet, "has no cells"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			out, _, err := apply(t, tt.file, roster(num(1, 1, 1)))
			wantRefusal(t, out, err, tt.kind, tt.says)
		})
	}
}

// TestWhereSheetsAre finds the sheet however its part is named.
func TestWhereSheetsAre(t *testing.T) {
	tests := []struct{ name, target, part string }{
		{"absolute", "/xl/worksheets/sheet1.xml", "xl/worksheets/sheet1.xml"},
		{"elsewhere", "../odd/place/s.xml", "odd/place/s.xml"},
		{"backslashes", `worksheets\s.xml`, `xl\worksheets\s.xml`},
		{"case", "Worksheets/S.XML", "xl/worksheets/s.xml"},
		{"percent", "my%20sheets/s.xml", "xl/my sheets/s.xml"},
		{"leading slash in the zip", "s.xml", "/xl/s.xml"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := oneSheet("")
			delete(p, "xl/worksheets/sheet1.xml")
			p[tt.part] = data(``)
			p["xl/_rels/workbook.xml.rels"] = relsHead + `<Relationship Id="rId1" Type="` + relType + `worksheet" Target="` + tt.target + `"/></Relationships>`
			edit := roster(num(1, 1, 5))
			edit.Sheets[0].Name = "ROSTER"
			out, _ := mustApply(t, p.zip(t), edit)
			if got := unzip(t, out)[tt.part]; !strings.Contains(got, "<v>5</v>") {
				t.Errorf("the sheet's part is %q", got)
			}
		})
	}
}

func TestSheetTwice(t *testing.T) {
	edit := roster()
	edit.Sheets = append(edit.Sheets, Sheet{Name: "roster"})
	out, _, err := apply(t, oneSheet(data(``)).zip(t), edit)
	wantRefusal(t, out, err, ErrRequest, "edited twice")
}

// TestRawCopy: entries that are not edited keep their compressed bytes, order,
// times and attributes, whatever way they are packed.
func TestRawCopy(t *testing.T) {
	var b bytes.Buffer
	zw := zip.NewWriter(&b)
	if err := zw.SetComment("made by hand"); err != nil {
		t.Fatal(err)
	}
	add := func(h zip.FileHeader, content string) {
		w, err := zw.CreateHeader(&h)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, content); err != nil {
			t.Fatal(err)
		}
	}
	when := time.Date(2024, 2, 3, 4, 5, 6, 0, time.UTC)
	add(zip.FileHeader{Name: "xl/"}, "")
	add(zip.FileHeader{Name: "xl/media/image.png", Method: zip.Store, Modified: when, Comment: "a picture"}, "\x89PNG")
	add(zip.FileHeader{Name: "xl/vbaProject.bin", Method: zip.Deflate, Modified: when, ExternalAttrs: 0x20}, strings.Repeat("macro", 999))
	for name, content := range oneSheet(data(``)) {
		add(zip.FileHeader{Name: name, Method: zip.Deflate, Modified: when}, content)
	}
	if err := zw.Close(); err != nil {
		t.Fatal(err)
	}
	out, _ := mustApply(t, b.Bytes(), roster(num(1, 1, 1)))

	before, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	after, err := zip.NewReader(bytes.NewReader(out), int64(len(out)))
	if err != nil {
		t.Fatal(err)
	}
	if after.Comment != "made by hand" || len(after.File) != len(before.File) {
		t.Fatalf("comment %q, %d entries of %d", after.Comment, len(after.File), len(before.File))
	}
	raw := func(f *zip.File) []byte {
		r, err := f.OpenRaw()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		return content
	}
	for i, f := range before.File {
		g := after.File[i]
		if g.Name != f.Name || !g.Modified.Equal(f.Modified) || g.ExternalAttrs != f.ExternalAttrs || g.Comment != f.Comment {
			t.Errorf("entry %d: %+v became %+v", i, f.FileHeader, g.FileHeader)
		}
		if f.Name != "xl/worksheets/sheet1.xml" && (g.Method != f.Method || g.CRC32 != f.CRC32 || !bytes.Equal(raw(f), raw(g))) {
			t.Errorf("the compressed bytes of %s changed", f.Name)
		}
	}
}

// TestFolderEntries: some writers compress the entries of folders too.
func TestFolderEntries(t *testing.T) {
	folder := func(packed string, size uint64) []byte {
		var b bytes.Buffer
		zw := zip.NewWriter(&b)
		w, err := zw.CreateRaw(&zip.FileHeader{Name: "folder-", Method: zip.Deflate, CompressedSize64: uint64(len(packed)), UncompressedSize64: size})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, packed); err != nil {
			t.Fatal(err)
		}
		for name, content := range oneSheet(data(``)) {
			if err := writePart(zw, &zip.File{FileHeader: zip.FileHeader{Name: name}}, []byte(content)); err != nil {
				t.Fatal(err)
			}
		}
		if err := zw.Close(); err != nil {
			t.Fatal(err)
		}
		return bytes.ReplaceAll(b.Bytes(), []byte("folder-"), []byte("folder/"))
	}
	out, _ := mustApply(t, folder("\x03\x00", 0), roster(num(1, 1, 1)))
	if _, ok := unzip(t, out)["folder/"]; !ok {
		t.Error("the folder is missing in the copy")
	}
	_, _, err := apply(t, folder("\x4b\x04\x00", 1), roster(num(1, 1, 1)))
	if !errors.Is(err, opc.ErrDamaged) || !strings.Contains(err.Error(), "a folder in the file has content") {
		t.Errorf("a folder with content: %v", err)
	}
}

func TestDropZip64(t *testing.T) {
	rec := func(id uint16, body string) []byte {
		b := binary.LittleEndian.AppendUint16(nil, id)
		return append(binary.LittleEndian.AppendUint16(b, uint16(len(body))), body...)
	}
	a, z, c := rec(0x5455, "times"), rec(1, "12345678"), rec(9, "")
	if got := dropZip64(slices.Concat(a, z, c)); !bytes.Equal(got, slices.Concat(a, c)) {
		t.Errorf("got %x", got)
	}
	if got := dropZip64([]byte{1, 0, 9, 0, 7}); !bytes.Equal(got, []byte{1, 0, 9, 0, 7}) {
		t.Errorf("a broken record became %x", got)
	}
}

// flip changes one bit in the stored data of an entry.
func flip(t *testing.T, file []byte, name string) []byte {
	t.Helper()
	zr, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range zr.File {
		if f.Name == name {
			at, err := f.DataOffset()
			if err != nil {
				t.Fatal(err)
			}
			out := slices.Clone(file)
			out[at+int64(f.CompressedSize64)/2] ^= 4
			return out
		}
	}
	t.Fatalf("no entry %s", name)
	return nil
}

func TestDamage(t *testing.T) {
	// Long stretches of numbers make sure the flipped bit is in coded data.
	var rows strings.Builder
	for r := 1; r < 300; r++ {
		rows.WriteString(`<row><c><v>` + strings.Repeat("7", r%13+1) + `</v></c></row>`)
	}
	file := oneSheet(data(rows.String())).with("xl/media/a.bin", rows.String()).zip(t)
	edit := roster(num(1, 2, 1))

	bad := flip(t, file, "xl/worksheets/sheet1.xml")
	out, _, err := apply(t, bad, edit)
	wantRefusal(t, out, err, opc.ErrDamaged, "")
	if _, err := Inspect(context.Background(), bytes.NewReader(bad), int64(len(bad))); !errors.Is(err, opc.ErrDamaged) {
		t.Errorf("Inspect: %v", err)
	}

	bad = flip(t, file, "xl/media/a.bin")
	var copied bytes.Buffer
	in := bytes.NewReader(bad)
	if _, err := Apply(context.Background(), in, in.Size(), &copied, edit); err != nil {
		t.Fatalf("Apply reads only what it edits, but: %v", err)
	}
	if err := verify(bad, copied.Bytes(), edit); !errors.Is(err, opc.ErrDamaged) || !strings.Contains(err.Error(), "xl/media/a.bin") {
		t.Errorf("Verify: %v", err)
	}
}

func TestLimits(t *testing.T) {
	big := data(strings.Repeat("<row/>", 10_000))
	file := oneSheet(big).zip(t)
	tests := []struct {
		name string
		set  func(*limits)
		says string
	}{
		{"entries", func(l *limits) { l.Entries = 4 }, "holds 5 parts"},
		{"part", func(l *limits) { l.Part = 60_000 }, `part "xl/worksheets/sheet1.xml": the part is larger`},
		{"total", func(l *limits) { l.Total = 60_000 }, "the file is larger"},
		{"ratio", func(l *limits) { l.RatioFrom, l.Ratio = 1000, 20 }, "no real sheet"},
		{"small parts", func(l *limits) { l.Small = 100 }, "larger than allowed"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			lim := defaultLimits
			if _, err := inspect(context.Background(), bytes.NewReader(file), int64(len(file)), lim); err != nil {
				t.Fatal(err)
			}
			tt.set(&lim)
			_, err := inspect(context.Background(), bytes.NewReader(file), int64(len(file)), lim)
			if err == nil || !errors.Is(err, opc.ErrLimit) || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("got error %v, want one that says %q", err, tt.says)
			}
		})
	}
	t.Run("merged ranges", func(t *testing.T) {
		lim := defaultLimits
		lim.blocks = 1
		many := oneSheet(wrap(`<sheetData/><mergeCells><mergeCell ref="A1:B1"/><mergeCell ref="A2:B2"/></mergeCells>`)).zip(t)
		info, err := inspect(context.Background(), bytes.NewReader(many), int64(len(many)), lim)
		if err != nil || !errors.Is(info.Sheets[0].Err, opc.ErrLimit) {
			t.Errorf("got %v, %v", info.Sheets, err)
		}
	})
}

// TestOverlappingEntries: entries that share their bytes would make a small
// file into a huge copy.
func TestOverlappingEntries(t *testing.T) {
	file := oneSheet(data(``)).with("a.bin", strings.Repeat("abc", 99)).zip(t)
	// Double the compressed size in the central directory until the sum is
	// larger than the file.
	at := bytes.LastIndex(file, []byte("PK\x01\x02"))
	binary.LittleEndian.PutUint32(file[at+20:], uint32(len(file)))
	out, _, err := apply(t, file, roster())
	wantRefusal(t, out, err, opc.ErrDamaged, "larger than the file")
}

// TestWrongOffset: a part said to begin outside the file.
func TestWrongOffset(t *testing.T) {
	for _, offset := range []uint32{1 << 31, 1<<32 - 2, 7} {
		file := oneSheet(data(``)).zip(t)
		at := bytes.LastIndex(file, []byte("PK\x01\x02"))
		binary.LittleEndian.PutUint32(file[at+42:], offset)
		out, _, err := apply(t, file, roster())
		wantRefusal(t, out, err, opc.ErrDamaged, "not where the file says")
	}
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	file := oneSheet(data(``)).zip(t)
	in := bytes.NewReader(file)
	if _, err := Apply(ctx, in, in.Size(), io.Discard, roster(num(1, 1, 1))); !errors.Is(err, context.Canceled) {
		t.Errorf("Apply: %v", err)
	}
	if _, err := Inspect(ctx, in, in.Size()); !errors.Is(err, context.Canceled) {
		t.Errorf("Inspect: %v", err)
	}
	if err := Verify(ctx, in, in.Size(), in, in.Size(), Edit{}); !errors.Is(err, context.Canceled) {
		t.Errorf("Verify: %v", err)
	}
}

type brokenWriter struct{}

var errDisk = errors.New("disk full")

func (brokenWriter) Write([]byte) (int, error) { return 0, errDisk }

func TestWriterFails(t *testing.T) {
	file := oneSheet(data(``)).zip(t)
	in := bytes.NewReader(file)
	if _, err := Apply(context.Background(), in, in.Size(), brokenWriter{}, roster(num(1, 1, 1))); !errors.Is(err, errDisk) {
		t.Errorf("got %v", err)
	}
}

func TestInspect(t *testing.T) {
	sheet := wrap(`<sheetData><row r="2"><c r="B2"><v>1</v></c><c r="D2" s="1"/></row><row r="9"><c r="A9"/></row></sheetData>` +
		`<autoFilter ref="A2:B7"/>`)
	p := oneSheet(sheet)
	p["xl/worksheets/sheet2.xml"] = wrap(`<sheetData><row><c><f t="array" ref="A1:C3">1</f></c></row></sheetData><mergeCells><mergeCell ref="B5:F6"/></mergeCells>`)
	p["xl/worksheets/sheet3.xml"] = data(`<row r="5"/><row r="4"/>`)
	p["xl/chartsheets/sheet1.xml"] = `<chartsheet/>`
	p["_xmlsignatures/sig1.xml"] = `<Signature/>`
	p["xl/workbook.xml"] = strings.Replace(p["xl/workbook.xml"], "</sheets>",
		`<sheet name="Two" sheetId="2" state="veryHidden" r:id="rId2"/><sheet name="Chart" sheetId="3" r:id="rId3"/><sheet name="Odd" sheetId="4" r:id="rId4"/></sheets>`, 1)
	p["xl/_rels/workbook.xml.rels"] = strings.Replace(p["xl/_rels/workbook.xml.rels"], "</Relationships>",
		`<Relationship Id="rId2" Type="`+relType+`worksheet" Target="worksheets/sheet2.xml"/>`+
			`<Relationship Id="rId3" Type="`+relType+`chartsheet" Target="chartsheets/sheet1.xml"/>`+
			`<Relationship Id="rId4" Type="`+relType+`worksheet" Target="worksheets/sheet3.xml"/></Relationships>`, 1)
	file := p.zip(t)
	info, err := Inspect(context.Background(), bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	if !info.Signed || len(info.Sheets) != 4 {
		t.Fatalf("got %+v", info)
	}
	odd := info.Sheets[3].Err
	if !errors.Is(odd, opc.ErrUnsupported) || !strings.Contains(odd.Error(), `sheet "Odd": row 4 follows row 5`) {
		t.Errorf("odd sheet: %v", odd)
	}
	if chart := info.Sheets[2].Err; !errors.Is(chart, ErrNoSheet) {
		t.Errorf("chart: %v", chart)
	}
	info.Sheets[2].Err, info.Sheets[3].Err = nil, nil
	info.Sheets[0].facts, info.Sheets[1].facts = nil, nil
	want := []SheetInfo{
		{Name: "Roster", FreeCol: 3},
		{Name: "Two", FreeCol: 7},
		{Name: "Chart"},
		{Name: "Odd", FreeCol: 1},
	}
	if !reflect.DeepEqual(info.Sheets, want) {
		t.Errorf("got  %+v\nwant %+v", info.Sheets, want)
	}
	_, report := mustApply(t, file, roster(num(2, 5, 1)))
	if !report.Signed {
		t.Error("the report does not tell of the signature")
	}
}

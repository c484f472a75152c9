package opc

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
)

var roomy = Limits{Entries: 100, Part: 1 << 20, Total: 2 << 20, Tags: 1 << 20, Small: 1 << 20, Ratio: 500, RatioFrom: 1 << 20}

type entry struct{ name, text string }

func zipOf(t testing.TB, entries ...entry) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range entries {
		f, err := w.Create(e.name)
		if err == nil {
			_, err = f.Write([]byte(e.text))
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

func open(t testing.TB, lim Limits, entries ...entry) *Package {
	t.Helper()
	data := zipOf(t, entries...)
	p, err := Open(bytes.NewReader(data), int64(len(data)), lim)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func relsOf(lines string) string {
	return `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` + lines + `</Relationships>`
}

func TestRels(t *testing.T) {
	p := open(t, roomy,
		entry{"xl/Workbook.xml", "<workbook/>"}, entry{`xl\worksheets\s 1.xml`, "<worksheet/>"}, entry{"odd/S.xml", "<worksheet/>"}, entry{"_xmlsignatures/sig1.xml", ""},
		entry{"xl/_rels/workbook.xml.rels", relsOf(`<Relationship Id="a" Type="http://x/y/worksheet" Target="worksheets/s%201.xml"/>` +
			`<Relationship Id="b" Type="worksheet" Target="/Odd/s.xml#A1"/><Relationship Id="c" Type="http://x/styles" Target="..\gone.xml"/>` +
			`<Relationship Id="d" Type="http://x/hyperlink" Target="http://example.invalid/" TargetMode="External"/>` +
			`<Other Id="e"/>`)})
	got, err := p.Rels("XL/workbook.xml")
	want := []Rel{{"a", "worksheet", "xl/worksheets/s 1.xml"}, {"b", "worksheet", "odd/s.xml"}, {"c", "styles", "gone.xml"}}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v, want %v", got, err, want)
	}
	for _, r := range want[:2] {
		if p.Part(r.Target) == nil {
			t.Errorf("no part %s", r.Target)
		}
	}
	if none, err := p.Rels("odd/S.xml"); none != nil || err != nil {
		t.Errorf("a part without relationships: %v, %v", none, err)
	}
	if !p.Signed() || open(t, roomy, entry{"a.xml", ""}).Signed() {
		t.Error("the signature is not told apart from none")
	}
}

func TestRelsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		kind error
	}{
		"broken":          {"<Relationships>", ErrDamaged},
		"nested":          {strings.Repeat("<a>", MaxDepth+1), ErrDamaged},
		"too many":        {relsOf(strings.Repeat(`<Relationship Id="a" Type="t" Target="x"/>`, roomy.Entries+1)), ErrLimit},
		"too large":       {relsOf(strings.Repeat(" ", 1<<20)), ErrLimit},
		"other encoding":  {`<?xml version="1.0" encoding="EBCDIC"?>` + relsOf(""), ErrUnsupported},
		"entity of ours":  {relsOf(`<Relationship Id="&x;"/>`), ErrDamaged},
		"no XML whatever": {"\x00\x01", ErrDamaged},
	} {
		p := open(t, roomy, entry{"_rels/.rels", c.text})
		_, err := p.Rels("")
		var known *Error
		if !errors.Is(err, c.kind) || !errors.As(err, &known) || known.Part != "_rels/.rels" {
			t.Errorf("%s: %v, want %v", name, err, c.kind)
		}
	}
}

// What is read twice counts once against the total.
func TestLimits(t *testing.T) {
	text := strings.Repeat("x", 4000)
	entries := []entry{{"a", text}, {"b", text}}
	for name, c := range map[string]struct {
		change func(*Limits)
		fails  bool
	}{
		"roomy":     {func(*Limits) {}, false},
		"part":      {func(l *Limits) { l.Part = 3999 }, true},
		"just part": {func(l *Limits) { l.Part = 4000 }, false},
		"total":     {func(l *Limits) { l.Total = 7999 }, true},
		"just":      {func(l *Limits) { l.Total = 8000 }, false},
		"ratio":     {func(l *Limits) { l.Ratio, l.RatioFrom = 10, 1000 }, true},
	} {
		lim := roomy
		c.change(&lim)
		p := open(t, lim, entries...)
		err := p.Check(p.Parts...)
		if err == nil {
			err = p.Check(p.Parts...)
		}
		if errors.Is(err, ErrLimit) != c.fails || err != nil && !c.fails {
			t.Errorf("%s: %v", name, err)
		}
	}
	data := zipOf(t, entries...)
	lim := roomy
	lim.Entries = 1
	if _, err := Open(bytes.NewReader(data), int64(len(data)), lim); !errors.Is(err, ErrLimit) {
		t.Errorf("entries: %v", err)
	}
}

// TestLargeParts are unpacked on another processor: read whole, left early, cut
// short by damage.
func TestLargeParts(t *testing.T) {
	var b strings.Builder
	for i := 0; b.Len() < 3*unpackBeside; i++ {
		fmt.Fprintf(&b, "<row r=%q/>", fmt.Sprint(i*i))
	}
	text := b.String()
	lim := roomy
	lim.Part, lim.Total = 4*unpackBeside, 8*unpackBeside
	file := zipOf(t, entry{"a", text})
	p := open(t, lim, entry{"a", text})
	rc, err := p.Open(p.Part("a"))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := io.ReadAll(rc); err != nil || string(got) != text {
		t.Errorf("%d bytes of %d, %v", len(got), len(text), err)
	}
	if err := rc.Close(); err != nil {
		t.Error(err)
	}
	if rc, err = p.Open(p.Part("a")); err != nil {
		t.Fatal(err)
	}
	first := make([]byte, 10)
	if _, err := io.ReadFull(rc, first); err != nil || string(first) != text[:10] {
		t.Errorf("begins with %q, %v", first, err)
	}
	if err := rc.Close(); err != nil {
		t.Error(err)
	}
	file[len(file)/2] ^= 0x40
	p, err = Open(bytes.NewReader(file), int64(len(file)), lim)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Check(p.Part("a")); !errors.Is(err, ErrDamaged) {
		t.Errorf("a damaged part: %v", err)
	}
}

func TestErrorTexts(t *testing.T) {
	e := &Error{Kind: ErrDamaged, Part: "xl/a.xml", Why: "the file is damaged", Do: DoCopy, Cause: errors.New("checksum")}
	if got, want := e.Error(), `part "xl/a.xml": the file is damaged (checksum); ask for a fresh copy of the file`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := e.Plain(), "the file is damaged; ask for a fresh copy of the file"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	e.Sheet, e.Cell = "Class", "K5"
	if got := e.Plain(); !strings.HasPrefix(got, `sheet "Class", cell K5: the file`) {
		t.Error(got)
	}
}

func FuzzPackage(f *testing.F) {
	f.Add(zipOf(f, entry{"_rels/.rels", relsOf(`<Relationship Id="a" Type="t" Target="b.xml"/>`)}, entry{"b.xml", "<b/>"}))
	f.Add(Magic)
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Open(bytes.NewReader(data), int64(len(data)), roomy)
		var known *Error
		if err != nil {
			if !errors.As(err, &known) {
				t.Errorf("%v is no error of this package", err)
			}
			return
		}
		_ = p.Check(p.Parts...)
		for _, part := range p.Parts {
			if _, err := p.Rels(part.Name); err != nil && !errors.As(err, &known) {
				t.Errorf("%v is no error of this package", err)
			}
		}
		if _, err := p.Rels(""); err != nil && !errors.As(err, &known) {
			t.Errorf("%v is no error of this package", err)
		}
	})
}

package styles

import (
	"strings"
	"testing"

	"tenback/workbook/ooxml"
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

func TestXML(t *testing.T) {
	replace := strings.NewReplacer
	const choice = `<mc:AlternateContent xmlns:mc="m"><mc:Choice Requires="x"><xf fontId="2"/></mc:Choice><mc:Fallback><xf fontId="3"/></mc:Fallback></mc:AlternateContent>`
	tests := []struct {
		name   string
		in     string
		base   int
		look   Look
		want   string
		wantXf int
	}{
		{"number format", smallStyles, 0, Look{NumberFormat: `0.0"%"`}, replace(
			`<numFmts count="1">`, `<numFmts count="2">`,
			`</numFmts>`, `<numFmt numFmtId="171" formatCode="0.0&quot;%&quot;"/></numFmts>`,
			`count='2'`, `count='3'`,
			`</cellXfs>`, `<xf numFmtId="171" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>`,
		).Replace(smallStyles), 2},
		{"number format that is there", smallStyles, 0, Look{NumberFormat: `0.0 "min"`}, replace(
			`count='2'`, `count='3'`,
			`</cellXfs>`, `<xf numFmtId="170" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>`,
		).Replace(smallStyles), 2},
		{"built-in number format", smallStyles, 0, Look{NumberFormat: "0%"}, replace(
			`count='2'`, `count='3'`,
			`</cellXfs>`, `<xf numFmtId="9" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>`,
		).Replace(smallStyles), 2},
		{"all fields over a format with children", smallStyles, 1, Look{NumberFormat: "0", Horizontal: "center"}, replace(
			`count='2'`, `count='3'`,
			`</cellXfs>`, `<xf numFmtId='1' fontId="1" fillId="1" borderId="0" applyNumberFormat="1" applyAlignment="1">`+
				`<alignment horizontal="center" indent="2"/><protection locked="0"/></xf></cellXfs>`,
		).Replace(smallStyles), 2},
		{"alignment where there is none", smallStyles, 0, Look{Horizontal: "right"}, replace(
			`count='2'`, `count='3'`,
			`</cellXfs>`, `<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" applyAlignment="1"><alignment horizontal="right"/></xf></cellXfs>`,
		).Replace(smallStyles), 2},
		{"a base that is not there", smallStyles, 99, Look{NumberFormat: "0"}, replace(
			`count='2'`, `count='3'`,
			`</cellXfs>`, `<xf numFmtId="1" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>`,
		).Replace(smallStyles), 2},
		{"a choice between formats",
			`<styleSheet` + xmlnsMain + `><cellXfs>` + choice + `</cellXfs></styleSheet>`, 0, Look{NumberFormat: "0.00"},
			`<styleSheet` + xmlnsMain + `><cellXfs>` + choice + `<xf fontId="3" numFmtId="2" applyNumberFormat="1"/></cellXfs></styleSheet>`, 1},
		{"lists missing, empty or self-closed",
			`<styleSheet` + xmlnsMain + `><fills count="0"/><cellXfs/><dxfs/></styleSheet>`, 0, Look{NumberFormat: "0.0"},
			`<styleSheet` + xmlnsMain + `><numFmts count="1"><numFmt numFmtId="164" formatCode="0.0"/></numFmts>` +
				`<fills count="0"/><cellXfs><xf/><xf numFmtId="164" applyNumberFormat="1"/></cellXfs><dxfs/></styleSheet>`, 1},
		{"prefix",
			`<x:styleSheet xmlns:x="` + ooxml.NSMain + `"><x:fonts><x:font/></x:fonts><x:cellXfs count="1"><x:xf/></x:cellXfs></x:styleSheet>`, 0, Look{NumberFormat: "0.0", Horizontal: "right"},
			`<x:styleSheet xmlns:x="` + ooxml.NSMain + `"><x:numFmts count="1"><x:numFmt numFmtId="164" formatCode="0.0"/></x:numFmts>` +
				`<x:fonts><x:font/></x:fonts><x:cellXfs count="2"><x:xf/>` +
				`<x:xf numFmtId="164" applyNumberFormat="1" applyAlignment="1"><x:alignment horizontal="right"/></x:xf></x:cellXfs></x:styleSheet>`, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, xf := addLook(t, tt.in, tt.base, tt.look)
			if got != tt.want || xf != tt.wantXf {
				t.Errorf("format %d, want %d\ngot  %s\nwant %s", xf, tt.wantXf, got, tt.want)
			}
			if ok, err := Growth.Matches([]byte(tt.in), []byte(got)); err != nil || !ok {
				t.Errorf("Growth.Matches: %v %v", ok, err)
			}
			if again, xf := addLook(t, got, tt.base, tt.look); again != got || xf != tt.wantXf {
				t.Errorf("a second time gave format %d and %s", xf, again)
			}
		})
	}
}

func addLook(t *testing.T, in string, base int, look Look) (string, int) {
	t.Helper()
	ss, err := Read([]byte(in))
	if err != nil {
		t.Fatal(err)
	}
	xf, err := ss.XF(base, look)
	if err != nil {
		t.Fatal(err)
	}
	out, err := ss.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if out == nil {
		return in, xf
	}
	return string(out), xf
}

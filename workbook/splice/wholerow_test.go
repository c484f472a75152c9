package splice

import (
	"strings"
	"testing"
)

// TestRowsPassedOver: rows whose old cells stay as they are come out byte for byte,
// with the new cell where it belongs, whatever stands in them; and what comes out
// is accepted, but not with another byte in it.
func TestRowsPassedOver(t *testing.T) {
	long := strings.Repeat("a long text &amp; more ", 20_000) // longer than what is read at a time
	for _, tt := range []struct{ name, cells, after string }{
		{"short", `<c r="A1"><v>1</v></c>`, ``},
		{"blanks between cells", ` <c r="A1"><v>1</v></c> ` + "\n" + `<c r="B1" s="0"/>`, "\n"},
		{"long", `<c r="A1" t="inlineStr"><is><t>` + long + `</t></is></c><c r="B1"><v>2</v></c>`, ``},
		{"without addresses", `<c><v>1</v></c><c><v>2</v></c>`, ``},
		{"the end of a row in a comment", `<c r="A1"><v>1</v><!-- </row> --></c><c r="B1"><v>2</v></c>`, ``},
		{"the end of a row in a text", `<c r="A1" t="inlineStr"><is><t><![CDATA[</row><row r="9">]]></t></is></c>`, ``},
		{"a formula", `<c r="A1"><f>1+1</f><v>2</v></c>`, ``},
		{"something behind the cells", `<c r="A1"><v>1</v></c>`, `<extLst><ext uri="x"/></extLst>`},
		{"a blank cell far out", `<c r="A1"><v>1</v></c><c r="E1"/>`, ``},
		{"the new column is in the middle", `<c r="A1"><v>1</v></c>`, `<c r="F1"><v>6</v></c>`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			rows := `<row r="1" spans="1:2" ht="20">` + tt.cells + tt.after + `</row><row r="2"/><row r="4" ht="9"><c r="A4"><v>77</v></c></row >`
			orig := oneSheet(data(rows)).zip(t)
			edit := roster(num(1, 5, 3), num(3, 5, 3), num(4, 5, 3))
			out, _ := mustApply(t, orig, edit)
			if err := verify(orig, out, edit); err != nil {
				t.Fatal(err)
			}
			kept := strings.TrimSuffix(tt.cells, `<c r="E1"/>`)
			want := `<row r="1" ht="20">` + kept + `<c r="E1"><v>3</v></c>` + tt.after + `</row>`
			if strings.HasPrefix(tt.after, "\n") {
				want = `<row r="1" ht="20">` + kept + tt.after + `<c r="E1"><v>3</v></c></row>`
			}
			want += `<row r="2"/><row r="3"><c r="E3"><v>3</v></c></row><row r="4" ht="9"><c r="A4"><v>77</v></c><c r="E4"><v>3</v></c></row >`
			good := unzip(t, out)
			sheet := good["xl/worksheets/sheet1.xml"]
			if !strings.Contains(sheet, want) {
				t.Errorf("got %.900s\nwant %.900s", sheet, want)
			}
			for _, change := range [][2]string{{"<v>1</v>", "<v>4</v>"}, {"long", "lone"}, {"<v>2</v>", "<v>3</v>"}, {"<v>77</v>", "<v>78</v>"}, {`<c r="E4">`, `<c r="F4">`}} {
				bad := strings.Replace(sheet, change[0], change[1], 1)
				if bad == sheet {
					continue
				}
				if err := verify(orig, good.with("xl/worksheets/sheet1.xml", bad).zip(t), edit); err == nil {
					t.Errorf("%s in place of %s was not noticed", change[1], change[0])
				}
			}
		})
	}
}

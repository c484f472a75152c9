package splice

import (
	"strings"
	"testing"

	"tenback/workbook/ooxml"
)

// TestNames compares the workbook part, byte by byte, before and after.
func TestNames(t *testing.T) {
	const (
		own     = `<definedName name="_own_1" hidden="1">'Ros''ter &amp; co'!$C$1</definedName>`
		other   = `<definedName name="area" localSheetId="0">'Ros''ter &amp; co'!$A$1:$B$9</definedName>`
		foreign = `<definedName name="_own_1" localSheetId="0">Roster!$B$1</definedName>`
	)
	list := func(names string) string { return "<definedNames>" + names + "</definedNames>" }
	for _, tt := range []struct{ name, in, want string }{
		{"none before", `<calcPr calcId="1"/>`, list(own) + `<calcPr calcId="1"/>`},
		{"behind references", `<externalReferences/><calcPr/>`, `<externalReferences/>` + list(own) + `<calcPr/>`},
		{"an empty list", `<definedNames/><calcPr/>`, list(own) + `<calcPr/>`},
		{"an empty list of two tags", `<definedNames> </definedNames>`, list(own)},
		{"beside another", list(other), list(other + own)},
		{"there already", list(own + other), list(own + other)},
		{"in other letters and quotes", list(`<definedName name="_OWN_1" comment="c">'ros''TER &#38; co'!C1 </definedName>`),
			list(`<definedName name="_OWN_1" comment="c">'ros''TER &#38; co'!C1 </definedName>`)},
		{"the cell was deleted", list(`<definedName name="_own_1" hidden="1">#REF!</definedName>` + other), list(other + own)},
		{"another cell, and nothing else", list(`<definedName name="_own_1">Roster!$C$1</definedName>`), list(own)},
		{"empty", list(`<definedName name="_own_1"/>` + other), list(other + own)},
		{"of a sheet", list(foreign), list(foreign + own)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			book := func(s string) parts {
				p := oneSheet(data(`<row r="1"><c r="A1"><v>1</v></c></row>`))
				p["xl/workbook.xml"] = strings.Replace(strings.Replace(p["xl/workbook.xml"], "</sheets>", "</sheets>"+s, 1), `"Roster"`, `"Ros'ter &amp; co"`, 1)
				return p
			}
			edit := roster(num(1, 3, 3))
			edit.Sheets[0].Name = "Ros'ter & co"
			edit.Names = []Name{{"_own_1", "Ros'ter & co", Address{Row: 1, Col: 3}}}
			orig := book(tt.in).zip(t)
			out, _ := mustApply(t, orig, edit)
			if got, want := unzip(t, out)["xl/workbook.xml"], book(tt.want)["xl/workbook.xml"]; got != want {
				t.Errorf("workbook\ngot  %s\nwant %s", got, want)
			}
			if again, _ := mustApply(t, out, Edit{Names: edit.Names}); unzip(t, again)["xl/workbook.xml"] != unzip(t, out)["xl/workbook.xml"] {
				t.Error("a second time changes the workbook part")
			}
			for what, change := range map[string][2]string{
				"name elsewhere": {"!$C$1<", "!$C$2<"}, "one more": {"</definedNames>", `<definedName name="_own_2">1</definedName></definedNames>`},
				"other lost": {other, ""}, "sheet": {`sheetId="1"`, `sheetId="2"`},
			} {
				bad := unzip(t, out)
				bad["xl/workbook.xml"] = strings.Replace(bad["xl/workbook.xml"], change[0], change[1], 1)
				if bad["xl/workbook.xml"] == unzip(t, out)["xl/workbook.xml"] {
					continue
				}
				if verify(orig, bad.zip(t), edit) == nil {
					t.Errorf("%s: the copy was accepted", what)
				}
			}
		})
	}
}

func TestNamesInAPrefixedWorkbook(t *testing.T) {
	p := oneSheet(data(``))
	p["xl/workbook.xml"] = `<x:workbook xmlns:x="` + ooxml.NSMain + `" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">` +
		`<x:sheets><x:sheet name="Roster" sheetId="1" r:id="rId1"/></x:sheets><x:calcPr/></x:workbook>`
	edit := roster(num(1, 3, 3))
	edit.Names = []Name{{"_own_1", "Roster", Address{Row: 1, Col: 3}}}
	out, _ := mustApply(t, p.zip(t), edit)
	want := `</x:sheets><x:definedNames><x:definedName name="_own_1" hidden="1">'Roster'!$C$1</x:definedName></x:definedNames><x:calcPr/>`
	if got := unzip(t, out)["xl/workbook.xml"]; !strings.Contains(got, want) {
		t.Errorf("workbook %s", got)
	}
}

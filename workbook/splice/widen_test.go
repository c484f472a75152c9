package splice

import (
	"errors"
	"maps"
	"strings"
	"testing"

	"tenback/workbook/ooxml"
)

// inTable is a workbook with a table part on its only sheet.
func inTable(rows, table string) parts {
	return oneSheet(data(rows)).
		with("xl/worksheets/_rels/sheet1.xml.rels", relsHead+`<Relationship Id="rId1" Type="`+relType+`table" Target="/xl/tables/t1.xml"/></Relationships>`).
		with("xl/tables/t1.xml", table)
}

const (
	widenRows  = `<row r="2"><c r="B2"><v>1</v></c></row><row r="3"><c r="B3"><v>1</v></c></row>`
	widenTable = `<x:table xmlns:x="` + ooxml.NSMain + `" id="7" displayName="People" ref="B2:C9" totalsRowCount="1" xr:uid="{1}">` +
		`<x:autoFilter ref="B2:C8"><x:sortState ref="C3:C8"/></x:autoFilter><x:sortState columnSort="0" ref="B3:C8"/>` +
		"\n" + `<x:tableColumns count="2"><x:tableColumn id="4" name="Name"><x:calculatedColumnFormula>1</x:calculatedColumnFormula></x:tableColumn>` +
		`<x:tableColumn id="2" name="Age"/></x:tableColumns><x:tableStyleInfo name="S"/></x:table>`
)

func TestWidenTable(t *testing.T) {
	wide := strings.NewReplacer(`ref="B2:C9"`, `ref="B2:E9"`, `ref="B2:C8"`, `ref="B2:E8"`, `ref="B3:C8"`, `ref="B3:E8"`, `count="2"`, `count="4"`,
		`</x:tableColumns>`, `<x:tableColumn id="5" name="Level &quot;&amp;&lt;_x000a__x005F_x0041_"/><x:tableColumn id="6" name="Two"/></x:tableColumns>`).Replace(widenTable)
	heads := []Cell{txt(2, 4, "Level \"&<\n_x0041_"), txt(2, 5, "Two"), num(3, 4, 1), num(8, 5, 2)}
	at := Address{Row: 3, Col: 2}
	for _, tt := range []struct {
		name  string
		at    Address
		table string
		cells []Cell
		want  string // the table's part; "" if it stays
		says  string
	}{
		{"wider", at, widenTable, heads, wide, ""},
		{"not asked for", Address{}, widenTable, heads, "", ""},
		{"another place", Address{Row: 20, Col: 2}, widenTable, heads, "", ""},
		{"no headers", at, widenTable, heads[2:], "", ""},
		{"a gap before", at, widenTable, []Cell{txt(2, 5, "Two")}, "", "other cells are between them"},
		{"a gap between", at, widenTable, []Cell{txt(2, 4, "One"), txt(2, 6, "Two")}, "", "other cells are between them"},
		{"a number for a header", at, widenTable, []Cell{num(2, 4, 1)}, "", "its headers are in another row"},
		{"a name that is taken", at, widenTable, []Cell{txt(2, 4, "AGE")}, "", `two of its columns would be called "AGE"`},
		{"two of one name", at, widenTable, []Cell{txt(2, 4, "One"), txt(2, 5, "one")}, "", `two of its columns`},
		{"a result in the totals", at, widenTable, []Cell{txt(2, 4, "One"), num(9, 4, 1)}, "", "total row"},
		{"one name twice before", at, strings.Replace(widenTable, `name="Age"`, `name="NAME"`, 1), heads, "", "a name and a number of its own"},
		{"one number twice before", at, strings.Replace(widenTable, `id="2"`, `id="4"`, 1), heads, "", "a name and a number of its own"},
		{"a name that only looks like another", at, strings.Replace(widenTable, `name="Age"`, `name="ſ"`, 1), []Cell{txt(2, 4, "S")}, "", `two of its columns would be called "S"`},
		{"without numbers", at, strings.Replace(strings.Replace(widenTable, `id="2"`, ``, 1), `id="4"`, ``, 1), heads, "", "a name and a number of its own"},
		{"a number beyond all", at, strings.Replace(widenTable, `id="2"`, `id="9223372036854775807"`, 1), heads, "", "a name and a number of its own"},
		{"without a count, and a result below the totals", at, strings.Replace(widenTable, "count=", "n=", 1), []Cell{txt(2, 4, "Level \"&<\n_x0041_"), txt(2, 5, "Two"), num(10, 4, 1)},
			strings.Replace(wide, `count="4"`, `n="2"`, 1), ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			edit := roster(tt.cells...)
			edit.Sheets[0].WidenTable = tt.at
			out, report := mustApply(t, inTable(widenRows, tt.table).zip(t), edit)
			want := tt.want
			if want == "" {
				want = tt.table
			}
			if got := unzip(t, out)["xl/tables/t1.xml"]; got != want {
				t.Errorf("got  %s\nwant %s", got, want)
			}
			if notes := strings.Join(report.Notes, "\n"); !strings.Contains(notes, tt.says) || tt.says == "" && notes != "" {
				t.Errorf("notes %q, want %q", notes, tt.says)
			}
		})
	}
}

// Merged cells at the right end in the table's rows, and a second table below
// whose headers the new columns lack.
func TestWidenTableBesideOthers(t *testing.T) {
	merged := strings.Replace(data(widenRows), `</sheetData>`, `</sheetData><mergeCells><mergeCell ref="E5:F5"/></mergeCells>`, 1)
	edit := roster(txt(2, 4, "One"), txt(2, 5, "Two"))
	edit.Sheets[0].WidenTable = Address{Row: 3, Col: 2}
	out, report := mustApply(t, inTable("", widenTable).with("xl/worksheets/sheet1.xml", merged).zip(t), edit)
	if got := unzip(t, out)["xl/tables/t1.xml"]; got != widenTable || !strings.Contains(strings.Join(report.Notes, ""), "other cells are in its rows") {
		t.Errorf("got %s, notes %q", got, report.Notes)
	}

	below := inTable(widenRows, widenTable).with("xl/tables/t2.xml", strings.NewReplacer("B2:C9", "B12:C19", "B2:C8", "B12:C18", "People", "Others", `id="7"`, `id="8"`).Replace(widenTable))
	below["xl/worksheets/_rels/sheet1.xml.rels"] = strings.Replace(below["xl/worksheets/_rels/sheet1.xml.rels"], "</Relationships>",
		`<Relationship Id="rId2" Type="`+relType+`table" Target="/xl/tables/t2.xml"/></Relationships>`, 1)
	edit = roster(txt(2, 4, "One"), num(14, 4, 1))
	edit.Sheets[0].WidenTable = Address{Row: 3, Col: 2}
	out, report = mustApply(t, below.zip(t), edit)
	if got := unzip(t, out)["xl/tables/t1.xml"]; !strings.Contains(got, `ref="B2:D9"`) || !strings.Contains(strings.Join(report.Notes, ""), `the table "Others" was not widened`) {
		t.Errorf("got %s, notes %q", got, report.Notes)
	}
}

// TestVerifyNoticesTables changes one thing in a good copy at a time.
func TestVerifyNoticesTables(t *testing.T) {
	edit := roster(txt(2, 4, "One"), txt(2, 5, "Two"), num(3, 4, 1))
	edit.Sheets[0].WidenTable = Address{Row: 3, Col: 2}
	orig := inTable(widenRows, widenTable).zip(t)
	out, _ := mustApply(t, orig, edit)
	good := unzip(t, out)
	for _, tt := range []struct{ name, old, new string }{
		{"range too wide", `ref="B2:E9"`, `ref="B2:F9"`},
		{"range of other rows", `ref="B2:E9"`, `ref="B2:E10"`},
		{"filter as it was", `ref="B2:E8"`, `ref="B2:C8"`},
		{"sorting of other rows", `ref="B3:E8"`, `ref="B2:E8"`},
		{"sorting of one column", `ref="C3:C8"`, `ref="C3:E8"`},
		{"count", `count="4"`, `count="3"`},
		{"a name", `name="One"`, `name="One "`},
		{"an old name", `name="Age"`, `name="Ages"`},
		{"an old number", `id="2"`, `id="3"`},
		{"a number twice", `id="6"`, `id="2"`},
		{"a column lost", `<x:tableColumn id="6" name="Two"/>`, ``},
		{"a column more", `<x:tableColumn id="6" name="Two"/>`, `<x:tableColumn id="6" name="Two"/><x:tableColumn id="7" name="Three"/>`},
		{"the order", `<x:tableColumn id="5" name="One"/><x:tableColumn id="6" name="Two"/>`, `<x:tableColumn id="6" name="Two"/><x:tableColumn id="5" name="One"/>`},
		{"another table", `displayName="People"`, `displayName="Peoples"`},
		{"the look", `name="S"`, `name="T"`},
		{"blanks", "\n", " "},
		{"not readable", `</x:table>`, ``},
	} {
		t.Run(tt.name, func(t *testing.T) {
			bad := maps.Clone(good)
			bad["xl/tables/t1.xml"] = strings.Replace(good["xl/tables/t1.xml"], tt.old, tt.new, 1)
			if bad["xl/tables/t1.xml"] == good["xl/tables/t1.xml"] {
				t.Fatalf("nothing to change in %s", good["xl/tables/t1.xml"])
			}
			if err := verify(orig, bad.zip(t), edit); !errors.Is(err, ErrChanged) {
				t.Errorf("got error %v", err)
			}
		})
	}
	edit.Sheets[0].WidenTable = Address{}
	if err := verify(orig, good.zip(t), edit); !errors.Is(err, ErrChanged) {
		t.Errorf("a table that was not asked for: %v", err)
	}
}

package splice

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

const by = "tenback"

// boxType is that element in a drawing that knows the usual prefixes.
const boxType = "<v:shapetype" + boxTypeRest

// marked asks for comments on the sheet that oneSheet makes.
func marked(comments ...Comment) Edit {
	edit := roster()
	edit.Sheets[0].CommentAuthor, edit.Sheets[0].Comments = by, comments
	return edit
}

const (
	sheetPart = "xl/worksheets/sheet1.xml"
	sheetRels = "xl/worksheets/_rels/sheet1.xml.rels"
	newNotes  = "xl/comments1.xml"
	newBoxes  = "xl/drawings/vmlDrawing1.vml"
	types     = "[Content_Types].xml"
)

// theirComments is a sheet with comments by someone else at B2 and C3, in the
// form in which spreadsheet programs write them, and a picture.
func theirComments() parts {
	p := oneSheet(`<worksheet xmlns="` + nsMain + `" xmlns:r="` + nsRelations + `"><sheetData><row r="2"><c r="B2"><v>7</v></c></row></sheetData>` +
		`<pageMargins left="1"/><drawing r:id="rId1"/><legacyDrawing r:id="rId2"/><tableParts count="0"/></worksheet>`)
	p[sheetRels] = `<?xml version="1.0"?>` + "\r\n" + relsHead + `<Relationship Id="rId1" Type="` + relType + `drawing" Target="../drawings/drawing1.xml"/>` +
		`<Relationship Id="rId2" Type="` + relType + `vmlDrawing" Target="../drawings/boxes.vml"/>` +
		`<Relationship Id="rId3" Type="` + relType + `comments" Target="/xl/notes.xml"/></Relationships>`
	p["xl/drawings/drawing1.xml"] = `<wsDr/>`
	p["xl/notes.xml"] = `<?xml version="1.0"?>` + "\r\n" + `<comments xmlns="` + nsMain + `"><authors><author>A. Teacher</author></authors>` +
		`<commentList><comment ref="B2" authorId="0"><text><r><rPr><b/></rPr><t>A. Teacher:</t></r><r><t xml:space="preserve">` + "\n" + `ran twice</t></r></text></comment>` + "\n" +
		`<comment ref="C3" authorId="0"><text><t>left early</t></text></comment></commentList></comments>`
	box := func(n, row, col int) string {
		return fmt.Sprintf("<v:shape id=\"_x0000_s%d\" type=\"#_x0000_t202\" style='visibility:hidden'>\r\n <x:ClientData ObjectType=\"Note\">\r\n  <x:Row>%d</x:Row>\r\n  <x:Column>\r\n%d</x:Column></x:ClientData></v:shape>", n, row, col)
	}
	p["xl/drawings/boxes.vml"] = "<xml xmlns:v=\"urn:schemas-microsoft-com:vml\"\r\n xmlns:o=\"urn:schemas-microsoft-com:office:office\"\r\n xmlns:x=\"urn:schemas-microsoft-com:office:excel\">\r\n" +
		` <o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="3"/></o:shapelayout>` + boxType + box(3073, 1, 1) + box(3074, 2, 2) + `</xml>`
	return p
}

// comment is how a comment of ours stands in a part.
func comment(ref, text string) string {
	return fmt.Sprintf(`<comment ref="%s" authorId="0">%s</comment>`, ref, commentText("", signed(by, text)))
}

func TestCommentsOnASheetWithout(t *testing.T) {
	file := oneSheet(wrap(`<sheetData/>`)).zip(t)
	out, report := mustApply(t, file, marked(Comment{3, 2, "11.3 may be 11:30 or 11:18"}, Comment{1, 5, "a & b"}))
	before, after := unzip(t, file), unzip(t, out)
	want := maps.Clone(before)
	want[sheetPart] = wrap(`<sheetData/><legacyDrawing xmlns:r="` + nsRelations + `" r:id="rIdCommentBoxes1"/>`)
	want[sheetRels] = strings.Replace(newRelationships, "</", `<Relationship Id="rIdComments1" Type="`+relType+`comments" Target="../comments1.xml"/>`+
		`<Relationship Id="rIdCommentBoxes1" Type="`+relType+`vmlDrawing" Target="../drawings/vmlDrawing1.vml"/></`, 1)
	want[types] = strings.Replace(before[types], "</Types>", `<Override PartName="/xl/comments1.xml" ContentType="`+typeComments+`"/>`+
		`<Default Extension="vml" ContentType="`+typeVML+`"/></Types>`, 1)
	want[newNotes] = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" + `<comments xmlns="` + nsMain + `"><authors><author>tenback</author></authors><commentList>` +
		comment("E1", "a & b") + comment("B3", "11.3 may be 11:30 or 11:18") + `</commentList></comments>`
	want[newBoxes] = after[newBoxes] // looked at below
	for _, name := range slices.Sorted(maps.Keys(after)) {
		if after[name] != want[name] {
			t.Errorf("part %s\ngot  %s\nwant %s", name, after[name], want[name])
		}
	}
	v, err := readVML([]byte(after[newBoxes]), 100)
	if err != nil {
		t.Fatal(err)
	}
	var cells []Address
	for _, item := range v.items {
		if item.note {
			cells = append(cells, item.cell)
		}
	}
	if !slices.Equal(cells, []Address{{Row: 1, Col: 5}, {Row: 3, Col: 2}}) || !v.hasType || !slices.Equal(v.blocks, []int{1}) || !v.numbers[1025] || !v.numbers[1026] {
		t.Errorf("boxes %s", after[newBoxes])
	}
	if len(after) != len(before)+3 || report.Sheets[0].Comments != 2 || report.Notes != nil {
		t.Errorf("%d parts, report %+v", len(after), report)
	}
}

// TestLegacyPlace: the drawing of the comments is named where the order of a
// sheet's elements wants it.
func TestLegacyPlace(t *testing.T) {
	const (
		r    = ` xmlns:r="` + nsRelations + `"`
		here = `<legacyDrawing r:id="rIdCommentBoxes1"/>`
		root = `<worksheet xmlns="` + nsMain + `"` + r + `>`
		mc   = `<mc:AlternateContent xmlns:mc="` + nsAlternatives + `"><mc:Choice Requires="x14">`
		endm = `</mc:Choice></mc:AlternateContent>`
	)
	tests := []struct{ name, in, want string }{
		{"last", root + `<sheetData/>` + "\n" + `</worksheet>`, root + `<sheetData/>` + "\n" + here + `</worksheet>`},
		{"after margins and drawing", root + `<sheetData/><pageMargins left="1"/><drawing r:id="a"/></worksheet>`,
			root + `<sheetData/><pageMargins left="1"/><drawing r:id="a"/>` + here + `</worksheet>`},
		{"before header pictures, tables and extensions", root + `<sheetData/><drawing r:id="a"/> <legacyDrawingHF r:id="b"/><tableParts/><extLst><ext/></extLst></worksheet>`,
			root + `<sheetData/><drawing r:id="a"/> ` + here + `<legacyDrawingHF r:id="b"/><tableParts/><extLst><ext/></extLst></worksheet>`},
		{"before alternatives of controls", root + `<sheetData/>` + mc + `<controls><control/></controls>` + endm + `<tableParts/></worksheet>`,
			root + `<sheetData/>` + here + mc + `<controls><control/></controls>` + endm + `<tableParts/></worksheet>`},
		{"after alternatives of a drawing", root + `<sheetData/>` + mc + `<drawing r:id="a"/>` + endm + `<extLst/></worksheet>`,
			root + `<sheetData/>` + mc + `<drawing r:id="a"/>` + endm + here + `<extLst/></worksheet>`},
		{"another prefix for relationships", `<worksheet xmlns="` + nsMain + `" xmlns:rel="` + nsRelations + `"><sheetData/></worksheet>`,
			`<worksheet xmlns="` + nsMain + `" xmlns:rel="` + nsRelations + `"><sheetData/><legacyDrawing rel:id="rIdCommentBoxes1"/></worksheet>`},
		{"a prefix for everything", `<x:worksheet xmlns:x="` + nsMain + `"` + r + `><x:sheetData/><x:extLst/></x:worksheet>`,
			`<x:worksheet xmlns:x="` + nsMain + `"` + r + `><x:sheetData/><x:legacyDrawing r:id="rIdCommentBoxes1"/><x:extLst/></x:worksheet>`},
		{"strict", `<worksheet xmlns="` + nsStrict + `" xmlns:r="` + nsRelationsStrict + `"><sheetData/></worksheet>`,
			`<worksheet xmlns="` + nsStrict + `" xmlns:r="` + nsRelationsStrict + `"><sheetData/>` +
				`<mc:AlternateContent xmlns:mc="` + nsAlternatives + `"><mc:Choice xmlns:v="` + nsVML + `" Requires="v">` + here + endm + `</worksheet>`},
		{"strict without a prefix for relationships", `<worksheet xmlns="` + nsStrict + `"><sheetData/></worksheet>`,
			`<worksheet xmlns="` + nsStrict + `"><sheetData/><mc:AlternateContent xmlns:mc="` + nsAlternatives + `"><mc:Choice xmlns:v="` + nsVML + `" Requires="v">` +
				`<legacyDrawing xmlns:r="` + nsRelationsStrict + `" r:id="rIdCommentBoxes1"/>` + endm + `</worksheet>`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			file := oneSheet(tt.in).zip(t)
			edit := marked(Comment{2, 2, "x"})
			edit.Sheets[0].Widths = map[int]float64{4: 9}
			withWidth := strings.Replace(tt.want, "<sheetData/>", `<cols><col min="4" max="4" width="9" customWidth="1"/></cols><sheetData/>`, 1)
			withWidth = strings.Replace(withWidth, "<x:sheetData/>", `<x:cols><x:col min="4" max="4" width="9" customWidth="1"/></x:cols><x:sheetData/>`, 1)
			out, _ := mustApply(t, file, edit)
			after := unzip(t, out)
			if got := after[sheetPart]; got != withWidth {
				t.Errorf("got  %s\nwant %s", got, withWidth)
			}
			strict := strings.Contains(tt.in, nsStrict)
			if strict != strings.Contains(after[newNotes], nsStrict) || strict != strings.Contains(after[sheetRels], nsRelationsStrict+"/comments") {
				t.Errorf("namespaces: %s, %s", after[newNotes], after[sheetRels])
			}
			twice, _ := mustApply(t, out, edit)
			if !maps.Equal(unzip(t, twice), after) {
				t.Error("a second run changed something")
			}
		})
	}
}

// TestCommentsBesideOthers: those of other people keep every byte.
func TestCommentsBesideOthers(t *testing.T) {
	const author = `<author>A. Teacher</author>`
	p := theirComments()
	out, report := mustApply(t, p.zip(t), marked(Comment{4, 1, "no time"}, Comment{2, 2, "taken"}))
	after := unzip(t, out)
	want := strings.Replace(p["xl/notes.xml"], author, author+`<author>tenback</author>`, 1)
	want = strings.Replace(want, `</commentList>`, strings.Replace(comment("A4", "no time"), `"0"`, `"1"`, 1)+`</commentList>`, 1)
	if got := after["xl/notes.xml"]; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	boxes, old := after["xl/drawings/boxes.vml"], strings.TrimSuffix(p["xl/drawings/boxes.vml"], "</xml>")
	if !strings.HasPrefix(boxes, old+`<v:shape id="_x0000_s3075"`) || strings.Count(boxes, "<v:shape ") != 3 {
		t.Errorf("boxes %s", boxes)
	}
	for name := range p {
		if name != "xl/notes.xml" && name != "xl/drawings/boxes.vml" && after[name] != p[name] {
			t.Errorf("part %s changed to %s", name, after[name])
		}
	}
	if len(after) != len(p) || report.Sheets[0].Comments != 1 || len(report.Notes) != 1 || !strings.Contains(report.Notes[0], "B2 already had a comment") {
		t.Errorf("report %+v", report)
	}
	// The next run has another opinion of A4 and one of D9, then none.
	again := marked(Comment{4, 1, "no time\nType: 11:30"}, Comment{9, 4, "new"})
	twice, _ := mustApply(t, out, again)
	now := unzip(t, twice)
	if c := commentsOf(t, now["xl/notes.xml"]); len(c) != 4 || c["A4"] != signed(by, "no time\nType: 11:30") || c["D9"] == "" || c["B2"] != "A. Teacher:\nran twice" {
		t.Errorf("comments %q", c)
	}
	if n := strings.Count(now["xl/drawings/boxes.vml"], "<v:shape "); n != 4 {
		t.Errorf("%d boxes", n)
	}
	thrice, _ := mustApply(t, twice, marked())
	now = unzip(t, thrice)
	if got, want := now["xl/notes.xml"], strings.Replace(p["xl/notes.xml"], author, author+`<author>tenback</author>`, 1); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := now["xl/drawings/boxes.vml"]; got != p["xl/drawings/boxes.vml"] {
		t.Errorf("boxes %s", got)
	}
}

// TestCommentLists: additions to lists however they are written.
func TestCommentLists(t *testing.T) {
	item := func(prefix string, author int) string {
		return fmt.Sprintf(`<%scomment ref="A4" authorId="%d">%s</%scomment>`, prefix, author, commentText(prefix, signed(by, "x")), prefix)
	}
	head, p := `<comments xmlns="`+nsMain+`">`, `<p:comments xmlns:p="`+nsMain+`">`
	tests := []struct{ name, in, want string }{
		{"closed by themselves", head + `<authors/><commentList /></comments>`,
			head + `<authors><author>tenback</author></authors><commentList >` + item("", 0) + `</commentList></comments>`},
		{"author known", head + `<authors><author/><author>tenback</author></authors><commentList></commentList></comments>`,
			head + `<authors><author/><author>tenback</author></authors><commentList>` + item("", 1) + `</commentList></comments>`},
		{"prefix, mark and blanks", "\xEF\xBB\xBF" + p + "\n <p:authors>\n <p:author>A</p:author>\n </p:authors>\n <p:commentList>\n </p:commentList>\n<p:extLst/></p:comments>",
			"\xEF\xBB\xBF" + p + "\n <p:authors>\n <p:author>A</p:author>\n <p:author>tenback</p:author></p:authors>\n <p:commentList>\n " + item("p:", 1) + "</p:commentList>\n<p:extLst/></p:comments>"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := theirComments().with("xl/notes.xml", tt.in)
			p["xl/drawings/boxes.vml"] = vmlHead + "</xml>"
			edit := marked(Comment{4, 1, "x"})
			out, report := mustApply(t, p.zip(t), edit)
			if got := unzip(t, out)["xl/notes.xml"]; got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
			twice, again := mustApply(t, out, edit)
			if !maps.Equal(unzip(t, out), unzip(t, twice)) || report.Notes != nil || again.Notes != nil || again.Sheets[0].Comments != 1 {
				t.Errorf("reports %+v and %+v", report, again)
			}
		})
	}
}

// commentsOf gives the texts of a part by cell.
func commentsOf(t *testing.T, part string) map[string]string {
	t.Helper()
	p, err := readCommentPart([]byte(part), 1000)
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, c := range p.items {
		texts[c.cell.String()] = c.text
	}
	return texts
}

// TestCommentsThatStay: a comment of ours that is not ours any more, or never
// was.
func TestCommentsThatStay(t *testing.T) {
	file := oneSheet(wrap(`<sheetData/>`)).zip(t)
	out, _ := mustApply(t, file, marked(Comment{2, 2, "old text"}))
	made := unzip(t, out)
	tests := []struct {
		name   string
		change func(parts)
		says   string // in a note; "" for none
		stays  bool
	}{
		{"nothing", func(parts) {}, "", false},
		{"words behind", replaceIn(newNotes, ")</t>", ")\nmy own words</t>"), "B2 had a comment that someone has changed", true},
		{"words within", replaceIn(newNotes, "old text", "old text, asked him"), "B2 had a comment that someone has changed", true},
		{"words in a run of their own", replaceIn(newNotes, "</r></text>", "</r><r><t> mine</t></r></text>"), "someone has changed", true},
		{"all words replaced", replaceIn(newNotes, signed(by, "old text"), "mine"), "B2 already had a comment", true},
		{"saved with line ends of another system", replaceIn(newNotes, "old text\n", "old text\r\n"), "", false},
		{"saved with escapes", replaceIn(newNotes, "old text\n", "old text_x000a_"), "", false},
		{"saved in several runs", replaceIn(newNotes, "old text\n", `old text</t></r><r><t xml:space="preserve">`+"\n"), "", false},
		{"saved with blanks between the elements", func(p parts) {
			p[newNotes] = strings.ReplaceAll(strings.ReplaceAll(p[newNotes], "<r", "\n  <r"), "<text", "\n <text")
		}, "", false},
		{"with a reading aid", replaceIn(newNotes, "</r></text>", `</r><rPh sb="0" eb="1"><t>x</t></rPh></text>`), "", false},
		{"saved without its author", replaceIn(newNotes, "<author>tenback</author>", "<author> </author>"), "", false},
		{"saved with an author that is not listed", replaceIn(newNotes, `authorId="0"`, `authorId="8"`), "", false},
		{"by another author", replaceIn(newNotes, signed(by, "old text"), signed("other", "old text")), "B2 already", true},
		{"the box lost", func(p parts) {
			from := strings.Index(p[newBoxes], "<v:shape ")
			p[newBoxes] = p[newBoxes][:from] + "</xml>"
		}, "", false},
		{"a conversation", func(p parts) {
			p[sheetRels] = strings.Replace(p[sheetRels], "</Rel", `<Relationship Id="t" Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" Target="../t.xml"/></Rel`, 1)
			p["xl/t.xml"] = `<ThreadedComments><threadedComment ref="B2"/></ThreadedComments>`
		}, "B2 already", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := maps.Clone(made)
			tt.change(p)
			was := p[newNotes]
			if tt.name != "nothing" && maps.Equal(p, made) {
				t.Fatal("nothing was changed")
			}
			out, report := mustApply(t, p.zip(t), marked(Comment{2, 2, "new text"}))
			got := unzip(t, out)
			if tt.says == "" && report.Notes != nil || !strings.Contains(strings.Join(report.Notes, "; "), tt.says) {
				t.Errorf("notes %q", report.Notes)
			}
			if stayed := got[newNotes] == was; stayed != tt.stays {
				t.Errorf("the comments are %s", got[newNotes])
			}
			if !tt.stays && commentsOf(t, got[newNotes])["B2"] != signed(by, "new text") {
				t.Errorf("the comments are %s", got[newNotes])
			}
			if n := strings.Count(got[newBoxes], "<v:shape "); n != 1 {
				t.Errorf("%d boxes", n)
			}
			gone, _ := mustApply(t, p.zip(t), marked())
			if stayed := unzip(t, gone)[newNotes] == was; stayed != tt.stays {
				t.Errorf("without comments asked for they are %s", unzip(t, gone)[newNotes])
			}
		})
	}
}

func replaceIn(part, old, new string) func(parts) {
	return func(p parts) { p[part] = strings.Replace(p[part], old, new, 1) }
}

// TestOddComments: what has no usual form is left as it is and noted, and the
// cells are written all the same.
func TestOddComments(t *testing.T) {
	const boxes, notes = "xl/drawings/boxes.vml", "xl/notes.xml"
	tests := []struct {
		name   string
		change func(parts)
		says   string
	}{
		{"no drawing", replaceIn(sheetPart, `<legacyDrawing r:id="rId2"/>`, ""), "the drawing of the comments is missing"},
		{"drawing that is not there", func(p parts) { delete(p, boxes) }, "the drawing of the comments is missing"},
		{"list that is not there", func(p parts) { delete(p, notes) }, "missing or comes twice"},
		{"two lists", replaceIn(sheetRels, "</Rel", `<Relationship Id="c" Type="`+relType+`comments" Target="../drawings/boxes.vml"/></Rel`), "missing or comes twice"},
		{"drawing named twice", replaceIn(sheetPart, "<tableParts", `<legacyDrawing r:id="rId2"/><tableParts`), "out of order"},
		{"sections out of order", replaceIn(sheetPart, "<pageMargins", "<extLst/><pageMargins"), "out of order"},
		{"drawing is no well-formed XML", replaceIn(boxes, "</xml>", "<br></xml>"), "tags do not match"},
		{"drawing with another root", func(p parts) {
			p[boxes] = strings.ReplaceAll(p[boxes], "xml>", "xmm>")
			p[boxes] = "<xmm" + p[boxes][4:]
		}, "unusual form"},
		{"empty drawing", func(p parts) {
			p[boxes] = `<xml xmlns:v="` + nsVML + `" xmlns:o="` + nsOffice + `" xmlns:x="` + nsExcel + `"/>`
		}, "empty"},
		{"box without a cell", replaceIn(boxes, "<x:Row>1</x:Row>", ""), "no cell"},
		{"list is something else", func(p parts) { p[notes] = `<other xmlns="` + nsMain + `"/>` }, "unusual form"},
		{"list of another namespace", replaceIn(notes, nsMain, "urn:x"), "namespace"},
		{"list without authors", replaceIn(notes, "<authors><author>A. Teacher</author></authors>", ""), "unusual form"},
		{"two lists of comments", replaceIn(notes, "</commentList>", "</commentList><commentList/>"), "twice"},
		{"something else among the comments", replaceIn(notes, "<commentList>", "<commentList><extra/>"), "something other"},
		{"comment without a cell", replaceIn(notes, `ref="C3"`, `ref="?"`), `the cell "?"`},
		{"comment of several cells", replaceIn(notes, `ref="C3"`, `ref="C3:D3"`), `the cell "C3:D3"`},
		{"comment with two texts", replaceIn(notes, "<text><t>", "<text/><text><t>"), "two texts"},
		{"CDATA", replaceIn(notes, "left early", "<![CDATA[left early]]>"), "unusual form"},
		{"document type", replaceIn(notes, "<comments", "<!DOCTYPE a><comments"), "document type"},
		{"list shared by two sheets", func(p parts) {
			p["xl/workbook.xml"] = strings.Replace(p["xl/workbook.xml"], "</sheets>", `<sheet name="Two" sheetId="2" r:id="rId2"/></sheets>`, 1)
			p["xl/_rels/workbook.xml.rels"] = strings.Replace(p["xl/_rels/workbook.xml.rels"], "</Rel", `<Relationship Id="rId2" Type="`+relType+`worksheet" Target="worksheets/two.xml"/></Rel`, 1)
			p["xl/worksheets/two.xml"], p["xl/worksheets/_rels/two.xml.rels"] = p[sheetPart], p[sheetRels]
		}, "two sheets share"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := theirComments()
			tt.change(p)
			if maps.Equal(p, theirComments()) {
				t.Fatal("nothing was changed")
			}
			edit := marked(Comment{4, 1, "no time"})
			edit.Sheets[0].Cells = slices.Values([]Cell{num(4, 5, 1)})
			out, report := mustApply(t, p.zip(t), edit)
			if len(report.Notes) != 1 || !strings.Contains(report.Notes[0], "no comments were written or changed, for ") || !strings.Contains(report.Notes[0], tt.says) {
				t.Errorf("notes %q", report.Notes)
			}
			after := unzip(t, out)
			if !strings.Contains(after[sheetPart], `<c r="E4">`) || report.Sheets[0].Comments != 0 {
				t.Errorf("the sheet is %s", after[sheetPart])
			}
			delete(after, sheetPart)
			delete(p, sheetPart)
			if !maps.Equal(after, p) {
				t.Error("another part changed")
			}
		})
	}
}

// TestCommentParts: however the lists that name parts are written, the new
// parts find a place in them.
func TestCommentParts(t *testing.T) {
	closed := `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"/>`
	form := `<Relationship Id="f" Type="` + relType + `vmlDrawing" Target="../drawings/form.vml"/>`
	tests := []struct {
		name   string
		change func(parts)
		want   map[string]string // what a part holds
	}{
		{"relationships that close themselves", func(p parts) { p[sheetRels] = closed + "\n" },
			map[string]string{sheetRels: closed[:len(closed)-2] + `><Relationship Id="rIdComments1"`, newNotes: "B2"}},
		{"prefix in both lists", func(p parts) {
			p[sheetRels] = `<p:Relationships xmlns:p="urn:p"></p:Relationships>`
			p[types] = strings.NewReplacer("<Types xmlns=", "<y:Types xmlns:y=", "<D", "<y:D", "<O", "<y:O", "</T", "</y:T").Replace(p[types])
		}, map[string]string{sheetRels: `<p:Relationship Id="rIdComments1"`, types: `<y:Default Extension="vml"`}},
		{"names and identifiers taken", func(p parts) {
			p["XL/Comments1.xml"], p["xl/drawings/vmldrawing1.vml"] = "x", `<xml><o:idmap v:ext="edit" data="2,5"/></xml>`
			p[sheetRels] = relsHead + `<Relationship Id="rIdComments1" Type="` + relType + `hyperlink" Target="x" TargetMode="External"/></Relationships>`
		}, map[string]string{sheetRels: `Id="rIdComments2"`, "xl/comments2.xml": "B2", "xl/drawings/vmlDrawing2.vml": `data="6"`}},
		{"type of drawings known", replaceIn(types, "<Default", `<Default Extension="VML" ContentType="`+typeVML+`"/><Default`),
			map[string]string{types: `comments+xml"/></Types>`}},
		{"another type for drawings", replaceIn(types, "<Default", `<Default Extension="vml" ContentType="text/xml"/><Default`),
			map[string]string{types: `<Override PartName="/xl/drawings/vmlDrawing1.vml" ContentType="` + typeVML + `"/></Types>`}},
		{"a drawing of form controls and no comments", func(p parts) {
			p[sheetPart] = `<worksheet xmlns="` + nsMain + `" xmlns:r="` + nsRelations + `"><sheetData/><legacyDrawing r:id="f"/></worksheet>`
			p[sheetRels] = relsHead + form + `</Relationships>`
			p["xl/drawings/form.vml"] = vmlHead + `<v:shape id="_x0000_s1025"><x:ClientData ObjectType="Button"/></v:shape></xml>`
		}, map[string]string{"xl/drawings/form.vml": `ObjectType="Button"/></v:shape>` + boxType + `<v:shape id="_x0000_s1026"`, newNotes: "B2"}},
		{"a drawing with prefixes of its own", func(p parts) {
			p[sheetPart] = `<worksheet xmlns="` + nsMain + `" xmlns:r="` + nsRelations + `"><sheetData/><legacyDrawing r:id="f"/></worksheet>`
			p[sheetRels] = relsHead + form + `</Relationships>`
			p["xl/drawings/form.vml"] = `<xml xmlns="urn:a" xmlns:o="` + nsOffice + `"><a:shape xmlns:a="` + nsVML + `"/></xml>`
		}, map[string]string{"xl/drawings/form.vml": `<a:shape xmlns:a="` + nsVML + `"/><v:shapetype xmlns:v="` + nsVML + `" xmlns:x="` + nsExcel + `" xmlns="" id=`}},
		{"drawing of page headers only", func(p parts) {
			p[sheetPart] = `<worksheet xmlns="` + nsMain + `" xmlns:r="` + nsRelations + `"><sheetData/><legacyDrawingHF r:id="f"/></worksheet>`
			p[sheetRels] = relsHead + form + `</Relationships>`
			p["xl/drawings/form.vml"] = vmlHead + `</xml>`
		}, map[string]string{sheetPart: `<legacyDrawing r:id="rIdCommentBoxes1"/><legacyDrawingHF`, "xl/drawings/form.vml": vmlHead + `</xml>`}},
		{"a sheet in another folder", func(p parts) {
			p["odd place/s.xml"] = p[sheetPart]
			delete(p, sheetPart)
			p["xl/_rels/workbook.xml.rels"] = relsHead + `<Relationship Id="rId1" Type="` + relType + `worksheet" Target="../odd%20place/s.xml"/></Relationships>`
		}, map[string]string{"odd place/_rels/s.xml.rels": `Target="../xl/drawings/vmlDrawing1.vml"`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := oneSheet(wrap(`<sheetData/>`))
			tt.change(p)
			edit := marked(Comment{2, 2, "x"})
			out, report := mustApply(t, p.zip(t), edit)
			after := unzip(t, out)
			for part, holds := range tt.want {
				if !strings.Contains(after[part], holds) {
					t.Errorf("part %s is %s, which lacks %s", part, after[part], holds)
				}
			}
			if report.Sheets[0].Comments != 1 || report.Notes != nil {
				t.Errorf("report %+v", report)
			}
			twice, _ := mustApply(t, out, edit)
			if !maps.Equal(unzip(t, twice), after) {
				t.Error("a second run changed something")
			}
		})
	}
}

// TestCommentsWithNewStyles: two new parts of the workbook get into one list.
func TestCommentsWithNewStyles(t *testing.T) {
	edit := marked(Comment{2, 2, "x"})
	edit.Styles = []Style{{Bold: true}}
	edit.Sheets[0].Cells = slices.Values([]Cell{{Row: 1, Col: 1, Style: 1}})
	out, _ := mustApply(t, oneSheet(wrap(`<sheetData/>`)).zip(t), edit)
	after := unzip(t, out)
	if s := after[types]; !strings.Contains(s, "/xl/styles.xml") || !strings.Contains(s, "/xl/comments1.xml") || !strings.Contains(s, `"vml"`) {
		t.Errorf("types %s", s)
	}
}

// TestCommentTexts: whatever a text holds, it reads back, is known again as
// ours, and stays when nothing changes.
func TestCommentTexts(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"empty", "", ""},
		{"markup", `<b> & "quotes" ]]>`, `<b> & "quotes" ]]>`},
		{"looks like an escape", "_x000D_ _x0041_", "_x000D_ _x0041_"},
		{"what XML cannot hold", "a\x00b\x1f\uFFFE\xFFc", "a\uFFFDb\uFFFD\uFFFD\uFFFDc"},
		{"line ends", "a\r\nb\rc\n\n", "a\nb\nc\n\n"},
		{"tab and blanks", "\ta  b ", "\ta  b "},
		{"a formula", "=1+1", "=1+1"},
		{"other scripts", "время 分′秒″ 😀", "время 分′秒″ 😀"},
		{"long", strings.Repeat("é", MaxText-100), strings.Repeat("é", MaxText-100)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := marked(Comment{2, 2, tt.text})
			out, _ := mustApply(t, oneSheet(wrap(`<sheetData/>`)).zip(t), edit)
			if got := commentsOf(t, unzip(t, out)[newNotes])["B2"]; got != signed(by, tt.want) {
				t.Errorf("got %q", got)
			}
			twice, report := mustApply(t, out, edit)
			if !maps.Equal(unzip(t, out), unzip(t, twice)) || report.Notes != nil {
				t.Errorf("the second run: %q", report.Notes)
			}
			none, _ := mustApply(t, twice, marked())
			if c := commentsOf(t, unzip(t, none)[newNotes]); len(c) != 0 {
				t.Errorf("left: %q", c)
			}
		})
	}
}

func TestCommentsRefused(t *testing.T) {
	tests := []struct {
		name     string
		author   string
		comments []Comment
		says     string
	}{
		{"no author", "", []Comment{{1, 1, "x"}}, "need an author"},
		{"author with a line break", "a\nb", nil, "cannot be called"},
		{"author that cannot be stored", "a\x01", nil, "cannot be called"},
		{"outside the sheet", by, []Comment{{1, MaxCol + 1, "x"}}, "outside the sheet"},
		{"no such row", by, []Comment{{0, 1, "x"}}, "outside the sheet"},
		{"twice", by, []Comment{{1, 1, "x"}, {1, 1, "y"}}, "cell A1 gets two"},
		{"too long", by, []Comment{{1, 1, strings.Repeat("x", MaxText)}}, "longer than"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edit := marked(tt.comments...)
			edit.Sheets[0].CommentAuthor = tt.author
			out, _, err := apply(oneSheet(wrap(`<sheetData/>`)).zip(t), edit)
			wantRefusal(t, out, err, ErrRequest, tt.says)
		})
	}
}

// TestManyComments: the first of too many are written, and shapes get numbers
// of several blocks, no number twice.
func TestManyComments(t *testing.T) {
	var comments []Comment
	for i := range MaxComments + 3 {
		comments = append(comments, Comment{MaxRow - i, 1 + i%MaxCol, "x"})
	}
	out, report := mustApply(t, oneSheet(wrap(`<sheetData/>`)).zip(t), marked(comments...))
	after := unzip(t, out)
	if report.Sheets[0].Comments != MaxComments || len(report.Notes) != 1 || !strings.Contains(report.Notes[0], "3 comments were left out") {
		t.Errorf("report %+v", report)
	}
	v, err := readVML([]byte(after[newBoxes]), maxOldComments)
	if err != nil {
		t.Fatal(err)
	}
	if len(v.numbers) != MaxComments || !slices.Equal(v.blocks, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}) {
		t.Errorf("%d numbers in the blocks %v", len(v.numbers), v.blocks)
	}
	for n := range v.numbers {
		if n%1024 == 0 || n/1024 > 10 {
			t.Errorf("a shape has the number %d", n)
		}
	}
}

// TestCommentsByExcelize: comments that another library wrote are kept, and it
// reads ours.
func TestCommentsByExcelize(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(excelizeBook(t)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.AddComment("Sheet1", excelize.Comment{Cell: "A1", Author: by, Text: "of the starter sheet"}); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	edit := marked(Comment{2, 3, "first"}, Comment{1, 1, "not this"})
	edit.Sheets[0].Name = "Sheet1"
	edit.Sheets = append(edit.Sheets, Sheet{Name: "Second", CommentAuthor: by, Comments: []Comment{{2, 2, "second"}}})
	out, report := mustApply(t, b.Bytes(), edit)
	if len(report.Notes) != 1 || !strings.Contains(report.Notes[0], "A1 already") {
		t.Errorf("notes %q", report.Notes)
	}
	g, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	for sheet, want := range map[string]map[string]string{
		"Sheet1": {"A1": "of the starter sheet", "C2": signed(by, "first")},
		"Second": {"B2": signed(by, "second")},
	} {
		comments, err := g.GetComments(sheet)
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]string{}
		for _, c := range comments {
			got[c.Cell] = c.Text
			for _, run := range c.Paragraph {
				got[c.Cell] += run.Text
			}
			if c.Author != by {
				t.Errorf("%s: author %q", c.Cell, c.Author)
			}
		}
		if !maps.Equal(got, want) {
			t.Errorf("%s: excelize reads %q, want %q", sheet, got, want)
		}
	}
}

// TestBoxPlace: boxes are as wide as they should be, whatever the columns.
func TestBoxPlace(t *testing.T) {
	sheet := `<sheetFormatPr defaultColWidth="10" defaultRowHeight="30"/><cols><col min="2" max="3" width="1000" hidden="1"/><col min="4" max="4" width="50"/></cols><sheetData/>`
	tests := []struct {
		cell Address
		want string
	}{
		{Address{Row: 1, Col: 1}, "1, 15, 0, 10, 3, 285, 1, 12"}, // past the hidden columns
		{Address{Row: 5, Col: 4}, "4, 15, 3, 10, 7, 60, 4, 12"},
		{Address{Row: 5, Col: 8}, "8, 15, 3, 10, 8, 285, 4, 12"}, // a column of ours
		{Address{Row: MaxRow, Col: MaxCol}, "16383, 15, 1048574, 10, 16383, 75, 1048575, 12"},
	}
	for _, tt := range tests {
		t.Run(tt.cell.String(), func(t *testing.T) {
			edit := marked(Comment{tt.cell.Row, tt.cell.Col, "x"})
			edit.Sheets[0].Widths = map[int]float64{9: 60}
			out, _ := mustApply(t, oneSheet(wrap(sheet)).zip(t), edit)
			_, anchor, _ := strings.Cut(unzip(t, out)[newBoxes], "<x:Anchor>")
			if anchor, _, _ = strings.Cut(anchor, "<"); anchor != tt.want {
				t.Errorf("the box is at %s, want %s", anchor, tt.want)
			}
		})
	}
}

// TestVerifyNoticesComments changes one thing in a good copy at a time.
func TestVerifyNoticesComments(t *testing.T) {
	edit := marked(Comment{4, 1, "no time"}, Comment{6, 1, "again"})
	beside := theirComments()
	besideOut, _ := mustApply(t, beside.zip(t), edit)
	fresh := oneSheet(wrap(`<sheetData/>`))
	freshOut, _ := mustApply(t, fresh.zip(t), edit)
	earlier, _ := mustApply(t, beside.zip(t), marked(Comment{4, 1, "before"}, Comment{8, 8, "mended"}))
	againOut, _ := mustApply(t, earlier, edit)

	const boxes, notes = "xl/drawings/boxes.vml", "xl/notes.xml"
	ourBox := func(p string) string { return p[strings.LastIndex(p, "<v:shape "):strings.LastIndex(p, "</xml>")] }
	tests := []struct {
		name            string
		orig, good      []byte
		part, old, want string
	}{
		{"old comment's text", beside.zip(t), besideOut, notes, "left early", "left late"},
		{"old comment's cell", beside.zip(t), besideOut, notes, `"C3"`, `"C4"`},
		{"old comment lost", beside.zip(t), besideOut, notes, `<comment ref="C3" authorId="0"><text><t>left early</t></text></comment>`, ""},
		{"old author", beside.zip(t), besideOut, notes, "A. Teacher<", "B. Teacher<"},
		{"blanks between comments", beside.zip(t), besideOut, notes, "</comment>\n", "</comment>"},
		{"our text", beside.zip(t), besideOut, notes, "no time", "no tame"},
		{"our cell", beside.zip(t), besideOut, notes, `"A4"`, `"A5"`},
		{"our comment twice", beside.zip(t), besideOut, notes, "</commentList>", strings.Replace(comment("A4", "no time"), `"0"`, `"1"`, 1) + "</commentList>"},
		{"a comment nobody asked for", beside.zip(t), besideOut, notes, "</commentList>", comment("A9", "x") + "</commentList>"},
		{"old box", beside.zip(t), besideOut, boxes, "visibility:hidden'", "visibility:visible'"},
		{"old box lost", beside.zip(t), besideOut, boxes, boxType, ""},
		{"our box lost", beside.zip(t), besideOut, boxes, ourBox(unzip(t, besideOut)[boxes]), ""},
		{"our box moved", beside.zip(t), besideOut, boxes, "<x:Row>3</x:Row>", "<x:Row>8</x:Row>"},
		{"another box", beside.zip(t), besideOut, boxes, "</xml>", `<v:shape id="z"></v:shape></xml>`},
		{"drawing's head", beside.zip(t), besideOut, boxes, "\r\n xmlns:o", "\r\n  xmlns:o"},
		{"sheet names another drawing", beside.zip(t), besideOut, sheetPart, `<legacyDrawing r:id="rId2"/>`, `<legacyDrawing r:id="rId1"/>`},
		{"relationships though nothing is new", beside.zip(t), besideOut, sheetRels, "</Rel", `<Relationship Id="x"/></Rel`},
		{"types though nothing is new", beside.zip(t), besideOut, types, "</Types", `<Override PartName="/x"/></Types`},
		{"the part unreadable", beside.zip(t), besideOut, notes, "</comments>", ""},

		{"drawing not named", fresh.zip(t), freshOut, sheetPart, `<legacyDrawing xmlns:r="` + nsRelations + `" r:id="rIdCommentBoxes1"/>`, ""},
		{"drawing named at another place", fresh.zip(t), freshOut, sheetPart, `<sheetData/><legacyDrawing xmlns:r="` + nsRelations + `" r:id="rIdCommentBoxes1"/>`,
			`<legacyDrawing xmlns:r="` + nsRelations + `" r:id="rIdCommentBoxes1"/><sheetData/>`},
		{"another identifier", fresh.zip(t), freshOut, sheetPart, "rIdCommentBoxes1", "rIdCommentBoxes2"},
		{"relationship to elsewhere", fresh.zip(t), freshOut, sheetRels, "../comments1.xml", "../workbook.xml"},
		{"one more relationship", fresh.zip(t), freshOut, sheetRels, "</Rel", `<Relationship Id="x" Target="../workbook.xml"/></Rel`},
		{"one more type", fresh.zip(t), freshOut, types, "</Types", `<Override PartName="/xl/workbook.xml"/></Types`},
		{"an old type", fresh.zip(t), freshOut, types, `Extension="rels"`, `Extension="rel"`},
		{"another default", fresh.zip(t), freshOut, types, `Extension="vml"`, `Extension="xml"`},
		{"a new comment's author", fresh.zip(t), freshOut, newNotes, "<author>tenback", "<author>someone"},
		{"another author in the text", fresh.zip(t), freshOut, newNotes, "(tenback ", "(someone "},
		{"a new part lost", fresh.zip(t), freshOut, newNotes, "", ""},
		{"the new boxes lost", fresh.zip(t), freshOut, newBoxes, "", ""},
		{"something else in the new drawing", fresh.zip(t), freshOut, newBoxes, "</xml>", "<v:group></v:group></xml>"},

		{"a mended cell's comment still there", earlier, againOut, notes, "</commentList>", strings.Replace(comment("H8", "mended!"), `"0"`, `"1"`, 1) + "</commentList>"},
		{"our old text", earlier, againOut, notes, "no time", "before"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			good := unzip(t, tt.good)
			if err := verify(tt.orig, good.zip(t), edit); err != nil {
				t.Fatalf("the good copy, packed again: %v", err)
			}
			bad := maps.Clone(good)
			if tt.old == "" {
				delete(bad, tt.part)
			} else if bad[tt.part] = strings.Replace(good[tt.part], tt.old, tt.want, 1); bad[tt.part] == good[tt.part] {
				t.Fatalf("nothing to change in %s", good[tt.part])
			}
			if err := verify(tt.orig, bad.zip(t), edit); !errors.Is(err, ErrChanged) {
				t.Errorf("got error %v", err)
			}
		})
	}
	t.Run("comments that were not asked for", func(t *testing.T) {
		if err := verify(fresh.zip(t), freshOut, roster()); !errors.Is(err, ErrChanged) {
			t.Errorf("got error %v", err)
		}
	})
}

package splice

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tenback/workbook/xmlscan"
)

// The boxes in which comments show are shapes of the drawing language VML.

const (
	nsVML    = "urn:schemas-microsoft-com:vml"
	nsOffice = "urn:schemas-microsoft-com:office:office"
	nsExcel  = "urn:schemas-microsoft-com:office:excel"

	// shapesPerBlock is how many numbers a drawing has to give to its shapes
	// in each of the blocks it names. Number 0 of a block is the drawing's own.
	shapesPerBlock = 1023
)

const vmlHead = `<xml xmlns:v="` + nsVML + `" xmlns:o="` + nsOffice + `" xmlns:x="` + nsExcel + `">`

// boxTypeRest is the rest of the element that declares what the shapes of
// comments have in common.
const boxTypeRest = ` id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">` +
	`<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`

// vmlPart is a drawing with the boxes of one sheet's comments, cut into the
// elements below its root.
type vmlPart struct {
	data    []byte
	items   []vmlItem
	blocks  []int        // of numbers for shapes, as the drawing names them
	numbers map[int]bool // in use
	hasType bool
	end     int    // of the root
	declare string // attributes that our shapes need to make their prefixes known
}

// vmlItem is one element below the root, mostly a shape.
type vmlItem struct {
	from, to int
	note     bool    // the box of a comment
	cell     Address // of a comment
}

func (v *vmlItem) raw(data []byte) []byte { return data[v.from:v.to] }

// newVMLPart is a drawing without shapes that takes its numbers from blocks.
func newVMLPart(blocks []int) []byte { return []byte(vmlHead + shapeLayout(blocks) + `</xml>`) }

func shapeLayout(blocks []int) string {
	names := make([]string, len(blocks))
	for i, n := range blocks {
		names[i] = strconv.Itoa(n)
	}
	return `<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="` + strings.Join(names, ",") + `"/></o:shapelayout>`
}

var shapeNumber = regexp.MustCompile(`_x0000_s([0-9]{1,9})\b`)

// readVML refuses a drawing that has not the usual form.
func readVML(data []byte, limit int) (*vmlPart, error) {
	v := &vmlPart{data: data, numbers: map[int]bool{}}
	r := vmlReader{part: v, s: xmlscan.OfBytes(data), limit: limit}
	if err := eachToken(r.s, r.token); err != nil {
		return nil, err
	}
	if v.end == 0 {
		return nil, unsupported("the drawing of the comments is empty")
	}
	for _, m := range shapeNumber.FindAllSubmatch(data, -1) {
		n, _ := strconv.Atoi(string(m[1])) // at most nine digits
		v.numbers[n] = true
	}
	return v, nil
}

type vmlReader struct {
	part        *vmlPart
	s           *xmlscan.Scanner
	limit       int
	item        vmlItem
	row, column string
	into        *string // where text goes
}

func (r *vmlReader) token(kind xmlscan.Token) error {
	s := r.s
	switch kind {
	case xmlscan.CharData:
		if r.into != nil && len(*r.into) < 20 {
			*r.into += string(s.Raw())
		}
	case xmlscan.StartTag, xmlscan.EmptyTag:
		return r.start(kind == xmlscan.EmptyTag)
	case xmlscan.EndTag:
		r.into = nil
		switch s.Level {
		case 1:
			r.part.end = s.Offset()
		case 2:
			r.item.to = s.Offset() + len(s.Raw())
			if r.item.note {
				row, errRow := strconv.Atoi(strings.TrimSpace(r.row))
				col, errCol := strconv.Atoi(strings.TrimSpace(r.column))
				if errRow != nil || errCol != nil {
					return unsupported("the box of a comment has no cell")
				}
				r.item.cell = Address{Row: row + 1, Col: col + 1}
			}
			r.part.items = append(r.part.items, r.item)
		}
	}
	return nil
}

func (r *vmlReader) start(empty bool) error {
	s := r.s
	name := localName(s.Name)
	r.into = nil
	switch s.Level {
	case 1:
		return r.root()
	case 2:
		if len(r.part.items) >= r.limit {
			return &Error{Kind: ErrLimit, Why: "the sheet has more shapes than allowed", Do: doCopy}
		}
		r.item = vmlItem{from: s.Offset(), to: s.Offset() + len(s.Raw())}
		r.row, r.column = "", ""
		if empty {
			r.part.items = append(r.part.items, r.item)
		}
		if name == "shapetype" {
			id, _, err := xmlscan.AttrValue(s.Attrs(), "id")
			r.part.hasType = r.part.hasType || id == "_x0000_t202"
			return err
		}
	case 3:
		switch name {
		case "idmap":
			blocks, _, err := xmlscan.AttrValue(s.Attrs(), "data")
			for _, b := range strings.Split(blocks, ",") {
				if n, err := strconv.Atoi(strings.TrimSpace(b)); err == nil && n > 0 && n < 1<<20 {
					r.part.blocks = append(r.part.blocks, n)
				}
			}
			return err
		case "ClientData":
			kind, _, err := xmlscan.AttrValue(s.Attrs(), "ObjectType")
			r.item.note = r.item.note || kind == "Note"
			return err
		}
	case 4:
		switch {
		case name == "Row" && !empty:
			r.into = &r.row
		case name == "Column" && !empty:
			r.into = &r.column
		}
	}
	return nil
}

// root finds out which of our prefixes have to be made known on our shapes.
func (r *vmlReader) root() error {
	if string(r.s.Name) != "xml" {
		return unsupported("the drawing of the comments has an unusual form")
	}
	known := map[string]string{}
	err := eachAttr(r.s.Attrs(), func(name, value string) { known[name] = value })
	for _, ns := range [][2]string{{"xmlns:v", nsVML}, {"xmlns:o", nsOffice}, {"xmlns:x", nsExcel}} {
		if known[ns[0]] != ns[1] {
			r.part.declare += " " + ns[0] + `="` + ns[1] + `"`
		}
	}
	if known["xmlns"] != "" {
		r.part.declare += ` xmlns=""` // the text box holds an element without a prefix
	}
	return err
}

// boxType declares what the shapes of comments have in common.
func (v *vmlPart) boxType() string { return "<v:shapetype" + v.declare + boxTypeRest }

// box is the shape of one comment.
type box struct {
	number      int
	cell        Address
	left, right edge // in columns
	top, bottom edge // in rows
}

// edge is a place in a sheet: pixels from the start of a column or row, which
// count from 0 here.
type edge struct{ line, pixels int }

// xml writes the shape, with the attributes in declare. Readers place it by the
// anchor; the size in the style is for those that do not.
func (b *box) xml(declare string, width, height int) string {
	return fmt.Sprintf(`<v:shape%s id="_x0000_s%d" type="#_x0000_t202" style="position:absolute;margin-left:60pt;margin-top:2pt;width:%gpt;height:%gpt;z-index:1;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">`+
		`<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>`+
		`<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>`+
		`<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/>`+
		`<x:Anchor>%d, %d, %d, %d, %d, %d, %d, %d</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>%d</x:Row><x:Column>%d</x:Column></x:ClientData></v:shape>`,
		declare, b.number, float64(width)*0.75, float64(height)*0.75,
		b.left.line, b.left.pixels, b.top.line, b.top.pixels, b.right.line, b.right.pixels, b.bottom.line, b.bottom.pixels,
		b.cell.Row-1, b.cell.Col-1)
}

// bytes gives the drawing with shapes added, and without the items in remove.
func (v *vmlPart) bytes(shapes string, remove map[int]bool) []byte {
	if shapes != "" && !v.hasType {
		shapes = v.boxType() + shapes
	}
	cuts := []cut{{v.end, v.end, shapes}}
	for i := range remove {
		cuts = append(cuts, cut{v.items[i].from, v.items[i].to, ""})
	}
	return patch(v.data, cuts)
}

// rest is the drawing without the elements below its root.
func (v *vmlPart) rest() []byte {
	return without(v.data, v.items, func(it *vmlItem) (from, to int) { return it.from, it.to })
}

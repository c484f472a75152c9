package splice

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// MaxComments is how many comments one sheet is given. Those beyond are left
// out and the Report says so.
const MaxComments = 10_000

// maxOldComments bounds what is held of the comments a sheet already has.
const maxOldComments = 200_000

// Comment is a comment at a cell, of the kind that shows when the pointer
// rests on the cell. Row and Col count from 1.
type Comment struct {
	Row, Col int
	Text     string // what XML cannot hold becomes U+FFFD
}

func checkComments(s *Sheet) error {
	wrong := func(why string, args ...any) error {
		return &Error{Kind: ErrRequest, Why: fmt.Sprintf(why, args...)}
	}
	if s.CommentAuthor == "" && len(s.Comments) > 0 {
		return wrong("comments need an author")
	}
	if a := s.CommentAuthor; a != storable(a) || a != strings.TrimSpace(a) || strings.Contains(a, "\n") || len(a) > 50 {
		return wrong("the author of comments cannot be called %q", a)
	}
	seen := map[Address]bool{}
	for _, c := range s.Comments {
		at := Address{Row: c.Row, Col: c.Col}
		switch {
		case c.Row < 1 || c.Row > MaxRow || c.Col < 1 || c.Col > MaxCol:
			return wrong("a comment for row %d, column %d lies outside the sheet", c.Row, c.Col)
		case seen[at]:
			return wrong("cell %v gets two comments", at)
		case tooLong(signed(s.CommentAuthor, storable(c.Text))):
			return wrong("the comment at %v is longer than the %d characters a cell can hold", at, MaxText)
		}
		seen[at] = true
	}
	return nil
}

// wanted are the comments of a sheet that are within the bound, with their
// texts as they can be stored.
func (s *Sheet) wanted() []Comment {
	list := slices.Clone(s.Comments[:min(len(s.Comments), MaxComments)])
	for i := range list {
		list[i].Text = storable(list[i].Text)
	}
	slices.SortFunc(list, byCell)
	return list
}

// sheetComments is what a sheet has of comments. A sheet that lacks a part has
// an empty one in its place.
type sheetComments struct {
	part     *part // nil if there is none
	comments *commentPart
	vmlPart  *part // nil if there is none
	vml      *vmlPart
	threads  map[Address]bool // cells with a conversation
	rels     *part            // list of the sheet's relationships; nil if there is none
}

// readComments reads a sheet's comments. It refuses what is not of the usual
// form.
func (p *pkg) readComments(sheet *part, legacy *legacyPlace) (*sheetComments, error) {
	sc := &sheetComments{threads: map[Address]bool{}, rels: p.Part(opc.RelsName(opc.Key(sheet.Name)))}
	if legacy.disorder {
		return nil, unsupported("the sheet's elements are out of order")
	}
	rels, err := p.Rels(opc.Key(sheet.Name))
	if err != nil {
		return nil, err
	}
	for _, r := range rels {
		pt := p.Part(r.Target)
		switch {
		case r.Kind == "comments" && (pt == nil || sc.part != nil):
			return nil, unsupported("the sheet's list of comments is missing or comes twice")
		case r.Kind == "comments":
			sc.part = pt
		case r.Kind == "vmlDrawing" && legacy.at > 0 && r.ID == legacy.id:
			sc.vmlPart = pt
		case r.Kind == "threadedComment" && pt != nil:
			if err := p.readThreads(pt, sc.threads); err != nil {
				return nil, err
			}
		}
	}
	switch {
	case legacy.at > 0 && sc.vmlPart == nil, legacy.at == 0 && sc.part != nil:
		return nil, unsupported("the drawing of the comments is missing")
	}
	list, drawing := newCommentPart(legacy.strict), []byte(vmlHead+"</xml>")
	if sc.part != nil {
		if list, err = p.Load(sc.part); err != nil {
			return nil, err
		}
	}
	if sc.vmlPart != nil {
		if drawing, err = p.Load(sc.vmlPart); err != nil {
			return nil, err
		}
	}
	if sc.comments, err = readCommentPart(list, maxOldComments); err != nil {
		return nil, err
	}
	sc.vml, err = readVML(drawing, maxOldComments)
	return sc, err
}

// readThreads adds the cells that hold conversations.
func (p *pkg) readThreads(pt *part, cells map[Address]bool) error {
	data, err := p.Load(pt)
	if err != nil {
		return err
	}
	err = eachStart(data, func(s *xmlscan.Scanner) error {
		if s.Level != 2 || localName(s.Name) != "threadedComment" {
			return nil
		}
		if len(cells) >= maxOldComments {
			return &Error{Kind: ErrLimit, Why: "the sheet has more comments than allowed", Do: doCopy}
		}
		ref, _, err := xmlscan.AttrValue(s.Attrs(), "ref")
		if a, ok := grid.ParseAddress(ref); ok {
			cells[a] = true
		}
		return err
	})
	return inPart(err, pt.Name)
}

// comments plans the comments of a sheet. What stands in the way of them is
// noted; it never stops the rest of the edit.
func (pl *plan) comments(t *target) error {
	if t.req.CommentAuthor == "" {
		return nil
	}
	err := pl.tryComments(t)
	var e *Error
	if errors.As(err, &e) {
		pl.note(t, "no comments were written or changed, for "+e.Why)
		return nil
	}
	return err
}

func (pl *plan) tryComments(t *target) error {
	sc, err := pl.pkg.readComments(t.ref.part, &t.facts.legacy)
	if err != nil {
		return err
	}
	if err := pl.unshared(t, sc); err != nil {
		return err
	}
	if extra := len(t.req.Comments) - MaxComments; extra > 0 {
		pl.note(t, fmt.Sprintf("%d comments were left out, for a sheet gets no more than %d", extra, MaxComments))
	}
	edit := pl.sortComments(t, sc)
	if err := pl.writeComments(t, sc, edit); err != nil {
		return err
	}
	t.commented = len(edit.add) + len(edit.keep) + len(edit.change)
	return nil
}

// unshared refuses comments that another sheet has too.
func (pl *plan) unshared(t *target, sc *sheetComments) error {
	if sc.part == nil && sc.vmlPart == nil {
		return nil
	}
	for i := range pl.book.sheets {
		other := pl.book.sheets[i].part
		if other == nil || other == t.ref.part {
			continue
		}
		rels, err := pl.pkg.Rels(opc.Key(other.Name))
		if err != nil {
			return err
		}
		for _, r := range rels {
			if pt := pl.pkg.Part(r.Target); pt != nil && (pt == sc.part || pt == sc.vmlPart) {
				return unsupported("two sheets share their comments")
			}
		}
	}
	return nil
}

// sortComments decides what happens at each cell.
func (pl *plan) sortComments(t *target, sc *sheetComments) *commentEdit {
	author := t.req.CommentAuthor
	ours := map[Address]int{}     // places of comments
	theirs := sc.threads          // cells with what stays as it is
	changed := map[Address]bool{} // cells with a comment of ours that someone has changed
	for i := range sc.comments.items {
		c := &sc.comments.items[i]
		_, twice := ours[c.cell]
		if c.ours(author) && !twice && !theirs[c.cell] {
			ours[c.cell] = i
			continue
		}
		theirs[c.cell] = true
		delete(ours, c.cell)
		if !c.ours(author) && strings.Contains(c.text, "\n("+author+" ") {
			changed[c.cell] = true
		}
	}
	edit := &commentEdit{author: author, change: map[int]Comment{}, remove: map[int]bool{}}
	var taken []Address
	for _, c := range t.req.wanted() {
		at := Address{Row: c.Row, Col: c.Col}
		i, known := ours[at]
		delete(ours, at)
		switch {
		case changed[at]:
		case theirs[at]:
			taken = append(taken, at)
		case !known:
			edit.add = append(edit.add, c)
		case sc.comments.items[i].says(author, c.Text):
			edit.keep = append(edit.keep, c)
		default:
			edit.change[i] = c
		}
	}
	for _, i := range ours {
		edit.remove[i] = true
	}
	pl.noteCells(t, "already had a comment, which was left as it was", taken)
	pl.noteCells(t, "had a comment that someone has changed, so it was left as it was",
		slices.SortedFunc(maps.Keys(changed), func(a, b Address) int { return cmp.Or(a.Row-b.Row, a.Col-b.Col) }))
	return edit
}

// noteCells notes something about cells, of which it names the first few.
func (pl *plan) noteCells(t *target, what string, cells []Address) {
	const named = 5
	var names []string
	for _, a := range cells[:min(len(cells), named)] {
		names = append(names, a.String())
	}
	text := strings.Join(names, ", ")
	if more := len(cells) - named; more > 0 {
		text += " and " + strconv.Itoa(more) + " more"
	}
	if len(cells) > 0 {
		pl.note(t, text+" "+what)
	}
}

// writeComments makes the changed and new parts. A comment that says something
// else now gets a new box, for the old one may be too small.
func (pl *plan) writeComments(t *target, sc *sheetComments, edit *commentEdit) error {
	refit := map[Address]bool{} // cells whose old box goes
	for i := range edit.remove {
		refit[sc.comments.items[i].cell] = true
	}
	need := slices.Concat(edit.add, edit.keep)
	for i, c := range edit.change {
		refit[sc.comments.items[i].cell] = true
		need = append(need, c)
	}
	boxed := map[Address]bool{}
	remove := map[int]bool{}
	for i, item := range sc.vml.items {
		switch {
		case item.note && refit[item.cell]:
			remove[i] = true
		case item.note:
			boxed[item.cell] = true
		}
	}
	need = slices.DeleteFunc(need, func(c Comment) bool { return boxed[Address{Row: c.Row, Col: c.Col}] })
	if len(need)+len(edit.change)+len(edit.remove) == 0 {
		return nil
	}
	if sc.vmlPart == nil {
		var err error
		if sc.vml, err = readVML(newVMLPart(pl.freeBlocks(1+len(need)/shapesPerBlock)), maxOldComments); err != nil {
			return err
		}
	}
	slices.SortFunc(need, byCell)
	var shapes strings.Builder
	numbers := pl.shapeNumbers(sc.vml, len(need))
	for i, c := range need {
		b, width, height := t.facts.rulers.place(Address{Row: c.Row, Col: c.Col}, signed(edit.author, c.Text))
		b.number = numbers[i]
		shapes.WriteString(b.xml(sc.vml.declare, width, height))
	}
	return pl.relateComments(t, sc, sc.comments.bytes(edit), sc.vml.bytes(shapes.String(), remove))
}

func byCell(a, b Comment) int { return cmp.Or(a.Row-b.Row, a.Col-b.Col) }

// relateComments puts the two parts into the package and names those that are
// new. Everything that may fail comes before the plan is changed.
func (pl *plan) relateComments(t *target, sc *sheetComments, comments, drawing []byte) error {
	put := func(pt *part, data []byte) {
		if pt != nil {
			pl.small[pt] = data
		}
	}
	if sc.part != nil && sc.vmlPart != nil {
		put(sc.part, comments)
		put(sc.vmlPart, drawing)
		return nil
	}
	types := pl.pkg.Part(typesPart)
	if types == nil {
		return damaged("the file lacks its list of content types")
	}
	typeList, err := pl.content(types)
	if err != nil {
		return err
	}
	relList := []byte(newRelationships)
	if sc.rels != nil {
		if relList, err = pl.content(sc.rels); err != nil {
			return err
		}
	}
	sheet, dir := t.ref.part.Name, path.Dir(slashed(pl.book.part.Name))
	var extra []newPart
	relate := func(kind, base, target string) (id string, err error) {
		if id, err = freeID(relList, base); err != nil {
			return "", err
		}
		relList, err = appendChild(relList, "Relationship", fmt.Sprintf(`Id="%s" Type="%s" Target="%s"`, id, kind, targetURI(sheet, target)))
		return id, err
	}
	if sc.part == nil {
		name := pl.freeName(dir, "comments", ".xml")
		kind := nsRelations + "/comments"
		if t.facts.legacy.strict {
			kind = nsRelationsStrict + "/comments"
		}
		if _, err := relate(kind, "rIdComments", name); err != nil {
			return err
		}
		if typeList, err = appendChild(typeList, "Override", fmt.Sprintf(`PartName="%s" ContentType="%s"`, partURI(name), typeComments)); err != nil {
			return err
		}
		extra = append(extra, newPart{name, comments})
	}
	legacyID := ""
	if sc.vmlPart == nil {
		name := pl.freeName(path.Join(dir, "drawings"), "vmlDrawing", ".vml")
		// Strict workbooks too name this old kind of drawing by the old type.
		if legacyID, err = relate(nsRelations+"/vmlDrawing", "rIdCommentBoxes", name); err != nil {
			return err
		}
		was, err := vmlType(typeList)
		if err != nil {
			return err
		}
		switch was {
		case typeVML:
		case "":
			typeList, err = appendChild(typeList, "Default", `Extension="vml" ContentType="`+typeVML+`"`)
		default:
			typeList, err = appendChild(typeList, "Override", fmt.Sprintf(`PartName="%s" ContentType="%s"`, partURI(name), typeVML))
		}
		if err != nil {
			return err
		}
		extra = append(extra, newPart{name, drawing})
	}
	put(sc.part, comments)
	put(sc.vmlPart, drawing)
	put(types, typeList)
	put(sc.rels, relList)
	if sc.rels == nil {
		extra = append(extra, newPart{opc.RelsName(slashed(sheet)), relList})
	}
	pl.extra = append(pl.extra, extra...)
	t.legacyID = legacyID
	return nil
}

var idMap = regexp.MustCompile(`<(?:\w+:)?idmap\b[^<>]*\bdata\s*=\s*["']([0-9, ]{1,200})["']`)

// freeBlocks gives n blocks of shape numbers side by side that no drawing in
// the workbook names, and keeps them.
func (pl *plan) freeBlocks(n int) []int {
	if pl.lastBlock == 0 {
		for _, pt := range pl.pkg.Parts {
			if !strings.HasSuffix(opc.Key(pt.Name), ".vml") {
				continue
			}
			data, err := pl.pkg.Load(pt)
			if err != nil {
				continue // numbers that come twice do no harm in practice
			}
			for _, m := range idMap.FindAllSubmatch(data, -1) {
				for _, b := range strings.Split(string(m[1]), ",") {
					if block, err := strconv.Atoi(strings.TrimSpace(b)); err == nil && block < 1<<20 {
						pl.lastBlock = max(pl.lastBlock, block)
					}
				}
			}
		}
	}
	blocks := make([]int, n)
	for i := range blocks {
		pl.lastBlock++
		blocks[i] = pl.lastBlock
	}
	return blocks
}

// shapeNumbers gives n numbers that no shape of the drawing has: of its own
// blocks while they last.
func (pl *plan) shapeNumbers(v *vmlPart, n int) []int {
	numbers := make([]int, 0, n)
	blocks := v.blocks
	for len(numbers) < n {
		if len(blocks) == 0 {
			blocks = pl.freeBlocks(1)
		}
		first := blocks[0] * (shapesPerBlock + 1)
		for k := first + 1; k <= first+shapesPerBlock && len(numbers) < n; k++ {
			if !v.numbers[k] {
				numbers = append(numbers, k)
			}
		}
		blocks = blocks[1:]
	}
	return numbers
}

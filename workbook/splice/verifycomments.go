package splice

import (
	"bytes"
	"errors"
	"io"
	"strings"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// editedComments is one sheet whose comments may have changed.
type editedComments struct {
	ref           *sheetRef
	copy          *part
	req           *Sheet
	before, after legacyPlace
}

// mayDiffer lists the parts of the original in which comments of a sheet are,
// which are compared when the sheets have been read.
func (v *verifier) mayDiffer(ref *sheetRef) error {
	name := opc.Key(ref.part.Name)
	rels, err := v.a.Rels(name)
	if err != nil {
		return err
	}
	for _, r := range rels {
		if pt := v.a.Part(r.Target); pt != nil && (r.Kind == "comments" || r.Kind == "vmlDrawing") {
			v.later[pt] = true
		}
	}
	for _, key := range []string{opc.Key(opc.RelsName(name)), typesPart} {
		if pt := v.a.Part(key); pt != nil {
			v.later[pt] = true
		}
	}
	return nil
}

// laterParts compares the parts that were put off.
func (v *verifier) laterParts() error {
	for i := range v.commented {
		c := &v.commented[i]
		if err := v.comments(c); err != nil {
			return inSheet(err, c.ref.name)
		}
	}
	for pt := range v.later {
		pb := v.b.Part(pt.Name)
		var err error
		if v.announces(pt) {
			err = v.small(pt, pb, v.sameTypes)
		} else {
			err = v.same(pt, pb)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// comments holds the comments of a sheet, and all that names them, to be the
// old ones and those asked for.
func (v *verifier) comments(c *editedComments) error {
	old, err := v.a.readComments(c.ref.part, &c.before)
	if refused(err) {
		return nil // so nothing may have changed, as with all other parts
	}
	if err != nil {
		return err
	}
	is, err := v.b.readComments(c.copy, &c.after)
	if err != nil {
		return unreadable(err)
	}
	if !v.samePlace(old.part, is.part) || !v.samePlace(old.vmlPart, is.vmlPart) {
		return changed("", "the sheet's comments are another part")
	}
	if is.part == nil {
		return nil
	}
	if is.vmlPart == nil {
		return changed(is.part.Name, "the comments have no boxes")
	}
	texts := map[Address]string{}
	for _, w := range c.req.wanted() {
		texts[Address{Row: w.Row, Col: w.Col}] = w.Text
	}
	same, err := sameComments(old.comments, is.comments, texts, c.req.CommentAuthor)
	if err != nil {
		return err
	}
	if !same {
		return changed(is.part.Name, "an old comment changed, or there is one that was not asked for")
	}
	if !sameBoxes(old, is, texts, c.req.CommentAuthor) {
		return changed(is.vmlPart.Name, "the boxes of comments changed")
	}
	for _, pt := range []*part{old.part, old.vmlPart} {
		delete(v.later, pt)
	}
	return v.relations(c, old, is)
}

func refused(err error) bool {
	var e *Error
	return errors.As(err, &e)
}

// samePlace: the part is the old one, or a new one where there was none.
func (v *verifier) samePlace(old, is *part) bool {
	switch {
	case is == nil:
		return old == nil
	case old == nil:
		v.fresh[opc.Key(is.Name)] = true
		return v.a.Part(is.Name) == nil
	}
	return old.Name == is.Name
}

// relations holds the sheet's relationships to be the old ones and those to
// the new parts.
func (v *verifier) relations(c *editedComments, old, is *sheetComments) error {
	if is.rels == nil {
		return changed("", "the list of relationships is missing")
	}
	was := []byte(newRelationships)
	if old.rels != nil {
		var err error
		if was, err = v.a.Load(old.rels); err != nil {
			return err
		}
		delete(v.later, old.rels)
	} else {
		v.fresh[opc.Key(is.rels.Name)] = true
	}
	now, err := v.b.Load(is.rels)
	if err != nil {
		return unreadable(err)
	}
	same, err := sameButAdded(was, now, func(s *xmlscan.Scanner) (bool, error) {
		target, _, err := xmlscan.AttrValue(s.Attrs(), "Target")
		key := v.b.Resolve(opc.Key(c.ref.part.Name[:strings.LastIndexAny(c.ref.part.Name, `/\`)+1]), target)
		return localName(s.Name) == "Relationship" && v.fresh[key], err
	})
	if err != nil {
		return unreadable(err)
	}
	if !same {
		return changed(is.rels.Name, "the list of relationships changed")
	}
	return nil
}

// sameTypes: b is the list of content types, or of the workbook's
// relationships, with new parts added.
func (v *verifier) sameTypes(a, b []byte) (bool, error) {
	return sameButAdded(a, b, func(s *xmlscan.Scanner) (bool, error) {
		switch localName(s.Name) {
		case "Default":
			kind, _, err := xmlscan.AttrValue(s.Attrs(), "Extension")
			return kind == "vml" && len(v.commented) > 0, err
		case "Override":
			name, _, err := xmlscan.AttrValue(s.Attrs(), "PartName")
			key := v.b.Resolve("", name)
			return v.fresh[key] || v.book.styles == nil && strings.Contains(key, "styles"), err
		case "Relationship":
			kind, _, err := xmlscan.AttrValue(s.Attrs(), "Type")
			return v.book.styles == nil && strings.HasSuffix(kind, "/styles"), err
		}
		return false, nil
	})
}

// sameButAdded: b is a with children added at the end of its root, all of
// which are allowed.
func sameButAdded(a, b []byte, allowed func(*xmlscan.Scanner) (bool, error)) (bool, error) {
	sa, sb := xmlscan.OfBytes(a), xmlscan.OfBytes(b)
	ka, errA := sa.Next()
	kb, errB := sb.Next()
	wasClosed := false // a's root closes itself and b's does not
	for {
		if errA == io.EOF && errB == io.EOF {
			return !wasClosed, nil
		}
		if errA != nil && errA != io.EOF || errB != nil {
			if errB == io.EOF {
				return false, nil
			}
			return false, errors.Join(errA, errB)
		}
		endOfA := errA == nil && ka == xmlscan.EndTag && sa.Level == 1
		switch {
		case (wasClosed || endOfA) && kb == xmlscan.EmptyTag && sb.Level == 2:
			if ok, err := allowed(sb); !ok || err != nil {
				return false, err
			}
			kb, errB = sb.Next()
		case wasClosed && kb == xmlscan.EndTag && sb.Level == 1:
			wasClosed = false
			kb, errB = sb.Next()
		case errA != nil || wasClosed:
			return false, nil
		case ka == xmlscan.EmptyTag && sa.Level == 1 && kb == xmlscan.StartTag && bytes.Equal(opened(sa.Raw()), sb.Raw()):
			wasClosed = true
			ka, errA = sa.Next()
			kb, errB = sb.Next()
		case ka == kb && bytes.Equal(sa.Raw(), sb.Raw()):
			ka, errA = sa.Next()
			kb, errB = sb.Next()
		default:
			return false, nil
		}
	}
}

// sameComments: b has the comments of a that are not ours byte for byte and in
// their order, and apart from them only comments of ours with the texts.
func sameComments(a, b *commentPart, texts map[Address]string, author string) (bool, error) {
	if !bytes.Equal(a.rest(), b.rest()) {
		grown, err := readCommentPart(a.bytes(&commentEdit{author: author, add: []Comment{{Row: 1, Col: 1}}}), maxOldComments+1)
		if err != nil || !bytes.Equal(grown.rest(), b.rest()) {
			return false, err
		}
	}
	i := 0
	done := map[Address]bool{} // cells with a comment of ours
	for k := range b.items {
		is := &b.items[k]
		ours := is.ours(author)
		twice := ours && done[is.cell]
		done[is.cell] = done[is.cell] || ours
		for i < len(a.items) && !bytes.Equal(a.items[i].raw(a.data), is.raw(b.data)) && a.items[i].ours(author) {
			i++
		}
		if i < len(a.items) && bytes.Equal(a.items[i].raw(a.data), is.raw(b.data)) {
			i++
			continue
		}
		if text, asked := texts[is.cell]; !asked || !ours || twice || !is.says(author, text) {
			return false, nil
		}
	}
	for ; i < len(a.items); i++ {
		if !a.items[i].ours(author) {
			return false, nil
		}
	}
	return true, nil
}

// ours gives the texts of the author's comments by cell.
func (p *commentPart) ours(author string) map[Address]string {
	texts := map[Address]string{}
	for i := range p.items {
		if c := &p.items[i]; c.ours(author) {
			texts[c.cell] = c.text
		}
	}
	return texts
}

// sameBoxes: the shapes of the old drawing are there byte for byte and in their
// order, but for those of our comments that went or say something else now,
// and apart from them only boxes of our comments, each of which has one.
func sameBoxes(old, is *sheetComments, asked map[Address]string, author string) bool {
	a, b := old.vml, is.vml
	if !bytes.Equal(a.rest(), b.rest()) {
		return false
	}
	was, open := old.comments.ours(author), is.comments.ours(author)
	gone := map[Address]bool{}
	for at, text := range was {
		now, there := open[at]
		gone[at] = !there || now != text
	}
	i := 0
	for k := range b.items {
		shape := &b.items[k]
		for i < len(a.items) && a.items[i].note && gone[a.items[i].cell] {
			i++
		}
		raw := string(shape.raw(b.data))
		_, wanted := asked[shape.cell]
		_, unboxed := open[shape.cell]
		switch {
		case i < len(a.items) && string(a.items[i].raw(a.data)) == raw:
			i++
		case shape.note && wanted && unboxed:
		case raw == a.boxType() && !a.hasType:
		case old.vmlPart == nil && raw == shapeLayout(b.blocks):
		default:
			return false
		}
		if shape.note {
			delete(open, shape.cell)
		}
	}
	for ; i < len(a.items); i++ {
		if !a.items[i].note || !gone[a.items[i].cell] {
			return false
		}
	}
	return len(open) == 0
}

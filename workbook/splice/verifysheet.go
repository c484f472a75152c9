package splice

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"hash/maphash"
	"io"
	"slices"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/xmlscan"
)

// sheetCheck compares a sheet with its copy item by item. It skips what is new in
// the copy and what is cleared in the original; all else must be the same bytes in
// the same order.
type sheetCheck struct {
	v     *verifier
	sheet *editedSheet
	clear rangeSet
	cells *source // new cells not yet met
	a, b  side

	next      ooxml.Item // of the original, read but not compared yet
	ahead     bool       // next holds an item
	end       bool       // of the original
	placed    []int      // columns of the new cells met in this row
	addedRow  bool       // in a row that the original has not
	closeRow  bool       // in a row that closed itself in the original
	closeData bool       // the same for the list of rows
}

// side is one of the two sheets. Bytes between items are hashed, because the two
// sides may split them differently.
type side struct {
	rd      *ooxml.Reader
	between maphash.Hash
	hashed  bool     // since the last comparison
	looks   []string // of each column in the list of widths; nil if the lists must agree
}

func (v *verifier) sheet(sheet *editedSheet, pb *part) error {
	ra, err := v.a.OpenXML(sheet.ref.Part)
	if err != nil {
		return err
	}
	defer ra.Close()
	rb, err := v.b.OpenXML(pb)
	if err != nil {
		return unreadable(err)
	}
	defer rb.Close()
	c := &sheetCheck{v: v, sheet: sheet, clear: newRangeSet(sheet.req.Clear), cells: newSource(sheet.req.places(), len(v.edit.Styles)),
		a: side{rd: ooxml.NewReader(ra)}, b: side{rd: ooxml.NewReader(rb)}}
	defer c.cells.stop()
	c.b.between.SetSeed(c.a.between.Seed())
	if len(sheet.req.Widths) > 0 {
		c.a.looks, c.b.looks = make([]string, grid.MaxCol+1), make([]string, grid.MaxCol+1)
	}
	if err := c.cells.advance(); err != nil {
		return err
	}
	if err := c.run(v.ctx); err != nil {
		return err
	}
	for col := range c.a.looks {
		if _, ours := sheet.req.Widths[col]; !ours && c.a.looks[col] != c.b.looks[col] {
			return changed("", fmt.Sprintf("the width of column %s changed", grid.Column(col)))
		}
	}
	return nil
}

func (c *sheetCheck) run(ctx context.Context) error {
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		it, err := c.b.read()
		if err == io.EOF {
			return c.finish()
		}
		if err != nil {
			return unreadable(err)
		}
		if ours, err := c.isNew(&it); err != nil {
			return err
		} else if ours {
			continue
		}
		if follows, err := c.follows(&it); err != nil {
			return err
		} else if follows {
			continue
		}
		open := it.Kind == ooxml.ItemRow && !it.Empty
		if err := c.compare(&it); err != nil {
			return err
		}
		if open && !c.closeRow {
			if err := c.passRow(); err != nil {
				return err
			}
		}
	}
}

// finish checks that the original has ended too and that no new cell is missing.
func (c *sheetCheck) finish() error {
	if err := c.advance(); err != nil {
		return err
	}
	if !c.end || !c.sameBetween() {
		return changed("", "the end of the sheet changed")
	}
	if c.cells.ok {
		e := changed("", "a new cell is missing")
		e.Cell = Address{Row: c.cells.cell.Row, Col: c.cells.cell.Col}.String()
		return e
	}
	return nil
}

// isNew reports whether the copy's item is one that the edit adds.
func (c *sheetCheck) isNew(it *ooxml.Item) (bool, error) {
	switch {
	case it.Kind == ooxml.ItemRow:
		c.placed = c.placed[:0]
		plain := fmt.Appendf(nil, `<%srow r="%d">`, c.b.rd.Prefix, it.Row)
		if !c.cells.ok || c.cells.cell.Row != it.Row || !bytes.Equal(it.Raw, plain) {
			return false, nil
		}
		if err := c.advance(); err != nil {
			return false, err
		}
		c.addedRow = c.end || c.next.Kind != ooxml.ItemRow || c.next.Row != it.Row
		return c.addedRow, nil
	case it.Kind == ooxml.ItemCell && c.cells.ok && c.cells.cell.Row == it.Row && c.cells.cell.Col == it.Col:
		c.placed = append(c.placed, it.Col)
		return true, c.cells.advance()
	case it.Kind == ooxml.ItemRowEnd && (c.addedRow || c.closeRow):
		c.addedRow, c.closeRow = false, false
		return true, nil
	case it.Kind == ooxml.ItemDataEnd && c.closeData:
		c.closeData = false
		return true, nil
	}
	return false, nil
}

// follows skips an old cell if the original goes on with the same bytes, which
// saves parsing most cells of the original.
func (c *sheetCheck) follows(it *ooxml.Item) (bool, error) {
	rd := c.a.rd
	if it.Kind != ooxml.ItemCell || c.ahead || c.b.hashed || c.addedRow || c.closeRow {
		return false, nil
	}
	if it.Row != rd.Row || it.Implied && it.Col != rd.Col+1 || c.clear.contains(it.Row, it.Col) {
		return false, nil
	}
	same, err := rd.Scanner.Follows(it.Raw)
	if err != nil || !same {
		return false, err
	}
	rd.Col = it.Col
	return true, rd.Pass(len(it.Raw), func([]byte) {})
}

// passRow skips the old cells of a row that was just begun if both sides have the
// same bytes, which saves parsing them.
func (c *sheetCheck) passRow() error {
	const longest = 64 << 10
	row := c.a.rd.Row
	cells, ok, err := c.a.rd.Scanner.Ahead([]byte("</"+c.a.rd.Prefix+"row>"), longest)
	if err != nil || !ok {
		return err
	}
	last := lastCell(cells, row, c.a.rd.Prefix)
	_, cleared := c.clear.meets(Range{FirstRow: row, FirstCol: 1, LastRow: row, LastCol: last})
	if last == 0 || cleared || c.cells.ok && c.cells.cell.Row == row && c.cells.cell.Col <= last {
		return nil
	}
	same, err := c.b.rd.Scanner.Follows(cells)
	if err != nil {
		return unreadable(err)
	}
	for _, rd := range []*ooxml.Reader{c.a.rd, c.b.rd} {
		if !same || err != nil {
			break
		}
		rd.Col = last
		err = rd.Pass(len(cells), func([]byte) {})
	}
	return err
}

// lastCell returns the column of the last cell of a row, or 0 if its bytes may be
// something else than whole cells with addresses.
func lastCell(cells []byte, row int, prefix string) int {
	open := "<" + prefix
	for _, other := range []string{"<!", "<?", open + "row", open + "c>", open + "c/>"} {
		if bytes.Contains(cells, []byte(other)) {
			return 0
		}
	}
	tag := cells[max(0, bytes.LastIndex(cells, []byte(open+"c "))):]
	end := bytes.IndexByte(tag, '>') + 1
	if end < len(open)+len("c >") {
		return 0
	}
	ref, _, err := xmlscan.AttrValue(xmlscan.TagAttrs(tag[:end]), "r")
	at, ok := grid.ParseAddress(ref)
	if err != nil || !ok || at.Row != row {
		return 0
	}
	return at.Col
}

// advance reads the original's next item that must agree.
func (c *sheetCheck) advance() error {
	for !c.ahead && !c.end {
		it, err := c.a.read()
		switch {
		case err == io.EOF:
			c.end = true
		case err != nil:
			return err
		case it.Kind == ooxml.ItemCell && c.isGone(&it):
		default:
			c.next, c.ahead = it, true
		}
	}
	return nil
}

// isGone reports whether the edit removes the original's cell.
func (c *sheetCheck) isGone(it *ooxml.Item) bool {
	return !it.Formula && (c.clear.contains(it.Row, it.Col) ||
		it.Blank && it.Row == c.b.rd.Row && slices.Contains(c.placed, it.Col))
}

func (c *sheetCheck) sameBetween() bool {
	same := c.a.between.Sum64() == c.b.between.Sum64()
	c.a.between.Reset()
	c.b.between.Reset()
	c.b.hashed = false
	return same
}

// compare checks that the copy's item is the original's next one.
func (c *sheetCheck) compare(it *ooxml.Item) error {
	if err := c.advance(); err != nil {
		return err
	}
	if !c.sameBetween() {
		return changed("", fmt.Sprintf("something near row %d changed", c.a.rd.Row))
	}
	old := &c.next
	same := !c.end && old.Kind == it.Kind
	if same {
		var err error
		if same, err = c.sameItem(old, it); err != nil {
			return unreadable(err)
		}
	}
	c.ahead = false
	if same {
		return nil
	}
	e := changed("", "the cells or what is around them changed")
	if it.Kind == ooxml.ItemCell {
		e.Cell, e.Why = Address{Row: it.Row, Col: it.Col}.String(), "the cell changed"
	}
	return e
}

// sameItem compares two items of the same kind.
func (c *sheetCheck) sameItem(ia, ib *ooxml.Item) (bool, error) {
	if ia.Row != ib.Row || ia.Col != ib.Col {
		return false, nil
	}
	if bytes.Equal(ia.Raw, ib.Raw) {
		return true, nil
	}
	tagA, tagB := ia.Raw[:ia.Tag], ib.Raw[:ib.Tag]
	var errA, errB error
	switch ia.Kind {
	case ooxml.ItemFilter:
		was, err := ia.Ref()
		if err != nil {
			return false, err
		}
		is, err := ib.Ref()
		if err != nil {
			return false, err
		}
		c.v.filters = append(c.v.filters, filterChange{c.sheet.ref.index, was, is})
		is.LastCol = was.LastCol
		if is != was {
			return false, nil
		}
		fallthrough
	case ooxml.ItemDimension:
		tagA, errA = xmlscan.SetAttr(tagA, "ref", "")
		tagB, errB = xmlscan.SetAttr(tagB, "ref", "")
	case ooxml.ItemData:
		if ia.Empty && !ib.Empty {
			tagA, c.closeData = xmlscan.Opened(tagA), true
		}
	case ooxml.ItemRow:
		tagA, errA = xmlscan.DropAttr(tagA, "spans")
		tagB, errB = xmlscan.DropAttr(tagB, "spans")
		if ia.Empty && !ib.Empty {
			tagA, c.closeRow = xmlscan.Opened(tagA), true
		}
	default:
		return false, nil
	}
	return bytes.Equal(tagA, tagB) && bytes.Equal(ia.Raw[ia.Tag:], ib.Raw[ib.Tag:]), errors.Join(errA, errB)
}

// read returns the next item that must agree.
func (s *side) read() (ooxml.Item, error) {
	for {
		it, err := s.rd.Next()
		if err != nil {
			return it, err
		}
		switch it.Kind {
		case ooxml.ItemOther, ooxml.ItemSection, ooxml.ItemRootEnd:
			s.between.Write(it.Raw)
			s.hashed = true
		case ooxml.ItemCols, ooxml.ItemColsEnd:
			if s.looks == nil {
				return it, nil
			}
		case ooxml.ItemCol:
			if s.looks == nil {
				return it, nil
			}
			if err := s.note(&it); err != nil {
				return it, err
			}
		default:
			return it, nil
		}
	}
}

// note records the look of each column of an entry in the list of widths, because
// the copy may split the entry.
func (s *side) note(it *ooxml.Item) error {
	from, to, err := colRange(it.Attrs())
	if err != nil {
		return err
	}
	tag := it.Raw[:it.Tag]
	for _, name := range []string{"min", "max"} {
		if tag, err = xmlscan.SetAttr(tag, name, "0"); err != nil {
			return err
		}
	}
	if !it.Empty {
		tag = xmlscan.Replace(tag, len(tag)-1, len(tag)-1, "/")
	}
	look := string(tag)
	for col := max(from, 1); col <= min(to, grid.MaxCol); col++ {
		s.looks[col] = look
	}
	return nil
}

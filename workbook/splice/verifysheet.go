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
)

// sheetCheck goes through a sheet and its copy side by side. The copy is read
// item by item. What is new in it is passed over, what was cleared is passed
// over in the original, and all else must be the same bytes in the same order.
type sheetCheck struct {
	v     *verifier
	sheet *editedSheet
	clear rangeSet
	cells *source // new cells not yet met
	a, b  side

	next      item  // of the original, read but not compared yet
	ahead     bool  // next holds an item
	end       bool  // of the original
	placed    []int // columns of the new cells met in this row
	addedRow  bool  // in a row that the original has not
	closeRow  bool  // in a row that closed itself in the original
	closeData bool  // the same for the list of rows
}

// side is one of the two sheets. Bytes between the items that must agree are
// hashed, for the two sides may cut them differently.
type side struct {
	rd      *sheetReader
	between maphash.Hash
	hashed  bool     // something was, since the last comparison
	looks   []string // entry of each column in the list of widths; nil if they must agree
}

func (v *verifier) sheet(sheet *editedSheet, pb *part) error {
	ra, err := v.a.Open(sheet.ref.part)
	if err != nil {
		return err
	}
	defer ra.Close()
	rb, err := v.b.Open(pb)
	if err != nil {
		return unreadable(err)
	}
	defer rb.Close()
	c := &sheetCheck{v: v, sheet: sheet, clear: newRangeSet(sheet.req.Clear), cells: newSource(sheet.req.places(), len(v.edit.Styles)),
		a: side{rd: newSheetReader(ra)}, b: side{rd: newSheetReader(rb)}}
	defer c.cells.stop()
	c.b.between.SetSeed(c.a.between.Seed())
	if len(sheet.req.Widths) > 0 {
		c.a.looks, c.b.looks = make([]string, MaxCol+1), make([]string, MaxCol+1)
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
		if err := c.compare(&it); err != nil {
			return err
		}
	}
}

// finish holds that the original is at its end too and that no new cell is missing.
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
func (c *sheetCheck) isNew(it *item) (bool, error) {
	switch {
	case it.kind == itemRow:
		c.placed = c.placed[:0]
		plain := fmt.Appendf(nil, `<%srow r="%d">`, c.b.rd.prefix, it.row)
		if !c.cells.ok || c.cells.cell.Row != it.row || !bytes.Equal(it.raw, plain) {
			return false, nil
		}
		if err := c.advance(); err != nil {
			return false, err
		}
		c.addedRow = c.end || c.next.kind != itemRow || c.next.row != it.row
		return c.addedRow, nil
	case it.kind == itemCell && c.cells.ok && c.cells.cell.Row == it.row && c.cells.cell.Col == it.col:
		c.placed = append(c.placed, it.col)
		return true, c.cells.advance()
	case it.kind == itemRowEnd && (c.addedRow || c.closeRow):
		c.addedRow, c.closeRow = false, false
		return true, nil
	case it.kind == itemDataEnd && c.closeData:
		c.closeData = false
		return true, nil
	}
	return false, nil
}

// follows passes over an old cell whose bytes come next in the original. That
// is so for most cells, and then the original's need not be taken apart.
func (c *sheetCheck) follows(it *item) (bool, error) {
	rd := c.a.rd
	if it.kind != itemCell || c.ahead || c.b.hashed || c.addedRow || c.closeRow {
		return false, nil
	}
	if it.row != rd.row || it.implied && it.col != rd.col+1 || c.clear.contains(it.row, it.col) {
		return false, nil
	}
	same, err := rd.s.Follows(it.raw)
	if err != nil || !same {
		return false, err
	}
	rd.col = it.col
	for left := len(it.raw); left > 0; left -= len(rd.s.Raw()) {
		if err := rd.s.Pass(left); err != nil {
			return false, err
		}
	}
	return true, nil
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
		case it.kind == itemCell && c.isGone(&it):
		default:
			c.next, c.ahead = it, true
		}
	}
	return nil
}

// isGone reports whether the edit takes the original's cell away.
func (c *sheetCheck) isGone(it *item) bool {
	return !it.formula && (c.clear.contains(it.row, it.col) ||
		it.blank && it.row == c.b.rd.row && slices.Contains(c.placed, it.col))
}

func (c *sheetCheck) sameBetween() bool {
	same := c.a.between.Sum64() == c.b.between.Sum64()
	c.a.between.Reset()
	c.b.between.Reset()
	c.b.hashed = false
	return same
}

// compare holds the copy's item to be the original's next one.
func (c *sheetCheck) compare(it *item) error {
	if err := c.advance(); err != nil {
		return err
	}
	if !c.sameBetween() {
		return changed("", fmt.Sprintf("something near row %d changed", c.a.rd.row))
	}
	old := &c.next
	same := !c.end && old.kind == it.kind
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
	if it.kind == itemCell {
		e.Cell, e.Why = Address{Row: it.row, Col: it.col}.String(), "the cell changed"
	}
	return e
}

// sameItem compares two items of the same kind.
func (c *sheetCheck) sameItem(ia, ib *item) (bool, error) {
	if ia.row != ib.row || ia.col != ib.col {
		return false, nil
	}
	if bytes.Equal(ia.raw, ib.raw) {
		return true, nil
	}
	tagA, tagB := ia.raw[:ia.tag], ib.raw[:ib.tag]
	var errA, errB error
	switch ia.kind {
	case itemFilter:
		was, err := rangeAttr(ia)
		if err != nil {
			return false, err
		}
		is, err := rangeAttr(ib)
		if err != nil {
			return false, err
		}
		c.v.filters = append(c.v.filters, filterChange{c.sheet.ref.index, was, is})
		is.LastCol = was.LastCol
		if is != was {
			return false, nil
		}
		fallthrough
	case itemDimension:
		tagA, errA = setAttr(tagA, "ref", "")
		tagB, errB = setAttr(tagB, "ref", "")
	case itemData:
		if ia.empty && !ib.empty {
			tagA, c.closeData = opened(tagA), true
		}
	case itemRow:
		tagA, errA = dropAttr(tagA, "spans")
		tagB, errB = dropAttr(tagB, "spans")
		if ia.empty && !ib.empty {
			tagA, c.closeRow = opened(tagA), true
		}
	default:
		return false, nil
	}
	return bytes.Equal(tagA, tagB) && bytes.Equal(ia.raw[ia.tag:], ib.raw[ib.tag:]), errors.Join(errA, errB)
}

// read gives the next item that must agree.
func (s *side) read() (item, error) {
	for {
		it, err := s.rd.next()
		if err != nil {
			return it, err
		}
		switch it.kind {
		case itemOther, itemSection, itemRootEnd:
			s.between.Write(it.raw)
			s.hashed = true
		case itemCols, itemColsEnd:
			if s.looks == nil {
				return it, nil
			}
		case itemCol:
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

// note keeps the look of the columns of one entry in the list of widths, for
// the copy may have it in several entries.
func (s *side) note(it *item) error {
	from, to, err := colRange(it.attrs())
	if err != nil {
		return err
	}
	tag := it.raw[:it.tag]
	for _, name := range []string{"min", "max"} {
		if tag, err = setAttr(tag, name, "0"); err != nil {
			return err
		}
	}
	if !it.empty {
		tag = splice(tag, len(tag)-1, len(tag)-1, "/")
	}
	look := string(tag)
	for col := max(from, 1); col <= min(to, MaxCol); col++ {
		s.looks[col] = look
	}
	return nil
}

package splice

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/xmlscan"
)

// A table is widened if the new columns begin just right of it: its range and those
// of its filter and sorting grow, and it gets a column for each new header. Programs
// open the file only if a column's name is the text of its header cell and no two
// names are equal, so a table where that would fail is left alone.

// widening is the new shape of one table.
type widening struct {
	part  *part
	was   Range
	names []string // of the columns that are added at its right edge
}

func (w *widening) is() Range {
	wide := w.was
	wide.LastCol += len(w.names)
	return wide
}

// tableAt returns the table that contains a cell, or nil.
func tableAt(blocks []block, at Address) *block {
	i := slices.IndexFunc(blocks, func(b block) bool { return b.table != nil && b.Contains(at.Row, at.Col) })
	if i < 0 {
		return nil
	}
	return &blocks[i]
}

// headRow returns the table's header row, or the row above it if it has none.
func (b *block) headRow() int { return b.FirstRow + b.table.Headers - 1 }

// widen plans the new part of the table that the edit names, if it can grow.
func (pl *plan) widen(t *target) error {
	b := tableAt(t.facts.blocks, t.req.WidenTable)
	heads := t.req.headsRightOf(b)
	for i := range t.facts.blocks {
		other := &t.facts.blocks[i]
		if b != nil && other.table != nil && other.Range != b.Range && len(heads) > 0 && other.FirstRow > b.LastRow &&
			other.LastCol+1 == heads[0].Col && other.Overlaps(other.besides(t.facts.new)) {
			pl.note(t, fmt.Sprintf("the table %q was not widened, because the new columns have no header in its first row", other.name))
		}
	}
	if len(heads) == 0 {
		return nil
	}
	if why := t.cannotWiden(b, heads); why != "" {
		pl.note(t, fmt.Sprintf("the results are beside the table %q, not in it, because %s", b.name, why))
		return nil
	}
	w := widening{part: b.table.Part, was: b.Range}
	for _, c := range heads {
		w.names = append(w.names, c.Text)
	}
	data, err := pl.content(w.part)
	if err == nil {
		data, err = w.apply(data)
	}
	if err != nil {
		return inPart(err, w.part.Name)
	}
	pl.small[w.part] = data
	return nil
}

// besides returns the range of the table's columns in the rows of r.
func (b *block) besides(r Range) Range {
	return Range{FirstRow: r.FirstRow, FirstCol: b.FirstCol, LastRow: r.LastRow, LastCol: b.LastCol}
}

// headsRightOf returns the new cells in a table's header row to the right of it.
func (s *Sheet) headsRightOf(b *block) (heads []Cell) {
	if b == nil || s.Cells == nil {
		return nil
	}
	for c := range s.places() {
		if c.Row > b.headRow() {
			break
		}
		if c.Row == b.headRow() && c.Col > b.LastCol {
			heads = append(heads, c)
		}
	}
	return heads
}

// cannotWiden returns why a table cannot grow, or "".
func (t *target) cannotWiden(b *block, heads []Cell) (why string) {
	if b.table.Odd != "" {
		return b.table.Odd
	}
	grown := Range{FirstRow: b.FirstRow, FirstCol: b.LastCol + 1, LastRow: b.LastRow, LastCol: b.LastCol + len(heads)}
	known := map[string]bool{}
	for _, name := range b.table.Columns.Names {
		known[ooxml.NameKey(name)] = true
	}
	for i, c := range heads {
		key := ooxml.NameKey(c.Text)
		switch {
		case c.Col != grown.FirstCol+i:
			return "other cells are between them"
		case c.Kind != Text || c.Text == "":
			return "its headers are in another row"
		case known[key]:
			return fmt.Sprintf("two of its columns would be called %q", c.Text)
		}
		known[key] = true
	}
	for _, other := range t.facts.blocks {
		if other.Overlaps(grown) {
			return "other cells are in its rows"
		}
	}
	for c := range t.req.places() {
		if c.Row > b.LastRow {
			break
		}
		if c.Row > b.LastRow-b.table.Totals && grown.Contains(c.Row, c.Col) {
			return "a result would be in its total row"
		}
	}
	return ""
}

// apply returns the new bytes of the table's part.
func (w *widening) apply(data []byte) ([]byte, error) {
	var out bytes.Buffer
	s := xmlscan.OfBytes(data)
	inColumns := false
	list, err := ooxml.ReadTableColumns(data)
	if err != nil {
		return nil, err
	}
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return out.Bytes(), nil
		}
		if err != nil {
			return nil, err
		}
		tag := s.Raw()
		switch local := xmlscan.LocalName(s.Name); {
		case kind == xmlscan.EndTag && inColumns && s.Level == 2:
			prefix := xmlscan.Prefix(append([]byte{'<'}, s.Name...))
			for i, name := range w.names {
				fmt.Fprintf(&out, `<%stableColumn id="%d" name="%s"/>`, prefix, list.Highest+1+i, escapedName(name))
			}
			inColumns = false
		case kind != xmlscan.StartTag && kind != xmlscan.EmptyTag:
		case holdsTableRange(local, s.Level):
			if tag, err = w.wider(tag); err != nil {
				return nil, err
			}
		case s.Level == 2 && local == "tableColumns" && kind == xmlscan.StartTag:
			inColumns = true
			if tag, err = recount(tag, len(w.names)); err != nil {
				return nil, err
			}
		}
		out.Write(tag)
	}
}

// holdsTableRange reports whether an element has the range of the table or of its
// rows: the root, the filter and the sorting.
func holdsTableRange(local string, level int) bool {
	return level == 1 && local == "table" || level == 2 && local == "autoFilter" ||
		(level == 2 || level == 3) && local == "sortState"
}

// wider returns a start tag with its range grown, if it spans the table's columns.
func (w *widening) wider(tag []byte) ([]byte, error) {
	ref, _, err := xmlscan.AttrValue(xmlscan.TagAttrs(tag), "ref")
	if err != nil {
		return nil, err
	}
	r, ok := grid.ParseRange(ref)
	if !ok || r.FirstCol != w.was.FirstCol || r.LastCol != w.was.LastCol {
		return tag, nil
	}
	r.LastCol = w.is().LastCol
	return xmlscan.SetAttr(tag, "ref", r.String())
}

func recount(tag []byte, more int) ([]byte, error) {
	v, ok, err := xmlscan.AttrValue(xmlscan.TagAttrs(tag), "count")
	n, notNumber := strconv.Atoi(v)
	if !ok || err != nil || notNumber != nil {
		return tag, err
	}
	return xmlscan.SetAttr(tag, "count", strconv.Itoa(n+more))
}

// escapedName returns a column's name for an attribute. Characters that an
// attribute would lose are written as _xHHHH_.
func escapedName(name string) []byte {
	var b []byte
	for _, c := range ooxml.AppendText(nil, name) {
		switch c {
		case '"':
			b = append(b, "&quot;"...)
		case '\n', '\t':
			b = fmt.Appendf(b, "_x%04x_", c)
		default:
			b = append(b, c)
		}
	}
	return bytes.ReplaceAll(b, []byte("&#13;"), []byte("_x000d_"))
}

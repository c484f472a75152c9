package splice

import (
	"slices"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/xmlscan"
)

// announcing allows the lists of parts to name a new styles part.
func (v *verifier) announcing() *xmlscan.Growth {
	return &xmlscan.Growth{Added: func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error) {
		if kind != xmlscan.EndTag || a.Level != 1 || b.Level != 2 {
			return false, nil
		}
		switch xmlscan.LocalName(b.Name) {
		case "Override":
			name, _, err := xmlscan.AttrValue(b.Attrs(), "PartName")
			return strings.Contains(v.b.Resolve("", name), "styles"), err
		case "Relationship":
			kind, _, err := xmlscan.AttrValue(b.Attrs(), "Type")
			return strings.HasSuffix(kind, "/styles"), err
		}
		return false, nil
	}}
}

// widenedTable adds the table that may be wider in the copy.
func (v *verifier) widenedTable(ref *sheetRef, req *Sheet, tables map[*part]*widening) error {
	var f facts
	if err := v.a.tables(&f, ref.Sheet); err != nil {
		return err
	}
	b := tableAt(f.blocks, req.WidenTable)
	if b == nil {
		return nil
	}
	w := widening{part: b.table.Part, was: b.Range}
	for _, c := range req.headsRightOf(b) {
		if c.Col != b.LastCol+len(w.names)+1 {
			return nil // not beside the table, which must not change
		}
		w.names = append(w.names, c.Text)
	}
	tables[w.part] = &w
	return nil
}

// matches reports whether b is the table a with the new columns at its right edge.
func (w *widening) matches(a, b []byte) (bool, error) {
	list, err := ooxml.ReadTableColumns(b)
	old := w.was.LastCol - w.was.FirstCol + 1
	if err != nil || len(w.names) == 0 || !list.Distinct || len(list.Names) != old+len(w.names) || !slices.Equal(list.Names[old:], w.names) {
		return false, err
	}
	grown := xmlscan.Growth{
		Added: func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error) {
			return kind == xmlscan.EndTag && a.Level == 2 && b.Level == 3 && xmlscan.LocalName(b.Name) == "tableColumn", nil
		},
		Want: func(level int, local string, tagA, _ []byte) ([]byte, error) {
			switch {
			case holdsTableRange(local, level):
				return w.wider(tagA)
			case level == 2 && local == "tableColumns":
				return recount(tagA, len(w.names))
			}
			return nil, nil
		},
	}
	return grown.Matches(a, b)
}

package splice

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/xmlscan"
)

// growth is a rule by which a part of the copy may differ from the original: by
// new elements and by changes in start tags.
type growth struct {
	// added reports whether the element that begins at b may be new. a is at the
	// original's token in its place, which is of kind.
	added func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error)
	// want returns the start tag that the copy must have in place of tagA, or nil
	// for tagA itself. tagB is the copy's. If want opens an empty element, its
	// content is allowed.
	want func(level int, local string, tagA, tagB []byte) ([]byte, error)
}

// matches reports whether b differs from a only by the rule.
func (g *growth) matches(a, b []byte) (bool, error) {
	sa, sb := xmlscan.OfBytes(a), xmlscan.OfBytes(b)
	ka, errA := sa.Next()
	for {
		kb, errB := sb.Next()
		if errA == io.EOF && errB == io.EOF {
			return true, nil
		}
		if errA != nil || errB != nil {
			if errA == io.EOF || errB == io.EOF {
				return false, nil
			}
			return false, errors.Join(errA, errB)
		}
		want := sa.Raw()
		if isStart(ka) && isStart(kb) && sa.Level == sb.Level && bytes.Equal(sa.Name, sb.Name) && g.want != nil {
			tag, err := g.want(sa.Level, xmlscan.LocalName(sa.Name), want, sb.Raw())
			if err != nil {
				return false, err
			}
			if tag != nil {
				want = tag
			}
		}
		if bytes.Equal(want, sb.Raw()) {
			if ka == xmlscan.EmptyTag {
				if err := skipElement(sb, kb); err != nil {
					return false, err
				}
			}
			ka, errA = sa.Next()
			continue
		}
		if !isStart(kb) {
			return false, nil
		}
		if ok, err := g.added(sa, ka, sb); err != nil || !ok {
			return false, err
		}
		if err := skipElement(sb, kb); err != nil {
			return false, err
		}
	}
}

func isStart(kind xmlscan.Token) bool { return kind == xmlscan.StartTag || kind == xmlscan.EmptyTag }

// skipElement reads to the end of the element whose start was just read.
func skipElement(s *xmlscan.Scanner, kind xmlscan.Token) error {
	level := s.Level
	for kind != xmlscan.EmptyTag {
		k, err := s.Next()
		if err != nil {
			return err
		}
		if k == xmlscan.EndTag && s.Level == level {
			return nil
		}
	}
	return nil
}

// stylesGrowth allows entries at the end of the two lists that formats need,
// those lists where they were missing, and their counts.
var stylesGrowth = &growth{
	added: func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error) {
		nameA, nameB := xmlscan.LocalName(a.Name), xmlscan.LocalName(b.Name)
		switch b.Level {
		case 3:
			return kind == xmlscan.EndTag && a.Level == 2 && styleItems[nameA] == nameB, nil
		case 2:
			return styleItems[nameB] != "" && (kind == xmlscan.EndTag || nameA != nameB), nil
		}
		return false, nil
	},
	want: func(level int, local string, tagA, tagB []byte) ([]byte, error) {
		if level != 2 || styleItems[local] == "" {
			return nil, nil
		}
		if bytes.HasSuffix(tagA, []byte("/>")) && !bytes.HasSuffix(tagB, []byte("/>")) {
			tagA = xmlscan.Opened(tagA)
		}
		_, counted, err := xmlscan.FindAttr(tagA, "count")
		is, _, errB := xmlscan.FindAttr(tagB, "count")
		if err != nil || errB != nil || !counted {
			return tagA, errors.Join(err, errB)
		}
		return xmlscan.SetAttr(tagA, "count", string(is.Value))
	},
}

// announcing allows the lists of parts to name a new styles part.
func (v *verifier) announcing() *growth {
	return &growth{added: func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error) {
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
	grown := growth{
		added: func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error) {
			return kind == xmlscan.EndTag && a.Level == 2 && b.Level == 3 && xmlscan.LocalName(b.Name) == "tableColumn", nil
		},
		want: func(level int, local string, tagA, _ []byte) ([]byte, error) {
			switch {
			case holdsTableRange(local, level):
				return w.wider(tagA)
			case level == 2 && local == "tableColumns":
				return recount(tagA, len(w.names))
			}
			return nil, nil
		},
	}
	return grown.matches(a, b)
}

package splice

import (
	"fmt"
	"strconv"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/xmlscan"
)

// width is the wanted width of one column.
type width struct {
	col   int
	width float64
}

// colsFacts holds the facts about the list of column widths.
type colsFacts struct {
	lists     int
	last      int
	irregular bool // more than one list, or columns out of order
}

// cols copies the list of column widths. Each entry is for a range of columns; a
// range with a wanted column is split.
func (p *pass) cols(it *ooxml.Item) error {
	f := &p.t.facts.cols
	switch it.Kind {
	case ooxml.ItemCols:
		if p.first() {
			f.lists++
			f.irregular = f.irregular || f.lists > 1 || p.rd.HasData
		}
		if it.Empty && len(p.wishes.left) > 0 {
			prefix := xmlscan.Prefix(it.Raw)
			p.write(xmlscan.Opened(it.Raw))
			p.wishes.before(grid.MaxCol+1, prefix)
			p.write([]byte("</" + prefix + "cols>"))
			return nil
		}
	case ooxml.ItemColsEnd:
		p.wishes.before(grid.MaxCol+1, xmlscan.Prefix(it.Raw[1:]))
	case ooxml.ItemCol:
		from, to, err := colRange(it.Attrs())
		if err != nil {
			return err
		}
		if p.first() {
			f.irregular = f.irregular || from <= f.last || to < from || to > grid.MaxCol
			f.last = to
			for a, l := range p.t.facts.likes {
				if from <= a.Col && a.Col <= to {
					if err := l.offer(1, it.Attrs(), "style"); err != nil {
						return err
					}
				}
			}
			break
		}
		p.wishes.before(from, xmlscan.Prefix(it.Raw))
		if len(p.wishes.left) > 0 && p.wishes.left[0].col <= to {
			return p.wishes.split(it, from, to)
		}
	}
	p.write(it.Raw)
	return nil
}

func colRange(attrs []byte) (from, to int, err error) {
	err = xmlscan.EachAttr(attrs, func(name, value string) {
		switch name {
		case "min":
			from, _ = strconv.Atoi(value) // 0 is irregular
		case "max":
			to, _ = strconv.Atoi(value)
		}
	})
	return from, to, err
}

// wishes holds the widths still to be written.
type wishes struct {
	left  []width // by column
	write func([]byte)
}

// before writes new entries for the wishes left of a column.
func (ws *wishes) before(col int, prefix string) {
	for len(ws.left) > 0 && ws.left[0].col < col {
		w := ws.left[0]
		ws.left = ws.left[1:]
		ws.write(fmt.Appendf(nil, `<%scol min="%d" max="%d" width="%s" customWidth="1"/>`, prefix, w.col, w.col, w))
	}
}

func (w width) String() string { return strconv.FormatFloat(w.width, 'g', -1, 64) }

// list writes a list of its own, if there are wishes.
func (ws *wishes) list(prefix string) {
	if len(ws.left) > 0 {
		ws.write([]byte("<" + prefix + "cols>"))
		ws.before(grid.MaxCol+1, prefix)
		ws.write([]byte("</" + prefix + "cols>"))
	}
}

// split writes an old entry in pieces, and the pieces of wanted columns with their
// widths.
func (ws *wishes) split(it *ooxml.Item, from, to int) error {
	tag := it.Raw[:it.Tag]
	if !it.Empty {
		tag = xmlscan.Replace(tag, len(tag)-1, len(tag)-1, "/")
	}
	piece := func(from, to int, w *width) error {
		out, err := xmlscan.SetAttr(tag, "min", strconv.Itoa(from))
		if err == nil {
			out, err = xmlscan.SetAttr(out, "max", strconv.Itoa(to))
		}
		if err == nil && w != nil {
			out, err = xmlscan.SetAttr(out, "width", w.String())
		}
		if err == nil && w != nil {
			out, err = xmlscan.SetAttr(out, "customWidth", "1")
		}
		ws.write(out)
		return err
	}
	for len(ws.left) > 0 && ws.left[0].col <= to {
		w := ws.left[0]
		ws.left = ws.left[1:]
		if from < w.col {
			if err := piece(from, w.col-1, nil); err != nil {
				return err
			}
		}
		if err := piece(w.col, w.col, &w); err != nil {
			return err
		}
		from = w.col + 1
	}
	if from <= to {
		return piece(from, to, nil)
	}
	return nil
}

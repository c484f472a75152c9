package splice

import (
	"bytes"
	"fmt"
	"strconv"

	"tenback/workbook/xmlscan"
)

// width is the wish for one column.
type width struct {
	col   int
	width float64
}

// colsFacts is what the first pass learns about the list of column widths.
type colsFacts struct {
	lists     int
	last      int
	irregular bool // more than one list, or columns out of order
}

// cols handles the list of column widths. Each entry stands for a range of
// columns with one look; a range that holds a column of ours is split.
func (p *pass) cols(it *item) error {
	f := &p.t.facts.cols
	switch it.kind {
	case itemCols:
		if p.first() {
			f.lists++
			f.irregular = f.irregular || f.lists > 1 || p.rd.hasData
		}
		if it.empty && len(p.widths) > 0 {
			p.write(opened(it.raw))
			p.newCols(MaxCol+1, prefixOf(it.raw))
			p.write([]byte("</" + prefixOf(it.raw) + "cols>"))
			return nil
		}
	case itemColsEnd:
		p.newCols(MaxCol+1, prefixOf(bytes.Replace(it.raw, []byte("/"), nil, 1)))
	case itemCol:
		from, to, err := colRange(it.attrs())
		if err != nil {
			return err
		}
		if p.first() {
			f.irregular = f.irregular || from <= f.last || to < from || to > MaxCol
			f.last = to
			for a, l := range p.t.facts.likes {
				if from <= a.Col && a.Col <= to {
					if err := l.offer(1, it.attrs(), "style"); err != nil {
						return err
					}
				}
			}
			break
		}
		p.newCols(from, prefixOf(it.raw))
		if len(p.widths) > 0 && p.widths[0].col <= to {
			return p.splitCol(it, from, to)
		}
	}
	p.write(it.raw)
	return nil
}

func colRange(attrs []byte) (from, to int, err error) {
	err = eachAttr(attrs, func(name, value string) {
		switch name {
		case "min":
			from, _ = strconv.Atoi(value) // 0, which is irregular, if not a number
		case "max":
			to, _ = strconv.Atoi(value)
		}
	})
	return from, to, err
}

func prefixOf(tag []byte) string {
	name := tag[1:]
	for i, c := range name {
		if c == ':' {
			return string(name[:i+1])
		}
		if xmlscan.IsSpace(c) || c == '>' || c == '/' {
			break
		}
	}
	return ""
}

// newCols writes entries of our own for the wishes left of column before.
func (p *pass) newCols(before int, prefix string) {
	for len(p.widths) > 0 && p.widths[0].col < before {
		w := p.widths[0]
		p.widths = p.widths[1:]
		p.write(fmt.Appendf(nil, `<%scol min="%d" max="%d" width="%s" customWidth="1"/>`, prefix, w.col, w.col, w))
	}
}

func (w width) String() string { return strconv.FormatFloat(w.width, 'g', -1, 64) }

// missingCols writes a list of widths where the sheet has none.
func (p *pass) missingCols() {
	if len(p.widths) == 0 || p.t.facts.cols.lists > 0 {
		return
	}
	p.write([]byte("<" + p.rd.prefix + "cols>"))
	p.newCols(MaxCol+1, p.rd.prefix)
	p.write([]byte("</" + p.rd.prefix + "cols>"))
}

func (p *pass) splitCol(it *item, from, to int) error {
	tag := it.raw[:it.tag]
	if !it.empty {
		tag = splice(tag, len(tag)-1, len(tag)-1, "/")
	}
	piece := func(from, to int, w *width) error {
		out, err := setAttr(tag, "min", strconv.Itoa(from))
		if err == nil {
			out, err = setAttr(out, "max", strconv.Itoa(to))
		}
		if err == nil && w != nil {
			out, err = setAttr(out, "width", w.String())
		}
		if err == nil && w != nil {
			out, err = setAttr(out, "customWidth", "1")
		}
		p.write(out)
		return err
	}
	for len(p.widths) > 0 && p.widths[0].col <= to {
		w := p.widths[0]
		p.widths = p.widths[1:]
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

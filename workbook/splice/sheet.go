package splice

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
)

type itemKind uint8

const (
	itemOther      itemKind = iota // bytes that only have to be passed on
	itemDimension                  // <dimension ...>
	itemCols                       // <cols> or <cols/>
	itemCol                        // one whole <col>
	itemColsEnd                    // </cols>
	itemData                       // <sheetData> or <sheetData/>
	itemRow                        // <row ...> or <row .../>
	itemCell                       // one whole <c>, to its end
	itemRowTail                    // start of what follows the cells in a row
	itemRowEnd                     // </row>
	itemDataEnd                    // </sheetData>
	itemFilter                     // <autoFilter ...>
	itemMerge                      // <mergeCell ...>
	itemProtection                 // <sheetProtection ...>
	itemSection                    // start of another element below the root
	itemLegacy                     // the whole element that holds <legacyDrawing>
	itemRootEnd                    // </worksheet>
)

// item is a stretch of a sheet's XML. The items in order are the whole part.
// raw is valid until the next one is read.
type item struct {
	kind    itemKind
	raw     []byte
	tag     int   // length of the start tag at the beginning of raw
	empty   bool  // the start tag closes itself
	row     int   // of a row or cell
	col     int   // of a cell
	implied bool  // the row or cell has no address of its own; its place follows from the one before
	blank   bool  // a cell with nothing in it
	formula bool  // a cell with a formula
	array   Range // of a formula that fills several cells; zero if it does not
}

func (it *item) attrs() []byte { return tagAttrs(it.raw[:it.tag]) }

// sheetReader cuts a worksheet part into items. It makes sure that rows and
// cells are in order and where they say they are.
type sheetReader struct {
	s        *scanner
	ns       mainNames
	section  string // element below the root that we are in
	prefix   string // of sheetData, with the colon
	row, col int    // of the last row and cell
	hasData  bool
	legacy   legacyPlace
}

func newSheetReader(r io.Reader) *sheetReader {
	return &sheetReader{s: newScanner(r)}
}

// next gives io.EOF after the last item of a complete sheet.
func (r *sheetReader) next() (item, error) {
	kind, err := r.s.next()
	if err == io.EOF && !r.hasData {
		return item{}, damaged("the sheet has no place for cells")
	}
	if err != nil {
		return item{}, err
	}
	it := item{raw: r.s.raw()}
	switch kind {
	case tokStart, tokEmpty:
		it.tag, it.empty = len(it.raw), kind == tokEmpty
		err = r.start(&it)
	case tokEnd:
		r.end(&it)
	}
	return it, err
}

func (r *sheetReader) start(it *item) error {
	s := r.s
	switch {
	case s.level == 1:
		if err := r.ns.read(s.name, s.attrs()); err != nil {
			return err
		}
		if string(r.ns.local(s.name)) != "worksheet" {
			return unsupported("the sheet's part is not a worksheet")
		}
		return r.legacy.readRoot(s.attrs())
	case s.level == 2:
		return r.startSection(it)
	case s.level == 3:
		name := r.ns.local(s.name)
		switch r.section {
		case "sheetData":
			if string(name) != "row" {
				return unsupported("the sheet has something other than rows among its rows")
			}
			return r.startRow(it)
		case "cols":
			if string(name) == "col" {
				it.kind = itemCol
				return r.whole(it)
			}
		case "mergeCells":
			if string(name) == "mergeCell" {
				it.kind = itemMerge
			}
		}
	case s.level == 4 && r.section == "sheetData":
		if string(r.ns.local(s.name)) == "c" {
			return r.cell(it)
		}
		if localName(s.name) == "AlternateContent" {
			return unsupported("the sheet has alternative versions of its cells")
		}
		it.kind = itemRowTail
	}
	return nil
}

func (r *sheetReader) startSection(it *item) error {
	r.section = string(r.ns.local(r.s.name))
	if r.section == "" || r.section == "legacyDrawing" {
		return r.foreignSection(it)
	}
	r.legacy.pass(r.section)
	switch r.section {
	case "dimension":
		it.kind = itemDimension
	case "cols":
		it.kind = itemCols
	case "sheetData":
		it.kind = itemData
		if r.hasData {
			return damaged("the sheet lists its cells twice")
		}
		r.hasData = true
		r.prefix = string(r.s.name[:bytes.IndexByte(r.s.name, ':')+1])
	case "autoFilter":
		it.kind = itemFilter
	case "sheetProtection":
		it.kind = itemProtection
	case "mergeCells":
	default:
		it.kind = itemSection
		return nil
	}
	return r.ns.checkRedeclared(r.s.attrs())
}

// foreignSection reads an element of another namespace, or the legacy drawing
// itself, to its end. It may hold alternative versions of one of the sections.
func (r *sheetReader) foreignSection(it *item) error {
	it.kind = itemSection
	if err := r.whole(it); err != nil {
		return err
	}
	r.section = ""
	within, drawing, err := r.sectionsWithin(it.raw)
	if err != nil {
		return err
	}
	if drawing == nil {
		r.legacy.pass(within)
		return nil
	}
	it.kind = itemLegacy
	return r.legacy.found(drawing)
}

// sectionsWithin gives the first section in alternative versions, and the
// attributes of the legacy drawing if there is one.
func (r *sheetReader) sectionsWithin(element []byte) (first string, drawing []byte, err error) {
	err = eachStart(element, func(s *scanner) error {
		name := string(r.ns.local(s.name))
		if name == "legacyDrawing" && (s.level == 1 || s.level == 3) {
			drawing = append([]byte{}, s.attrs()...)
		}
		if s.level == 3 && first == "" {
			first = name
		}
		return nil
	})
	return first, drawing, err
}

func (r *sheetReader) end(it *item) {
	switch {
	case r.s.level == 1:
		it.kind = itemRootEnd
	case r.s.level == 2:
		switch r.section {
		case "cols":
			it.kind = itemColsEnd
		case "sheetData":
			it.kind = itemDataEnd
		}
		r.section = ""
	case r.s.level == 3 && r.section == "sheetData":
		it.kind = itemRowEnd
	}
}

func (r *sheetReader) startRow(it *item) error {
	it.kind = itemRow
	it.row = r.row + 1
	it.implied = true
	for at, attrs := 0, r.s.attrs(); ; {
		a, ok, err := nextAttr(attrs, at)
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		at = a.to
		if string(a.name) == "r" {
			n, err := strconv.ParseUint(string(a.value), 10, 32)
			if err != nil {
				return damaged("the sheet has a row with the number " + strconv.Quote(clip(a.value)))
			}
			it.row, it.implied = int(n), false
		} else if bytes.HasPrefix(a.name, []byte("xmlns")) {
			if err := r.ns.checkRedeclared(attrs); err != nil {
				return err
			}
		}
	}
	if it.row <= r.row {
		return unsupported(fmt.Sprintf("row %d follows row %d, so the rows are out of order", it.row, r.row))
	}
	if it.row > MaxRow {
		return damaged("the sheet has more rows than a sheet can have")
	}
	r.row, r.col = it.row, 0
	return nil
}

// cell reads a cell to its end.
func (r *sheetReader) cell(it *item) error {
	it.kind = itemCell
	it.row, it.col, it.implied = r.row, r.col+1, true
	for at, attrs := 0, r.s.attrs(); ; {
		a, ok, err := nextAttr(attrs, at)
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		at = a.to
		if string(a.name) == "r" {
			place, ok := parseAddress(a.value)
			if !ok || place.Row != r.row {
				return unsupported(fmt.Sprintf("row %d has a cell with the address %q", r.row, clip(a.value)))
			}
			it.col, it.implied = place.Col, false
		} else if bytes.HasPrefix(a.name, []byte("xmlns")) {
			if err := r.ns.checkRedeclared(attrs); err != nil {
				return err
			}
		}
	}
	if it.col <= r.col {
		return unsupported(fmt.Sprintf("row %d has cell %v after %v, so its cells are out of order",
			r.row, Address{r.row, it.col}, Address{r.row, r.col}))
	}
	if it.col > MaxCol {
		return damaged("the sheet has more columns than a sheet can have")
	}
	r.col = it.col
	it.blank = true
	return r.whole(it)
}

// whole extends the item from its start tag to its end tag.
func (r *sheetReader) whole(it *item) error {
	if it.empty {
		return nil
	}
	s := r.s
	level := s.level
	s.keep = s.from
	defer func() { s.keep = -1 }()
	for {
		kind, err := s.next()
		if err != nil {
			return err // not io.EOF: the element is open
		}
		switch kind {
		case tokStart, tokEmpty:
			it.blank = false
			if it.kind == itemCell && s.level == level+1 && string(r.ns.local(s.name)) == "f" {
				if err := it.readFormula(s.attrs()); err != nil {
					return err
				}
			}
		case tokText:
			it.blank = it.blank && len(bytes.TrimSpace(s.raw())) == 0
		case tokEnd:
			if s.level == level {
				it.raw = s.buf[s.keep:s.to]
				return nil
			}
		}
	}
}

func (it *item) readFormula(attrs []byte) error {
	it.formula = true
	kind, _, err := attrValue(attrs, "t")
	if err != nil || kind != "array" && kind != "dataTable" {
		return err
	}
	ref, _, err := attrValue(attrs, "ref")
	if r, ok := parseRange(ref); ok && (r.FirstRow != r.LastRow || r.FirstCol != r.LastCol) {
		it.array = r
	}
	return err
}

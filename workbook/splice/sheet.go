package splice

import (
	"bytes"
	"fmt"
	"io"
	"strconv"

	"tenback/workbook/grid"
	"tenback/workbook/xmlscan"
)

type itemKind uint8

const (
	itemOther     itemKind = iota // bytes that only have to be passed on
	itemDimension                 // <dimension ...>
	itemCols                      // <cols> or <cols/>
	itemCol                       // one whole <col>
	itemColsEnd                   // </cols>
	itemData                      // <sheetData> or <sheetData/>
	itemRow                       // <row ...> or <row .../>
	itemCell                      // one whole <c>, to its end
	itemRowTail                   // start of what follows the cells in a row
	itemRowEnd                    // </row>
	itemDataEnd                   // </sheetData>
	itemFilter                    // <autoFilter ...>
	itemMerge                     // <mergeCell ...>
	itemSection                   // start of another element below the root
	itemRootEnd                   // </worksheet>
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

func (it *item) attrs() []byte { return xmlscan.TagAttrs(it.raw[:it.tag]) }

// sheetReader cuts a worksheet part into items. It makes sure that rows and
// cells are in order and where they say they are.
type sheetReader struct {
	s        *xmlscan.Scanner
	ns       mainNames
	section  string // element below the root that we are in
	prefix   string // of sheetData, with the colon
	row, col int    // of the last row and cell
	hasData  bool
}

func newSheetReader(r io.Reader) *sheetReader {
	return &sheetReader{s: xmlscan.New(r)}
}

// next gives io.EOF after the last item of a complete sheet.
func (r *sheetReader) next() (item, error) {
	kind, err := r.s.Next()
	if err == io.EOF && !r.hasData {
		return item{}, damaged("the sheet has no place for cells")
	}
	if err != nil {
		return item{}, err
	}
	it := item{raw: r.s.Raw()}
	switch kind {
	case xmlscan.StartTag, xmlscan.EmptyTag:
		it.tag, it.empty = len(it.raw), kind == xmlscan.EmptyTag
		err = r.start(&it)
	case xmlscan.EndTag:
		r.end(&it)
	}
	return it, err
}

func (r *sheetReader) start(it *item) error {
	s := r.s
	switch {
	case s.Level == 1:
		if err := r.ns.read(s.Name, s.Attrs()); err != nil {
			return err
		}
		if string(r.ns.local(s.Name)) != "worksheet" {
			return unsupported("the sheet's part is not a worksheet")
		}
		return nil
	case s.Level == 2:
		return r.startSection(it)
	case s.Level == 3:
		name := r.ns.local(s.Name)
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
	case s.Level == 4 && r.section == "sheetData":
		if string(r.ns.local(s.Name)) == "c" {
			return r.cell(it)
		}
		if localName(s.Name) == "AlternateContent" {
			return unsupported("the sheet has alternative versions of its cells")
		}
		it.kind = itemRowTail
	}
	return nil
}

func (r *sheetReader) startSection(it *item) error {
	r.section = string(r.ns.local(r.s.Name))
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
		r.prefix = string(r.s.Name[:bytes.IndexByte(r.s.Name, ':')+1])
	case "autoFilter":
		it.kind = itemFilter
	case "mergeCells":
	default:
		it.kind = itemSection
		return nil
	}
	return r.ns.checkRedeclared(r.s.Attrs())
}

func (r *sheetReader) end(it *item) {
	switch {
	case r.s.Level == 1:
		it.kind = itemRootEnd
	case r.s.Level == 2:
		switch r.section {
		case "cols":
			it.kind = itemColsEnd
		case "sheetData":
			it.kind = itemDataEnd
		}
		r.section = ""
	case r.s.Level == 3 && r.section == "sheetData":
		it.kind = itemRowEnd
	}
}

func (r *sheetReader) startRow(it *item) error {
	it.kind = itemRow
	it.row = r.row + 1
	it.implied = true
	for at, attrs := 0, r.s.Attrs(); ; {
		a, ok, err := xmlscan.NextAttr(attrs, at)
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		at = a.To
		if string(a.Name) == "r" {
			n, err := strconv.ParseUint(string(a.Value), 10, 32)
			if err != nil {
				return damaged("the sheet has a row with the number " + strconv.Quote(xmlscan.Clip(a.Value)))
			}
			it.row, it.implied = int(n), false
		} else if bytes.HasPrefix(a.Name, []byte("xmlns")) {
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
	for at, attrs := 0, r.s.Attrs(); ; {
		a, ok, err := xmlscan.NextAttr(attrs, at)
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		at = a.To
		if string(a.Name) == "r" {
			place, ok := grid.ParseAddress(a.Value)
			if !ok || place.Row != r.row {
				return unsupported(fmt.Sprintf("row %d has a cell with the address %q", r.row, xmlscan.Clip(a.Value)))
			}
			it.col, it.implied = place.Col, false
		} else if bytes.HasPrefix(a.Name, []byte("xmlns")) {
			if err := r.ns.checkRedeclared(attrs); err != nil {
				return err
			}
		}
	}
	if it.col <= r.col {
		return unsupported(fmt.Sprintf("row %d has cell %v after %v, so its cells are out of order",
			r.row, Address{Row: r.row, Col: it.col}, Address{Row: r.row, Col: r.col}))
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
	level := s.Level
	s.Hold()
	defer s.Release()
	for {
		kind, err := s.Next()
		if err != nil {
			return err // not io.EOF: the element is open
		}
		switch kind {
		case xmlscan.StartTag, xmlscan.EmptyTag:
			it.blank = false
			if it.kind == itemCell && s.Level == level+1 && string(r.ns.local(s.Name)) == "f" {
				if err := it.readFormula(s.Attrs()); err != nil {
					return err
				}
			}
		case xmlscan.CharData:
			it.blank = it.blank && len(bytes.TrimSpace(s.Raw())) == 0
		case xmlscan.EndTag:
			if s.Level == level {
				it.raw = s.Held()
				return nil
			}
		}
	}
}

func (it *item) readFormula(attrs []byte) error {
	it.formula = true
	kind, _, err := xmlscan.AttrValue(attrs, "t")
	if err != nil || kind != "array" && kind != "dataTable" {
		return err
	}
	ref, _, err := xmlscan.AttrValue(attrs, "ref")
	if r, ok := grid.ParseRange(ref); ok && (r.FirstRow != r.LastRow || r.FirstCol != r.LastCol) {
		it.array = r
	}
	return err
}

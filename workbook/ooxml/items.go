package ooxml

import (
	"bytes"
	"fmt"
	"io"
	"strconv"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// ItemKind is a kind of [Item].
type ItemKind uint8

// The kinds of items.
const (
	ItemOther     ItemKind = iota // bytes that are only passed on
	ItemDimension                 // <dimension ...>
	ItemCols                      // <cols> or <cols/>
	ItemCol                       // one whole <col>
	ItemColsEnd                   // </cols>
	ItemData                      // <sheetData> or <sheetData/>
	ItemRow                       // <row ...> or <row .../>
	ItemCell                      // one whole <c>, to its end
	ItemRowTail                   // start of what follows the cells in a row
	ItemRowEnd                    // </row>
	ItemDataEnd                   // </sheetData>
	ItemFilter                    // <autoFilter ...>
	ItemMerge                     // <mergeCell ...>
	ItemSection                   // start of another element below the root
	ItemRootEnd                   // </worksheet>
)

// Item is a piece of a sheet's XML. All items in order are the whole part.
// Raw is valid until the next item is read.
type Item struct {
	Kind    ItemKind
	Raw     []byte
	Tag     int        // length of the start tag at the beginning of Raw
	Empty   bool       // the start tag closes itself
	Row     int        // of a row or cell
	Col     int        // of a cell
	Implied bool       // has no address of its own; its place follows from the one before
	Blank   bool       // a cell with nothing in it
	Formula bool       // a cell with a formula
	Array   grid.Range // range of an array formula over several cells, else zero
}

// Attrs returns the bytes between the name and the end of the start tag.
func (it *Item) Attrs() []byte { return xmlscan.TagAttrs(it.Raw[:it.Tag]) }

// Reader splits a worksheet part into items. It refuses rows and cells that are
// out of order.
type Reader struct {
	Scanner  *xmlscan.Scanner
	ns       Names
	section  string // current element below the root
	Prefix   string // of sheetData, with the colon
	Row, Col int    // of the last row and cell
	HasData  bool   // sheetData was met
}

// NewReader returns a reader of the XML of a worksheet part.
func NewReader(r io.Reader) *Reader {
	return &Reader{Scanner: xmlscan.New(r)}
}

// Next returns the next item, and io.EOF after the last of a complete sheet.
func (r *Reader) Next() (Item, error) {
	kind, err := r.Scanner.Next()
	if err == io.EOF && !r.HasData {
		return Item{}, opc.DamagedXML("the sheet has no cell data")
	}
	if err != nil {
		return Item{}, err
	}
	it := Item{Raw: r.Scanner.Raw()}
	switch kind {
	case xmlscan.StartTag, xmlscan.EmptyTag:
		it.Tag, it.Empty = len(it.Raw), kind == xmlscan.EmptyTag
		err = r.start(&it)
	case xmlscan.EndTag:
		r.end(&it)
	}
	return it, err
}

func (r *Reader) start(it *Item) error {
	s := r.Scanner
	switch {
	case s.Level == 1:
		if err := r.ns.Read(s.Name, s.Attrs()); err != nil {
			return err
		}
		if string(r.ns.Local(s.Name)) != "worksheet" {
			return opc.Unsupported("the sheet's part is not a worksheet")
		}
		return nil
	case s.Level == 2:
		return r.startSection(it)
	case s.Level == 3:
		name := r.ns.Local(s.Name)
		switch r.section {
		case "sheetData":
			if string(name) != "row" {
				return opc.Unsupported("the sheet has something other than rows among its rows")
			}
			return r.startRow(it)
		case "cols":
			if string(name) == "col" {
				it.Kind = ItemCol
				return r.whole(it)
			}
		case "mergeCells":
			if string(name) == "mergeCell" {
				it.Kind = ItemMerge
			}
		}
	case s.Level == 4 && r.section == "sheetData":
		if string(r.ns.Local(s.Name)) == "c" {
			return r.cell(it)
		}
		if xmlscan.LocalName(s.Name) == "AlternateContent" {
			return opc.Unsupported("the sheet has alternative versions of its cells")
		}
		it.Kind = ItemRowTail
	}
	return nil
}

func (r *Reader) startSection(it *Item) error {
	r.section = string(r.ns.Local(r.Scanner.Name))
	switch r.section {
	case "dimension":
		it.Kind = ItemDimension
	case "cols":
		it.Kind = ItemCols
	case "sheetData":
		it.Kind = ItemData
		if r.HasData {
			return opc.DamagedXML("the sheet lists its cells twice")
		}
		r.HasData = true
		r.Prefix = string(r.Scanner.Name[:bytes.IndexByte(r.Scanner.Name, ':')+1])
	case "autoFilter":
		it.Kind = ItemFilter
	case "mergeCells":
	default:
		it.Kind = ItemSection
		return nil
	}
	return r.ns.CheckRedeclared(r.Scanner.Attrs())
}

func (r *Reader) end(it *Item) {
	switch {
	case r.Scanner.Level == 1:
		it.Kind = ItemRootEnd
	case r.Scanner.Level == 2:
		switch r.section {
		case "cols":
			it.Kind = ItemColsEnd
		case "sheetData":
			it.Kind = ItemDataEnd
		}
		r.section = ""
	case r.Scanner.Level == 3 && r.section == "sheetData":
		it.Kind = ItemRowEnd
	}
}

// address returns the r attribute of a row or cell, nil if it has none. It
// refuses one that redeclares a prefix.
func (r *Reader) address() (value []byte, err error) {
	for at, attrs := 0, r.Scanner.Attrs(); ; {
		a, ok, err := xmlscan.NextAttr(attrs, at)
		if err != nil || !ok {
			return value, err
		}
		at = a.To
		if string(a.Name) == "r" {
			value = a.Value
		} else if bytes.HasPrefix(a.Name, []byte("xmlns")) {
			if err := r.ns.CheckRedeclared(attrs); err != nil {
				return nil, err
			}
		}
	}
}

func (r *Reader) startRow(it *Item) error {
	it.Kind, it.Row, it.Implied = ItemRow, r.Row+1, true
	value, err := r.address()
	if err != nil {
		return err
	}
	if value != nil {
		n, err := strconv.ParseUint(string(value), 10, 32)
		if err != nil {
			return opc.DamagedXML("the sheet has a row with the number " + strconv.Quote(xmlscan.Clip(value)))
		}
		it.Row, it.Implied = int(n), false
	}
	if it.Row <= r.Row {
		return opc.Unsupported(fmt.Sprintf("row %d follows row %d, so the rows are out of order", it.Row, r.Row))
	}
	if it.Row > grid.MaxRow {
		return opc.DamagedXML("the sheet has more rows than a sheet can have")
	}
	r.Row, r.Col = it.Row, 0
	return nil
}

// cell reads a cell to its end.
func (r *Reader) cell(it *Item) error {
	it.Kind, it.Row, it.Col, it.Implied = ItemCell, r.Row, r.Col+1, true
	value, err := r.address()
	if err != nil {
		return err
	}
	if value != nil {
		place, ok := grid.ParseAddress(value)
		if !ok || place.Row != r.Row {
			return opc.Unsupported(fmt.Sprintf("row %d has a cell with the address %q", r.Row, xmlscan.Clip(value)))
		}
		it.Col, it.Implied = place.Col, false
	}
	if it.Col <= r.Col {
		return opc.Unsupported(fmt.Sprintf("row %d has cell %v after %v, so its cells are out of order",
			r.Row, grid.Address{Row: r.Row, Col: it.Col}, grid.Address{Row: r.Row, Col: r.Col}))
	}
	if it.Col > grid.MaxCol {
		return opc.DamagedXML("the sheet has more columns than a sheet can have")
	}
	r.Col = it.Col
	it.Blank = true
	return r.whole(it)
}

// whole extends the item from its start tag to its end tag.
func (r *Reader) whole(it *Item) error {
	if it.Empty {
		return nil
	}
	s := r.Scanner
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
			it.Blank = false
			if it.Kind == ItemCell && s.Level == level+1 && string(r.ns.Local(s.Name)) == "f" {
				if err := it.readFormula(s.Attrs()); err != nil {
					return err
				}
			}
		case xmlscan.CharData:
			it.Blank = it.Blank && len(bytes.TrimSpace(s.Raw())) == 0
		case xmlscan.EndTag:
			if s.Level == level {
				it.Raw = s.Held()
				return nil
			}
		}
	}
}

func (it *Item) readFormula(attrs []byte) error {
	it.Formula = true
	kind, _, err := xmlscan.AttrValue(attrs, "t")
	if err != nil || kind != "array" && kind != "dataTable" {
		return err
	}
	ref, _, err := xmlscan.AttrValue(attrs, "ref")
	if r, ok := grid.ParseRange(ref); ok && (r.FirstRow != r.LastRow || r.FirstCol != r.LastCol) {
		it.Array = r
	}
	return err
}

// Ref returns the range in the ref attribute, or the zero Range.
func (it *Item) Ref() (grid.Range, error) {
	ref, _, err := xmlscan.AttrValue(it.Attrs(), "ref")
	r, _ := grid.ParseRange(ref)
	return r, err
}

// Pass hands the next n bytes, which must be whole cells of the current row, to
// write.
func (r *Reader) Pass(n int, write func([]byte)) error {
	for n > 0 {
		if err := r.Scanner.Pass(n); err != nil {
			return err
		}
		write(r.Scanner.Raw())
		n -= len(r.Scanner.Raw())
	}
	return nil
}

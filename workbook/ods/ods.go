// Package ods turns an OpenDocument spreadsheet into an .xlsx workbook, which the
// other packages read and add results to.
//
// Values, number formats, merged ranges, widths, and what is hidden are kept.
// Formulas become their values, except sums; the rest of the look is lost.
package ods

import (
	"errors"
	"io"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// limits are larger than any roster needs; tests use smaller ones.
type limits struct {
	opc.Limits
	cells  int // filled, of all sheets, repeated ones counted each time
	styles int
	text   int // bytes in a cell
}

// A cell holds 32,767 characters of up to three bytes.
var defaultLimits = limits{opc.Default, 10_000_000, 60_000, 3 * 32_767}

// Convert writes the spreadsheet of size bytes in r as a workbook to w. It checks
// all parts first. Errors of the file are [*opc.Error].
func Convert(w io.Writer, r io.ReaderAt, size int64) error {
	return convert(w, r, size, defaultLimits)
}

func convert(w io.Writer, r io.ReaderAt, size int64, lim limits) error {
	p, err := opc.Open(r, size, lim.Limits)
	if err != nil {
		return err
	}
	content := p.Part("content.xml")
	locked, err := isLocked(p)
	switch {
	case err != nil:
		return err
	case locked:
		return &opc.Error{Kind: opc.ErrUnsupported, Why: "the file has a password of the OpenDocument kind, which can't be opened here",
			Do: "save it without a password, or as .xlsx with one"}
	case content == nil && p.Part("xl/workbook.xml") != nil:
		return &opc.Error{Kind: opc.ErrNotWorkbook, Why: "this is an .xlsx workbook with another ending", Do: "give it the ending .xlsx"}
	case content == nil:
		return p.NoWorkbook()
	}
	if err := p.Check(p.Parts...); err != nil {
		return err
	}
	c := &converter{limits: lim, styles: map[string]style{}, formats: map[string]format{}, book: newBook(w)}
	for _, part := range []*opc.Part{p.Part("styles.xml"), content} {
		if part == nil {
			continue
		}
		if err := c.read(p, part); err != nil {
			return err
		}
	}
	if len(c.book.sheets) == 0 {
		return &opc.Error{Kind: opc.ErrNotWorkbook, Why: "this OpenDocument file holds no spreadsheet", Do: opc.DoChoose}
	}
	return c.book.close()
}

// isLocked reports whether the parts are encrypted.
func isLocked(p *opc.Package) (bool, error) {
	if p.Part("encrypted-package") != nil {
		return true, nil
	}
	manifest := p.Part("META-INF/manifest.xml")
	if manifest == nil {
		return false, nil
	}
	data, err := p.Load(manifest)
	return strings.Contains(string(data), ":encryption-data"), err
}

// converter holds what has been read of a spreadsheet.
type converter struct {
	limits  limits
	scanner *xmlscan.Scanner
	empty   bool // the element read last closes itself
	styles  map[string]style
	formats map[string]format
	book    *book

	cells   []filled // of the current row
	written int      // cells
}

func (c *converter) read(p *opc.Package, part *opc.Part) error {
	body, err := p.Open(part)
	if err != nil {
		return err
	}
	defer body.Close()
	c.scanner = xmlscan.New(body)
	err = c.document()
	var known *opc.Error
	if errors.As(err, &known) && known.Part == "" {
		return opc.XMLError(part.Name, known)
	}
	return err
}

// document reads a part to its end.
func (c *converter) document() error {
	for {
		token, err := c.scanner.Next()
		switch {
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		case token == xmlscan.StartTag || token == xmlscan.EmptyTag:
			c.empty = token == xmlscan.EmptyTag
			if err := c.inside(c.section, nil); err != nil {
				return err
			}
		}
	}
}

// inside reads the current element to its end. visit reads each child to its end;
// if it is nil they are skipped. text gets the character data.
func (c *converter) inside(visit func(name string) error, text func([]byte)) error {
	if c.empty {
		c.empty = false
		return nil
	}
	level := c.scanner.Level
	var buf []byte
	for {
		token, err := c.scanner.Next()
		if err != nil {
			return err
		}
		switch token {
		case xmlscan.EndTag:
			if c.scanner.Level == level {
				return nil
			}
		case xmlscan.StartTag, xmlscan.EmptyTag:
			if visit == nil {
				continue
			}
			c.empty = token == xmlscan.EmptyTag
			if err := visit(string(c.scanner.Name)); err != nil {
				return err
			}
			c.empty = false
		default:
			if text == nil {
				continue
			}
			if buf, err = c.scanner.AppendText(buf[:0]); err != nil {
				return err
			}
			text(buf)
		}
	}
}

// attrs calls visit for each attribute of the current element.
func (c *converter) attrs(visit func(name, value string)) error {
	return xmlscan.EachAttr(c.scanner.Attrs(), visit)
}

func (c *converter) section(name string) error {
	switch name {
	case "office:styles", "office:automatic-styles":
		return c.inside(c.readStyle, nil)
	case "office:body", "office:spreadsheet":
		return c.inside(c.section, nil)
	case "table:table":
		return c.table()
	}
	return c.inside(nil, nil)
}

// table reads a sheet. Copies of sheets of other files are skipped.
func (c *converter) table() error {
	name, look := "", ""
	err := c.attrs(func(attr, value string) {
		switch attr {
		case "table:name":
			name = value
		case "table:style-name":
			look = value
		}
	})
	if err != nil {
		return err
	}
	if strings.HasPrefix(name, "'") && strings.Contains(name, "'#") {
		return c.inside(nil, nil)
	}
	if len(c.book.sheets) == c.limits.Entries {
		return opc.OverLimit("", "the workbook has more sheets than any roster")
	}
	t := &table{converter: c, sheet: c.book.add(name, c.styles[look].hidden)}
	if err := c.inside(t.part, nil); err != nil {
		return err
	}
	return t.sheet.end()
}

// table is a sheet that is being read.
type table struct {
	*converter
	sheet *sheet
	row   int      // number of the last row
	looks []string // styles of the columns
}

func (t *table) part(name string) error {
	switch name {
	case "table:table-columns", "table:table-header-columns", "table:table-column-group",
		"table:table-rows", "table:table-header-rows", "table:table-row-group":
		return t.inside(t.part, nil)
	case "table:table-column":
		return t.column()
	case "table:table-row":
		return t.readRow()
	}
	return t.inside(nil, nil)
}

func (t *table) column() error {
	repeat, look, col := 1, "", column{}
	err := t.attrs(func(attr, value string) {
		switch attr {
		case "table:number-columns-repeated":
			repeat = count(value)
		case "table:default-cell-style-name":
			look = value
		case "table:style-name":
			col.width = t.styles[value].width
		case "table:visibility":
			col.hidden = value != "visible"
		}
	})
	col.first = len(t.looks) + 1
	col.last = min(len(t.looks)+repeat, grid.MaxCol)
	for len(t.looks) < col.last {
		t.looks = append(t.looks, look)
	}
	if col.first <= col.last && (col.hidden || col.width > 0) {
		t.sheet.columns = append(t.sheet.columns, col)
	}
	return errors.Join(err, t.inside(nil, nil))
}

// readRow reads a row and writes it as often as it is repeated. Empty rows only
// move the number.
func (t *table) readRow() error {
	repeat, hidden, look := 1, false, ""
	err := t.attrs(func(attr, value string) {
		switch attr {
		case "table:number-rows-repeated":
			repeat = count(value)
		case "table:visibility":
			hidden = value != "visible"
		case "table:default-cell-style-name":
			look = value
		}
	})
	if err != nil {
		return err
	}
	t.cells = t.cells[:0]
	col := 1
	err = t.inside(func(name string) error {
		if name != "table:table-cell" && name != "table:covered-table-cell" {
			return t.inside(nil, nil)
		}
		cell, err := t.cell(col, look)
		if err != nil {
			return err
		}
		// What a merged cell covers is not shown.
		if name == "table:table-cell" && cell.kind != blank {
			if err := t.fill(col, &cell); err != nil {
				return err
			}
		}
		col = min(col+cell.repeat, grid.MaxCol+1)
		return nil
	}, nil)
	if err != nil {
		return err
	}
	first := t.row + 1
	t.row = min(t.row+repeat, grid.MaxRow+1)
	if len(t.cells) == 0 {
		return nil
	}
	if t.row > grid.MaxRow {
		return opc.OverLimit("", "the sheet has more rows than a spreadsheet can have")
	}
	if t.written += repeat * len(t.cells); t.written > t.limits.cells {
		return opc.OverLimit("", "the workbook has more filled cells than any roster")
	}
	for n := first; n <= t.row; n++ {
		if err := t.sheet.write(n, hidden, t.cells); err != nil {
			return err
		}
	}
	return nil
}

// fill adds a cell to the row as often as it is repeated.
func (t *table) fill(col int, cell *filled) error {
	if col+cell.repeat-1 > grid.MaxCol {
		return opc.OverLimit("", "the sheet has more columns than a spreadsheet can have")
	}
	for i := range cell.repeat {
		cell.col = col + i
		t.cells = append(t.cells, *cell)
	}
	return nil
}

// look returns the style of a cell without one of its own.
func (t *table) look(col int, ofRow string) string {
	if ofRow == "" && col <= len(t.looks) {
		return t.looks[col-1]
	}
	return ofRow
}

// count returns the number of repeats, at most those of the rows of a sheet.
func count(value string) int {
	n := 0
	for _, c := range []byte(value) {
		if c < '0' || c > '9' {
			return 1
		}
		n = min(n*10+int(c-'0'), grid.MaxRow)
	}
	return max(n, 1)
}

// merge remembers that the cell extends over others.
func (t *table) merge(col, columns, rows int) {
	r := grid.Range{FirstRow: t.row + 1, FirstCol: col, LastRow: t.row + rows, LastCol: col + columns - 1}
	if (columns > 1 || rows > 1) && r.LastCol <= grid.MaxCol && r.LastRow <= grid.MaxRow && len(t.sheet.merged) < grid.MaxRow {
		t.sheet.merged = append(t.sheet.merged, r)
	}
}

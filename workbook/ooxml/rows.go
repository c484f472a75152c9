package ooxml

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Cell is a filled cell and its column, 1-based.
type Cell struct {
	Col int
	cell.Raw
}

// Row is one row with at least one filled cell.
type Row struct {
	Number int // 1-based
	Hidden bool
	Cells  []Cell // left to right; valid until the next row is read
}

// Rows reads the rows of a sheet.
type Rows struct {
	book    *Book
	sheet   Sheet
	walker  *walker
	row     Row
	lastRow int
	err     error
	merged  []grid.Range
	hidden  []grid.Range // columns
	filter  bool
	item    richText
	seen    [grid.MaxRow/64 + 1]uint64 // bit set of the numbers of rows
}

// Rows starts reading a sheet; Close must be called.
func (b *Book) Rows(s Sheet) (*Rows, error) {
	if err := b.loadStrings(); err != nil {
		return nil, err
	}
	w, err := b.walker(s.Part)
	if err != nil {
		return nil, err
	}
	return &Rows{book: b, sheet: s, walker: w}, nil
}

// Close ends the reading.
func (r *Rows) Close() { r.walker.close() }

// Err returns the error that ended the reading, or nil.
func (r *Rows) Err() error { return r.err }

// Row returns the current row.
func (r *Rows) Row() *Row { return &r.row }

// Merged returns the merged ranges, once Next has returned false.
func (r *Rows) Merged() []grid.Range { return r.merged }

// HiddenColumn reports whether a column is hidden, once the first row has been
// read.
func (r *Rows) HiddenColumn(col int) bool {
	return slices.ContainsFunc(r.hidden, func(h grid.Range) bool { return h.FirstCol <= col && col <= h.LastCol })
}

// Filtered reports whether the sheet's filter is on, once Next has returned false.
// Tables have filters of their own.
func (r *Rows) Filtered() bool { return r.filter }

// Next reads the next row with a filled cell. Its last call reads the sheet to the
// end, so damage anywhere in it is an error.
func (r *Rows) Next() bool {
	if r.err != nil {
		return false
	}
	for {
		if err := r.walker.next(); err != nil {
			if err != io.EOF {
				r.err = err
			}
			return false
		}
		e := &r.walker.element
		switch {
		case e.end:
		case e.depth == 3 && e.name == "row":
			if r.err = r.readRow(); r.err != nil {
				return false
			}
			if len(r.row.Cells) > 0 {
				return true
			}
		case e.depth == 3 && e.name == "mergeCell":
			if rng, ok := grid.ParseRange(e.attr("ref")); ok && len(r.merged) < grid.MaxRow {
				r.merged = append(r.merged, rng)
			}
		case e.depth == 3 && e.name == "filterColumn":
			r.filter = true
		case e.depth == 3 && e.name == "col" && isTrue(e.attr("hidden")):
			left, errLeft := strconv.Atoi(e.attr("min"))
			right, errRight := strconv.Atoi(e.attr("max"))
			if errLeft == nil && errRight == nil && len(r.hidden) < grid.MaxCol {
				r.hidden = append(r.hidden, grid.Range{FirstCol: left, LastCol: right})
			}
		}
	}
}

func (r *Rows) readRow() error {
	start := &r.walker.element
	number := r.lastRow + 1
	if at := start.attr("r"); at != "" {
		n, err := strconv.Atoi(at)
		if err != nil || n < 1 || n > grid.MaxRow {
			return opc.Damaged(r.sheet.Part.Name, "a row has the number "+strconv.Quote(xmlscan.Clip([]byte(at))), nil)
		}
		number = n
	}
	if number > grid.MaxRow {
		return opc.OverLimit(r.sheet.Part.Name, "the sheet has more rows than a spreadsheet can have")
	}
	seen, bit := &r.seen[number/64], uint64(1)<<(number%64)
	if *seen&bit != 0 {
		return opc.Damaged(r.sheet.Part.Name, fmt.Sprintf("row %d is in the file twice", number), nil)
	}
	*seen |= bit
	r.lastRow = number
	r.row = Row{Number: number, Hidden: isTrue(start.attr("hidden")), Cells: r.row.Cells[:0]}
	col, sorted := 0, true
	for {
		if err := r.walker.next(); err != nil {
			return err
		}
		e := &r.walker.element
		if e.depth == 3 && e.end {
			break
		}
		if e.depth != 4 || e.name != "c" || e.end {
			continue
		}
		col++
		if at := e.value("r"); len(at) > 0 {
			place, ok := grid.ParseAddress(at)
			if !ok {
				return opc.Damaged(r.sheet.Part.Name, "a cell has the address "+strconv.Quote(xmlscan.Clip(at)), nil)
			}
			sorted = sorted && place.Col >= col
			col = place.Col
		}
		if col > grid.MaxCol {
			return opc.OverLimit(r.sheet.Part.Name, "the sheet has more columns than a spreadsheet can have")
		}
		raw, err := r.readCell()
		if err != nil {
			return err
		}
		if raw.Kind != cell.Blank {
			r.row.Cells = append(r.row.Cells, Cell{col, raw})
		}
	}
	if !sorted {
		slices.SortStableFunc(r.row.Cells, func(a, b Cell) int { return a.Col - b.Col })
		for i, c := range r.row.Cells {
			if i > 0 && c.Col == r.row.Cells[i-1].Col {
				return opc.Damaged(r.sheet.Part.Name, fmt.Sprintf("cell %v is in the file twice", grid.Address{Row: number, Col: c.Col}), nil)
			}
		}
	}
	return nil
}

// readCell reads the current c element.
func (r *Rows) readCell() (cell.Raw, error) {
	kind := r.walker.element.attr("t")
	style := 0
	if s := r.walker.element.value("s"); len(s) > 0 { // most cells have none
		style, _ = strconv.Atoi(string(s))
	}
	value := ""
	formula, stored, sums := false, false, false
	r.item.take()
	for {
		if err := r.walker.next(); err != nil {
			return cell.Raw{}, err
		}
		e := &r.walker.element
		switch {
		case e.depth == 4 && e.end:
			if formula && value == "" && (!stored || kind != "str") {
				return cell.Raw{Kind: cell.Uncached, Sums: sums}, nil
			}
			raw, err := r.raw(kind, value, r.item.take(), style)
			raw.Sums = sums
			return raw, err
		case e.depth == 5 && e.name == "v" && e.end:
			value, stored = string(r.walker.text), true
		case e.depth == 5 && e.name == "f":
			formula = true
			sums = sums || e.end && sumsRows(r.walker.text)
		case e.depth >= 6:
			r.item.visit(e, r.walker.text)
		}
	}
}

// aggregate matches a formula that begins with a function over several rows, as
// AVERAGE(D2:D31) is. A function over cells of one row, as MAX(D2:F2), is none.
var aggregate = cell.Pattern(`(?i)^(?:[A-Z]+\()*(?:SUM|SUBTOTAL|AGGREGATE|AVERAGE|COUNT|MAX|MIN|MEDIAN|MODE|STDEV|QUARTILE|LARGE|SMALL)[A-Z.]*\((?:\d+,)*\$?[A-Z]{1,3}\$?(\d+):\$?[A-Z]{1,3}\$?(\d+)`)

// sumsRows reports whether a formula sums up three rows or more.
func sumsRows(formula []byte) bool {
	if bytes.IndexByte(formula, ':') < 0 {
		return false
	}
	m := aggregate().FindSubmatch(formula)
	if m == nil {
		return false
	}
	first, errFirst := strconv.Atoi(string(m[1]))
	last, errLast := strconv.Atoi(string(m[2]))
	return errFirst == nil && errLast == nil && last-first >= 2
}

func (r *Rows) raw(kind, value, inline string, style int) (cell.Raw, error) {
	raw := cell.Raw{Text: value}
	if style > 0 && style < len(r.book.formats) {
		raw.Format = r.book.formats[style]
	} else if style == 0 && len(r.book.formats) > 0 {
		raw.Format = r.book.formats[0]
	}
	switch kind {
	case "s":
		if strings.TrimSpace(value) == "" {
			return cell.Raw{}, nil
		}
		i, err := strconv.Atoi(strings.TrimSpace(value))
		if err != nil || i < 0 || i >= len(r.book.strings) {
			return raw, opc.Damaged(r.sheet.Part.Name, "a cell points to a text that is not in the file", nil)
		}
		raw.Kind, raw.Text = cell.Text, r.book.strings[i]
	case "inlineStr":
		raw.Kind, raw.Text = cell.Text, Unescape(inline)
	case "str":
		raw.Kind, raw.Text = cell.Text, Unescape(value)
	case "b":
		raw.Kind, raw.Text = cell.Bool, "FALSE"
		if isTrue(strings.TrimSpace(value)) {
			raw.Text = "TRUE"
		}
	case "e":
		raw.Kind = cell.Error
	case "d":
		raw.Kind = cell.ISODate
	default:
		raw.Text = strings.TrimSpace(value)
		raw.Kind = cell.Number
		if x, err := strconv.ParseFloat(raw.Text, 64); raw.Text != "" && (err != nil || math.IsNaN(x) || math.IsInf(x, 0)) {
			raw.Kind = cell.Text
		}
	}
	if value == "" && inline == "" {
		return cell.Raw{}, nil
	}
	if raw.Kind == cell.Text && raw.Text == "" {
		return cell.Raw{}, nil
	}
	return raw, nil
}

package splice

import (
	"context"
	"fmt"
	"io"
	"math"
	"strconv"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// facts holds what the survey of a sheet finds.
type facts struct {
	added     int
	implied   bool         // a row or cell has no address of its own
	new, old  Range        // bounds of the new cells and of all old ones
	filled    int          // last column with a cell that holds more than a format
	used      map[int]bool // styles that new cells ask for
	likes     map[Address]*like
	filter    Range // of the automatic filter; zero if there is none
	blocks    []block
	cols      colsFacts
	untouched []untouchedRow
}

// untouchedRow is a row whose old cells are all kept, before any new one. Most rows
// are, so it is small. Copying them as bytes saves 16 % of CPU time on large rosters.
type untouchedRow struct {
	row   int32
	bytes int32 // from the row's start tag to the end of its last cell
}

// like is the format found for a Style.Like: of the cell (rank 3), else of its row
// (2), else of its column (1).
type like struct{ xf, rank int }

func (l *like) offer(rank int, attrs []byte, name string) error {
	if l == nil || rank <= l.rank {
		return nil
	}
	v, ok, err := xmlscan.AttrValue(attrs, name)
	if err != nil || !ok && rank < 3 {
		return err
	}
	n, _ := strconv.Atoi(v) // a cell without the attribute has format 0
	l.xf, l.rank = max(n, 0), rank
	return nil
}

// pass merges new cells into a sheet's XML. The first pass over a sheet writes
// nothing, collects facts and refuses edits; the second writes.
type pass struct {
	t      *target
	rd     *ooxml.Reader
	cells  *source
	wishes wishes    // widths still to be written
	out    io.Writer // nil in the first pass
	err    error     // of out

	outRow, outCol int // last row and cell written
	written        int // new cells
	inRow          bool
	line           []byte

	// Of the current row, in the first pass.
	rowFrom, cellsTo int  // offsets after its start tag and after its last cell; 0 for none
	touched          bool // an old cell is replaced, or comes after a new one
	untouched        []untouchedRow
}

func (t *target) run(ctx context.Context, in io.Reader, out io.Writer) error {
	p := &pass{t: t, rd: ooxml.NewReader(in), cells: newSource(t.req.Cells, t.styles), out: out}
	p.wishes.write = p.write
	defer p.cells.stop()
	if out != nil {
		p.untouched = t.facts.untouched
		if !t.facts.cols.irregular {
			p.wishes.left = t.widths
		}
	}
	if err := p.cells.advance(); err != nil {
		return err
	}
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		it, err := p.rd.Next()
		if err == io.EOF {
			if p.err == nil && p.written != p.t.facts.added {
				return &Error{Kind: ErrRequest, Why: "the new cells differ between two passes"}
			}
			return p.err
		}
		if err == nil {
			err = p.item(&it)
		}
		if err == nil {
			err = p.err
		}
		if err != nil {
			return err
		}
	}
}

func (p *pass) first() bool { return p.out == nil }

func (p *pass) write(b []byte) {
	if p.out != nil && p.err == nil {
		_, p.err = p.out.Write(b)
	}
}

func (p *pass) item(it *ooxml.Item) error {
	switch it.Kind {
	case ooxml.ItemDimension:
		return p.dimension(it)
	case ooxml.ItemCols, ooxml.ItemCol, ooxml.ItemColsEnd:
		return p.cols(it)
	case ooxml.ItemData:
		return p.data(it)
	case ooxml.ItemRow:
		return p.row(it)
	case ooxml.ItemCell:
		return p.oldCell(it)
	case ooxml.ItemRowTail, ooxml.ItemRowEnd:
		if err := p.restOfRow(); err != nil {
			return err
		}
	case ooxml.ItemDataEnd:
		if err := p.rowsBefore(grid.MaxRow + 1); err != nil {
			return err
		}
	case ooxml.ItemFilter:
		return p.filter(it)
	case ooxml.ItemMerge:
		if p.first() {
			return p.t.facts.addMerge(it, p.t.blockLimit)
		}
	}
	p.write(it.Raw)
	return nil
}

func (p *pass) dimension(it *ooxml.Item) error {
	if p.first() || p.t.facts.added == 0 {
		p.write(it.Raw)
		return nil
	}
	all := p.t.facts.old
	if r, err := it.Ref(); err != nil {
		return err
	} else if r.LastRow > 0 && all.LastRow > 0 {
		all.Grow(r)
	}
	all.Grow(p.t.facts.new)
	tag, err := xmlscan.SetAttr(it.Raw[:it.Tag], "ref", all.String())
	if err != nil {
		return err
	}
	p.write(tag)
	p.write(it.Raw[it.Tag:])
	return nil
}

func (p *pass) data(it *ooxml.Item) error {
	if p.t.facts.cols.lists == 0 {
		p.wishes.list(p.rd.Prefix)
	}
	if !it.Empty || !p.cells.ok {
		p.write(it.Raw)
		return nil
	}
	p.write(xmlscan.Opened(it.Raw))
	if err := p.rowsBefore(grid.MaxRow + 1); err != nil {
		return err
	}
	p.write([]byte("</" + p.rd.Prefix + "sheetData>"))
	return nil
}

// rowsBefore writes the new rows above row.
func (p *pass) rowsBefore(row int) error {
	for p.cells.ok && p.cells.cell.Row < row {
		p.outRow, p.outCol, p.inRow, p.touched = p.cells.cell.Row, 0, true, true
		p.line = append(append(append(p.line[:0], '<'), p.rd.Prefix...), `row r="`...)
		p.line = append(strconv.AppendInt(p.line, int64(p.outRow), 10), '"', '>')
		p.write(p.line)
		if err := p.restOfRow(); err != nil {
			return err
		}
		p.endRow()
	}
	return nil
}

func (p *pass) endRow() { p.write([]byte("</" + p.rd.Prefix + "row>")) }

func (p *pass) row(it *ooxml.Item) error {
	if err := p.rowsBefore(it.Row); err != nil {
		return err
	}
	if it.Implied && it.Row != p.outRow+1 {
		return opc.Unsupported(fmt.Sprintf("row %d has no number of its own and a new row would shift it", it.Row))
	}
	if p.t.last > 0 && it.Row > p.t.last {
		return io.EOF
	}
	p.outRow, p.outCol, p.inRow = it.Row, 0, true
	if p.first() {
		p.t.facts.implied = p.t.facts.implied || it.Implied
		p.rowFrom, p.cellsTo, p.touched = p.rd.Scanner.End(), 0, it.Empty
		for a, l := range p.t.facts.likes {
			if a.Row != it.Row {
				continue
			}
			if custom, _, err := xmlscan.AttrValue(it.Attrs(), "customFormat"); err != nil {
				return err
			} else if custom == "1" || custom == "true" {
				if err := l.offer(2, it.Attrs(), "s"); err != nil {
					return err
				}
			}
		}
	}
	if !p.cells.ok || p.cells.cell.Row != it.Row {
		p.write(it.Raw)
		return p.oldCells(it.Row)
	}
	// The optional spans hint would be wrong with the new cells.
	tag, err := xmlscan.DropAttr(it.Raw, "spans")
	if err != nil {
		return err
	}
	if !it.Empty {
		p.write(tag)
		return p.oldCells(it.Row)
	}
	p.write(xmlscan.Opened(tag))
	if err := p.restOfRow(); err != nil {
		return err
	}
	p.endRow()
	return nil
}

// oldCells copies the old cells of an untouched row.
func (p *pass) oldCells(row int) error {
	if len(p.untouched) == 0 || int(p.untouched[0].row) != row {
		return nil
	}
	n := int(p.untouched[0].bytes)
	p.untouched = p.untouched[1:]
	return p.rd.Pass(n, p.write)
}

func (p *pass) oldCell(it *ooxml.Item) error {
	if !p.inRow {
		return opc.Unsupported(fmt.Sprintf("row %d has cells behind other things", it.Row))
	}
	for p.cells.ok && p.cells.cell.Row == it.Row && p.cells.cell.Col < it.Col {
		p.touched = true
		if err := p.newCell(); err != nil {
			return err
		}
	}
	if p.first() {
		p.cellsTo = p.rd.Scanner.End()
		f := &p.t.facts
		f.implied = f.implied || it.Implied
		f.old.Grow(Address{Row: it.Row, Col: it.Col}.Range())
		if !it.Blank {
			f.filled = max(f.filled, it.Col)
		}
		if err := f.likes[Address{Row: it.Row, Col: it.Col}].offer(3, it.Attrs(), "s"); err != nil {
			return err
		}
		if it.Array.LastRow > 0 {
			if err := f.addBlock(block{Range: it.Array, kind: ErrFormula}, p.t.blockLimit); err != nil {
				return err
			}
		}
	}
	cleared := p.t.cleared(it.Row, it.Col)
	replaced := p.cells.ok && p.cells.cell.Row == it.Row && p.cells.cell.Col == it.Col
	if !cleared && !replaced {
		if it.Implied && it.Col != p.outCol+1 {
			return opc.Unsupported(fmt.Sprintf("cell %v has no address of its own and the edit would shift it", Address{Row: it.Row, Col: it.Col}))
		}
		p.outCol = it.Col
		p.write(it.Raw)
		return nil
	}
	p.touched = true
	where := Address{Row: it.Row, Col: it.Col}.String()
	switch {
	case it.Formula && cleared:
		return &Error{Kind: ErrFormula, Cell: where, Why: "a formula is where earlier results would be replaced",
			Do: "move the formula to another column and retry"}
	case !cleared && !it.Blank:
		return &Error{Kind: ErrOccupied, Cell: where, Why: "the cell is already in use", Do: "choose columns further right"}
	}
	if replaced {
		return p.newCell()
	}
	return nil
}

// restOfRow writes the new cells that remain in the current row.
func (p *pass) restOfRow() error {
	if p.first() && p.inRow && !p.touched && p.cellsTo > p.rowFrom && p.cellsTo-p.rowFrom <= math.MaxInt32 {
		p.t.facts.untouched = append(p.t.facts.untouched, untouchedRow{int32(p.outRow), int32(p.cellsTo - p.rowFrom)})
	}
	for p.cells.ok && p.cells.cell.Row == p.outRow {
		if err := p.newCell(); err != nil {
			return err
		}
	}
	p.inRow = false
	return nil
}

func (p *pass) newCell() error {
	c := &p.cells.cell
	if p.first() {
		p.t.facts.count(c)
	} else {
		p.line = appendCell(p.line[:0], p.rd.Prefix, c, p.t.xf[c.Style])
		p.write(p.line)
	}
	p.written++
	p.outCol = c.Col
	return p.cells.advance()
}

// count adds a new cell.
func (f *facts) count(c *Cell) {
	f.added++
	f.new.Grow(Address{Row: c.Row, Col: c.Col}.Range())
	f.used[c.Style] = true
}

func (p *pass) filter(it *ooxml.Item) error {
	if p.first() {
		var err error
		p.t.facts.filter, err = it.Ref()
		return err
	}
	if p.t.filter == (Range{}) {
		p.write(it.Raw)
		return nil
	}
	tag, err := xmlscan.SetAttr(it.Raw, "ref", p.t.filter.String())
	p.write(tag)
	return err
}

func (f *facts) addMerge(it *ooxml.Item, limit int) error {
	r, err := it.Ref()
	if err == nil && r == (Range{}) {
		err = opc.DamagedXML("the sheet has merged cells without a proper range")
	}
	if err != nil {
		return err
	}
	return f.addBlock(block{Range: r, kind: ErrMerged}, limit)
}

package splice

import (
	"fmt"
	"slices"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

// block is a range of cells that belong together: merged cells, a table, a
// pivot table or an array formula.
type block struct {
	Range
	kind  error        // ErrMerged, ErrTable or ErrFormula
	table *ooxml.Table // nil if it is not a table
	name  string       // of a table or pivot table
}

func (f *facts) addBlock(b block, limit int) error {
	if len(f.blocks) >= limit {
		return &Error{Kind: opc.ErrLimit, Why: "the sheet has more merged ranges than allowed", Do: opc.DoCopy}
	}
	f.blocks = append(f.blocks, b)
	return nil
}

// tables adds the tables and pivot tables on the sheet to its blocks.
func (p *pkg) tables(f *facts, sheet ooxml.Sheet) error {
	all, _, err := p.Tables(sheet)
	if err != nil {
		return err
	}
	for _, t := range all {
		if t.Range == (Range{}) {
			return inPart(opc.DamagedXML("a table of the sheet states no range"), t.Part.Name)
		}
		b := block{Range: t.Range, kind: ErrTable, name: t.Name}
		if !t.Pivot {
			b.table = &t
		}
		if err := f.addBlock(b, p.limits.blocks); err != nil {
			return err
		}
	}
	return nil
}

func (b *block) refuse(a Address) error {
	e := &Error{Kind: b.kind, Cell: a.String()}
	switch {
	case b.kind == ErrMerged:
		e.Why = fmt.Sprintf("the cell belongs to the merged cells %v", b.Range)
		e.Do = "unmerge them or choose columns further right"
	case b.kind == ErrFormula:
		e.Why = fmt.Sprintf("the cell belongs to the array formula in %v", b.Range)
		e.Do = "choose columns further right"
	case b.table != nil:
		e.Why = fmt.Sprintf("the cell belongs to the table %q in %v", b.name, b.Range)
		e.Do = "choose columns to the right of the table"
	default:
		e.Why = fmt.Sprintf("the cell belongs to the pivot table %q in %v", b.name, b.Range)
		e.Do = "choose columns to the right of the pivot table"
	}
	return e
}

// checkBlocks adds the tables of the sheet to its blocks and refuses an edit that
// would break a block. Earlier results inside a table may be replaced if the header
// cells keep the names of its columns.
func (p *pkg) checkBlocks(t *target) error {
	if err := p.tables(&t.facts, t.ref.Sheet); err != nil {
		return err
	}
	headers := 0 // header cells of tables that are cleared and must come again
	var near []block
	for _, b := range t.facts.blocks {
		fixed := b.Range // what must not be cleared
		if b.table != nil {
			fixed.FirstRow = max(b.FirstRow, b.LastRow-b.table.Totals+1)
		}
		if cell, ok := t.clear.meets(fixed); ok && fixed.FirstRow <= fixed.LastRow {
			return b.refuse(cell)
		}
		if b.table != nil && b.table.Headers > 0 && len(t.req.Clear) > 0 {
			for col := b.FirstCol; col <= b.LastCol; col++ {
				if t.cleared(b.FirstRow, col) {
					headers++
				}
			}
		}
		if t.facts.added > 0 && b.Overlaps(t.facts.new) {
			near = append(near, b)
		}
	}
	if len(near) > 0 {
		kept, err := t.sweep(near)
		if err != nil {
			return err
		}
		headers -= kept
	}
	if headers > 0 {
		return &Error{Kind: ErrTable, Why: "earlier results are in a table, and their header would be removed",
			Do: "turn the table into a plain range and retry"}
	}
	return nil
}

// sweep refuses a new cell that is in a block. It returns the number of cleared
// table headers that are written again.
func (t *target) sweep(blocks []block) (headers int, err error) {
	slices.SortStableFunc(blocks, func(a, b block) int { return a.FirstRow - b.FirstRow })
	var active []block
	row := 0
	for c := range t.req.places() {
		if c.Row != row {
			row = c.Row
			active = slices.DeleteFunc(active, func(b block) bool { return b.LastRow < row })
			for len(blocks) > 0 && blocks[0].FirstRow <= row {
				if blocks[0].LastRow >= row {
					active = append(active, blocks[0])
				}
				blocks = blocks[1:]
			}
		}
		for i := range active {
			b := &active[i]
			if !b.Contains(c.Row, c.Col) {
				continue
			}
			if b.table == nil || !t.cleared(c.Row, c.Col) || c.Row > b.LastRow-b.table.Totals {
				return 0, b.refuse(Address{Row: c.Row, Col: c.Col})
			}
			if c.Row < b.FirstRow+b.table.Headers {
				i := c.Col - b.FirstCol
				if c.Kind != Text || i >= len(b.table.Columns.Names) || b.table.Columns.Names[i] != c.Text {
					return 0, b.refuse(Address{Row: c.Row, Col: c.Col})
				}
				headers++
			}
		}
	}
	return headers, nil
}

package splice

import (
	"fmt"
	"slices"
	"strconv"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// block is a range of cells that belong together: merged cells, a table, a
// pivot table or an array formula.
type block struct {
	Range
	kind  error  // ErrMerged, ErrTable or ErrFormula
	table *table // nil if it is not a table
	name  string // of a table or pivot table
}

// table is what is needed of a table part.
type table struct {
	part            *part
	headers, totals int // rows; there is one header row or none
	columns         []string
	odd             string // why its columns are not to be touched; "" if they may be
}

func (f *facts) addBlock(b block, limit int) error {
	if len(f.blocks) >= limit {
		return &Error{Kind: ErrLimit, Why: "the sheet has more merged ranges than allowed", Do: doCopy}
	}
	f.blocks = append(f.blocks, b)
	return nil
}

// tables adds the tables and pivot tables on the sheet to its blocks.
func (p *pkg) tables(f *facts, sheet *part) error {
	rels, err := p.Rels(opc.Key(sheet.Name))
	if err != nil {
		return err
	}
	for _, r := range rels {
		pt := p.Part(r.Target)
		if pt == nil || r.Kind != "table" && r.Kind != "pivotTable" {
			continue
		}
		b, ok := p.tableOf[pt]
		if !ok {
			data, err := p.Load(pt)
			if err != nil {
				return err
			}
			if b, err = readTable(data); err != nil {
				return inPart(err, pt.Name)
			}
			if b.table != nil {
				b.table.part = pt
			}
			p.tableOf[pt] = b
		}
		if err := f.addBlock(b, p.limits.blocks); err != nil {
			return err
		}
	}
	return nil
}

// readTable reads a table or pivot table part.
func readTable(data []byte) (block, error) {
	var ns mainNames
	b := block{kind: ErrTable}
	ref, filter := "", ""
	err := eachStart(data, func(s *xmlscan.Scanner) error {
		if s.Level == 1 {
			if err := ns.read(s.Name, s.Attrs()); err != nil {
				return err
			}
			if string(ns.local(s.Name)) == "table" {
				b.table = &table{headers: 1}
			}
			return eachAttr(s.Attrs(), func(name, value string) {
				switch {
				case name == "ref":
					ref = value
				case name == "name" && b.name == "", name == "displayName":
					b.name = value
				case name == "headerRowCount" && b.table != nil:
					b.table.headers = 1
					if value == "0" {
						b.table.headers = 0
					}
				case name == "totalsRowCount" && b.table != nil:
					n, _ := strconv.Atoi(value)
					b.table.totals = max(n, 0)
				case name == "tableType" && value != "worksheet" && b.table != nil:
					b.table.odd = "its rows come from elsewhere"
				}
			})
		}
		local := string(ns.local(s.Name))
		if s.Level == 2 && local == "autoFilter" && b.table != nil {
			v, _, err := xmlscan.AttrValue(s.Attrs(), "ref")
			filter = v
			return err
		}
		if s.Level == 2 && local == "location" && b.table == nil {
			v, _, err := xmlscan.AttrValue(s.Attrs(), "ref")
			ref = v
			return err
		}
		return nil
	})
	if err != nil {
		return b, err
	}
	var ok bool
	if b.Range, ok = grid.ParseRange(ref); !ok {
		return b, damaged("the table has the range " + strconv.Quote(xmlscan.Clip([]byte(ref))))
	}
	t := b.table
	if t == nil {
		return b, nil
	}
	list, err := tableColumns(data)
	t.columns = list.names
	f, _ := grid.ParseRange(filter)
	switch {
	case t.odd != "":
	case len(t.columns) != b.LastCol-b.FirstCol+1 || filter != "" && (f.FirstCol != b.FirstCol || f.LastCol != b.LastCol):
		t.odd = "its list of columns does not fit its range"
	case !list.distinct:
		t.odd = "not each of its columns has a name and a number of its own"
	}
	return b, err
}

// decodeEscapes turns _xHHHH_ into the character it stands for.
func decodeEscapes(s string) string {
	var out []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '_' && looksEscaped(s[i+1:]) {
			n, _ := strconv.ParseUint(s[i+2:i+6], 16, 16) // looksEscaped has checked the digits
			out = append(out, string(rune(n))...)
			i += 6
			continue
		}
		out = append(out, s[i])
	}
	return string(out)
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

// checkBlocks refuses an edit that would break a block. The cells of earlier
// results may be replaced inside a table that was drawn around them, as long
// as the header cells keep the names the table knows.
func (t *target) checkBlocks() error {
	headers := 0 // header cells of tables that are cleared and must come again
	var near []block
	for _, b := range t.facts.blocks {
		fixed := b.Range // what must not be cleared
		if b.table != nil {
			fixed.FirstRow = max(b.FirstRow, b.LastRow-b.table.totals+1)
		}
		if cell, ok := t.clear.meets(fixed); ok && fixed.FirstRow <= fixed.LastRow {
			return b.refuse(cell)
		}
		if b.table != nil && b.table.headers > 0 && len(t.req.Clear) > 0 {
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
		return &Error{Kind: ErrTable, Why: "earlier results stand inside a table and their header would be removed",
			Do: "turn the table into a plain range and retry"}
	}
	return nil
}

// sweep goes over the new cells and refuses one that lies in a block. It
// counts the cleared header cells of tables that are written again.
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
			if b.table == nil || !t.cleared(c.Row, c.Col) || c.Row > b.LastRow-b.table.totals {
				return 0, b.refuse(Address{Row: c.Row, Col: c.Col})
			}
			if c.Row < b.FirstRow+b.table.headers {
				i := c.Col - b.FirstCol
				if c.Kind != Text || i >= len(b.table.columns) || b.table.columns[i] != c.Text {
					return 0, b.refuse(Address{Row: c.Row, Col: c.Col})
				}
				headers++
			}
		}
	}
	return headers, nil
}

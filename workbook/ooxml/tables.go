package ooxml

import (
	"math"
	"strconv"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Table is a table or a pivot table of a sheet.
type Table struct {
	grid.Range
	Part     *opc.Part
	Name     string
	Pivot    bool
	Headers  int // header rows, 1 or 0
	Totals   int // total rows at the end
	Columns  TableColumns
	Odd      string // why its columns must not be touched; empty if they may be
	filtered bool   // a filter is on
}

// TableColumns are the columns of a table, [grid.MaxCol] of them at most.
type TableColumns struct {
	Names    []string
	Highest  int  // of their numbers
	Distinct bool // each has a name and a number of its own
}

// maxColumnID leaves space for the numbers of new columns (xsd:unsignedInt).
const maxColumnID = math.MaxInt32

// IsTotal reports whether a row is one of the table's total rows.
func (t *Table) IsTotal(row int) bool { return row <= t.LastRow && row > t.LastRow-t.Totals }

// Tables lists a sheet's tables and pivot tables, and reports whether a filter
// is on in one of the tables. The range of one that states none is zero.
func (b *Book) Tables(s Sheet) (all []Table, filtered bool, err error) {
	rels, err := b.Rels(opc.Key(s.Part.Name))
	if err != nil {
		return nil, false, err
	}
	for _, rel := range rels {
		part := b.Part(rel.Target)
		if part == nil || rel.Kind != "table" && rel.Kind != "pivotTable" {
			continue
		}
		t := b.tables[part]
		if t == nil {
			t = &Table{Part: part, Pivot: rel.Kind == "pivotTable", Headers: 1, Columns: TableColumns{Distinct: true}}
			if err := b.readTable(t); err != nil {
				return nil, false, err
			}
			b.tables[part] = t
		}
		all = append(all, *t)
		filtered = filtered || t.filtered
	}
	return all, filtered, nil
}

func (b *Book) readTable(t *Table) error {
	data, err := b.Load(t.Part)
	if err != nil {
		return err
	}
	filter := ""
	err = xmlscan.EachStart(data, func(s *xmlscan.Scanner) error {
		switch name := xmlscan.LocalName(s.Name); {
		case s.Level == 1:
			return xmlscan.EachAttr(s.Attrs(), t.readAttr)
		case s.Level == 2 && name == "location" && t.Pivot:
			ref, _, err := xmlscan.AttrValue(s.Attrs(), "ref")
			t.Range, _ = grid.ParseRange(ref)
			return err
		case s.Level == 2 && name == "autoFilter" && !t.Pivot:
			v, _, err := xmlscan.AttrValue(s.Attrs(), "ref")
			filter = v
			return err
		case s.Level == 3 && name == "filterColumn" && !t.Pivot:
			t.filtered = true
		}
		return nil
	})
	if err == nil && !t.Pivot {
		t.Columns, err = ReadTableColumns(data)
	}
	if err != nil {
		return failure(t.Part, err)
	}
	f, _ := grid.ParseRange(filter)
	switch {
	case t.Pivot || t.Odd != "":
	case len(t.Columns.Names) != t.LastCol-t.FirstCol+1 || filter != "" && (f.FirstCol != t.FirstCol || f.LastCol != t.LastCol):
		t.Odd = "its list of columns does not fit its range"
	case !t.Columns.Distinct:
		t.Odd = "not each of its columns has a name and a number of its own"
	}
	return nil
}

// readAttr reads an attribute of the root.
func (t *Table) readAttr(name, value string) {
	switch {
	case name == "ref" && !t.Pivot:
		t.Range, _ = grid.ParseRange(value)
	case name == "name" && t.Name == "", name == "displayName":
		t.Name = value
	case name == "headerRowCount" && value == "0":
		t.Headers = 0
	case name == "totalsRowCount":
		n, _ := strconv.Atoi(value) // none if it is no number
		t.Totals = max(n, 0)
	case name == "tableType" && value != "worksheet":
		t.Odd = "its rows come from elsewhere"
	}
}

// NameKey returns the comparable form of a column's name: to a spreadsheet program
// names that differ only in case are the same.
func NameKey(name string) string { return strings.ToLower(strings.ToUpper(name)) }

// ReadTableColumns reads the columns of a table part.
func ReadTableColumns(data []byte) (TableColumns, error) {
	list := TableColumns{Distinct: true}
	ids, names := map[int]bool{}, map[string]bool{}
	err := xmlscan.EachStart(data, func(s *xmlscan.Scanner) error {
		if s.Level != 3 || xmlscan.LocalName(s.Name) != "tableColumn" || len(list.Names) == grid.MaxCol {
			return nil
		}
		id, name := 0, ""
		err := xmlscan.EachAttr(s.Attrs(), func(attr, value string) {
			switch attr {
			case "id":
				id, _ = strconv.Atoi(value)
			case "name":
				name = Unescape(value)
			}
		})
		key := NameKey(name)
		if id < 1 || id > maxColumnID || ids[id] || names[key] {
			list.Distinct = false
		}
		ids[id], names[key] = true, true
		list.Names, list.Highest = append(list.Names, name), max(list.Highest, id)
		return err
	})
	return list, err
}

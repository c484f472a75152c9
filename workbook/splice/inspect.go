package splice

import (
	"context"
	"errors"
	"io"

	"tenback/workbook/ooxml"
)

// Info describes a workbook.
type Info struct {
	Sheets []SheetInfo                  // all sheets, in the order of their tabs
	Signed bool                         // digitally signed; any edit voids the signature
	Named  map[string][]ooxml.NamedCell // cells with names, by sheet
}

// SheetInfo describes one sheet.
type SheetInfo struct {
	Name   string
	Tables []Table

	// FreeCol is the first column to the right of all filled cells, merged ranges,
	// tables, pivot tables and array formulas. It may be MaxCol+1.
	FreeCol int

	// Err is why this sheet cannot be edited. The other fields then describe what
	// comes before the fault.
	Err error

	facts *facts // of the cells, if there is no fault
}

// Table is a range with headers of its own and a name.
type Table struct {
	Range
	Columns []string // names, from left to right
}

// Inspect reads the sheets of a workbook. A fault in one sheet is in its Err.
func Inspect(ctx context.Context, r io.ReaderAt, size int64) (Info, error) {
	return inspect(ctx, r, size, defaultLimits)
}

func inspect(ctx context.Context, r io.ReaderAt, size int64, lim limits) (Info, error) {
	p, err := openPackage(r, size, lim)
	if err != nil {
		return Info{}, err
	}
	info := Info{Signed: p.Signed()}
	if info.Named, err = p.NamedCells(""); err != nil {
		return Info{}, err
	}
	for _, sheet := range p.Sheets() {
		s := SheetInfo{Name: sheet.Name, Err: usable(sheet)}
		if s.Err == nil {
			if err := p.inspectSheet(ctx, &sheetRef{Sheet: sheet}, &s); err != nil {
				return Info{}, err
			}
		}
		info.Sheets = append(info.Sheets, s)
	}
	return info, nil
}

// inspectSheet fills in s. A fault in the cells goes to s.Err, one in the file is
// returned.
func (p *pkg) inspectSheet(ctx context.Context, ref *sheetRef, s *SheetInfo) error {
	t := p.target(&Sheet{}, ref)
	err := p.survey(ctx, t)
	var e *Error
	if err != nil && (!errors.As(err, &e) || e.Part == ref.Part.Name) {
		return err
	}
	if s.Err = inSheet(err, s.Name); err == nil {
		s.facts = &t.facts
	}
	right := t.facts.filled
	for _, b := range t.facts.blocks {
		right = max(right, b.LastCol)
		if b.table != nil {
			s.Tables = append(s.Tables, Table{b.Range, b.table.Columns.Names})
		}
	}
	s.FreeCol = right + 1
	return nil
}

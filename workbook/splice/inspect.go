package splice

import (
	"context"
	"errors"
	"io"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

// Info tells what is in a workbook.
type Info struct {
	Sheets []SheetInfo // all sheets, in the order of their tabs
	Signed bool        // digitally signed; any edit voids the signature
}

// SheetInfo describes one sheet. Rows and columns count from 1; 0 means none.
type SheetInfo struct {
	Name   string
	Tables []Table

	// FreeCol is the first column to the right of every cell that holds more than
	// a format, merged range, table, pivot table and array formula. It may be
	// MaxCol+1.
	FreeCol int

	// Err is why this sheet cannot be edited. The fields above then describe
	// what comes before the fault.
	Err error
}

// Table is a range with headers of its own and a name.
type Table struct {
	Range
	Columns []string // names, from left to right
}

// Inspect reads the sheets of a workbook. What is wrong with the cells of one
// sheet is in that sheet's Err.
func Inspect(ctx context.Context, r io.ReaderAt, size int64) (Info, error) {
	return inspect(ctx, r, size, defaultLimits)
}

func inspect(ctx context.Context, r io.ReaderAt, size int64, lim limits) (Info, error) {
	p, err := openPackage(r, size, lim)
	if err != nil {
		return Info{}, err
	}
	info := Info{Signed: p.Signed()}
	done := map[*part]bool{}
	for _, sheet := range p.Sheets() {
		s := SheetInfo{Name: sheet.Name, Err: usable(sheet)}
		switch {
		case s.Err != nil:
		case done[sheet.Part]:
			s.Err = &Error{Kind: opc.ErrDamaged, Sheet: sheet.Name, Why: "two sheets share the same cells", Do: opc.DoResave}
		default:
			done[sheet.Part] = true
			if err := p.inspectSheet(ctx, sheet, &s); err != nil {
				return Info{}, err
			}
		}
		info.Sheets = append(info.Sheets, s)
	}
	return info, nil
}

// inspectSheet fills in s. What is wrong with the cells goes to s.Err, what is
// wrong with the file is returned.
func (p *pkg) inspectSheet(ctx context.Context, sheet ooxml.Sheet, s *SheetInfo) error {
	rc, err := p.Open(sheet.Part)
	if err != nil {
		return err
	}
	defer rc.Close()
	var f facts
	right, err := p.measure(ctx, rc, &f)
	if err == nil {
		err = p.tables(&f, sheet)
	}
	var e *Error
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case errors.As(err, &e):
		s.Err = inSheet(err, s.Name)
	case err != nil:
		return err
	}
	for _, b := range f.blocks {
		right = max(right, b.LastCol)
		if b.table != nil {
			s.Tables = append(s.Tables, Table{b.Range, b.table.Columns.Names})
		}
	}
	s.FreeCol = right + 1
	_, err = io.Copy(io.Discard, rc) // to the checksum
	return err
}

// measure reads a sheet's items. right is the last column with a cell that holds
// more than a format.
func (p *pkg) measure(ctx context.Context, in io.Reader, f *facts) (right int, err error) {
	rd := ooxml.NewReader(in)
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return right, ctx.Err()
		}
		it, err := rd.Next()
		if err == io.EOF {
			return right, nil
		}
		if err != nil {
			return right, err
		}
		switch it.Kind {
		case ooxml.ItemCell:
			if !it.Blank {
				right = max(right, it.Col)
			}
			if it.Array.LastRow > 0 {
				err = f.addBlock(block{Range: it.Array, kind: ErrFormula}, p.limits.blocks)
			}
		case ooxml.ItemMerge:
			err = f.addMerge(&it, p.limits.blocks)
		}
		if err != nil {
			return right, err
		}
	}
}

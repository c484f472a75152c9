package splice

import (
	"context"
	"errors"
	"io"
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

// Inspect reads a whole workbook: every part to its end, so a damaged part,
// whichever it is, makes an error, and so do parts over the limits. What is
// wrong with the cells of one sheet is told in that sheet's Err.
func Inspect(ctx context.Context, r io.ReaderAt, size int64) (Info, error) {
	return inspect(ctx, r, size, defaultLimits)
}

func inspect(ctx context.Context, r io.ReaderAt, size int64, lim limits) (Info, error) {
	p, err := openPackage(r, size, lim)
	if err != nil {
		return Info{}, err
	}
	b, err := p.book()
	if err != nil {
		return Info{}, err
	}
	info := Info{Signed: p.Signed()}
	done := map[*part]bool{}
	for i := range b.sheets {
		ref := &b.sheets[i]
		s := SheetInfo{Name: ref.name, Err: ref.usable()}
		switch {
		case s.Err != nil:
		case done[ref.part]:
			s.Err = &Error{Kind: ErrDamaged, Sheet: ref.name, Why: "two sheets share the same cells", Do: doResave}
		default:
			if err := p.inspectSheet(ctx, ref.part, &s); err != nil {
				return Info{}, err
			}
			done[ref.part] = true
		}
		info.Sheets = append(info.Sheets, s)
	}
	for _, pt := range p.Parts {
		if done[pt] {
			continue
		}
		if err := ctx.Err(); err != nil {
			return Info{}, err
		}
		rc, err := p.Open(pt)
		if err != nil {
			return Info{}, err
		}
		_, err = io.Copy(io.Discard, rc)
		rc.Close()
		if err != nil {
			return Info{}, err
		}
	}
	return info, nil
}

// inspectSheet fills in what the sheet's part tells. What is wrong with the
// cells goes to s.Err, what is wrong with the file is returned.
func (p *pkg) inspectSheet(ctx context.Context, pt *part, s *SheetInfo) error {
	rc, err := p.Open(pt)
	if err != nil {
		return err
	}
	defer rc.Close()
	var f facts
	right, err := p.measure(ctx, rc, &f)
	if err == nil {
		err = p.tables(&f, pt)
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		var e *Error
		if !errors.As(err, &e) {
			return err
		}
		s.Err = inSheet(err, s.Name)
	}
	for _, b := range f.blocks {
		right = max(right, b.LastCol)
		if b.table != nil {
			s.Tables = append(s.Tables, Table{b.Range, b.table.columns})
		}
	}
	s.FreeCol = right + 1
	_, err = io.Copy(io.Discard, rc)
	return err
}

// measure reads a sheet's items. right is the last column with a cell that holds
// more than a format.
func (p *pkg) measure(ctx context.Context, in io.Reader, f *facts) (right int, err error) {
	rd := newSheetReader(in)
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return right, ctx.Err()
		}
		it, err := rd.next()
		if err == io.EOF {
			return right, nil
		}
		if err != nil {
			return right, err
		}
		switch it.kind {
		case itemCell:
			if !it.blank {
				right = max(right, it.col)
			}
			if it.array.LastRow > 0 {
				err = f.addBlock(block{Range: it.array, kind: ErrFormula}, p.limits.blocks)
			}
		case itemMerge:
			err = f.addMerge(&it, p.limits.blocks)
		}
		if err != nil {
			return right, err
		}
	}
}

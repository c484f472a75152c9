package splice

import (
	"context"
	"errors"
	"io"

	"tenback/workbook/xmlscan"
)

// Info tells what is in a workbook.
type Info struct {
	Sheets []SheetInfo // all sheets, in the order of their tabs
	Signed bool        // digitally signed; any edit voids the signature
}

// SheetInfo describes one sheet. Rows and columns count from 1; 0 means none.
type SheetInfo struct {
	Name      string
	Worksheet bool // false for chart, dialog and macro sheets, which have no cells
	Hidden    bool
	Protected bool // locked against editing, with or without a password

	LastRow int // last row with a cell that holds more than a format
	LastCol int // last such column

	// FreeCol is the first column to the right of every cell, merged range,
	// table, pivot table and array formula. It may be MaxCol+1.
	FreeCol int
	// FreeColOverBlank is the same, but counts cells that hold only a format
	// as free, as Sheet.OverBlank does.
	FreeColOverBlank int

	Filter Range // of the automatic filter; zero if there is none
	Tables []Table

	// Err says why this sheet cannot be edited; the counts above are then
	// those up to the place of the trouble.
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
		s := SheetInfo{Name: ref.name, Hidden: ref.hidden, Worksheet: ref.kind == "worksheet"}
		switch {
		case !s.Worksheet:
		case ref.usable() != nil:
			s.Err = ref.usable()
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
	blanks, err := p.measure(ctx, rc, s, &f)
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
	right := s.LastCol
	for _, b := range f.blocks {
		right = max(right, b.LastCol)
		if b.table != nil {
			s.Tables = append(s.Tables, Table{b.Range, b.table.columns})
		}
	}
	s.FreeColOverBlank = right + 1
	s.FreeCol = max(right, blanks) + 1
	_, err = io.Copy(io.Discard, rc)
	return err
}

// measure reads a sheet's items; blanks is the last column with a cell of any
// kind.
func (p *pkg) measure(ctx context.Context, in io.Reader, s *SheetInfo, f *facts) (blanks int, err error) {
	rd := newSheetReader(in)
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return blanks, ctx.Err()
		}
		it, err := rd.next()
		if err == io.EOF {
			return blanks, nil
		}
		if err != nil {
			return blanks, err
		}
		switch it.kind {
		case itemCell:
			blanks = max(blanks, it.col)
			if !it.blank {
				s.LastRow, s.LastCol = it.row, max(s.LastCol, it.col)
			}
			if it.array.LastRow > 0 {
				err = f.addBlock(block{Range: it.array, kind: ErrFormula}, p.limits.blocks)
			}
		case itemMerge:
			err = f.addMerge(&it, p.limits.blocks)
		case itemFilter:
			s.Filter, err = rangeAttr(&it)
		case itemProtection:
			var v string
			v, _, err = xmlscan.AttrValue(it.attrs(), "sheet")
			s.Protected = v == "1" || v == "true"
		}
		if err != nil {
			return blanks, err
		}
	}
}

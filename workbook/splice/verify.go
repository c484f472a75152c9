package splice

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"

	"tenback/workbook/opc"
	"tenback/workbook/styles"
)

// Verify compares the original with a copy that Apply made with the same edit,
// before the copy replaces the original. It reads both files whole and returns an
// error that wraps ErrChanged unless
//   - every part that the edit does not change has the same bytes;
//   - in edited sheets every old cell outside the cleared ranges has the same bytes
//     at the same place, everything around the cells is the same but for the
//     changes in the package comment, and the new cells are at their places;
//   - the old formats have their old numbers;
//   - the names of the edit stand for their cells, and all others are the same;
//   - a widened table is the old one but for its ranges and its new columns, which
//     have the names of the new headers.
//
// It does not compare the values of the new cells.
func Verify(ctx context.Context, orig io.ReaderAt, origSize int64, edited io.ReaderAt, editedSize int64, edit Edit) error {
	a, err := openPackage(orig, origSize, defaultLimits)
	if err != nil {
		return err
	}
	b, err := openPackage(edited, editedSize, defaultLimits)
	if err != nil {
		return unreadable(err)
	}
	v := &verifier{ctx: ctx, a: a, b: b, edit: &edit}
	return v.run()
}

// Rehearse does what Apply and Verify do with an edit, but writes nothing. It returns
// the error that one of them would return.
func Rehearse(ctx context.Context, r io.ReaderAt, size int64, edit Edit) (Report, error) {
	var open [3]*pkg // each with its own place in the parts
	for i := range open {
		var err error
		if open[i], err = openPackage(r, size, defaultLimits); err != nil {
			return Report{}, err
		}
	}
	plan, err := newPlan(ctx, open[0], edit)
	if err != nil {
		return Report{}, err
	}
	edited := open[2]
	set := func(name string, data []byte) {
		edited.Set(name, func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil })
	}
	for part, data := range plan.small {
		set(part.Name, data)
	}
	if plan.newStyles != nil {
		set(plan.stylesName, plan.newStyles)
	}
	for _, t := range plan.targets {
		edited.Set(t.ref.Part.Name, func() (io.ReadCloser, error) { return plan.sheet(ctx, t), nil })
	}
	v := &verifier{ctx: ctx, a: open[1], b: edited, edit: &edit}
	return plan.report, v.run()
}

func changed(part, why string) *Error {
	return &Error{Kind: ErrChanged, Part: part, Why: why, Do: "the original was left as it is; please report this"}
}

// unreadable returns ErrChanged for an error in the copy, which is not bad input.
func unreadable(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return &Error{Kind: ErrChanged, Why: "the edited copy cannot be read back", Cause: err}
}

type verifier struct {
	ctx     context.Context
	a, b    *pkg
	edit    *Edit
	filters []filterChange
}

type filterChange struct {
	sheet     int
	old, wide Range
}

func (v *verifier) run() error {
	sheets, tables := map[*part]*editedSheet{}, map[*part]*widening{}
	for i := range v.edit.Sheets {
		req := &v.edit.Sheets[i]
		ref, err := v.a.sheet(req.Name)
		if err != nil {
			return err
		}
		sheets[ref.Part] = &editedSheet{ref, req}
		if err := v.widenedTable(ref, req, tables); err != nil {
			return err
		}
	}
	for _, pa := range v.a.Parts {
		if err := v.ctx.Err(); err != nil {
			return err
		}
		pb := v.b.Part(pa.Name)
		if pb == nil || pb.Name != pa.Name {
			return changed(pa.Name, "the part is missing in the edited copy")
		}
		var err error
		switch key := opc.Key(pa.Name); {
		case sheets[pa] != nil:
			err = inSheet(v.sheet(sheets[pa], pb), sheets[pa].ref.Name)
		case pa == v.a.Main: // compared when the filters are known
		case pa == v.a.Styles:
			err = v.small(pa, pb, styles.Growth.Matches)
		case v.a.Styles == nil && (key == typesPart || key == opc.Key(opc.RelsName(opc.Key(v.a.Main.Name)))):
			err = v.small(pa, pb, v.announcing().Matches)
		case tables[pa] != nil:
			err = v.small(pa, pb, tables[pa].matches)
		default:
			err = v.same(pa, pb)
		}
		if err != nil {
			return err
		}
	}
	if err := v.small(v.a.Main, v.b.Part(v.a.Main.Name), v.sameBook); err != nil {
		return err
	}
	return v.newParts()
}

// editedSheet is a sheet of the original and its edit.
type editedSheet struct {
	ref *sheetRef
	req *Sheet
}

// newParts allows only the styles of a workbook that had none.
func (v *verifier) newParts() error {
	styles := v.a.Styles == nil
	for _, pb := range v.b.Parts {
		if v.a.Part(pb.Name) != nil {
			continue
		}
		if !styles || !strings.Contains(opc.Key(pb.Name), "styles") {
			return changed(pb.Name, "the edited copy has a part that the original has not")
		}
		styles = false
	}
	return nil
}

// same compares two parts byte by byte.
func (v *verifier) same(pa, pb *part) error {
	ra, err := v.a.Open(pa)
	if err != nil {
		return err
	}
	defer ra.Close()
	rb, err := v.b.Open(pb)
	if err != nil {
		return unreadable(err)
	}
	defer rb.Close()
	bufA, bufB := make([]byte, 32<<10), make([]byte, 32<<10)
	for {
		na, errA := io.ReadFull(ra, bufA)
		nb, errB := io.ReadFull(rb, bufB)
		endA := errA == io.EOF || errA == io.ErrUnexpectedEOF
		endB := errB == io.EOF || errB == io.ErrUnexpectedEOF
		switch {
		case errA != nil && !endA:
			return errA
		case errB != nil && !endB:
			return unreadable(errB)
		case !bytes.Equal(bufA[:na], bufB[:nb]) || endA != endB:
			return changed(pa.Name, "the part's content changed")
		case endA:
			return nil
		}
		if err := v.ctx.Err(); err != nil {
			return err
		}
	}
}

// small compares two parts in memory by a rule, unless they are equal.
func (v *verifier) small(pa, pb *part, same func(a, b []byte) (bool, error)) error {
	a, err := v.a.Load(pa)
	if err != nil {
		return err
	}
	b, err := v.b.Load(pb)
	if err != nil {
		return unreadable(err)
	}
	if bytes.Equal(a, b) {
		return nil
	}
	ok, err := same(a, b)
	if err != nil {
		return unreadable(err)
	}
	if !ok {
		return changed(pa.Name, "the part's content changed")
	}
	return nil
}

func (v *verifier) sameBook(a, b []byte) (bool, error) {
	for _, f := range v.filters {
		var ok bool
		var err error
		if a, ok, err = renameFilter(a, f.sheet, f.old, f.wide); err != nil || !ok {
			return false, err
		}
	}
	return v.sameButNames(a, b)
}

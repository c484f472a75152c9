package splice

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
	"tenback/workbook/styles"
	"tenback/workbook/xmlscan"
)

// target is one worksheet that is edited.
type target struct {
	req        *Sheet
	ref        *sheetRef
	styles     int // how many styles the edit lists
	blockLimit int
	widths     []width // by column
	clear      rangeSet
	facts      facts
	xf         []int // format index by Cell.Style
	filter     Range // new range of the automatic filter; zero to leave it
	last       int   // row after which a survey ends; 0 for none
}

func (t *target) cleared(row, col int) bool { return t.clear.contains(row, col) }

// plan is a checked edit.
type plan struct {
	pkg     *pkg
	edit    *Edit
	targets []*target
	small   map[*part][]byte // parts with new content that are held in memory
	report  Report

	stylesName string // of a new styles part, if newStyles is not nil
	newStyles  []byte
}

func newPlan(ctx context.Context, p *pkg, edit Edit) (*plan, error) {
	pl := &plan{pkg: p, edit: &edit, small: map[*part][]byte{}, report: Report{Signed: p.Signed()}}
	for _, pt := range p.Parts {
		if isFolder(pt.File) && pt.UncompressedSize64 > 0 {
			return nil, &Error{Kind: opc.ErrDamaged, Part: pt.Name, Why: "a folder in the file has content", Do: opc.DoResave}
		}
	}
	for i := range edit.Sheets {
		t, err := pl.newTarget(&edit.Sheets[i])
		if err != nil {
			return nil, inSheet(err, edit.Sheets[i].Name)
		}
		known, err := pl.adopt(ctx, t)
		if err == nil && !known {
			err = p.survey(ctx, t)
		}
		if err != nil {
			return nil, inSheet(err, t.ref.Name)
		}
		pl.targets = append(pl.targets, t)
	}
	if err := pl.formats(); err != nil {
		return nil, err
	}
	if err := pl.filters(); err != nil {
		return nil, inPart(err, p.Main.Name)
	}
	if err := pl.names(); err != nil {
		return nil, inPart(err, p.Main.Name)
	}
	for _, t := range pl.targets {
		if err := pl.widen(t); err != nil {
			return nil, inSheet(err, t.ref.Name)
		}
		if len(t.widths) > 0 && t.facts.cols.irregular {
			pl.note(t, "the list of column widths is irregular, so widths were left as they are")
		}
	}
	return pl, nil
}

func (pl *plan) note(t *target, why string) {
	pl.report.Notes = append(pl.report.Notes, fmt.Sprintf("sheet %q: %s", t.ref.Name, why))
}

func (pl *plan) newTarget(req *Sheet) (*target, error) {
	ref, err := pl.pkg.sheet(req.Name)
	if err != nil {
		return nil, err
	}
	for _, t := range pl.targets {
		if t.ref.Part == ref.Part {
			return nil, &Error{Kind: ErrRequest, Why: "the sheet is edited twice"}
		}
	}
	for _, r := range req.Clear {
		if !r.Valid() {
			return nil, &Error{Kind: ErrRequest, Why: fmt.Sprintf("the range to clear %v is not inside the sheet", r)}
		}
	}
	t := pl.pkg.target(req, ref)
	t.styles = len(pl.edit.Styles)
	for _, col := range slices.Sorted(maps.Keys(req.Widths)) {
		w := width{col, req.Widths[col]}
		if col < 1 || col > grid.MaxCol || !(w.width >= 0 && w.width <= 255) {
			return nil, &Error{Kind: ErrRequest, Why: fmt.Sprintf("width %v of column %d is not possible", w.width, col)}
		}
		t.widths = append(t.widths, w)
	}
	for _, st := range pl.edit.Styles {
		if st.Like != (Address{}) {
			t.facts.likes[st.Like] = &like{}
		}
	}
	return t, nil
}

// target returns a target without facts.
func (p *pkg) target(req *Sheet, ref *sheetRef) *target {
	return &target{req: req, ref: ref, blockLimit: p.limits.blocks, clear: newRangeSet(req.Clear),
		facts: facts{used: map[int]bool{}, likes: map[Address]*like{}}}
}

// survey reads the sheet once and refuses edits that are not possible.
func (p *pkg) survey(ctx context.Context, t *target) error {
	rc, err := p.OpenXML(t.ref.Part)
	if err != nil {
		return err
	}
	defer rc.Close()
	if err := t.run(ctx, rc, nil); err != nil && err != io.EOF {
		return err
	}
	return p.checkBlocks(t)
}

// adopt takes the facts of an earlier survey and reports whether they are enough,
// because all new cells are to the right of the old ones.
func (pl *plan) adopt(ctx context.Context, t *target) (bool, error) {
	at := slices.IndexFunc(pl.edit.Known.Sheets, func(s SheetInfo) bool { return s.Name == t.ref.Name && s.facts != nil })
	if at < 0 || len(t.req.Clear) > 0 || pl.edit.Known.Sheets[at].facts.implied {
		return false, nil
	}
	f := *pl.edit.Known.Sheets[at].facts
	f.likes, f.used = map[Address]*like{}, map[int]bool{}
	cells := newSource(t.req.Cells, t.styles)
	defer cells.stop()
	for {
		if err := cells.advance(); err != nil {
			return false, err
		}
		if !cells.ok {
			break
		}
		if cells.cell.Col <= f.old.LastCol {
			return false, nil
		}
		f.count(&cells.cell)
	}
	// The looks of single cells are read on their own.
	looks := pl.pkg.target(&Sheet{}, t.ref)
	looks.facts.likes = t.facts.likes
	for at := range t.facts.likes {
		looks.last = max(looks.last, at.Row)
	}
	if looks.last > 0 {
		if err := pl.pkg.survey(ctx, looks); err != nil {
			return false, err
		}
	}
	f.likes = t.facts.likes
	f.blocks = slices.DeleteFunc(slices.Clone(f.blocks), func(b block) bool { return b.kind == ErrTable })
	t.facts = f
	return true, pl.pkg.checkBlocks(t)
}

// formats sets the format index of every style on every sheet.
func (pl *plan) formats() error {
	var ss *styles.Sheet
	for _, t := range pl.targets {
		t.xf = make([]int, len(pl.edit.Styles)+1)
		for i := range pl.edit.Styles {
			st := pl.edit.Styles[i]
			if !t.facts.used[i+1] {
				continue
			}
			base := 0
			if l := t.facts.likes[st.Like]; l != nil {
				base = l.xf
			}
			look := styles.Look{NumberFormat: st.NumberFormat, Horizontal: st.Horizontal}
			if look == (styles.Look{}) {
				t.xf[i+1] = base
				continue
			}
			if ss == nil {
				var err error
				if ss, err = pl.loadStyles(); err != nil {
					return err
				}
			}
			var err error
			if t.xf[i+1], err = ss.XF(base, look); err != nil {
				return err
			}
		}
	}
	if ss == nil {
		return nil
	}
	data, err := ss.Bytes()
	if err != nil || data == nil {
		return err
	}
	if pl.pkg.Styles != nil {
		pl.small[pl.pkg.Styles] = data
		return nil
	}
	return pl.addStylesPart(data)
}

func (pl *plan) loadStyles() (*styles.Sheet, error) {
	if pl.pkg.Styles == nil {
		return styles.Read([]byte(styles.New))
	}
	data, err := pl.pkg.Load(pl.pkg.Styles)
	if err != nil {
		return nil, err
	}
	ss, err := styles.Read(data)
	return ss, inPart(err, pl.pkg.Styles.Name)
}

// filters extends automatic filters and the hidden names that mirror them.
func (pl *plan) filters() error {
	old, err := pl.pkg.Load(pl.pkg.Main)
	if err != nil {
		return err
	}
	data := old
	for _, t := range pl.targets {
		if t.facts.filter == (Range{}) || t.facts.added == 0 {
			continue
		}
		was, cells := t.facts.filter, t.facts.new
		if was.FirstRow != cells.FirstRow || was.LastCol < cells.FirstCol-1 || was.LastCol > cells.LastCol {
			pl.note(t, "the automatic filter does not end beside the new columns, so it was left as it is")
			continue
		}
		wide := was
		wide.LastCol = cells.LastCol
		if wide == was {
			continue
		}
		changed, ok, err := renameFilter(data, t.ref.index, was, wide)
		if err != nil {
			return err
		}
		if !ok {
			pl.note(t, "the automatic filter and its hidden name differ, so it was left as it is")
			continue
		}
		data, t.filter = changed, wide
	}
	if !bytes.Equal(data, old) {
		pl.small[pl.pkg.Main] = data
	}
	return nil
}

// renameFilter changes the range in the hidden defined name of a sheet's
// automatic filter, if there is one. ok is false if the name holds another range.
func renameFilter(book []byte, sheet int, old, wide Range) (changed []byte, ok bool, err error) {
	list, err := ooxml.ReadNames(book)
	if err != nil {
		return nil, false, err
	}
	for _, n := range list.Names {
		if !strings.EqualFold(n.Name, "_xlnm._FilterDatabase") || n.Scope != strconv.Itoa(sheet) {
			continue
		}
		text := bytes.TrimRight(book[n.TextFrom:n.TextTo], " \t\r\n")
		end, was := n.TextFrom+len(text), "!"+old.Absolute()
		if !bytes.HasSuffix(text, []byte(was)) {
			return book, false, nil
		}
		return xmlscan.Replace(book, end-len(was), end, "!"+wide.Absolute()), true, nil
	}
	return book, true, nil
}

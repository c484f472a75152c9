package splice

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"hash/maphash"
	"io"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Verify compares the original with a copy that Apply made with the same
// edit, before the copy takes the original's place. It reads both files
// whole and returns an error that wraps ErrChanged unless
//   - every part that the edit does not name has the same bytes;
//   - in the edited sheets every old cell outside the cleared ranges has the
//     same bytes at the same place, everything around the cells is the same
//     but for what the package comment lists, and the new cells are exactly
//     the ones asked for, place by place;
//   - the old formats are all there under their old numbers;
//   - a table that was to be widened is the old one, but for its ranges and for
//     the columns at the end of its list, which are called as the new headers;
//   - in sheets that were to get comments, the comments and boxes of others
//     have the same bytes in the same order, those of the author that are new
//     or changed have the texts asked for, and only new parts for them are
//     added to the lists of parts.
//
// It does not compare the values of the new cells.
func Verify(ctx context.Context, orig io.ReaderAt, origSize int64, edited io.ReaderAt, editedSize int64, edit Edit) error {
	a, err := openPackage(orig, origSize, defaultLimits)
	if err != nil {
		return err
	}
	book, err := a.book()
	if err != nil {
		return err
	}
	b, err := openPackage(edited, editedSize, defaultLimits)
	if err != nil {
		return unreadable(err)
	}
	v := &verifier{ctx: ctx, a: a, b: b, book: book, later: map[*part]bool{}, fresh: map[string]bool{},
		tables: map[*part]*widening{}}
	return v.run(&edit)
}

func changed(part, why string) *Error {
	return &Error{Kind: ErrChanged, Part: part, Why: why, Do: "the original was left as it is; please report this"}
}

// unreadable: trouble with the edited copy is a failed check, not bad input.
func unreadable(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return &Error{Kind: ErrChanged, Why: "the edited copy cannot be read back", Cause: err}
}

type verifier struct {
	ctx       context.Context
	a, b      *pkg
	book      *book
	filters   []filterChange
	later     map[*part]bool  // parts of the original that are compared when the sheets have been
	fresh     map[string]bool // new parts for comments, by key
	commented []editedComments
	tables    map[*part]*widening // parts of the original that may be wider in the copy
}

type filterChange struct {
	sheet     int
	old, wide Range
}

func (v *verifier) run(edit *Edit) error {
	sheets := map[*part]*Sheet{}
	refs := map[*part]*sheetRef{}
	for i := range edit.Sheets {
		ref, err := v.book.sheet(edit.Sheets[i].Name)
		if err != nil {
			return err
		}
		sheets[ref.part], refs[ref.part] = &edit.Sheets[i], ref
		if edit.Sheets[i].CommentAuthor != "" {
			if err := v.mayDiffer(ref); err != nil {
				return err
			}
		}
		if err := v.widenedTable(ref, &edit.Sheets[i]); err != nil {
			return err
		}
	}
	for _, pt := range v.a.Parts {
		if v.book.styles == nil && v.announces(pt) {
			v.later[pt] = true
		}
	}
	var bookCopy *part
	for _, pa := range v.a.Parts {
		if err := v.ctx.Err(); err != nil {
			return err
		}
		name := pa.Name
		pb := v.b.Part(name)
		if pb == nil || pb.Name != name {
			return changed(name, "the part is missing in the edited copy")
		}
		var err error
		switch {
		case sheets[pa] != nil:
			ref := refs[pa]
			err = inSheet(v.sheet(ref, pb, sheets[pa], len(edit.Styles)), ref.name)
		case pa == v.book.part:
			bookCopy = pb // compared when the filters are known
		case pa == v.book.styles:
			err = v.small(pa, pb, sameStyles)
		case v.later[pa]:
		case v.tables[pa] != nil:
			err = v.small(pa, pb, func(a, b []byte) (bool, error) { return sameWidened(a, b, v.tables[pa]) })
		default:
			err = v.same(pa, pb)
		}
		if err != nil {
			return err
		}
	}
	if err := v.small(v.book.part, bookCopy, v.sameBook); err != nil {
		return err
	}
	if err := v.laterParts(); err != nil {
		return err
	}
	return v.newParts()
}

// announces: the parts in which new parts of the workbook have to be named.
func (v *verifier) announces(pt *part) bool {
	key := opc.Key(pt.Name)
	return key == typesPart || key == opc.Key(opc.RelsName(v.book.name))
}

// newParts allows those for comments, and the styles of a workbook that had
// none.
func (v *verifier) newParts() error {
	styles := v.book.styles == nil
	for _, pb := range v.b.Parts {
		key := opc.Key(pb.Name)
		if v.a.Part(key) != nil || v.fresh[key] {
			continue
		}
		if !styles || !strings.Contains(key, "styles") {
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

// small compares two parts held in memory with a rule.
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
	return bytes.Equal(a, b), nil
}

// sameStyles: b is a with entries added at the end of the four lists that
// formats need, and their counts changed.
func sameStyles(a, b []byte) (bool, error) {
	sa, sb := xmlscan.OfBytes(a), xmlscan.OfBytes(b)
	ka, errA := sa.Next()
	for {
		kb, errB := sb.Next()
		if errA == io.EOF && errB == io.EOF {
			return true, nil
		}
		if errA != nil && errA != io.EOF || errB != nil && errB != io.EOF {
			return false, errors.Join(errA, errB)
		}
		if errA != nil || errB != nil {
			return false, nil
		}
		if bytes.Equal(sa.Raw(), sb.Raw()) {
			ka, errA = sa.Next()
			continue
		}
		if kb != xmlscan.StartTag && kb != xmlscan.EmptyTag {
			return false, nil
		}
		nameA, nameB := localName(sa.Name), localName(sb.Name)
		startA := ka == xmlscan.StartTag || ka == xmlscan.EmptyTag
		switch {
		case sb.Level == 3 && ka == xmlscan.EndTag && sa.Level == 2 && styleItems[nameA] == nameB:
			// an entry that is new at the end of its list
			if err := skipElement(sb, kb); err != nil {
				return false, err
			}
		case sb.Level == 2 && styleItems[nameB] != "" && !(startA && nameA == nameB):
			// a list that is new
			if err := skipElement(sb, kb); err != nil {
				return false, err
			}
		case sb.Level == 2 && sa.Level == 2 && startA && nameA == nameB && styleItems[nameA] != "":
			tagA, err := anyCount(sa.Raw())
			if err != nil {
				return false, err
			}
			tagB, err := anyCount(sb.Raw())
			if err != nil {
				return false, err
			}
			if ka == xmlscan.EmptyTag && kb == xmlscan.StartTag {
				tagA = opened(tagA)
				if err := skipElement(sb, kb); err != nil {
					return false, err
				}
			}
			if !bytes.Equal(tagA, tagB) {
				return false, nil
			}
			ka, errA = sa.Next()
		default:
			return false, nil
		}
	}
}

func anyCount(tag []byte) ([]byte, error) {
	if _, ok, err := xmlscan.AttrValue(xmlscan.TagAttrs(tag), "count"); err != nil || !ok {
		return tag, err
	}
	return setAttr(tag, "count", "0")
}

// skipElement reads on to the end of the element whose start was just read.
func skipElement(s *xmlscan.Scanner, kind xmlscan.Token) error {
	level := s.Level
	for kind != xmlscan.EmptyTag {
		k, err := s.Next()
		if err != nil {
			return err
		}
		if k == xmlscan.EndTag && s.Level == level {
			return nil
		}
	}
	return nil
}

// side is one of two sheets that are compared. Its items are reduced to those
// that must agree; bytes between them are hashed.
type side struct {
	rd    *sheetReader
	req   *Sheet
	clear rangeSet
	cells *source // new cells not yet met
	other maphash.Hash
	looks []string // entry of each column in the list of widths
	drawn string   // element that names the old drawing
}

func (v *verifier) sheet(ref *sheetRef, pb *part, req *Sheet, styles int) error {
	ra, err := v.a.Open(ref.part)
	if err != nil {
		return err
	}
	defer ra.Close()
	rb, err := v.b.Open(pb)
	if err != nil {
		return unreadable(err)
	}
	defer rb.Close()
	before := &oldSide{side: makeSide(ra, req, styles)}
	before.clear = newRangeSet(req.Clear)
	after := &newSide{side: makeSide(rb, req, styles)}
	after.other.SetSeed(before.other.Seed())
	defer before.cells.stop()
	defer after.cells.stop()
	if err := errors.Join(before.cells.advance(), after.cells.advance()); err != nil {
		return err
	}
	for n := 0; ; n++ {
		if n%4096 == 0 && v.ctx.Err() != nil {
			return v.ctx.Err()
		}
		ia, errA := before.next()
		if errA != nil && errA != io.EOF {
			return errA
		}
		ib, errB := after.next(&ia)
		if errB != nil && errB != io.EOF {
			return unreadable(errB)
		}
		if before.other.Sum64() != after.other.Sum64() {
			return changed("", fmt.Sprintf("something near row %d changed", before.rd.row))
		}
		before.other.Reset()
		after.other.Reset()
		if errA == io.EOF && errB == io.EOF {
			break
		}
		same := errA == nil && errB == nil && ia.kind == ib.kind
		if same {
			if same, err = v.sameItem(&ia, &ib, after, ref.index); err != nil {
				return unreadable(err)
			}
		}
		if !same {
			e := changed("", "the cells or what is around them changed")
			if ia.kind == itemCell {
				e.Cell, e.Why = Address{Row: ia.row, Col: ia.col}.String(), "the cell changed"
			}
			return e
		}
		if ia.kind == itemRow && !ia.empty && !ib.empty {
			if err := passSame(before, after); err != nil {
				return err
			}
		}
	}
	if !sameDrawing(&before.side, &after.side) {
		return changed("", "the old drawing changed")
	}
	if req.CommentAuthor != "" {
		v.commented = append(v.commented, editedComments{ref, pb, req, before.rd.legacy, after.rd.legacy})
	}
	if after.cells.ok {
		e := changed("", "a new cell is missing")
		e.Cell = Address{Row: after.cells.cell.Row, Col: after.cells.cell.Col}.String()
		return e
	}
	for col := range before.looks {
		if _, ours := req.Widths[col]; !ours && before.looks[col] != after.looks[col] {
			return changed("", fmt.Sprintf("the width of column %s changed", grid.Column(col)))
		}
	}
	return nil
}

// plainRowMost is how long a row may be, in bytes, to be looked at as a whole.
const plainRowMost = 1 << 20

// passSame passes over the old cells of the row that was just begun on both sides,
// if they are byte for byte the same and all new cells stand behind them. That is so
// for most rows, and then they need not be taken apart. Where it is not certain
// nothing is passed over.
func passSame(before *oldSide, after *newSide) error {
	row := before.rd.row
	cells, plain, err := before.rd.plainRow()
	if err != nil || !plain {
		return err
	}
	if _, cleared := before.clear.meets(Range{FirstRow: row, FirstCol: 1, LastRow: row, LastCol: cells.last}); cleared {
		return nil
	}
	if next := &after.cells.cell; after.cells.ok && next.Row == row && next.Col <= cells.last {
		return nil
	}
	same, err := after.rd.s.Follows(cells.raw)
	if err != nil {
		return unreadable(err)
	}
	if !same || len(cells.raw) == 0 {
		return nil
	}
	if err := before.rd.passCells(cells.last, len(cells.raw)); err != nil {
		return err
	}
	return after.rd.passCells(cells.last, len(cells.raw))
}

// rowCells is what stands in a row.
type rowCells struct {
	raw  []byte
	last int // column of the last cell
}

// plainRow looks ahead at the row whose start was just read. It is plain if it
// holds nothing in which its end could be mistaken, and ends with a cell that has
// an address.
func (r *sheetReader) plainRow() (cells rowCells, plain bool, err error) {
	if r.prefix != "" {
		return rowCells{}, false, nil
	}
	raw, ok, err := r.s.Peek("</row>", plainRowMost)
	if err != nil || !ok {
		return rowCells{}, false, err
	}
	for _, doubt := range []string{"<row", "<!", "<?"} {
		if bytes.Contains(raw, []byte(doubt)) {
			return rowCells{}, false, nil
		}
	}
	start := bytes.LastIndex(raw, []byte("<c "))
	if start < 0 {
		return rowCells{}, false, nil
	}
	tag, _, ok := bytes.Cut(raw[start:], []byte(">"))
	if !ok {
		return rowCells{}, false, nil
	}
	address, ok, err := xmlscan.AttrValue(tag[len("<c"):], "r")
	if err != nil || !ok {
		return rowCells{}, false, nil // reading it cell by cell tells what is wrong
	}
	at, ok := grid.ParseAddress(address)
	if !ok || at.Row != r.row {
		return rowCells{}, false, nil
	}
	return rowCells{raw, at.Col}, true, nil
}

// passCells passes over n bytes of the row, to its cell in the column last.
func (r *sheetReader) passCells(last, n int) error {
	r.col = last
	for n > 0 {
		if err := r.s.Pass(n); err != nil {
			return err
		}
		n -= len(r.s.Raw())
	}
	return nil
}

func makeSide(in io.Reader, req *Sheet, styles int) side {
	s := side{rd: newSheetReader(in), req: req, cells: newSource(req.places(), styles)}
	if len(req.Widths) > 0 {
		s.looks = make([]string, MaxCol+1)
	}
	return s
}

// sameDrawing: the sheet names the old drawing as before, or as new comments
// need it.
func sameDrawing(before, after *side) bool {
	was, is := &before.rd.legacy, &after.rd.legacy
	if was.at == is.at && before.drawn == after.drawn {
		return true
	}
	return was.at == 0 && !was.disorder && !is.disorder && is.at == was.place && after.drawn == was.element(before.rd.prefix, is.id)
}

// between takes items that need not agree one by one. taken is false for
// those that must.
func (s *side) between(it *item) (taken bool, err error) {
	switch it.kind {
	case itemOther, itemSection, itemRootEnd:
		s.other.Write(it.raw)
		return true, nil
	case itemLegacy:
		if s.drawn != "" || s.req.CommentAuthor == "" {
			s.other.Write(it.raw)
		} else {
			s.drawn = string(it.raw)
		}
		return true, nil
	case itemCols, itemColsEnd:
		return s.looks != nil, nil
	case itemCol:
		if s.looks == nil {
			return false, nil
		}
		from, to, err := colRange(it.attrs())
		if err != nil {
			return false, err
		}
		tag := it.raw[:it.tag]
		for _, name := range []string{"min", "max"} {
			if tag, err = setAttr(tag, name, "0"); err != nil {
				return false, err
			}
		}
		if !it.empty {
			tag = splice(tag, len(tag)-1, len(tag)-1, "/")
		}
		look := string(tag)
		for col := max(from, 1); col <= min(to, MaxCol); col++ {
			s.looks[col] = look
		}
		return true, nil
	}
	return false, nil
}

// read gives the next item that between leaves.
func (s *side) read() (item, error) {
	for {
		it, err := s.rd.next()
		if err != nil {
			return it, err
		}
		if taken, err := s.between(&it); err != nil || !taken {
			return it, err
		}
	}
}

// oldSide leaves out the cells that the edit takes away.
type oldSide struct{ side }

func (s *oldSide) next() (item, error) {
	for {
		it, err := s.read()
		if err != nil || it.kind != itemCell {
			return it, err
		}
		if gone, err := s.gone(&it); err != nil || !gone {
			return it, err
		}
	}
}

func (s *oldSide) gone(it *item) (bool, error) {
	for s.cells.ok && (s.cells.cell.Row < it.row || s.cells.cell.Row == it.row && s.cells.cell.Col < it.col) {
		if err := s.cells.advance(); err != nil {
			return false, err
		}
	}
	if it.formula {
		return false, nil
	}
	if s.clear.contains(it.row, it.col) {
		return true, nil
	}
	return s.req.OverBlank && it.blank && s.cells.ok && s.cells.cell.Row == it.row && s.cells.cell.Col == it.col, nil
}

// newSide leaves out the cells and rows that the edit adds.
type newSide struct {
	side
	addedRow  bool // in a row that the original has not
	closeRow  bool // in a row that closed itself in the original
	closeData bool // the same for the list of rows
}

func (s *newSide) next(old *item) (item, error) {
	for {
		it, err := s.read()
		if err != nil {
			return it, err
		}
		switch {
		case it.kind == itemRow && s.isAdded(&it, old):
			s.addedRow = true
		case it.kind == itemCell && s.cells.ok && s.cells.cell.Row == it.row && s.cells.cell.Col == it.col:
			if err := s.cells.advance(); err != nil {
				return it, err
			}
		case it.kind == itemRowEnd && (s.addedRow || s.closeRow):
			s.addedRow, s.closeRow = false, false
		case it.kind == itemDataEnd && s.closeData:
			s.closeData = false
		default:
			return it, nil
		}
	}
}

func (s *newSide) isAdded(it, old *item) bool {
	if old.kind == itemRow && old.row == it.row || !s.cells.ok || s.cells.cell.Row != it.row || it.empty {
		return false
	}
	plain := fmt.Sprintf(`<%srow r="%d">`, s.rd.prefix, it.row)
	return string(it.raw) == plain
}

// sameItem compares two items of the same kind.
func (v *verifier) sameItem(ia, ib *item, after *newSide, index int) (bool, error) {
	if ia.row != ib.row || ia.col != ib.col {
		return false, nil
	}
	if bytes.Equal(ia.raw, ib.raw) {
		return true, nil
	}
	tagA, tagB := ia.raw[:ia.tag], ib.raw[:ib.tag]
	var errA, errB error
	switch ia.kind {
	case itemDimension:
		tagA, errA = setAttr(tagA, "ref", "")
		tagB, errB = setAttr(tagB, "ref", "")
	case itemFilter:
		if !after.req.ExtendFilter {
			return false, nil
		}
		was, err := rangeAttr(ia)
		if err != nil {
			return false, err
		}
		is, err := rangeAttr(ib)
		if err != nil {
			return false, err
		}
		v.filters = append(v.filters, filterChange{index, was, is})
		is.LastCol = was.LastCol
		if is != was {
			return false, nil
		}
		tagA, errA = setAttr(tagA, "ref", "")
		tagB, errB = setAttr(tagB, "ref", "")
	case itemData:
		if ia.empty && !ib.empty {
			tagA, after.closeData = opened(tagA), true
		}
	case itemRow:
		tagA, errA = dropAttr(tagA, "spans")
		tagB, errB = dropAttr(tagB, "spans")
		if ia.empty && !ib.empty {
			tagA, after.closeRow = opened(tagA), true
		}
	default:
		return false, nil
	}
	return bytes.Equal(tagA, tagB) && bytes.Equal(ia.raw[ia.tag:], ib.raw[ib.tag:]), errors.Join(errA, errB)
}

package workbook

import "tenback/workbook/ooxml"

// What is read ahead is bounded in cells, for a row may have thousands.
const (
	batchCells   = 4096
	batchesAhead = 4
)

// rowBatch is some rows, which share the room of their cells.
type rowBatch struct {
	rows  []ooxml.Row
	cells []ooxml.Cell
}

// add adds a row; not if there is no room for it, unless it is the first.
func (b *rowBatch) add(row *ooxml.Row) bool {
	if len(b.rows) > 0 && len(b.cells)+len(row.Cells) > cap(b.cells) {
		return false
	}
	from := len(b.cells)
	b.cells = append(b.cells, row.Cells...)
	b.rows = append(b.rows, ooxml.Row{Number: row.Number, Hidden: row.Hidden, Cells: b.cells[from:len(b.cells):len(b.cells)]})
	return true
}

// rowsAhead reads the rows of a sheet on a processor of its own, a few batches
// ahead of whoever takes them. What else the sheet tells must not be asked
// before Next has returned false.
type rowsAhead struct {
	sheetRows
	full, free chan *rowBatch
	stop       chan struct{}
	batch      *rowBatch
	at         int // of batch, the current row
}

func readAhead(rows sheetRows) *rowsAhead {
	r := &rowsAhead{sheetRows: rows, full: make(chan *rowBatch, batchesAhead), free: make(chan *rowBatch, batchesAhead), stop: make(chan struct{})}
	for range batchesAhead {
		r.free <- &rowBatch{cells: make([]ooxml.Cell, 0, batchCells)}
	}
	go r.fill()
	return r
}

// fill reads until the end of the sheet or of the interest in it.
func (r *rowsAhead) fill() {
	defer close(r.full)
	more := r.sheetRows.Next()
	for more {
		var b *rowBatch
		select {
		case b = <-r.free:
		case <-r.stop:
			return
		}
		b.rows, b.cells = b.rows[:0], b.cells[:0]
		for more && b.add(r.sheetRows.Row()) {
			more = r.sheetRows.Next()
		}
		r.full <- b // has room for all there are
	}
}

// Next moves to the next row.
func (r *rowsAhead) Next() bool {
	if r.batch != nil {
		if r.at++; r.at < len(r.batch.rows) {
			return true
		}
		r.free <- r.batch
	}
	r.batch, r.at = <-r.full, 0
	return r.batch != nil
}

// Row is the current row.
func (r *rowsAhead) Row() *ooxml.Row { return &r.batch.rows[r.at] }

// Close ends the reading.
func (r *rowsAhead) Close() {
	close(r.stop)
	for range r.full {
	}
	r.sheetRows.Close()
}

// Package splice adds cells to an existing .xlsx or .xlsm workbook by inserting
// XML into its bytes, instead of reading a model and writing it out again. Other
// parts are copied in their compressed form, and in an edited sheet the bytes of
// every old cell are kept. So content that no library models survives: check
// boxes, OLE objects, comments, the digits of a stored number.
//
// [Inspect] describes a workbook and its free columns, [Apply] writes the edited
// copy, [Verify] compares the two. An edited part that is not in UTF-8 is in UTF-8 in
// the copy.
//
// # What is changed
//
// In each edited sheet: the new cells, new rows for them, the dimension, the
// widths of the given columns, and the spans hint of rows with new cells, which is
// optional and dropped. A new cell may replace one that holds only a format.
//
// An automatic filter is extended if it starts in the first new row and ends just
// left of, or among, the new columns; so is the hidden name that mirrors it. On
// request a table that ends just left of the new columns is widened: its range,
// those of its filter and sorting, and its list of columns.
//
// Hidden names of the workbook are set to cells on request; all others keep their
// bytes.
//
// Formats are appended to the styles part unless it has the same ones. A workbook
// without a styles part gets one if needed. Text is stored in the cell, so the
// shared strings do not change, and "=1+1" never becomes a formula.
//
// # What is refused
//
// Before it writes its first byte Apply refuses: a new cell on a filled one, or in
// a merged range, table, pivot table or array formula; clearing a cell with a
// formula; sheets with rows or cells out of order; anything over the limits of
// package opc. Every refusal is an [*Error] that wraps one of the Err
// values. One refused sheet refuses the whole edit.
//
// A table that cannot be widened safely is left alone, and the Report says so.
// Print areas, charts, conditional formats and validations keep their ranges, and
// comments and links stay at a cleared cell. Any edit breaks a digital signature;
// Info and Report have it.
package splice

import (
	"context"
	"io"
	"iter"

	"tenback/workbook/grid"
)

type (
	// Address is a cell's place.
	Address = grid.Address
	// Range is a block of cells.
	Range = grid.Range
)

// MaxText bounds the text of a cell, in UTF-16 code units.
const MaxText = 32_767

// Kind is the kind of a cell's content.
type Kind uint8

// The kinds of cells.
const (
	Empty  Kind = iota // only a style
	Number             // Cell.Number
	Text               // Cell.Text, never read as a formula or number
)

// Cell is one new cell. Row and Col count from 1.
type Cell struct {
	Row, Col int
	Kind     Kind
	Number   float64 // must be finite
	Text     string  // at most MaxText UTF-16 units; what XML cannot hold becomes U+FFFD
	Style    int     // position in Edit.Styles counted from 1; 0 is the workbook's default look
}

// Style is the look of new cells: that of the cell Like, or the workbook's
// default, changed by every other field that is not zero.
type Style struct {
	// Like is a cell on the new cell's sheet. If there is no such cell, the look of
	// its row or column is copied.
	Like Address

	NumberFormat string // number format code such as "0.0"
	Horizontal   string // left, center or right
}

// Sheet is the edit of one worksheet.
type Sheet struct {
	Name string // as shown on the tab, in any case

	// Cells yields the new cells by row, then column. It runs several times, and
	// must yield the same each time. Nil adds none.
	Cells iter.Seq[Cell]

	// Places, if not nil, is a faster Cells that may omit the content of all but
	// the headers. It runs where only places matter.
	Places iter.Seq[Cell]

	// Clear lists the ranges with cells of an earlier run, which are removed. A
	// formula in them is refused, because the earlier run wrote none.
	Clear []Range

	// Widths holds widths by column, in characters of the default font (0 to 255).
	// If the sheet's own list of widths is irregular, it is left alone and the
	// Report says so.
	Widths map[int]float64

	// WidenTable is a cell of the table to widen. Each new column needs a text in
	// its header row. The zero Address widens none.
	WidenTable Address
}

// Edit is everything to be done to one workbook.
type Edit struct {
	Sheets []Sheet
	Styles []Style
	Names  []Name // no two alike

	// Known is what Inspect returned of the same workbook, which saves reading the
	// old cells once more where all new ones are to the right of them. It may be zero.
	Known Info
}

// Name is a hidden name of the whole workbook for a cell, which spreadsheet programs
// keep with the cell when columns and rows are moved. It is made of letters, digits
// and underscores. One that stands for something else is changed.
type Name struct {
	Name  string
	Sheet string // as in the workbook's list of sheets
	Cell  Address
}

// Report describes what Apply did.
type Report struct {
	Signed bool     // the original was digitally signed; the copy's signature is void
	Notes  []string // what was left undone, as sentences
}

// Apply reads the workbook of size bytes in r and writes the edited copy to w.
// It checks everything before the first byte; after a later error (w fails, ctx
// ends, the input changes) the output must be discarded. Other parts are copied
// without decompressing them, so only Verify finds damage in them. Memory stays at
// some megabytes for any number of rows.
func Apply(ctx context.Context, r io.ReaderAt, size int64, w io.Writer, edit Edit) (Report, error) {
	pkg, err := openPackage(r, size, defaultLimits)
	if err != nil {
		return Report{}, err
	}
	plan, err := newPlan(ctx, pkg, edit)
	if err != nil {
		return Report{}, err
	}
	if err := plan.write(ctx, w); err != nil {
		return Report{}, err
	}
	return plan.report, nil
}

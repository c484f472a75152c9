// Package splice adds cells to an existing .xlsx or .xlsm workbook by putting
// XML into the bytes that are there, instead of reading everything into a
// model and writing it out again. What it does not have to change it does not
// touch: every other part of the package is copied in its compressed form, and
// in an edited sheet the bytes of every old cell stay as they were. So things
// no library models (check boxes, OLE objects, the digits a number was stored
// with) survive.
//
// [Inspect] tells what is in a workbook and where there is room, [Apply]
// writes the edited copy, [Verify] compares the two.
//
// # What is changed
//
// In each edited sheet: the new cells, rows that were missing for them, the
// spans hint of rows that got cells (dropped, it is optional), the dimension,
// widths of the columns asked for, and the range of the automatic filter
// (with the hidden name that mirrors it in the workbook part), if it starts in the
// first new row and ends just left of, or among, the new columns. On request a
// table that the new columns begin beside is widened: in its part its range and
// those of its filter and sorting grow, and its list of columns gets longer.
// Formats are appended to the styles part, and reused when an earlier run left
// the same ones. A workbook without a styles part gets one if it needs it.
//
// Text is stored in the cell itself, so the shared strings stay as they are.
// It is always text: "=1+1" never becomes a formula.
//
// # What is refused
//
// Apply refuses, before it writes its first byte, whatever it cannot do
// safely: a new cell on an old one, in a merged range, a table, a pivot table
// or an array formula; clearing a cell that holds a formula; sheets in UTF-16
// or with rows or cells out of order; anything over the limits of package opc. Every
// refusal is an [*Error] that wraps one of the Err values. One refused sheet
// refuses the whole edit, so that no half-edited workbook comes about.
//
// A table that cannot be widened safely, and any that was not asked for, stays
// as it is, and the Report says so. Print areas, charts, conditional formats
// and validations keep the ranges they had, and notes and links stay at a cell
// that is cleared.
// A digital signature is broken by any edit; Inspect and the Report tell.
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

// Kind says what a cell holds.
type Kind uint8

// The kinds of cells.
const (
	Empty  Kind = iota // nothing but its style
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

// Style is the look of new cells. It starts from the look of the cell Like,
// or from the workbook's default, and every field that is not zero changes
// one thing about it.
type Style struct {
	// Like is the cell whose look is copied, on the sheet the new cell is on.
	// If there is no such cell, its row's or column's format is copied.
	Like Address

	NumberFormat string // number format code such as "0.0"
	Horizontal   string // left, center or right
}

// Sheet is the edit of one worksheet.
type Sheet struct {
	Name string // as shown on the tab; upper and lower case are the same

	// Cells yields the new cells by rising row and, within a row, rising
	// column. It is run several times, and by Verify, and must yield the
	// same each time. Use slices.Values for a slice. Nil adds none.
	Cells iter.Seq[Cell]

	// Places yields the same cells, but may leave out what is in them below the
	// headers. It is run instead of Cells where only their places matter, if it
	// is not nil.
	Places iter.Seq[Cell]

	// Clear lists the ranges that hold cells of an earlier run: their old
	// cells are removed. A cell with a formula in it is refused, because the
	// earlier run wrote none.
	Clear []Range

	// Widths by column, counted from 1, in characters of the default font
	// (0 to 255). Other columns keep theirs. If the sheet's list of widths is
	// itself irregular it is left alone and the Report says so.
	Widths map[int]float64

	// WidenTable is a cell of a table, which the new columns become part of if
	// they begin just right of it, with a text in its row of headers each. The
	// zero Address widens none.
	WidenTable Address
}

// Edit is everything to be done to one workbook.
type Edit struct {
	Sheets []Sheet
	Styles []Style
}

// Report tells what Apply did.
type Report struct {
	Signed bool     // the original was digitally signed; the copy's signature is void
	Notes  []string // harmless things that were left undone, as sentences
}

// Apply reads the workbook of size bytes in r and writes the edited copy to w.
// Everything is checked before the first byte is written; if an error comes
// later (w fails, ctx ends, the input changes) what was written is to be
// thrown away. Parts that are only copied are not decompressed, so damage in
// them is found by Verify, not here. Memory stays at some
// megabytes whatever the number of rows.
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

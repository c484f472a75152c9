// Package cell reads single spreadsheet cells as people fill them in: numbers
// with a comma or a unit behind, times that a spreadsheet took for hours of
// the day, dates in any order, sexes in many languages.
//
// Every parser is pure. It returns the value, or a [Doubt] that says in plain
// words why the cell can't be used and what to type instead. Where a cell
// alone can be read in two ways the parser never picks one by taste: the
// header, the rest of the column or what is possible at all in the test must
// decide, else both readings are named.
package cell

import (
	"fmt"
	"strings"

	"tenback/scoring"
)

// Kind says how the workbook stores a cell.
type Kind uint8

// The kinds of cell.
const (
	Blank Kind = iota
	Number
	Text
	Bool
	Error   // such as #N/A
	ISODate // a date stored as text by the file format itself
	Uncached
	// Uncached is a formula whose result was never stored.
)

// Raw is a cell as stored. Text holds the digits of a number as they stand in
// the file, never a rounded or formatted form.
type Raw struct {
	Text   string
	Kind   Kind
	Format Format
}

// IsBlank tells whether nothing stands in the cell.
func (r Raw) IsBlank() bool {
	return r.Kind == Blank || r.Kind == Text && Clean(r.Text) == ""
}

// Doubt is why a cell could not be read.
type Doubt struct {
	What string // why, completes "C7 (\"11.30\"): "
	Fix  string // what to type instead
}

func (d *Doubt) Error() string {
	if d.Fix == "" {
		return d.What
	}
	return d.What + "; " + d.Fix
}

func doubt(fix, what string, args ...any) *Doubt {
	return &Doubt{What: fmt.Sprintf(what, args...), Fix: fix}
}

// maxText bounds the texts that are looked at: no value is longer.
const maxText = 200

// unreadable is the doubt for cells that hold no value at all, whatever is
// looked for; nil if the cell can be read.
func (r Raw) unreadable(fix string) *Doubt {
	switch {
	case r.Kind == Error:
		return doubt("correct the formula, or "+fix, "the cell holds the error %s", r.Text)
	case r.Kind == Uncached:
		return doubt("open the workbook in your spreadsheet program, save it and try again, or "+fix, "the result of the formula is not stored in the file")
	case r.Kind == Bool:
		return doubt(fix, "the cell holds %s", strings.ToUpper(r.Text))
	case r.Kind == Text && len(r.Text) > 1 && strings.Trim(r.Text, "#") == "":
		return doubt("widen the column in your spreadsheet program and save the file again, or "+fix, "the spreadsheet wrote %s, for its column was too narrow", Display(r, false))
	case len(r.Text) > maxText:
		return doubt(fix, "the text is too long for a value")
	}
	return nil
}

// or joins readings for a sentence.
func or(readings []string) string {
	switch n := len(readings); n {
	case 0, 1:
		return strings.Join(readings, "")
	default:
		return strings.Join(readings[:n-1], ", ") + " or " + readings[n-1]
	}
}

type unit = scoring.Unit

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
	What scoring.Said // why, completes "C7 (\"11.30\"): "
	Fix  scoring.Said // what to type instead; may be nothing
}

func (d *Doubt) Error() string {
	if d.Fix.IsZero() {
		return d.What.String()
	}
	return d.What.String() + "; " + d.Fix.String()
}

func doubt(fix, what scoring.Said) *Doubt { return &Doubt{What: what, Fix: fix} }

// maxText bounds the texts that are looked at: no value is longer.
const maxText = 200

// unreadable is the doubt for cells that hold no value at all, whatever is
// looked for; nil if the cell can be read.
func (r Raw) unreadable(fix scoring.Said) *Doubt {
	switch {
	case r.Kind == Error:
		return doubt(fixFormula.With(fix), holdsError.With(r.Text))
	case r.Kind == Uncached:
		return doubt(fixSave.With(fix), noResultKept)
	case r.Kind == Bool:
		return doubt(fix, holds.With(strings.ToUpper(r.Text)))
	case r.Kind == Text && len(r.Text) > 1 && strings.Trim(r.Text, "#") == "":
		return doubt(fixWiden.With(fix), tooNarrow.With(Display(r, false)))
	case len(r.Text) > maxText:
		return doubt(fix, tooLong)
	}
	return nil
}

// or joins two or more readings for a sentence.
func or(readings []any) scoring.Said {
	last := len(readings) - 1
	return Or(Listed(readings[:last]), readings[last])
}

// Or joins two of what a phrase takes in a slot.
func Or(first, last any) scoring.Said { return joinOr.With(first, last) }

// Listed joins one or more with commas.
func Listed(all []any) any {
	first := all[0]
	for _, next := range all[1:] {
		first = joinComma.With(first, next)
	}
	return first
}

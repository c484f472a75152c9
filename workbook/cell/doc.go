// Package cell parses single spreadsheet cells as people fill them in: numbers
// with a comma or a unit, times that a spreadsheet turned into hours of the day,
// dates in any order, sexes in many languages.
//
// Every parser is pure. It returns the value, or a [Doubt] that says in plain
// words why the cell can't be used and what to type instead. A parser never
// guesses between two readings of a cell: the header, the rest of the column or
// what the test allows must decide, else it names both.
package cell

import (
	"strings"

	"tenback/scoring"
)

// Kind is how the workbook stores a cell.
type Kind uint8

// The kinds of cell.
const (
	Blank Kind = iota
	Number
	Text
	Bool
	Error    // such as #N/A
	ISODate  // a date that the file format stores as text
	Uncached // a formula whose result was never stored
)

// Raw is a cell as stored. Text holds the digits of a number as in the file,
// never rounded or formatted.
type Raw struct {
	Text   string
	Kind   Kind
	Sums   bool // a formula over several rows, such as AVERAGE
	Format Format
}

// IsBlank reports whether the cell is empty.
func (r Raw) IsBlank() bool {
	return r.Kind == Blank || r.Kind == Text && Clean(r.Text) == ""
}

// Doubt is why a cell could not be read.
type Doubt struct {
	What scoring.Said // why, completes "C7 (\"11.30\"): "
	Fix  scoring.Said // what to type instead; may be zero
}

func (d *Doubt) Error() string {
	if d.Fix.IsZero() {
		return d.What.String()
	}
	return d.What.String() + "; " + d.Fix.String()
}

func doubt(fix, what scoring.Said) *Doubt { return &Doubt{What: what, Fix: fix} }

// maxText is the length in bytes of the longest text that may be a value.
const maxText = 200

// FormulaFault returns why the formula of the cell gives no value, or nil.
func (r Raw) FormulaFault(fix scoring.Said) *Doubt {
	switch r.Kind {
	case Error:
		return doubt(fixFormula.With(fix), holdsError.With(r.Text))
	case Uncached:
		return doubt(fixSave.With(fix), noResultKept)
	}
	return nil
}

// unreadable returns why the cell holds no value of any kind, or nil.
func (r Raw) unreadable(fix scoring.Said) *Doubt {
	if d := r.FormulaFault(fix); d != nil {
		return d
	}
	switch {
	case r.Kind == Bool:
		return doubt(fix, holds.With(strings.ToUpper(r.Text)))
	case r.Kind == Text && len(r.Text) > 1 && strings.Trim(r.Text, "#") == "":
		return doubt(fixWiden.With(fix), tooNarrow.With(Display(r, false)))
	case len(r.Text) > maxText:
		return doubt(fix, tooLong)
	}
	return nil
}

// or joins two or more readings.
func or(readings []any) scoring.Said {
	last := len(readings) - 1
	return Or(Listed(readings[:last]), readings[last])
}

// Or joins two values of a slot with "or".
func Or(first, last any) scoring.Said { return joinOr.With(first, last) }

// OrEach joins texts in a slot with "or".
func OrEach(texts []string) any {
	var all any = texts[0]
	for _, t := range texts[1:] {
		all = Or(all, t)
	}
	return all
}

// Listed joins one or more values of a slot with commas.
func Listed(all []any) any {
	first := all[0]
	for _, next := range all[1:] {
		first = joinComma.With(first, next)
	}
	return first
}

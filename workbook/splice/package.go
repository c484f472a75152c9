package splice

import (
	"io"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

// limits are larger than any roster needs; tests use smaller ones.
type limits struct {
	opc.Limits
	blocks int
}

var defaultLimits = limits{opc.Default, 200_000}

type part = opc.Part

// pkg is an opened package.
type pkg struct {
	*ooxml.Book
	limits limits
}

func openPackage(r io.ReaderAt, size int64, lim limits) (*pkg, error) {
	b, err := ooxml.OpenParts(r, size, lim.Limits)
	if err != nil {
		return nil, err
	}
	return &pkg{b, lim}, nil
}

// sheetRef is one entry of the workbook's list of sheets.
type sheetRef struct {
	ooxml.Sheet
	index int // position among all sheets, charts included
}

// sheet returns the worksheet of that name, if need be regardless of case.
func (p *pkg) sheet(name string) (*sheetRef, error) {
	var found *sheetRef
	for i, s := range p.Sheets() {
		if s.Name == name {
			found = &sheetRef{s, i}
			break
		} else if found == nil && strings.EqualFold(s.Name, name) {
			found = &sheetRef{s, i}
		}
	}
	if found == nil {
		return nil, &Error{Kind: ErrNoSheet, Sheet: name, Why: "the workbook has no sheet of that name", Do: "check the name on the tab"}
	}
	return found, usable(found.Sheet)
}

// usable returns why a sheet has no cells to edit, or nil.
func usable(s ooxml.Sheet) error {
	if s.Cells {
		return nil
	}
	return &Error{Kind: ErrNoSheet, Sheet: s.Name, Why: "this sheet has no cells (it is a chart, dialog or macro sheet)", Do: "choose another sheet"}
}

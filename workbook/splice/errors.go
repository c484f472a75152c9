package splice

import (
	"errors"

	"tenback/workbook/opc"
)

// The kinds of refusal that have to do with the edit. Others are those of
// package opc. Every error about the file or the edit wraps one of them.
var (
	// ErrNoSheet: no worksheet of that name.
	ErrNoSheet = errors.New("no such worksheet")
	// ErrOccupied: a new cell would replace an old one.
	ErrOccupied = errors.New("cell already in use")
	// ErrMerged: a new or cleared cell is in a merged range.
	ErrMerged = errors.New("merged cells in the way")
	// ErrTable: a new or cleared cell is in a table or pivot table.
	ErrTable = errors.New("table in the way")
	// ErrFormula: a formula would be removed, or an array formula broken.
	ErrFormula = errors.New("formula in the way")
	// ErrRequest: the Edit itself is wrong; a mistake of the calling code.
	ErrRequest = errors.New("edit not possible as asked")
	// ErrChanged: Verify found a difference that the edit does not explain.
	ErrChanged = errors.New("something else changed")
)

// Error says where and why something was refused, and what the user can do.
type Error = opc.Error

// inPart and inSheet add the place to an error that knows only the bytes.
func inPart(err error, part string) error {
	if e, ok := err.(*Error); ok && e.Part == "" && e.Sheet == "" {
		e.Part = part
	}
	return err
}

func inSheet(err error, sheet string) error {
	if e, ok := err.(*Error); ok && e.Sheet == "" {
		e.Sheet = sheet
	}
	return err
}

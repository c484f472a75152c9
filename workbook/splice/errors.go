package splice

import (
	"errors"

	"tenback/workbook/opc"
)

// The kinds of refusal. Every error of this package that has to do with the
// file or the request wraps one of them, so a caller can ask with errors.Is.
var (
	// ErrEmpty: no bytes at all.
	ErrEmpty = opc.ErrEmpty
	// ErrEncrypted: the file starts with the signature of an OLE container,
	// so it is locked with a password or in the .xls format of before 2007.
	ErrEncrypted = opc.ErrLocked
	// ErrNotWorkbook: not a zip, or a zip that holds no workbook.
	ErrNotWorkbook = opc.ErrNotWorkbook
	// ErrDamaged: a checksum, the zip or the XML is broken.
	ErrDamaged = opc.ErrDamaged
	// ErrLimit: larger than this package agrees to read.
	ErrLimit = opc.ErrLimit
	// ErrUnsupported: possibly fine, but of a form that cannot be edited safely.
	ErrUnsupported = opc.ErrUnsupported
	// ErrNoSheet: no worksheet of that name.
	ErrNoSheet = errors.New("no such worksheet")
	// ErrOccupied: a new cell would land on an old one.
	ErrOccupied = errors.New("cell already in use")
	// ErrMerged: a new or cleared cell lies in a merged range.
	ErrMerged = errors.New("merged cells in the way")
	// ErrTable: a new or cleared cell lies in a table or pivot table.
	ErrTable = errors.New("table in the way")
	// ErrFormula: a formula would be removed, or an array formula broken.
	ErrFormula = errors.New("formula in the way")
	// ErrRequest: the Edit itself is wrong; a mistake of the calling code.
	ErrRequest = errors.New("edit not possible as asked")
	// ErrChanged: Verify found a difference that the edit does not explain.
	ErrChanged = errors.New("something else changed")
)

// Error is a refusal: where, why, and what the user can do.
type Error = opc.Error

const (
	doResave = opc.DoResave
	doCopy   = opc.DoCopy
)

func damaged(why string) *Error {
	return &Error{Kind: ErrDamaged, Why: why, Do: doResave}
}

func unsupported(why string) *Error {
	return &Error{Kind: ErrUnsupported, Why: why, Do: doResave}
}

// inPart and inSheet add the place to a refusal that was made deeper down,
// where only the bytes were known.
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

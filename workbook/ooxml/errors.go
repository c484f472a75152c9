package ooxml

import "errors"

// The kinds of failure. Every [*Error] wraps one of them.
var (
	ErrEmpty       = errors.New("the file is empty")
	ErrLocked      = errors.New("password protected or an old .xls file")
	ErrNotWorkbook = errors.New("not a workbook")
	ErrDamaged     = errors.New("damaged file")
	ErrLimit       = errors.New("larger than this program agrees to read")
	ErrUnsupported = errors.New("form of file not supported")
)

// Error is why a workbook, or a sheet of it, can't be read.
type Error struct {
	Kind  error  // one of the Err values
	Part  string // part of the file, if one is at fault
	Cell  string // address, if one cell is at fault
	Why   string // lower-case sentence without full stop
	Do    string // what to do about it
	Cause error
}

func (e *Error) Error() string {
	s := e.Why
	if e.Cell != "" {
		s = "cell " + e.Cell + ": " + s
	}
	if e.Do != "" {
		s += "; " + e.Do
	}
	return s
}

// Unwrap gives the kind and the cause, for errors.Is and errors.As.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

const (
	doResave = "open it in your spreadsheet program, save it again as .xlsx and try that file"
	doCopy   = "ask for a fresh copy of the file"
	doUnlock = "open it in your spreadsheet program and save it as .xlsx without a password"
)

func damaged(part, why string, cause error) *Error {
	return &Error{Kind: ErrDamaged, Part: part, Why: why, Do: doResave, Cause: cause}
}

func overLimit(part, why string) *Error {
	return &Error{Kind: ErrLimit, Part: part, Why: why, Do: "remove what does not belong to the roster, or split it"}
}

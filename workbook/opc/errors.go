package opc

import (
	"errors"
	"fmt"
	"strings"
)

// The kinds of failure that concern the file as such.
var (
	ErrEmpty       = errors.New("the file is empty")
	ErrLocked      = errors.New("password protected or an .xls workbook")
	ErrNotWorkbook = errors.New("not a workbook")
	ErrDamaged     = errors.New("damaged file")
	ErrLimit       = errors.New("larger than this program reads")
	ErrUnsupported = errors.New("form of file not supported")
)

// Error is why a workbook, or a place in it, can't be read or edited.
type Error struct {
	Kind  error  // one of the Err values, of this package or of one that builds on it
	Part  string // part of the package, if one is at fault
	Sheet string // sheet name as the user sees it
	Cell  string // address such as K5
	Why   string // lower-case sentence without full stop
	Do    string // what to do about it; may be empty
	Cause error
}

// Error joins the fields to one line that starts in lower case.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.place())
	if b.Len() == 0 && e.Part != "" {
		fmt.Fprintf(&b, "part %q: ", e.Part)
	}
	b.WriteString(e.Why)
	if e.Cause != nil {
		fmt.Fprintf(&b, " (%v)", e.Cause)
	}
	if e.Do != "" {
		b.WriteString("; " + e.Do)
	}
	return b.String()
}

// Plain returns the message without the part and the cause, which are of no use
// to a user.
func (e *Error) Plain() string {
	s := e.place() + e.Why
	if e.Do != "" {
		s += "; " + e.Do
	}
	return s
}

func (e *Error) place() string {
	switch {
	case e.Sheet != "" && e.Cell != "":
		return fmt.Sprintf("sheet %q, cell %s: ", e.Sheet, e.Cell)
	case e.Sheet != "":
		return fmt.Sprintf("sheet %q: ", e.Sheet)
	case e.Cell != "":
		return "cell " + e.Cell + ": "
	}
	return ""
}

// Unwrap returns the kind and the cause, for errors.Is and errors.As.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

// Advice for the more frequent failures.
const (
	DoResave = "open it in your spreadsheet program, save it again as .xlsx and try that file"
	DoCopy   = "ask for a fresh copy of the file"
	DoChoose = "choose an .xlsx or .xlsm file"
	DoUnlock = "open it in your spreadsheet program and save it as .xlsx without a password"
	DoShrink = "remove what does not belong to the roster, or split it"
)

// Damaged returns the error for a part that a spreadsheet program may still repair.
func Damaged(part, why string, cause error) *Error {
	return &Error{Kind: ErrDamaged, Part: part, Why: why, Do: DoResave, Cause: cause}
}

// OverLimit returns the error for a part or file that is too large.
func OverLimit(part, why string) *Error {
	return &Error{Kind: ErrLimit, Part: part, Why: why, Do: DoShrink}
}

// DamagedXML returns the error for XML that is not well formed. The caller adds the part or
// the sheet.
func DamagedXML(why string) *Error {
	return &Error{Kind: ErrDamaged, Why: why, Do: DoResave}
}

// Unsupported returns the error for XML that may be fine but is of an unusual form.
func Unsupported(why string) *Error {
	return &Error{Kind: ErrUnsupported, Why: why, Do: DoResave}
}

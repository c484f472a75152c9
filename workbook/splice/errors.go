package splice

import (
	"errors"
	"fmt"
	"strings"
)

// The kinds of refusal. Every error of this package that has to do with the
// file or the request wraps one of them, so a caller can ask with errors.Is.
var (
	// ErrEncrypted: the file starts with the signature of an OLE container,
	// so it is locked with a password or in the .xls format of before 2007.
	ErrEncrypted = errors.New("password protected or an old .xls file")
	// ErrNotWorkbook: not a zip, or a zip that holds no workbook.
	ErrNotWorkbook = errors.New("not an .xlsx or .xlsm workbook")
	// ErrDamaged: a checksum, the zip or the XML is broken.
	ErrDamaged = errors.New("damaged file")
	// ErrLimit: larger than this package agrees to read.
	ErrLimit = errors.New("over a limit")
	// ErrUnsupported: possibly fine, but of a form that cannot be edited safely.
	ErrUnsupported = errors.New("form of file not supported")
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
type Error struct {
	Kind  error  // one of the Err... values above
	Part  string // part of the package, when no sheet is known
	Sheet string // sheet name as the user sees it
	Cell  string // address such as "K5"
	Why   string // lower-case sentence without full stop
	Do    string // what to do about it; may be empty
	Cause error  // underlying error, if any
}

// Error joins the fields to one line that starts in lower case.
func (e *Error) Error() string {
	var b strings.Builder
	switch {
	case e.Sheet != "" && e.Cell != "":
		fmt.Fprintf(&b, "sheet %q, cell %s: ", e.Sheet, e.Cell)
	case e.Sheet != "":
		fmt.Fprintf(&b, "sheet %q: ", e.Sheet)
	case e.Part != "":
		fmt.Fprintf(&b, "part %q: ", e.Part)
	}
	b.WriteString(e.Why)
	if e.Cause != nil {
		fmt.Fprintf(&b, " (%v)", e.Cause)
	}
	if e.Do != "" {
		b.WriteString("; ")
		b.WriteString(e.Do)
	}
	return b.String()
}

// Unwrap gives the kind and the cause, for errors.Is and errors.As.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

const (
	doResave = "open the file in your spreadsheet program, save it again as .xlsx and retry"
	doCopy   = "ask for a fresh copy of the file"
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

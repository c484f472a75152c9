package source

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
	"tenback/workbook/safefile"
)

// The kinds of failure to open a roster. Every [*Error] wraps one.
var (
	ErrMissing     = errors.New("no such file")
	ErrDirectory   = errors.New("a folder, not a file")
	ErrUnreadable  = errors.New("file can't be opened")
	ErrEmpty       = opc.ErrEmpty
	ErrLocked      = opc.ErrLocked
	ErrPassword    = errors.New("wrong password")
	ErrNotWorkbook = opc.ErrNotWorkbook
	ErrDamaged     = opc.ErrDamaged
	ErrTooLarge    = opc.ErrLimit
	ErrUnsupported = opc.ErrUnsupported
	ErrNoCells     = errors.New("no sheet with cells")
	ErrNoSheet     = errors.New("no such sheet")
	ErrNoHeader    = errors.New("no header row")
	ErrNoPeople    = errors.New("nobody in the roster")
	ErrColumn      = errors.New("column can't be named so")
)

// Error is why a roster can't be read, in one sentence.
type Error struct {
	Path  string
	Sheet string // empty if no single sheet is at fault
	Kind  error  // one of the Err values
	Why   string
	Cause error
}

func (e *Error) Error() string {
	s := e.Path + ": "
	if e.Sheet != "" {
		s += fmt.Sprintf("sheet %q: ", e.Sheet)
	}
	return s + e.Why
}

// Unwrap returns the kind and the cause, for errors.Is and errors.As.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

// Fail returns a failure to read the file as an [*Error].
func Fail(path, sheet string, err error) error {
	var known *opc.Error
	if errors.As(err, &known) {
		return &Error{Path: path, Sheet: sheet, Kind: known.Kind, Why: known.Plain(), Cause: err}
	}
	return &Error{Path: path, Sheet: sheet, Kind: ErrUnreadable, Why: "the file can't be read", Cause: err}
}

// Named finds a sheet by its name, else by its name without case and outer
// blanks.
func Named(sheets []ooxml.Sheet, name string) (ooxml.Sheet, bool) {
	for _, same := range []func(a, b string) bool{
		func(a, b string) bool { return a == b },
		func(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) },
	} {
		for _, s := range sheets {
			if same(s.Name, name) {
				return s, true
			}
		}
	}
	return ooxml.Sheet{}, false
}

// Quoted lists at most 20 names for a message.
func Quoted(names []string) string {
	var b strings.Builder
	for i, n := range names {
		if i == 20 {
			fmt.Fprintf(&b, " and %d more", len(names)-i)
			break
		}
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%q", n)
	}
	return b.String()
}

// OpenFile opens a roster's file for reading. Errors are [*Error].
func OpenFile(path string) (f *os.File, size int64, err error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil, 0, &Error{Path: path, Kind: ErrDirectory, Why: "this is a folder; name the workbook in it"}
	}
	f, info, err := safefile.OpenPlain(path, os.O_RDONLY)
	if err == nil {
		return f, info.Size(), nil
	}
	e := &Error{Path: path, Kind: ErrUnreadable, Why: "the file can't be opened; close it in other programs and try again", Cause: err}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.Kind, e.Why = ErrMissing, "there is no such file"
	case errors.Is(err, safefile.ErrNotPlain):
		e.Why = "this is not a regular file; name a workbook"
	case safefile.InUse(err):
		e.Why = "another program has locked the file; close it there and run again"
	case errors.Is(err, fs.ErrPermission):
		e.Why = "you have no permission to read the file"
	}
	return nil, 0, e
}

// Package source opens the files that rosters are read from: workbooks, encrypted
// workbooks and text files.
package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"tenback/workbook/grid"
	"tenback/workbook/locked"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// Book is a workbook's sheets and their rows.
type Book interface {
	Sheets() []ooxml.Sheet
	Date1904() bool
	Rows(ooxml.Sheet) (Rows, error)
	Tables(ooxml.Sheet) (tables []ooxml.Table, filtered bool, err error)
	// NamedCells returns the cells whose names begin with a prefix, by sheet.
	NamedCells(prefix string) (map[string][]ooxml.NamedCell, error)
}

// Rows iterates over the rows of a sheet, as [*ooxml.Rows] does.
type Rows interface {
	Next() bool
	Row() *ooxml.Row
	Err() error
	Close()
	Merged() []grid.Range
	HiddenColumn(col int) bool
	Filtered() bool
}

// Workbook is an [*ooxml.Book] as a [Book].
type Workbook struct{ *ooxml.Book }

// Rows starts the reading of a sheet's rows.
func (b Workbook) Rows(s ooxml.Sheet) (Rows, error) {
	rows, err := b.Book.Rows(s)
	if err != nil {
		return nil, err
	}
	return rows, nil
}

// File is a roster's file, opened for reading.
type File struct {
	Book
	In       roster.Container
	Signed   bool             // digitally signed
	Problems []roster.Problem // of a text file
}

// Open opens a workbook, an encrypted workbook or a text file. size is that of r;
// path is for its ending and for messages. password asks for the password; if it
// is nil, a workbook that needs one is refused.
func Open(path string, r io.ReaderAt, size int64, password func() (string, error)) (*File, error) {
	head := make([]byte, 8)
	n, _ := r.ReadAt(head, 0)
	head = head[:n]
	isZip, isContainer := bytes.HasPrefix(head, []byte("PK\x03\x04")), locked.IsContainer(head)
	if isText(path) {
		if isZip || isContainer {
			return nil, &Error{Path: path, Kind: ErrNotWorkbook, Why: fmt.Sprintf("this is a workbook with the ending %s; give it the ending .xlsx", filepath.Ext(path))}
		}
		return openText(path, r, size)
	}
	f := &File{}
	if isContainer {
		plain, in, err := unlock(path, r, size, password)
		if err != nil {
			return nil, err
		}
		f.In = in
		r, size = bytes.NewReader(plain), int64(len(plain))
	}
	if ending(path) == odsEnding {
		plain, err := ofSpreadsheet(r, size)
		if err != nil {
			return nil, Fail(path, "", err)
		}
		r, size = bytes.NewReader(plain), int64(len(plain))
	}
	book, err := ooxml.Open(r, size)
	if err != nil {
		return nil, Fail(path, "", err)
	}
	if old := ending(path); old == ".xls" || old == ".xlsb" || old == ".xlt" {
		return nil, &Error{Path: path, Kind: ErrNotWorkbook, Why: fmt.Sprintf("this is an .xlsx workbook with the ending %s; give it the ending .xlsx", old)}
	}
	f.Book, f.Signed = Workbook{book}, book.Signed()
	return f, nil
}

const notOpened = "the file is encrypted in a way that can't be opened here, such as with a certificate or managed rights; save it as .xlsx with an ordinary password or none"

// unlock decrypts a workbook.
func unlock(path string, r io.ReaderAt, size int64, ask func() (string, error)) ([]byte, roster.Container, error) {
	fail := func(kind error, why string, cause error) ([]byte, roster.Container, error) {
		return nil, roster.Container{}, &Error{Path: path, Kind: kind, Why: why, Cause: cause}
	}
	switch _, err := locked.Inspect(r); {
	case errors.Is(err, locked.ErrOld):
		return fail(ErrUnsupported, "this is a workbook in the older .xls format, which is not read here; open it in your spreadsheet program and save it as .xlsx", err)
	case errors.Is(err, locked.ErrNotLocked):
		return fail(ErrNotWorkbook, "this is no workbook but another kind of office file; copy its table into a new sheet of your spreadsheet program and save that as .xlsx", err)
	case errors.Is(err, locked.ErrUnsupported):
		return fail(ErrUnsupported, notOpened, err)
	case err != nil:
		return fail(ErrDamaged, "the file looks like one with a password or like an old .xls file, and is damaged; ask for a fresh copy of the file", err)
	case size > locked.MaxBytes:
		return fail(ErrTooLarge, fmt.Sprintf("the file has a password and is larger than the %d MB that are unlocked here; save it without a password, or split it", locked.MaxBytes>>20), nil)
	}
	raw := make([]byte, size)
	if _, err := io.ReadFull(io.NewSectionReader(r, 0, size), raw); err != nil {
		return fail(ErrUnreadable, "the file can't be read to its end", err)
	}
	password := roster.DefaultPassword
	plain, scheme, err := locked.Open(raw, password)
	if errors.Is(err, locked.ErrPassword) {
		if ask == nil {
			return fail(ErrLocked, "the file is protected by a password", nil)
		}
		if password, err = ask(); err != nil {
			return nil, roster.Container{}, err
		}
		plain, scheme, err = locked.Open(raw, password)
	}
	switch {
	case errors.Is(err, locked.ErrPassword):
		return fail(ErrPassword, "the password does not open the file; type it again, and mind capital letters", err)
	case errors.Is(err, locked.ErrUnsupported):
		return fail(ErrUnsupported, notOpened, err)
	case err != nil:
		return fail(ErrDamaged, "the file is damaged; ask for a fresh copy of the file", err)
	}
	return plain, roster.Container{Scheme: scheme, Password: password}, nil
}

package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"tenback/workbook/delimited"
	"tenback/workbook/grid"
	"tenback/workbook/locked"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// source is where sheets and their rows come from.
type source interface {
	Sheets() []ooxml.Sheet
	Date1904() bool
	Rows(ooxml.Sheet) (sheetRows, error)
	Tables(ooxml.Sheet) (tables []ooxml.Table, filtered bool, err error)
}

// sheetRows goes through the rows of a sheet, as [*ooxml.Rows] does.
type sheetRows interface {
	Next() bool
	Row() *ooxml.Row
	Err() error
	Close()
	Merged() []grid.Range
	HiddenColumn(col int) bool
	Filtered() bool
}

// bookSource is a workbook as a source.
type bookSource struct{ *ooxml.Book }

func (b bookSource) Rows(s ooxml.Sheet) (sheetRows, error) {
	rows, err := b.Book.Rows(s)
	if err != nil {
		return nil, err
	}
	return rows, nil
}

// openSource opens a workbook, one with a password, or a text file, and adds
// what is to be said of the file to the roster.
func openSource(path string, r io.ReaderAt, size int64, opt ReadOptions, roster *Roster) (source, error) {
	head := make([]byte, 8)
	n, _ := r.ReadAt(head, 0)
	head = head[:n]
	isZip, isContainer := bytes.HasPrefix(head, []byte("PK\x03\x04")), locked.IsContainer(head)
	if IsText(path) {
		if isZip || isContainer {
			return nil, &OpenError{Path: path, Kind: ErrNotWorkbook, Why: fmt.Sprintf("this is a workbook with the ending %s; give it the ending .xlsx", filepath.Ext(path))}
		}
		roster.In.Text = true
		return openText(path, r, size, roster)
	}
	if isContainer {
		plain, in, err := unlock(path, r, size, opt)
		if err != nil {
			return nil, err
		}
		roster.In = in
		r, size = bytes.NewReader(plain), int64(len(plain))
	}
	book, err := ooxml.Open(r, size)
	if err != nil {
		return nil, fromFile(path, "", err)
	}
	roster.Signed = book.Signed()
	return bookSource{book}, nil
}

// textEndings are those of files that are read as text.
var textEndings = []string{".csv", ".tsv", ".txt"}

// IsText tells by its ending whether a roster is a text file such as CSV. Its
// results go into a new workbook, never into the file itself.
func IsText(path string) bool {
	return slices.Contains(textEndings, strings.ToLower(filepath.Ext(path)))
}

// unlock takes a workbook out of its container.
func unlock(path string, r io.ReaderAt, size int64, opt ReadOptions) ([]byte, roster.Container, error) {
	fail := func(kind error, why string, cause error) ([]byte, roster.Container, error) {
		return nil, roster.Container{}, &OpenError{Path: path, Kind: kind, Why: why, Cause: cause}
	}
	switch _, err := locked.Inspect(r); {
	case errors.Is(err, locked.ErrNotLocked):
		return fail(ErrUnsupported, "this is an old .xls file; open it in your spreadsheet program and save it as .xlsx", err)
	case errors.Is(err, locked.ErrUnsupported):
		return fail(ErrUnsupported, "the file is encrypted in a way that can't be opened here; save it as .xlsx with an ordinary password or none", err)
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
		if opt.Password == nil {
			return fail(ErrLocked, "the file is protected by a password", nil)
		}
		if password, err = opt.Password(); err != nil {
			return nil, roster.Container{}, err
		}
		plain, scheme, err = locked.Open(raw, password)
	}
	switch {
	case errors.Is(err, locked.ErrPassword):
		return fail(ErrPassword, "the password does not open the file; type it again, and mind capital letters", err)
	case errors.Is(err, locked.ErrUnsupported):
		return fail(ErrUnsupported, "the file is encrypted in a way that can't be opened here; save it as .xlsx with an ordinary password or none", err)
	case err != nil:
		return fail(ErrDamaged, "the file is damaged; ask for a fresh copy of the file", err)
	}
	return plain, roster.Container{Scheme: scheme, Password: password}, nil
}

// workbookFile is a workbook without its container.
type workbookFile struct {
	io.ReaderAt
	size int64
	shut func() error // nil where nothing is to be closed
}

func (w workbookFile) close() {
	if w.shut != nil {
		_ = w.shut() // a file that was only read has nothing left to lose
	}
}

func inMemory(b []byte) workbookFile {
	return workbookFile{ReaderAt: bytes.NewReader(b), size: int64(len(b))}
}

// openWorkbook gives the workbook that results are spliced into: the roster
// itself, out of its container, or a new one with the rows of a text file.
func openWorkbook(r *Roster) (workbookFile, error) {
	f, size, err := openFile(r.Path)
	if err != nil {
		return workbookFile{}, err
	}
	if !r.In.Text && r.In.Scheme == 0 {
		return workbookFile{ReaderAt: f, size: size, shut: f.Close}, nil
	}
	defer f.Close()
	most := int64(locked.MaxBytes)
	if r.In.Text {
		most = delimited.MaxBytes
	}
	raw, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return workbookFile{}, err
	}
	var plain []byte
	if r.In.Text {
		plain, err = bookOfText(raw, r)
	} else {
		plain, _, err = locked.Open(raw, r.In.Password)
	}
	if err != nil {
		return workbookFile{}, err
	}
	return inMemory(plain), nil
}

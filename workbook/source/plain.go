package source

import (
	"bytes"
	"io"

	"tenback/workbook/delimited"
	"tenback/workbook/locked"
	"tenback/workbook/roster"
)

// Plain is a workbook without its container.
type Plain struct {
	io.ReaderAt
	Size int64
	shut func() error // nil if there is nothing to close
}

// Close closes the file that the workbook is read from, if any.
func (w Plain) Close() {
	if w.shut != nil {
		_ = w.shut() // a file that was only read loses nothing
	}
}

// InMemory returns a decrypted workbook.
func InMemory(b []byte) Plain {
	return Plain{ReaderAt: bytes.NewReader(b), Size: int64(len(b))}
}

// OpenPlain opens the workbook that results are spliced into: the decrypted
// roster, or the new workbook that is made of another kind of file.
func OpenPlain(r *roster.Roster) (Plain, error) {
	f, size, err := OpenFile(r.Path)
	if err != nil {
		return Plain{}, err
	}
	if Foreign(r.Path) == "" && r.In.Scheme == 0 {
		return Plain{ReaderAt: f, Size: size, shut: f.Close}, nil
	}
	defer f.Close()
	most := int64(locked.MaxBytes)
	if r.In.Text {
		most = delimited.MaxBytes
	}
	plain, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && r.In.Scheme != 0 {
		plain, _, err = locked.Open(plain, r.In.Password)
	}
	if err != nil {
		return Plain{}, err
	}
	switch at := bytes.NewReader(plain); {
	case r.In.Text:
		plain, err = bookOfText(plain, r)
	case ending(r.Path) == odsEnding:
		plain, err = ofSpreadsheet(at, at.Size())
	case ending(r.Path) == templateEnding:
		plain, err = ofTemplate(at, at.Size())
	}
	if err != nil {
		return Plain{}, err
	}
	return InMemory(plain), nil
}

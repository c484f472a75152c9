package questions

import (
	"bytes"
	"errors"
	"io"
	"path/filepath"

	"tenback/templates"
	"tenback/workbook/locked"
	"tenback/workbook/roster"
	"tenback/workbook/safefile"
	"tenback/workbook/source"
)

// Open reads the questions at path; a missing file has none.
func Open(path string, password func() (string, error)) (*Book, error) {
	f, size, err := source.OpenFile(path)
	if errors.Is(err, source.ErrMissing) {
		return &Book{}, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return Read(path, f, size, password)
}

// Save writes the Book about a roster to path, with the roster's password.
func (b *Book) Save(path string, r *roster.Roster, words *templates.Set) error {
	return save(path, r, func(w io.Writer) error { return b.Write(w, filepath.Base(r.Path), words) })
}

// save writes a workbook about a roster to path, with the roster's password.
func save(path string, r *roster.Roster, write func(io.Writer) error) error {
	var book bytes.Buffer
	if err := write(&book); err != nil {
		return err
	}
	data := book.Bytes()
	if r.Locked() {
		var err error
		if data, err = locked.Close(data, r.In.Password); err != nil {
			return err
		}
	}
	return safefile.WriteBytes(path, data)
}

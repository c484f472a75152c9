package safefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
)

// Reasons not to read a file.
var (
	ErrNotPlain = errors.New("it is not a plain file")
	ErrTooLarge = errors.New("it is too large")
)

// OpenPlain opens the existing plain file at path with the flags of [os.OpenFile].
// For anything else the error is [ErrNotPlain], because opening a pipe can block
// and a device may have no end.
func OpenPlain(path string, flag int) (*os.File, fs.FileInfo, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, nil, ErrNotPlain
	}
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return nil, nil, err
	}
	if info, err = f.Stat(); err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, info, nil
}

// ReadPlain reads the plain file at path whole. If it has more than most bytes the
// error is [ErrTooLarge].
func ReadPlain(path string, most int64) ([]byte, error) {
	f, _, err := OpenPlain(path, os.O_RDONLY)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(data)) > most {
		err = ErrTooLarge
	}
	if err != nil {
		return nil, err
	}
	return data, nil
}

package safefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
)

// Why a file is not read.
var (
	ErrNotPlain = errors.New("it is no plain file")
	ErrTooLarge = errors.New("it is too large")
)

// OpenPlain opens the plain file at path with the flags of [os.OpenFile]; it must
// be there. For what else may have taken its name the error is [ErrNotPlain]: to
// open a pipe waits for somebody to write, and a device may have no end.
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

// ReadPlain reads the plain file at path whole. Of one with more than that many
// bytes it reads no more, and the error is [ErrTooLarge].
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

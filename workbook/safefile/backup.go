package safefile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// maxBackups bounds the backups of one minute.
const maxBackups = 100

// Backup copies the file at path to "NAME (backup 2026-11-25 1412).EXT" beside it
// and returns the copy's path. It adds a counter if that name is taken, and never
// replaces a file. The copy has the original's mode.
func Backup(path string, now time.Time) (copied string, err error) {
	target, err := follow(path)
	if err != nil {
		return "", err
	}
	ext := filepath.Ext(target)
	stem := fmt.Sprintf("%s (backup %s", strings.TrimSuffix(target, ext), now.Format("2006-01-02 1504"))
	for n := 1; n <= maxBackups; n++ {
		copied = stem + ")" + ext
		if n > 1 {
			copied = fmt.Sprintf("%s, %d)%s", stem, n, ext)
		}
		err := backupAs(target, copied)
		if !errors.Is(err, fs.ErrExist) {
			return copied, err
		}
	}
	return "", fmt.Errorf("%s: %d backups of this minute exist already", path, maxBackups)
}

func backupAs(path, copied string) error {
	from, info, err := OpenPlain(path, os.O_RDONLY)
	if err != nil {
		return fmt.Errorf("%s cannot be copied: %w", path, err)
	}
	defer from.Close()
	if _, err := os.Lstat(copied); err == nil {
		return fs.ErrExist
	}
	p, err := Create(copied)
	if err != nil {
		return err
	}
	defer p.Discard()
	if err := p.setMode(info.Mode().Perm()); err != nil {
		return err
	}
	if _, err := io.Copy(p, from); err != nil {
		return err
	}
	return p.CommitNew()
}

package source

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"

	"tenback/workbook/roster"
)

// FingerprintOf returns the fingerprint of the file at path.
func FingerprintOf(path string) (roster.Fingerprint, error) {
	f, _, err := OpenFile(path)
	if err != nil {
		return roster.Fingerprint{}, err
	}
	defer f.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, f); err != nil {
		return roster.Fingerprint{}, err
	}
	return roster.Fingerprint(hash.Sum(nil)), nil
}

// ErrChangedSinceRead reports that the roster was saved again after it was read.
var ErrChangedSinceRead = errors.New("the roster has been changed since it was read")

// CheckUnchanged refuses a roster that was saved after it was read, because its
// rows may have moved.
func CheckUnchanged(r *roster.Roster) error {
	now, err := FingerprintOf(r.Path)
	if err != nil {
		return err
	}
	if now != r.Seen {
		return fmt.Errorf("%s: %w; nothing was written: run again", r.Path, ErrChangedSinceRead)
	}
	return nil
}

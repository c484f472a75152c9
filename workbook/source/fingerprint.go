package source

import (
	"crypto/sha256"
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

package workbook

import (
	"crypto/sha256"
	"io"
)

// FingerprintOf takes the fingerprint of the file at path.
func FingerprintOf(path string) (Fingerprint, error) {
	f, _, err := openFile(path)
	if err != nil {
		return Fingerprint{}, err
	}
	defer f.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, f); err != nil {
		return Fingerprint{}, err
	}
	return Fingerprint(hash.Sum(nil)), nil
}

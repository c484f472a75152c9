// Package personkey derives a key for each person of a roster: the same at every
// reading, different for different people, and without personal data.
//
// The key is in the person's page and in all records about pages, so that no page
// is taken for another person's. It is an HMAC with a secret in the folder of the
// pages, so a page alone does not allow guessing dates of birth or IDs.
package personkey

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
	"time"

	"golang.org/x/text/unicode/norm"

	"tenback/workbook"
	"tenback/workbook/safefile"
)

// SecretFile is the file name of the secret in the folder of the pages.
const SecretFile = ".tenback-secret"

const (
	secretBytes = 32
	keyBytes    = 16 // of the HMAC; long enough to avoid collisions
)

// Secret derives keys.
type Secret struct{ bytes []byte }

// Key is a person's key in hexadecimal digits; empty for no person.
type Key string

// Load reads the secret of a folder of pages. The error is fs.ErrNotExist if the
// folder has no pages yet.
func Load(folder string) (Secret, error) {
	path := filepath.Join(folder, SecretFile)
	text, err := safefile.ReadPlain(path, 4*secretBytes) // anything but a small plain file counts as damaged
	if err != nil && !errors.Is(err, safefile.ErrNotPlain) && !errors.Is(err, safefile.ErrTooLarge) {
		return Secret{}, err
	}
	secret, err := hex.DecodeString(strings.TrimSpace(string(text)))
	if err != nil || len(secret) != secretBytes {
		return Secret{}, fmt.Errorf("%s is damaged; delete it and make the pages again with tenback run", path)
	}
	return Secret{secret}, nil
}

// LoadOrMake reads the secret of an existing folder, or creates one.
func LoadOrMake(folder string) (Secret, error) {
	s, err := Load(folder)
	if !errors.Is(err, fs.ErrNotExist) {
		return s, err
	}
	s = Secret{make([]byte, secretBytes)}
	if _, err := rand.Read(s.bytes); err != nil {
		return Secret{}, err
	}
	err = safefile.WriteNew(filepath.Join(folder, SecretFile), func(w io.Writer) error {
		_, err := fmt.Fprintln(w, hex.EncodeToString(s.bytes))
		return err
	})
	if errors.Is(err, fs.ErrExist) { // another run was faster
		return Load(folder)
	}
	return s, err
}

// Of returns the key of a row's person; for several rows of one person pass the
// joined one of [workbook.Visit]. The key depends on ID, name and date of birth,
// whatever their Unicode form and spacing.
func (s Secret) Of(row *workbook.Row) Key {
	sum := hmac.New(sha256.New, s.bytes)
	born := ""
	if !row.Entry.Born.IsZero() {
		born = row.Entry.Born.Format(time.DateOnly)
	}
	for _, part := range []string{row.Person.ID, row.Person.Name, born} {
		part = strings.Join(strings.Fields(norm.NFKC.String(part)), " ")
		fmt.Fprintf(sum, "%d:%s,", len(part), part) // lengths keep "1", "2x" apart from "12", "x"
	}
	return Key(hex.EncodeToString(sum.Sum(nil)[:keyBytes]))
}

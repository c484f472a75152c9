// Package personkey gives each person of a roster a key: a text that is the
// same whenever the roster is read, different for different people, and tells
// nothing of who the person is.
//
// The key stands in the person's page and in what is written about pages, so
// that a page is never taken for another's. It is made with a secret that lies
// in the folder of the pages: whoever has only a page cannot try out dates of
// birth or IDs until one fits.
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

// SecretFile is the name of the file with the secret in the folder of the
// pages.
const SecretFile = ".tenback-secret"

const (
	secretBytes = 32
	keyBytes    = 16 // of the sum; so long that no two people get the same by chance
)

// Secret makes keys.
type Secret struct{ bytes []byte }

// Key is a person's key in hexadecimal digits; the empty key is nobody's.
type Key string

// Load reads the secret of a folder of pages. The error is fs.ErrNotExist where
// no page was made there yet.
func Load(folder string) (Secret, error) {
	path := filepath.Join(folder, SecretFile)
	text, err := safefile.ReadPlain(path, 4*secretBytes) // what is no file for a secret is as good as a damaged one
	if err != nil && !errors.Is(err, safefile.ErrNotPlain) && !errors.Is(err, safefile.ErrTooLarge) {
		return Secret{}, err
	}
	secret, err := hex.DecodeString(strings.TrimSpace(string(text)))
	if err != nil || len(secret) != secretBytes {
		return Secret{}, fmt.Errorf("%s is damaged; delete it and make the pages again with tenback run", path)
	}
	return Secret{secret}, nil
}

// LoadOrMake reads the secret of a folder, which must exist, and makes one
// where there is none.
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

// Of gives the key of the person that a row is about; of several rows about one
// person it takes the joined one of [workbook.Visit]. It hangs on ID, name and
// date of birth, in any form of Unicode and spacing, and changes with each.
func (s Secret) Of(row *workbook.Row) Key {
	sum := hmac.New(sha256.New, s.bytes)
	born := ""
	if !row.Entry.Born.IsZero() {
		born = row.Entry.Born.Format(time.DateOnly)
	}
	for _, part := range []string{row.Person.ID, row.Person.Name, born} {
		part = strings.Join(strings.Fields(norm.NFKC.String(part)), " ")
		fmt.Fprintf(sum, "%d:%s,", len(part), part) // with lengths, lest "1" and "2x" be "12" and "x"
	}
	return Key(hex.EncodeToString(sum.Sum(nil)[:keyBytes]))
}

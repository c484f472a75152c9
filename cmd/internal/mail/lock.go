package mail

import (
	"bufio"
	"bytes"
	"crypto/rand"
	"errors"
	"fmt"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"tenback/scoring"
	"tenback/workbook/cell"
)

const (
	// keyBits is the length of the key: AES-256.
	keyBits = 256
	// Passwords shorter than shortest characters are soon guessed. PDF takes at
	// most longest bytes (ISO 32000-2, 7.6.4.3.3).
	shortest = 8
	longest  = 127
)

// The library must not create a settings folder for the user.
func init() { model.ConfigPath = "disable" }

// LockPage encrypts a page with AES-256 as in PDF 2.0 (security handler revision
// 6), where a guess costs far more than in the revision before. The password must
// pass CheckPassword. The same page locked twice has different bytes.
func LockPage(page []byte, password string) (locked []byte, err error) {
	// The library may panic on a file that somebody has changed.
	defer func() {
		if fault := recover(); fault != nil {
			locked, err = nil, fmt.Errorf("the page cannot be locked: %v", fault)
		}
	}()
	if doubt := CheckPassword(password); doubt != nil {
		return nil, doubt
	}
	// The library chooses the revision by the version in the first line. Both
	// versions have one length, so no offset in the file changes.
	head := []byte("%PDF-1.3")
	if !bytes.HasPrefix(page, head) {
		return nil, errors.New("this PDF was not made by tenback")
	}
	page = append([]byte("%PDF-2.0"), page[len(head):]...)
	owner, err := random(24)
	if err != nil {
		return nil, err
	}
	settings := model.NewAESConfiguration(password, owner, keyBits)
	settings.Permissions, settings.Cmd = model.PermissionsAll, model.ENCRYPT
	// The library's package api would do the same, and doubles what is compiled.
	file, err := pdfcpu.Read(bytes.NewReader(page), settings)
	if err != nil {
		return nil, fmt.Errorf("the page cannot be read: %w", err)
	}
	var out bytes.Buffer
	file.Write.Writer = bufio.NewWriter(&out)
	if err := errors.Join(pdfcpu.WriteContext(file), file.Write.Flush()); err != nil {
		return nil, fmt.Errorf("the page cannot be locked: %w", err)
	}
	return out.Bytes(), nil
}

// CheckPassword returns why a chosen password is refused; nil if it is not.
// Non-ASCII letters are refused because programs encode them differently.
func CheckPassword(password string) *cell.Doubt {
	switch {
	case len(password) < shortest:
		return &cell.Doubt{What: scoring.Verbatim(fmt.Sprintf("the password is shorter than %d characters and easy to guess", shortest)), Fix: scoring.Verbatim("choose a longer one, or empty the cell to have one made")}
	case len(password) > longest:
		return &cell.Doubt{What: scoring.Verbatim(fmt.Sprintf("the password is longer than %d characters", longest)), Fix: scoring.Verbatim("choose a shorter one")}
	case strings.ContainsFunc(password, func(r rune) bool { return r < ' ' || r > '~' }):
		return &cell.Doubt{What: scoring.Verbatim("the password contains letters that not every PDF program accepts"), Fix: scoring.Verbatim("use letters from a to z, digits and punctuation")}
	}
	return nil
}

// passwordLetters has no characters that look alike on paper, such as 1, l and I,
// and no vowels, so that no words arise.
const passwordLetters = "23456789bcdfghjkmnpqrstvwxz"

// NewPassword returns a random password of three groups of four characters, 57
// bits, easy to type from a slip of paper.
func NewPassword() (string, error) {
	text, err := random(12)
	if err != nil {
		return "", err
	}
	return text[:4] + "-" + text[4:8] + "-" + text[8:], nil
}

// random returns n characters, all equally likely.
func random(n int) (string, error) {
	const fair = 256 / len(passwordLetters) * len(passwordLetters) // a larger byte would favour the first characters
	var text strings.Builder
	one := make([]byte, 1)
	for text.Len() < n {
		if _, err := rand.Read(one); err != nil {
			return "", err
		}
		if int(one[0]) < fair {
			text.WriteByte(passwordLetters[int(one[0])%len(passwordLetters)])
		}
	}
	return text.String(), nil
}

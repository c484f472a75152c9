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
	// Fewer characters than shortest are soon found by trying; the form of
	// PDF takes no more than longest bytes (ISO 32000-2, 7.6.4.3.3).
	shortest = 8
	longest  = 127
)

// The library asks for a folder of the user's to keep settings in; it gets none.
func init() { model.ConfigPath = "disable" }

// LockPage gives a PDF of pdfreport a password, without which nothing of it can be
// read: AES-256 as in PDF 2.0 (security handler revision 6), in which a guess
// costs the one who tries far more than in the revision before. The password
// must be one that CheckPassword takes. The same page locked twice gives
// different bytes.
func LockPage(page []byte, password string) (locked []byte, err error) {
	// The library was not made for files that someone may have changed.
	defer func() {
		if fault := recover(); fault != nil {
			locked, err = nil, fmt.Errorf("the page cannot be locked: %v", fault)
		}
	}()
	if doubt := CheckPassword(password); doubt != nil {
		return nil, doubt
	}
	// The library chooses the revision by the version in the file's first line.
	// Both are of one length, so that nothing in the file moves.
	head := []byte("%PDF-1.3")
	if !bytes.HasPrefix(page, head) {
		return nil, errors.New("this is no PDF that was made here")
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

// CheckPassword tells why a password that someone chose is not used; nil if it
// is. Letters beyond ASCII are refused, for programs differ in how they turn
// them into bytes.
func CheckPassword(password string) *cell.Doubt {
	switch {
	case len(password) < shortest:
		return &cell.Doubt{What: scoring.Verbatim(fmt.Sprintf("the password is shorter than %d characters and would soon be found by trying", shortest)), Fix: scoring.Verbatim("choose a longer one, or empty the cell to have one made")}
	case len(password) > longest:
		return &cell.Doubt{What: scoring.Verbatim(fmt.Sprintf("the password is longer than %d characters", longest)), Fix: scoring.Verbatim("choose a shorter one")}
	case strings.ContainsFunc(password, func(r rune) bool { return r < ' ' || r > '~' }):
		return &cell.Doubt{What: scoring.Verbatim("the password holds letters that not every PDF program takes"), Fix: scoring.Verbatim("use letters from a to z, digits and signs")}
	}
	return nil
}

// passwordLetters are those of made passwords: none that look alike on paper or in
// some typeface, such as 1, l and I, or 0 and O; no vowels, so that no words
// come about.
const passwordLetters = "23456789bcdfghjkmnpqrstvwxz"

// NewPassword makes a password of three groups of four letters and digits:
// 57 bits by chance, easy to type from a slip of paper.
func NewPassword() (string, error) {
	text, err := random(12)
	if err != nil {
		return "", err
	}
	return text[:4] + "-" + text[4:8] + "-" + text[8:], nil
}

// random gives n letters, each as likely as any other.
func random(n int) (string, error) {
	const fair = 256 / len(passwordLetters) * len(passwordLetters) // a byte above would favour the first letters
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

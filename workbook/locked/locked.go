// Package locked decrypts and encrypts workbooks with a password.
//
// Such a workbook is not a zip but a compound file with the encrypted zip in one
// of its streams, in one of two schemes (ECMA-376, [MS-OFFCRYPTO]). Both can be
// opened; only the older one can be written. All happens in memory, so no
// readable copy reaches a disk.
package locked

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"

	"github.com/richardlehane/mscfb"
	"github.com/xuri/excelize/v2"

	"tenback/workbook/opc"
)

// MaxBytes bounds a locked workbook. Opening or locking it takes up to six times
// as much memory.
const MaxBytes = 256 << 20

// Scheme is a way of encrypting a workbook.
type Scheme uint8

// The schemes.
const (
	// Standard is AES-128 with a key from 50,000 rounds of SHA-1, as in Excel 2007.
	Standard Scheme = iota + 1
	// Agile has been usual since 2010: mostly AES-256 with a key from 100,000
	// rounds of SHA-512.
	Agile
)

var (
	// ErrNotLocked means that the compound file holds no workbook.
	ErrNotLocked = errors.New("no workbook with a password")
	// ErrOld means that the compound file is an .xls workbook.
	ErrOld = errors.New("an .xls workbook")
	// ErrPassword means that the password does not open the workbook.
	ErrPassword = errors.New("wrong password")
	// ErrDamaged means that the container is broken.
	ErrDamaged = errors.New("damaged file")
	// ErrUnsupported means another encryption, as with a certificate or by the
	// management of rights.
	ErrUnsupported = errors.New("encrypted in an unusual way")
	// ErrTooLarge means over MaxBytes.
	ErrTooLarge = errors.New("larger than this program unlocks")
)

// IsContainer reports whether a file that begins with head is a compound file:
// a workbook with a password, or an old .xls file.
func IsContainer(head []byte) bool { return bytes.HasPrefix(head, opc.Magic) }

// Inspect returns how the workbook in a compound file is encrypted. The error
// wraps one of the Err values.
func Inspect(r io.ReaderAt) (scheme Scheme, err error) {
	defer caught(&err)
	scheme, _, err = inspect(r)
	return scheme, err
}

// caught turns a panic of the libraries into an error, because they are not made
// for hostile files.
func caught(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("%w: %v", ErrDamaged, p)
	}
}

// inspect returns the scheme and the decrypted size.
func inspect(r io.ReaderAt) (scheme Scheme, size uint64, err error) {
	doc, err := mscfb.New(r)
	if err != nil {
		return 0, 0, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	var info []byte
	var length [8]byte
	infos, packages, old := 0, 0, false
	for _, f := range doc.File {
		switch f.Name {
		case "EncryptionInfo":
			infos++
			info, err = io.ReadAll(io.LimitReader(f, maxInfo))
		case "EncryptedPackage":
			packages++
			_, err = io.ReadFull(f, length[:])
		case "Workbook", "Book":
			old = true
		}
		if err != nil {
			return 0, 0, fmt.Errorf("%w: %w", ErrDamaged, err)
		}
	}
	switch {
	case packages == 0 && old:
		return 0, 0, ErrOld
	case packages == 0:
		return 0, 0, ErrNotLocked
	case infos == 0: // rights are managed elsewhere
		return 0, 0, ErrUnsupported
	case packages > 1 || infos > 1 || len(info) < 4:
		return 0, 0, ErrDamaged
	}
	major, minor := binary.LittleEndian.Uint16(info), binary.LittleEndian.Uint16(info[2:])
	switch {
	case major == 4 && minor == 4 && isUsual(info):
		scheme = Agile
	case major >= 2 && major <= 4 && minor == 2:
		scheme = Standard
	default:
		return 0, 0, ErrUnsupported
	}
	return scheme, binary.LittleEndian.Uint64(length[:]), nil
}

// maxInfo bounds the description of an encryption.
const maxInfo = 64 << 10

// isUsual reports whether an Agile encryption is of the ciphers that excelize knows,
// and with a password first.
func isUsual(info []byte) bool {
	ciphers := regexp.MustCompile(`cipher(?:Algorithm|Chaining)="([^"]*)"`)
	for _, m := range ciphers.FindAllSubmatch(info, -1) {
		if used := string(m[1]); used != "AES" && used != "ChainingModeCBC" {
			return false
		}
	}
	first := regexp.MustCompile(`<keyEncryptor uri="[^"]*/([^"/]*)"`).FindSubmatch(info)
	return first == nil || string(first[1]) == "password"
}

// Open returns the decrypted zip of a compound file, byte for byte, and does not
// change raw. A wrong password shows only as noise in the result; so does damage
// at the beginning of the file.
func Open(raw []byte, password string) (plain []byte, scheme Scheme, err error) {
	defer caught(&err)
	if len(raw) > MaxBytes {
		return nil, 0, ErrTooLarge
	}
	scheme, size, err := inspect(bytes.NewReader(raw))
	if err != nil {
		return nil, 0, err
	}
	plain, err = excelize.Decrypt(raw, &excelize.Options{Password: password})
	switch {
	case errors.Is(err, excelize.ErrUnsupportedHashAlgorithm), errors.Is(err, excelize.ErrUnsupportedEncryptMechanism), errors.Is(err, excelize.ErrMaxSpinCount):
		return nil, 0, fmt.Errorf("%w: %w", ErrUnsupported, err)
	case err != nil:
		return nil, 0, fmt.Errorf("%w: %w", ErrDamaged, err)
	case !bytes.HasPrefix(plain, []byte("PK\x03\x04")):
		return nil, 0, ErrPassword
	case uint64(len(plain)) < size:
		return nil, 0, fmt.Errorf("%w: its end is missing", ErrDamaged)
	}
	return plain[:size], scheme, nil // without the padding of the last block
}

// Close encrypts a workbook in the Standard scheme and checks that the password
// opens it again. The password must have 1 to 255 UTF-16 code units.
func Close(plain []byte, password string) ([]byte, error) {
	if len(plain) > MaxBytes {
		return nil, ErrTooLarge
	}
	raw, err := excelize.Encrypt(plain, &excelize.Options{Password: password})
	if err != nil {
		return nil, fmt.Errorf("encrypting: %w", err)
	}
	again, _, err := Open(raw, password)
	if err != nil {
		return nil, fmt.Errorf("the encrypted workbook does not open again: %w", err)
	}
	if !bytes.Equal(again, plain) {
		return nil, errors.New("the encrypted workbook differs when it is opened again")
	}
	return raw, nil
}

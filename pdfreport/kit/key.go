package kit

import (
	"errors"
	"fmt"
	"regexp"
)

// keyMark precedes a person's key among the keywords of the file.
const keyMark = "tenback person "

// ErrNoKey is returned by ReadKey for a file without a single key.
var ErrNoKey = errors.New("the file does not say whose page it is")

var (
	keyForm = regexp.MustCompile(`^[0-9a-f]*$`)
	// Our files' properties are not compressed. Names in them take two bytes a
	// character, so no name can pass for this line.
	keyLine = regexp.MustCompile(`(?m)^/Keywords \(` + keyMark + `([0-9a-f]+)\)$`)
)

// CheckKey returns an error if a key is not hexadecimal.
func CheckKey(key string) error {
	if !keyForm.MatchString(key) {
		return fmt.Errorf("the key %q should be of hexadecimal digits", key)
	}
	return nil
}

// ReadKey returns the key of the person that a page is for. The error is ErrNoKey
// where there is none, or more than one.
func ReadKey(file []byte) (key string, err error) {
	found := keyLine.FindAllSubmatch(file, 2)
	if len(found) != 1 {
		return "", ErrNoKey
	}
	return string(found[0][1]), nil
}

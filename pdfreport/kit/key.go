package kit

import (
	"errors"
	"fmt"
	"regexp"
)

// keyMark stands in front of a person's key among the keywords of the file.
const keyMark = "tenback person "

// ErrNoKey is returned by ReadKey for a file that says of nobody whose it is.
var ErrNoKey = errors.New("the file does not say whose page it is")

var (
	keyForm = regexp.MustCompile(`^[0-9a-f]*$`)
	// The information of our own files is not compressed, and what people are
	// called stands in it in two bytes a letter, so that nobody's name can pass
	// for this line.
	keyLine = regexp.MustCompile(`(?m)^/Keywords \(` + keyMark + `([0-9a-f]+)\)$`)
)

func CheckKey(key string) error {
	if !keyForm.MatchString(key) {
		return fmt.Errorf("the key %q should be of hexadecimal digits", key)
	}
	return nil
}

// ReadKey finds the key of the person in a file that WritePerson made. The
// error is ErrNoKey where there is none, or more than one.
func ReadKey(file []byte) (key string, err error) {
	found := keyLine.FindAllSubmatch(file, 2)
	if len(found) != 1 {
		return "", ErrNoKey
	}
	return string(found[0][1]), nil
}

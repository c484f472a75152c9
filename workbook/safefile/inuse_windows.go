package safefile

import (
	"errors"

	"golang.org/x/sys/windows"
)

// InUse reports whether opening or replacing a file failed because another program
// holds it open.
func InUse(err error) bool {
	return errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_LOCK_VIOLATION)
}

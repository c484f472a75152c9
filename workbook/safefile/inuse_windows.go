package safefile

import (
	"errors"

	"golang.org/x/sys/windows"
)

// InUse tells that an error of opening or replacing a file is another program's
// holding it open.
func InUse(err error) bool {
	return errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_LOCK_VIOLATION)
}

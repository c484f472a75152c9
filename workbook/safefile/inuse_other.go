//go:build !windows

package safefile

import (
	"errors"
	"syscall"
)

// InUse tells that an error of opening or replacing a file is another program's
// holding it open. Only Windows and some network drives keep files so.
func InUse(err error) bool { return errors.Is(err, syscall.EBUSY) || errors.Is(err, syscall.ETXTBSY) }

//go:build !windows

package safefile

import (
	"errors"
	"syscall"
)

// InUse reports whether opening or replacing a file failed because another program
// holds it open. Only Windows and some network drives lock files so.
func InUse(err error) bool { return errors.Is(err, syscall.EBUSY) || errors.Is(err, syscall.ETXTBSY) }

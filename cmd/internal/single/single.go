// Package single sees to it that one program at a time writes the results of a
// roster.
package single

import (
	"errors"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// errBusy tells that another program is writing results of the roster.
var errBusy = errors.New("another tenback is writing results of this roster; wait until it is done and run again")

// tries bounds how often a lock is taken that its holder took away meanwhile.
const tries = 5

// Take reserves the results of a roster in a folder, or gives errBusy. base is
// the roster's file name without its ending. The lock ends with release, and
// also with the program, however that ends. Where the disk knows no locks, as
// some network drives do not, there is none and no error.
func Take(folder, base string) (release func(), err error) {
	path := filepath.Join(folder, "."+base+".tenback-lock")
	for range tries {
		lock := flock.New(path, flock.SetFlag(os.O_CREATE|os.O_RDWR), flock.SetPermissions(0o600))
		switch got, err := lock.TryLock(); {
		case err != nil:
			return func() {}, nil
		case !got:
			return nil, errBusy
		}
		if still(lock, path) {
			return func() { letGo(lock, path) }, nil
		}
		_ = lock.Unlock() // of a file that is no longer there
	}
	return nil, errBusy
}

// still tells whether the locked file is the one that others find under the
// name: its last holder may have removed it between our opening and locking.
func still(lock *flock.Flock, path string) bool {
	ours, err := lock.Stat()
	if err != nil {
		return false
	}
	theirs, err := os.Stat(path)
	return err == nil && os.SameFile(ours, theirs)
}

// letGo removes the file while it is locked, so that nobody is left with a lock
// on a file that others do not see; where open files can't be removed it stays
// until it is closed.
func letGo(lock *flock.Flock, path string) {
	removed := os.Remove(path)
	_ = lock.Unlock() // the end of the program does it too
	if removed != nil {
		_ = os.Remove(path)
	}
}

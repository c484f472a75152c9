// Package single lets one program at a time write the results of a roster.
package single

import (
	"errors"
	"os"
	"path/filepath"
	"sync"

	"github.com/gofrs/flock"
)

var errBusy = errors.New("another tenback is writing results of this roster; wait until it is done and run again")

// held holds the functions that release the locks of this program.
var held sync.Map // by path

// Abandon releases the locks, because the program is about to exit in the middle of
// its work.
func Abandon() {
	held.Range(func(_, release any) bool {
		release.(func())()
		return true
	})
}

// tries bounds the attempts while holders remove their lock files.
const tries = 5

// Take locks the results of a roster in a folder, or returns errBusy. base is the
// roster's file name without its ending. The lock ends with release or with the
// program. On a disk without locks, such as some network drives, Take does nothing
// and returns no error.
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
			release := func() {
				held.Delete(path)
				letGo(lock, path)
			}
			held.Store(path, release)
			return release, nil
		}
		_ = lock.Unlock() // of a removed file
	}
	return nil, errBusy
}

// still reports whether path is still the locked file. Its last holder may have
// removed it between our opening and locking.
func still(lock *flock.Flock, path string) bool {
	ours, err := lock.Stat()
	if err != nil {
		return false
	}
	theirs, err := os.Stat(path)
	return err == nil && os.SameFile(ours, theirs)
}

// letGo removes the file while it is locked, so that no program locks a removed
// file. Where open files can't be removed, it removes the file after closing.
func letGo(lock *flock.Flock, path string) {
	removed := os.Remove(path)
	_ = lock.Unlock() // the end of the program does it too
	if removed != nil {
		_ = os.Remove(path)
	}
}

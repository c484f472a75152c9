// Package safefile writes files atomically and reads files within bounds.
//
// The bytes go to a temporary file in the same folder, which is flushed to the
// disk and then renamed to the target. If the target is a symbolic link, the file
// it points to is replaced. An existing file keeps its mode; a new one is for its
// owner only, because nearly all that is written is about people.
package safefile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"
)

// NewFileMode is the mode of new files.
const NewFileMode fs.FileMode = 0o600

// pendingNames is the pattern of the names of temporary files.
const pendingNames = ".tenback-*.tmp"

// maxLinks bounds the symbolic links that are followed.
const maxLinks = 40

// Pending is a file being written. Commit or CommitNew makes it the target,
// Discard removes it.
type Pending struct {
	*os.File        // the temporary file
	target   string // with links followed
	mode     fs.FileMode
	done     bool
}

// Create begins writing the file at path, which may exist. It fails if the target
// is not a plain file or is write-protected, or if its folder is.
func Create(path string) (*Pending, error) {
	target, err := follow(path)
	if err != nil {
		return nil, err
	}
	mode := NewFileMode
	switch info, err := os.Stat(target); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, fmt.Errorf("%s is a folder; a file is needed here", path)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is not a plain file, so it is left alone", path)
	case info.Mode().Perm()&0o200 == 0:
		return nil, fmt.Errorf("%s is write-protected; allow writing or choose another name", path)
	default:
		mode = info.Mode().Perm()
	}
	p, err := begin(target)
	if err != nil {
		return nil, err
	}
	if err := p.setMode(mode); err != nil {
		p.Discard()
		return nil, err
	}
	return p, nil
}

// unfinished holds the temporary files. Its lock is held while one is made, renamed
// or removed.
var unfinished = struct {
	sync.Mutex
	files map[*Pending]bool
}{files: map[*Pending]bool{}}

func begin(target string) (*Pending, error) {
	unfinished.Lock()
	defer unfinished.Unlock()
	temp, err := os.CreateTemp(filepath.Dir(target), pendingNames)
	if err != nil {
		return nil, err
	}
	p := &Pending{File: temp, target: target}
	unfinished.files[p] = true
	return p, nil
}

// Abandon removes all temporary files, because the program is about to exit in the
// middle of its work. It keeps the lock: other goroutines can no longer write a
// file.
func Abandon() {
	unfinished.Lock()
	for p := range unfinished.files {
		p.remove()
	}
}

// setMode sets the mode at the beginning, because a change just before the flush
// would cost another write.
func (p *Pending) setMode(mode fs.FileMode) error {
	p.mode = mode
	return p.Chmod(mode)
}

// Commit puts the file in the target's place.
func (p *Pending) Commit() error {
	return p.finish(func() error { return os.Rename(p.Name(), p.target) })
}

// CommitNew puts the file in the target's place if nothing is there; otherwise
// the error is fs.ErrExist.
func (p *Pending) CommitNew() error {
	return p.finish(func() error {
		err := os.Link(p.Name(), p.target)
		if err == nil {
			return os.Remove(p.Name())
		}
		if errors.Is(err, fs.ErrExist) {
			return err
		}
		// Without hard links, reserve the name with an empty file.
		hold, err := os.OpenFile(p.target, os.O_CREATE|os.O_EXCL|os.O_WRONLY, p.mode)
		if err != nil {
			return err
		}
		hold.Close()
		if err := os.Rename(p.Name(), p.target); err != nil {
			return errors.Join(err, os.Remove(p.target))
		}
		return nil
	})
}

// finish flushes the temporary file to the disk and gives it the target's name.
func (p *Pending) finish(rename func() error) error {
	if p.done {
		return fs.ErrClosed
	}
	defer p.Discard()
	if err := p.Sync(); err != nil {
		return err
	}
	if err := p.Close(); err != nil {
		return err
	}
	if err := p.rename(rename); err != nil {
		return err
	}
	syncFolder(filepath.Dir(p.target))
	return nil
}

func (p *Pending) rename(rename func() error) error {
	unfinished.Lock()
	defer unfinished.Unlock()
	if err := rename(); err != nil {
		return err
	}
	p.done = true
	delete(unfinished.files, p)
	return nil
}

// Discard removes the temporary file. After a Commit it does nothing, so it can be
// deferred.
func (p *Pending) Discard() {
	if p.done {
		return
	}
	unfinished.Lock()
	defer unfinished.Unlock()
	p.done = true
	p.remove()
}

// remove deletes the temporary file while the lock is held.
func (p *Pending) remove() {
	p.Close()
	_ = os.Remove(p.Name()) // Sweep removes what is left
	delete(unfinished.files, p)
}

// Sweep removes temporary files that killed programs have left in a folder: those
// older than age, or dated more than age in the future.
func Sweep(folder string, age time.Duration) {
	entries, _ := os.ReadDir(folder)
	for _, e := range entries {
		if ours, _ := filepath.Match(pendingNames, e.Name()); !ours {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()).Abs() >= age {
			_ = os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

// Write creates or replaces the file at path with what write writes.
func Write(path string, write func(io.Writer) error) error {
	return through(path, write, (*Pending).Commit)
}

// WriteBytes creates or replaces the file at path.
func WriteBytes(path string, data []byte) error {
	return Write(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// WriteNew creates the file at path. If something is there already the error is
// fs.ErrExist.
func WriteNew(path string, write func(io.Writer) error) error {
	if _, err := os.Lstat(path); err == nil {
		return &fs.PathError{Op: "create", Path: path, Err: fs.ErrExist}
	}
	return through(path, write, (*Pending).CommitNew)
}

func through(path string, write func(io.Writer) error, commit func(*Pending) error) error {
	p, err := Create(path)
	if err != nil {
		return err
	}
	defer p.Discard()
	if err := write(p); err != nil {
		return err
	}
	return commit(p)
}

// follow returns the file that a path leads to, which need not exist.
func follow(path string) (string, error) {
	for range maxLinks {
		info, err := os.Lstat(path)
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			return path, nil // using it reports the error
		}
		link, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(link) {
			// The link is relative to where the folder really is.
			folder, err := filepath.EvalSymlinks(filepath.Dir(path))
			if err != nil {
				return "", err
			}
			link = filepath.Join(folder, link)
		}
		path = link
	}
	return "", fmt.Errorf("%s: symbolic links form a circle", path)
}

// syncFolder flushes the new name to the disk. Errors do not matter, because the
// file itself is safe.
func syncFolder(folder string) {
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

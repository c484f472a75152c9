// Package settle tells when a file that people save again and again has come
// to rest.
//
// Programs save in many ways: over the old file, in pieces, by a new file that
// takes the old one's name, with a moment in which there is none. On a drive of
// another computer nothing tells of it at all. So both are done: the system is
// asked to tell of changes in the folder, and the file's size and time are
// looked at again and again. Either starts a wait until the file has lain still
// for a while.
package settle

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// State is what became of the file.
type State uint8

const (
	// Saved tells that the file lies there, at rest. It may hold something new; whoever
	// reads it tells, for a system may tell of changes that are none.
	Saved State = iota
	// Gone tells that there is no file, and that not only for a moment.
	Gone
	// Again tells that nothing has changed in the time given to [File.Next].
	Again
)

// The default of what a File waits for.
const (
	defaultPoll  = time.Second            // between two looks where nothing tells of changes
	defaultQuiet = 250 * time.Millisecond // without change is at rest
	defaultGone  = time.Second            // without a file is gone
	// defaultMost is the longest wait for rest, lest a file that never rests be
	// never read.
	defaultMost = 5 * time.Second
)

// File is one watched file.
type File struct {
	path    string
	notify  *fsnotify.Watcher // nil where the system tells of nothing
	seen    glance            // as last reported
	told    bool              // something was reported
	stirred bool              // the system told of a change since

	poll, quiet, gone, most time.Duration
}

// glance is the file as far as one sees without reading it.
type glance struct {
	there bool
	size  int64
	time  time.Time
}

func (g glance) same(other glance) bool {
	return g.there == other.there && g.size == other.size && g.time.Equal(other.time)
}

// Watch begins to watch the file at path. Its folder must be there. A file
// behind a symbolic link is watched by looking at it alone.
func Watch(path string) (*File, error) {
	f := &File{path: path, poll: defaultPoll, quiet: defaultQuiet, gone: defaultGone, most: defaultMost}
	if info, err := os.Stat(f.folder()); err != nil {
		return nil, err
	} else if !info.IsDir() {
		return nil, &fs.PathError{Op: "watch", Path: f.folder(), Err: errors.New("not a folder")}
	}
	// Without the system's help looking is enough, only slower.
	if w, err := fsnotify.NewWatcher(); err == nil {
		f.notify = w
		f.attach()
	}
	return f, nil
}

func (f *File) folder() string { return filepath.Dir(f.path) }

// attach asks the system to tell of changes in the folder, if it does not yet:
// the folder may have been away.
func (f *File) attach() {
	if f.notify != nil && len(f.notify.WatchList()) == 0 {
		_ = f.notify.Add(f.folder()) // looking goes on without
	}
}

// Close ends the watching.
func (f *File) Close() error {
	if f.notify == nil {
		return nil
	}
	return f.notify.Close()
}

// Next waits until the file may have changed and is at rest, or is gone, and
// tells which; the first call tells how it is now. After the time again, if that
// is not 0, it returns although nothing has changed. The error is that of the
// context.
func (f *File) Next(ctx context.Context, again time.Duration) (State, error) {
	var up <-chan time.Time
	if again > 0 {
		timer := time.NewTimer(again)
		defer timer.Stop()
		up = timer.C
	}
	look := time.NewTicker(f.poll)
	defer look.Stop()
	for {
		if f.stirred || !f.told || !f.look().same(f.seen) {
			now, err := f.rest(ctx)
			if err != nil {
				return 0, err
			}
			known := f.told && !now.there && !f.seen.there
			f.seen, f.told, f.stirred = now, true, false
			switch {
			case now.there:
				return Saved, nil
			case !known:
				return Gone, nil
			}
		}
		select {
		case <-ctx.Done():
			return 0, ctx.Err()
		case <-up:
			return Again, nil
		case <-look.C:
			f.attach()
		case e, open := <-f.events():
			f.hear(e, open)
		case err := <-f.faults():
			f.stirred = f.stirred || lost(err)
		}
	}
}

// rest waits until nothing has changed for a while.
func (f *File) rest(ctx context.Context) (glance, error) {
	step := time.NewTicker(f.quiet / 5)
	defer step.Stop()
	began, last, since := time.Now(), f.look(), time.Now()
	for {
		still := f.quiet
		if !last.there {
			still = f.gone
		}
		if time.Since(since) >= still || last.there && time.Since(began) >= f.most {
			return last, nil
		}
		select {
		case <-ctx.Done():
			return glance{}, ctx.Err()
		case <-step.C:
		case e, open := <-f.events():
			f.stirred = false
			if f.hear(e, open); f.stirred {
				since = time.Now()
			}
		case err := <-f.faults():
			if lost(err) {
				since = time.Now()
			}
		}
		if now := f.look(); !now.same(last) {
			last, since = now, time.Now()
		}
	}
}

func (f *File) look() glance {
	info, err := os.Stat(f.path)
	if err != nil {
		return glance{}
	}
	return glance{true, info.Size(), info.ModTime()}
}

func (f *File) events() <-chan fsnotify.Event {
	if f.notify == nil {
		return nil
	}
	return f.notify.Events
}

func (f *File) faults() <-chan error {
	if f.notify == nil {
		return nil
	}
	return f.notify.Errors
}

// lost tells that the system had more to tell than it could keep.
func lost(err error) bool { return errors.Is(err, fsnotify.ErrEventOverflow) }

// hear notes what the system tells. Of the many files of the folder, among them
// the locks and the half-written new files of editors, only the one counts.
func (f *File) hear(e fsnotify.Event, open bool) {
	if !open {
		f.notify = nil
		return
	}
	ours := strings.EqualFold(filepath.Base(e.Name), filepath.Base(f.path))
	f.stirred = f.stirred || ours && e.Op != fsnotify.Chmod
}

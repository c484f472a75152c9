package desk

import (
	"context"
	"os"
	"time"
)

// state is what became of a watched file.
type state uint8

const (
	saved state = iota // at rest, perhaps with new content
	gone               // missing for longer than a save takes
	again              // unchanged for the time given to next
)

// file is a watched file. It is polled, because a network drive reports no
// changes. Programs save in many ways: over the old file, in pieces, or by a
// rename that leaves a moment without any file. So a change counts only after
// the file has rested.
type file struct {
	path     string
	beside   string // the answers, which are read with the file
	seen     glance // as last reported
	reported bool
	recheck  time.Time // when to report saved once more; zero for never

	poll  time.Duration // between two looks
	quiet time.Duration // without a change is at rest
	gone  time.Duration // without a file is gone
	most  time.Duration // of waiting for rest
	// coarse is longer than the steps in which a disk keeps the time of a change
	// (2 s on FAT). A second save within a step may look like the first.
	coarse time.Duration
}

func watch(path, beside string) *file {
	return &file{path: path, beside: beside, poll: 200 * time.Millisecond, quiet: 250 * time.Millisecond, gone: time.Second, most: 5 * time.Second, coarse: 3 * time.Second}
}

// glance is a file's size and time of change in nanoseconds, and those of the file
// beside it; zero if it is missing.
type glance struct {
	there         bool
	size, changed int64
	beside        stamp
}

// stamp is the size and time of change of a file; zero if it is missing.
type stamp struct{ size, changed int64 }

func stampOf(path string) stamp {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime().UnixNano()}
}

func (f *file) look() glance {
	info, err := os.Stat(f.path)
	if err != nil {
		return glance{}
	}
	return glance{true, info.Size(), info.ModTime().UnixNano(), stampOf(f.beside)}
}

// next waits until the file has changed and is at rest, or is gone. The first
// call reports its present state. After the time wait, if that is not 0, it
// returns again. The error is that of the context.
func (f *file) next(ctx context.Context, wait time.Duration) (state, error) {
	tick := time.NewTicker(f.poll)
	defer tick.Stop()
	began, last, since := time.Now(), f.look(), time.Now()
	changed := since // the first change that is not reported
	for {
		switch pending := !f.reported || last != f.seen; {
		case pending && (time.Since(since) >= f.still(last) || last.there && time.Since(changed) >= f.most):
			f.seen, f.reported, f.recheck = last, true, time.Now().Add(f.coarse)
			if !last.there {
				f.recheck = time.Time{}
				return gone, nil
			}
			return saved, nil
		case pending:
		case !f.recheck.IsZero() && time.Now().After(f.recheck):
			f.recheck = time.Time{}
			return saved, nil
		case wait > 0 && time.Since(began) >= wait:
			return again, nil
		default:
			changed = time.Now()
		}
		select {
		case <-ctx.Done():
			return 0, ctx.Err()
		case <-tick.C:
		}
		if now := f.look(); now != last {
			last, since = now, time.Now()
		}
	}
}

// still is how long a file must not change to be at rest.
func (f *file) still(g glance) time.Duration {
	if g.there {
		return f.quiet
	}
	return f.gone
}

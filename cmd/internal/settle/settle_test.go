package settle

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// desk watches a file in a folder of its own and remembers what it read.
type desk struct {
	*testing.T
	*File
	ctx   context.Context
	reads int
}

// ways are the two ways in which a change is noticed.
var ways = map[string]func(*File){
	"told by the system": func(f *File) { f.poll = time.Hour },
	"by looking alone": func(f *File) {
		if f.notify != nil {
			f.notify.Close()
			f.notify = nil
		}
		f.poll = 10 * time.Millisecond
	},
	"both": func(f *File) { f.poll = 10 * time.Millisecond },
}

// inEveryWay runs a test on a file that holds "first" and was reported once.
func inEveryWay(t *testing.T, test func(d *desk)) {
	for name, way := range ways {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "roster.csv")
			put(t, path, "first")
			f, err := Watch(path)
			if err != nil {
				t.Fatal(err)
			}
			f.quiet, f.gone = 20*time.Millisecond, 60*time.Millisecond
			way(f)
			t.Cleanup(func() { f.Close() })
			// A file that is never noticed would hang the test without end.
			ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
			t.Cleanup(cancel)
			d := &desk{T: t, File: f, ctx: ctx}
			d.until("first")
			test(d)
		})
	}
}

func put(t testing.TB, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func (d *desk) next() State {
	d.Helper()
	state, err := d.Next(d.ctx, 0)
	if err != nil {
		d.Fatal(err)
	}
	return state
}

// until waits until the file is reported as saved and holds the text.
func (d *desk) until(text string) {
	d.Helper()
	for {
		if d.next() != Saved {
			continue
		}
		d.reads++
		if now, err := os.ReadFile(d.path); err == nil && string(now) == text {
			return
		}
	}
}

func (d *desk) untilGone() {
	d.Helper()
	for d.next() != Gone {
	}
}

func TestSavedOver(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		put(d, d.path, "second, and longer")
		d.until("second, and longer")
		put(d, d.path, "third")
		d.until("third")
	})
}

// Spreadsheet programs write a new file and give it the old one's name; some
// move the old one away first.
func TestSavedByRename(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		for i := range 3 {
			text := fmt.Sprintf("save number %d", i)
			fresh := filepath.Join(d.folder(), "save.tmp")
			put(d, fresh, text)
			if i == 2 {
				must(d, os.Rename(d.path, d.path+".bak"))
			}
			must(d, os.Rename(fresh, d.path))
			d.until(text)
		}
	})
}

// However fast the saves come, the last one is read, and they are not read one
// by one.
func TestManySaves(t *testing.T) {
	const saves = 300
	inEveryWay(t, func(d *desk) {
		before := d.reads
		done := make(chan error, 1)
		go func() {
			var err error
			for i := range saves {
				if err == nil && i%3 == 0 {
					fresh := d.path + ".new"
					err = errors.Join(os.WriteFile(fresh, fmt.Appendf(nil, "save number %d", i), 0o600), os.Rename(fresh, d.path))
				} else if err == nil {
					err = os.WriteFile(d.path, fmt.Appendf(nil, "save number %d", i), 0o600)
				}
			}
			done <- err
		}()
		d.until(fmt.Sprintf("save number %d", saves-1))
		must(d, <-done)
		if reads := d.reads - before; reads >= saves {
			d.Errorf("%d saves were read %d times", saves, reads)
		}
	})
}

func TestWrittenInPieces(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		f, err := os.Create(d.path)
		must(d, err)
		_, err = f.WriteString("the first half, ")
		must(d, err)
		d.until("the first half, ") // it lay still for long enough
		_, err = f.WriteString("and the second")
		must(d, err)
		must(d, f.Close())
		d.until("the first half, and the second")
	})
}

func TestGoneAndBack(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		must(d, os.Remove(d.path))
		d.untilGone()
		// It is told once.
		if state, err := d.Next(d.ctx, 100*time.Millisecond); err != nil || state != Again {
			d.Errorf("state %v, %v", state, err)
		}
		put(d, d.path, "back again")
		d.until("back again")
	})
}

// The folder of a drive that comes and goes.
func TestFolderGoneAndBack(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		d.poll = 10 * time.Millisecond // nobody tells that a folder came back
		must(d, os.RemoveAll(d.folder()))
		d.untilGone()
		must(d, os.Mkdir(d.folder(), 0o700))
		put(d, d.path, "back again")
		d.until("back again")
		put(d, d.path, "and saved")
		d.until("and saved")
	})
}

// Locks of editors and their new files say nothing of the roster.
func TestOtherFilesDoNotCount(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		for _, name := range []string{"~$roster.csv", ".~lock.roster.csv#", "roster.csv.tmp", "roster-scored.xlsx"} {
			path := filepath.Join(d.folder(), name)
			put(d, path, "x")
			must(d, os.Remove(path))
		}
		if state, err := d.Next(d.ctx, 100*time.Millisecond); err != nil || state != Again {
			d.Errorf("state %v, %v", state, err)
		}
	})
}

// A file that never rests is read all the same.
func TestNeverAtRest(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		d.most = 200 * time.Millisecond
		stop, stopped := make(chan struct{}), make(chan struct{})
		go func() {
			defer close(stopped)
			for i := 0; ; i++ {
				select {
				case <-stop:
					return
				default:
				}
				if err := os.WriteFile(d.path, make([]byte, i%1000), 0o600); err != nil {
					d.Error(err)
					return
				}
			}
		}()
		d.next()
		close(stop)
		<-stopped
		put(d, d.path, "at last")
		d.until("at last")
	})
}

func TestStops(t *testing.T) {
	inEveryWay(t, func(d *desk) {
		ctx, stop := context.WithCancel(d.ctx)
		go stop()
		if _, err := d.Next(ctx, 0); !errors.Is(err, context.Canceled) {
			d.Errorf("error %v", err)
		}
	})
}

func TestWatchNeedsAFolder(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "file"), "")
	for _, path := range []string{filepath.Join(dir, "missing", "roster.csv"), filepath.Join(dir, "file", "roster.csv")} {
		if f, err := Watch(path); err == nil {
			f.Close()
			t.Errorf("%s is watched", path)
		}
	}
	f, err := Watch(filepath.Join(dir, "roster.csv"))
	must(t, err)
	defer f.Close()
	f.gone = time.Millisecond
	if state, err := f.Next(context.Background(), 0); err != nil || state != Gone {
		t.Errorf("a file that is not there yet: %v, %v", state, err)
	}
}

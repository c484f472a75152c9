package desk

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// looker watches a file in a folder of its own and counts what it reads.
type looker struct {
	*testing.T
	*file
	ctx   context.Context
	reads int
}

// newLooker watches a file that holds "first" and was reported once.
func newLooker(t *testing.T) *looker {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "roster.csv")
	put(t, path, "first")
	f := watch(path, "")
	f.poll, f.quiet, f.gone, f.coarse = 5*time.Millisecond, 20*time.Millisecond, 60*time.Millisecond, time.Hour
	// A change that is never noticed would hang the test without end.
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	t.Cleanup(cancel)
	l := &looker{T: t, file: f, ctx: ctx}
	l.until("first")
	return l
}

func put(t testing.TB, path, text string) {
	t.Helper()
	must(t, os.WriteFile(path, []byte(text), 0o600))
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func (l *looker) expect(wait time.Duration, want state) {
	l.Helper()
	if got, err := l.next(l.ctx, wait); err != nil || got != want {
		l.Fatalf("state %v, %v; want %v", got, err, want)
	}
}

// until waits until the file is reported as saved and holds the text.
func (l *looker) until(text string) {
	l.Helper()
	for {
		s, err := l.next(l.ctx, 0)
		must(l, err)
		if s != saved {
			continue
		}
		l.reads++
		if now, err := os.ReadFile(l.path); err == nil && string(now) == text {
			return
		}
	}
}

func TestSavedOver(t *testing.T) {
	l := newLooker(t)
	put(l, l.path, "second, and longer")
	l.until("second, and longer")
	put(l, l.path, "third")
	l.until("third")
}

// Spreadsheet programs write a new file and give it the old one's name; some
// move the old one away first.
func TestSavedByRename(t *testing.T) {
	l := newLooker(t)
	for i := range 3 {
		text := fmt.Sprintf("save number %d", i)
		put(l, l.path+".tmp", text)
		if i == 2 {
			must(l, os.Rename(l.path, l.path+".bak"))
		}
		must(l, os.Rename(l.path+".tmp", l.path))
		l.until(text)
	}
}

// The last of many fast saves is read, and they are not read one by one.
func TestManySaves(t *testing.T) {
	const saves = 300
	l := newLooker(t)
	before := l.reads
	done := make(chan error, 1)
	go func() {
		var err error
		for i := range saves {
			if err == nil && i%3 == 0 {
				fresh := l.path + ".new"
				err = errors.Join(os.WriteFile(fresh, fmt.Appendf(nil, "save number %d", i), 0o600), os.Rename(fresh, l.path))
			} else if err == nil {
				err = os.WriteFile(l.path, fmt.Appendf(nil, "save number %d", i), 0o600)
			}
		}
		done <- err
	}()
	l.until(fmt.Sprintf("save number %d", saves-1))
	must(l, <-done)
	if reads := l.reads - before; reads >= saves {
		l.Errorf("%d saves were read %d times", saves, reads)
	}
}

func TestWrittenInPieces(t *testing.T) {
	l := newLooker(t)
	f, err := os.Create(l.path)
	must(l, err)
	_, err = f.WriteString("the first half, ")
	must(l, err)
	l.until("the first half, ") // it rested for long enough
	_, err = f.WriteString("and the second")
	must(l, err)
	must(l, f.Close())
	l.until("the first half, and the second")
}

// A file that does not rest is half-saved and is not reported.
func TestHalfSaved(t *testing.T) {
	l := newLooker(t)
	l.quiet = 300 * time.Millisecond
	began := time.Now()
	for i := range 20 {
		put(l, l.path, fmt.Sprint("half", i*i*i))
		time.Sleep(10 * time.Millisecond)
	}
	ended := time.Now()
	l.expect(0, saved)
	if rest := time.Since(ended); rest < 250*time.Millisecond {
		t.Errorf("reported %v after the last change, %v after the first", rest, time.Since(began))
	}
}

// The folder of a drive may come and go with the file.
func TestGoneAndBack(t *testing.T) {
	for _, remove := range []func(*looker) error{
		func(l *looker) error { return os.Remove(l.path) },
		func(l *looker) error { return os.RemoveAll(filepath.Dir(l.path)) },
	} {
		t.Run("", func(t *testing.T) {
			l := newLooker(t)
			must(l, remove(l))
			l.expect(0, gone)
			l.expect(100*time.Millisecond, again) // it is printed once
			must(l, os.MkdirAll(filepath.Dir(l.path), 0o700))
			put(l, l.path, "back again")
			l.until("back again")
		})
	}
}

// Lock files and temporary files of editors are ignored.
func TestOtherFilesDoNotCount(t *testing.T) {
	l := newLooker(t)
	for _, name := range []string{"~$roster.csv", ".~lock.roster.csv#", "roster.csv.tmp", "roster-scored.xlsx"} {
		put(l, filepath.Join(filepath.Dir(l.path), name), "x")
	}
	l.expect(100*time.Millisecond, again)
}

// On a disk with coarse times a second save may look like the first.
func TestSecondSaveThatLooksTheSame(t *testing.T) {
	l := newLooker(t)
	l.coarse = 200 * time.Millisecond
	info, err := os.Stat(l.path)
	must(t, err)
	put(l, l.path, "second")
	l.until("second")
	put(l, l.path, "third!")
	must(l, os.Chtimes(l.path, time.Time{}, info.ModTime()))
	l.until("third!")
	now := l.look()
	put(l, l.path, "fourth")
	must(l, os.Chtimes(l.path, time.Time{}, time.Unix(0, now.changed)))
	l.until("fourth")
	l.expect(500*time.Millisecond, again) // and once only
}

// A file that never rests is read after some time.
func TestNeverAtRest(t *testing.T) {
	l := newLooker(t)
	l.most = 200 * time.Millisecond
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			default:
			}
			if err := os.WriteFile(l.path, make([]byte, i%1000), 0o600); err != nil {
				l.Error(err)
				return
			}
		}
	}()
	l.expect(0, saved)
	close(stop)
	<-stopped
	put(l, l.path, "at last")
	l.until("at last")
}

func TestStops(t *testing.T) {
	l := newLooker(t)
	ctx, stop := context.WithCancel(l.ctx)
	go stop()
	if _, err := l.next(ctx, 0); !errors.Is(err, context.Canceled) {
		l.Errorf("error %v", err)
	}
}

func TestNotThereYet(t *testing.T) {
	f := watch(filepath.Join(t.TempDir(), "roster.csv"), "")
	f.gone = time.Millisecond
	if s, err := f.next(context.Background(), 0); err != nil || s != gone {
		t.Errorf("state %v, %v", s, err)
	}
}

package single

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
)

func TestOneAtATime(t *testing.T) {
	dir := t.TempDir()
	release, err := Take(dir, "roster")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Take(dir, "roster"); !errors.Is(err, errBusy) {
		t.Errorf("a second one got %v", err)
	}
	other, err := Take(dir, "another")
	if err != nil {
		t.Errorf("another roster got %v", err)
	}
	other()
	release()
	again, err := Take(dir, "roster")
	if err != nil {
		t.Fatalf("after the release: %v", err)
	}
	again()
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
}

// Two programs never hold the lock at once.
func TestManyAtOnce(t *testing.T) {
	dir := t.TempDir()
	var inside, together atomic.Int32
	var all sync.WaitGroup
	for range 16 {
		all.Go(func() {
			for taken := 0; taken < 20; {
				release, err := Take(dir, "roster")
				if err != nil {
					runtime.Gosched()
					continue
				}
				taken++
				if inside.Add(1) > 1 {
					together.Add(1)
				}
				runtime.Gosched() // leaves the others time to come in too
				inside.Add(-1)
				release()
			}
		})
	}
	all.Wait()
	if n := together.Load(); n > 0 {
		t.Errorf("%d times two at once", n)
	}
}

// A program that ends without release leaves no lock.
func TestLeftoverFile(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, ".roster.tenback-lock"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	release, err := Take(dir, "roster")
	if err != nil {
		t.Fatal(err)
	}
	release()
}

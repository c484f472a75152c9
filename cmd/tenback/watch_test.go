package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"tenback/cmd/internal/single"
)

// heard collects what a desk prints.
type heard struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (h *heard) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.Write(p)
}

func (h *heard) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.String()
}

func (h *heard) await(t *testing.T, what string) {
	t.Helper()
	for began := time.Now(); !strings.Contains(h.String(), what); time.Sleep(10 * time.Millisecond) {
		if time.Since(began) > awaitMost {
			t.Fatalf("%q was never said:\n%s", what, h)
		}
	}
}

// openDesk runs a desk until close, which returns its status.
func openDesk(t *testing.T, args ...string) (out *heard, closeDesk func() (status int)) {
	out = &heard{}
	ctx, stop := context.WithCancel(context.Background())
	status := make(chan int, 1)
	go func() { status <- run(ctx, append([]string{"tenback", "watch"}, args...), out, out) }()
	t.Cleanup(stop)
	return out, func() int {
		stop()
		return <-status
	}
}

// A desk waits while another program writes the results of the roster.
func TestDeskWaitsForItsTurn(t *testing.T) {
	path := weekOf(t, 3, -1, 0)
	release, err := single.Take(filepath.Dir(path), "week")
	if err != nil {
		t.Fatal(err)
	}
	out, closeDesk := openDesk(t, path)
	out.await(t, "Another tenback is writing results of this roster")
	release()
	out.await(t, "The other tenback is done")
	out.await(t, "Scored 3 of 3 people, nothing to mend")
	if status := closeDesk(); status != 0 {
		t.Errorf("status %d:\n%s", status, out)
	}
}

// If no page can be written the desk says so once, and makes them later.
func TestDeskWithoutAFolderForPages(t *testing.T) {
	path := weekOf(t, 3, -1, 0)
	folder := filepath.Join(filepath.Dir(path), "week-reports")
	out, closeDesk := openDesk(t, path)
	out.await(t, "Scored 3 of 3 people")
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(folder, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	changed, err := os.ReadFile(weekOf(t, 4, -1, 0))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, changed, 0o600); err != nil {
		t.Fatal(err)
	}
	out.await(t, "No pages were made: ")
	if err := os.Remove(folder); err != nil {
		t.Fatal(err)
	}
	out.await(t, "Pages can be made again")
	out.await(t, "Scored: Person 0003")
	out.await(t, "Scored 4 of 4 people")
	if status := closeDesk(); status != 0 {
		t.Errorf("status %d:\n%s", status, out)
	}
	if text := out.String(); strings.Count(text, "No pages were made") != 1 {
		t.Errorf("it was not said once:\n%s", text)
	}
}

// A desk that closes while pages are made says so, and the next run continues.
func TestDeskClosesInTheMiddle(t *testing.T) {
	path := weekOf(t, 100, -1, 0)
	folder := filepath.Join(filepath.Dir(path), "week-reports")
	out, closeDesk := openDesk(t, path)
	for began := time.Now(); ; time.Sleep(time.Millisecond) {
		if pages, _ := filepath.Glob(filepath.Join(folder, "*.pdf")); len(pages) > 0 {
			break
		}
		if time.Since(began) > awaitMost {
			t.Fatalf("no page was made:\n%s", out)
		}
	}
	if status := closeDesk(); status != 0 {
		t.Errorf("status %d", status)
	}
	out.await(t, "Stopped while pages were being made; tenback run makes the rest")
	if left, _ := filepath.Glob(filepath.Join(folder, ".tenback-*.tmp")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	var again bytes.Buffer
	if status := run(context.Background(), []string{"tenback", "run", path}, &again, &again); status != 0 || !strings.Contains(again.String(), " unchanged)") {
		t.Errorf("status %d: %s", status, &again)
	}
}

package safefile

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// Every file of many goroutines is there whole; what cannot be written is told
// to the one who wanted it, and to nobody else; nothing else is left behind.
func TestGroup(t *testing.T) {
	dir := t.TempDir()
	const writers, each = 8, 25
	if err := os.Mkdir(filepath.Join(dir, "3-7"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "0-0"), []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	content := func(name string) string { return strings.Repeat(name+"\n", 400) }
	var group Group
	var wait sync.WaitGroup
	var errs [writers][each]error
	for w := range writers {
		wait.Go(func() {
			for n := range each {
				name := fmt.Sprintf("%d-%d", w, n)
				errs[w][n] = group.WriteBytes(filepath.Join(dir, name), []byte(content(name)))
			}
		})
	}
	wait.Wait()
	for w := range writers {
		for n := range each {
			name := fmt.Sprintf("%d-%d", w, n)
			if name == "3-7" {
				if errs[w][n] == nil {
					t.Error("a folder was written over")
				}
				continue
			}
			if errs[w][n] != nil {
				t.Errorf("%s: %v", name, errs[w][n])
			}
			if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(got) != content(name) {
				t.Errorf("%s: %d bytes, %v", name, len(got), err)
			}
		}
	}
	wantMode(t, filepath.Join(dir, "0-0"), 0o640)
	wantMode(t, filepath.Join(dir, "0-1"), NewFileMode)
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != writers*each {
		t.Errorf("%d names in the folder (%v), want %d", len(entries), err, writers*each)
	}
}

// A link to a file of another folder stays one, and its file is replaced.
func TestGroupThroughALink(t *testing.T) {
	dir, other := t.TempDir(), t.TempDir()
	target := filepath.Join(other, "far")
	if err := os.Symlink(target, filepath.Join(dir, "near")); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	var group Group
	if err := group.WriteBytes(filepath.Join(dir, "near"), []byte("x")); err != nil {
		t.Fatal(err)
	}
	wantFile(t, target, "x")
	if link, err := os.Readlink(filepath.Join(dir, "near")); err != nil || link != target {
		t.Errorf("the link leads to %q, %v", link, err)
	}
}

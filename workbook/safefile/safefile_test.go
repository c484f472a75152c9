package safefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

func put(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

func wantFile(t *testing.T, path, text string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != text {
		t.Errorf("%s holds %q, want %q", filepath.Base(path), got, text)
	}
}

// wantNames checks a folder's whole content, so that a forgotten temporary
// file shows.
func wantNames(t *testing.T, folder string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if len(got) != len(want) {
		t.Fatalf("folder holds %q, want %q", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("folder holds %q, want %q", got, want)
		}
	}
}

func wantMode(t *testing.T, path string, want fs.FileMode) {
	t.Helper()
	if runtime.GOOS == "windows" {
		return // modes there know only write-protected or not
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := info.Mode().Perm(); got != want {
		t.Errorf("%s has mode %v, want %v", filepath.Base(path), got, want)
	}
}

func TestWriteMakesAndReplaces(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	if err := Write(path, put("one")); err != nil {
		t.Fatal(err)
	}
	wantFile(t, path, "one")
	wantMode(t, path, NewFileMode)
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := Write(path, put("two")); err != nil {
		t.Fatal(err)
	}
	wantFile(t, path, "two")
	wantMode(t, path, 0o640)
	wantNames(t, dir, "a.txt")
}

func TestFailedWriteLeavesTheOldFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	if err := Write(path, put("old")); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("no more paper")
	err := Write(path, func(w io.Writer) error {
		_, err := io.WriteString(w, "half of the ne")
		return errors.Join(err, broken)
	})
	if !errors.Is(err, broken) {
		t.Errorf("error is %v, want the writer's own", err)
	}
	wantFile(t, path, "old")
	wantNames(t, dir, "a.txt")
}

func TestSymlinksStay(t *testing.T) {
	dir := t.TempDir()
	real := filepath.Join(dir, "real")
	if err := os.Mkdir(real, 0o700); err != nil {
		t.Fatal(err)
	}
	target := filepath.Join(real, "roster.xlsx")
	if err := Write(target, put("old")); err != nil {
		t.Fatal(err)
	}
	link, chain, dangling := filepath.Join(dir, "link"), filepath.Join(dir, "chain"), filepath.Join(dir, "dangling")
	for name, to := range map[string]string{link: filepath.Join("real", "roster.xlsx"), chain: "link", dangling: filepath.Join("real", "new.xlsx")} {
		if err := os.Symlink(to, name); err != nil {
			t.Skipf("no symbolic links here: %v", err)
		}
	}
	for _, c := range []struct{ path, lands string }{
		{link, target}, {chain, target}, {dangling, filepath.Join(real, "new.xlsx")},
	} {
		if err := Write(c.path, put(c.path)); err != nil {
			t.Fatal(err)
		}
		wantFile(t, c.lands, c.path)
		if info, err := os.Lstat(c.path); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is no link any more", c.path)
		}
	}
	wantNames(t, real, "new.xlsx", "roster.xlsx")

	circle := filepath.Join(dir, "circle")
	if err := os.Symlink("circle", circle); err != nil {
		t.Fatal(err)
	}
	if err := Write(circle, put("")); err == nil {
		t.Error("a link to itself was written to")
	}
}

func TestRefusedTargets(t *testing.T) {
	dir := t.TempDir()
	folder := filepath.Join(dir, "folder")
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	protected := filepath.Join(dir, "protected.txt")
	if err := os.WriteFile(protected, []byte("keep"), 0o400); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{folder, protected, filepath.Join(dir, "missing", "a.txt")} {
		if err := Write(path, put("x")); err == nil {
			t.Errorf("%s was written to", path)
		}
	}
	wantFile(t, protected, "keep")
	wantNames(t, dir, "folder", "protected.txt")
}

func TestWriteNewNeverReplaces(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	if err := WriteNew(path, put("first")); err != nil {
		t.Fatal(err)
	}
	if err := WriteNew(path, put("second")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("error is %v, want fs.ErrExist", err)
	}
	late := filepath.Join(dir, "b.txt")
	err := WriteNew(late, func(w io.Writer) error { // someone else is faster
		return os.WriteFile(late, []byte("theirs"), 0o600)
	})
	if !errors.Is(err, fs.ErrExist) {
		t.Errorf("error is %v, want fs.ErrExist", err)
	}
	wantFile(t, path, "first")
	wantFile(t, late, "theirs")
	wantNames(t, dir, "a.txt", "b.txt")
}

func TestCommitOnce(t *testing.T) {
	dir := t.TempDir()
	p, err := Create(filepath.Join(dir, "a.txt"))
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Commit(); err != nil {
		t.Fatal(err)
	}
	p.Discard()
	if err := p.Commit(); !errors.Is(err, fs.ErrClosed) {
		t.Errorf("second commit: %v, want fs.ErrClosed", err)
	}
	wantNames(t, dir, "a.txt")
}

func TestBackup(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "Class 8B.v2.xlsx")
	if err := Write(path, put("roster")); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 11, 25, 14, 12, 59, 0, time.UTC)
	names := []string{"Class 8B.v2 (backup 2026-11-25 1412).xlsx", "Class 8B.v2 (backup 2026-11-25 1412, 2).xlsx"}
	for _, name := range names {
		copied, err := Backup(path, now)
		if err != nil {
			t.Fatal(err)
		}
		if filepath.Base(copied) != name {
			t.Errorf("backup is %q, want %q", filepath.Base(copied), name)
		}
		wantFile(t, copied, "roster")
		wantMode(t, copied, 0o640)
	}
	wantNames(t, dir, names[0], names[1], "Class 8B.v2.xlsx")
	if _, err := Backup(filepath.Join(dir, "missing.xlsx"), now); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("backup of nothing: %v, want fs.ErrNotExist", err)
	}
}

// What was left behind goes, also where the clock was set back or ahead since;
// what may still be written stays, and so does what is not ours.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	now := time.Now()
	for name, at := range map[string]time.Time{
		".tenback-old.tmp":       now.Add(-25 * time.Hour),
		".tenback-first.tmp":     time.Unix(0, 0),
		".tenback-tomorrow.tmp":  now.Add(25 * time.Hour),
		".tenback-far.tmp":       time.Date(2099, 1, 1, 0, 0, 0, 0, time.UTC),
		".tenback-written.tmp":   now,
		".tenback-elsewhere.tmp": now.Add(time.Hour), // on the disk of a computer whose clock is ahead
		"own.tmp":                time.Unix(0, 0),
		".tenback-secret":        time.Unix(0, 0),
	} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, ".tenback-folder.tmp"), 0o700); err != nil {
		t.Fatal(err)
	}
	Sweep(dir, 24*time.Hour)
	wantNames(t, dir, ".tenback-elsewhere.tmp", ".tenback-folder.tmp", ".tenback-secret", ".tenback-written.tmp", "own.tmp")
	Sweep(dir, 0)
	wantNames(t, dir, ".tenback-folder.tmp", ".tenback-secret", "own.tmp")
}

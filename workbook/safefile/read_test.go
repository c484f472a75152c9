package safefile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

func TestReadPlain(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "file")
	if err := os.WriteFile(path, []byte("12345"), 0o600); err != nil {
		t.Fatal(err)
	}
	huge := filepath.Join(dir, "huge")
	if err := os.WriteFile(huge, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(huge, 1<<40); err != nil { // takes no room on the disk
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, path string
		most       int64
		text       string
		err        error
	}{
		{"shorter", path, 6, "12345", nil},
		{"as long as may be", path, 5, "12345", nil},
		{"longer", path, 4, "", ErrTooLarge},
		{"larger than any memory", huge, 5, "", ErrTooLarge},
		{"a folder", dir, 5, "", ErrNotPlain},
		{"none", filepath.Join(dir, "none"), 5, "", fs.ErrNotExist},
	} {
		if got, err := ReadPlain(c.path, c.most); !errors.Is(err, c.err) || string(got) != c.text {
			t.Errorf("%s: %q, %v", c.name, got, err)
		}
	}
}

package personkey

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook"
)

func row(id, name, born string) *workbook.Row {
	r := &workbook.Row{Person: workbook.Person{ID: id, Name: name}}
	if born != "" {
		r.Entry.Born, _ = time.Parse(time.DateOnly, born)
	}
	return r
}

func made(t *testing.T, folder string) Secret {
	t.Helper()
	s, err := LoadOrMake(folder)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The key depends on the identity of the person only.
func TestOf(t *testing.T) {
	s := made(t, t.TempDir())
	same := row("7", "Zoë Fell", "2013-10-02")
	key := s.Of(same)
	if !regexp.MustCompile(`^[0-9a-f]{32}$`).MatchString(string(key)) {
		t.Errorf("key %q", key)
	}
	scored := row("7", " Zoe\u0308  Fell", "2013-10-02") // decomposed, with more space
	scored.Number, scored.Sheet = 12, "Elsewhere"
	scored.Entry.Set(scoring.BodyMass, scoring.Q(41, scoring.Kilograms), "C3")
	if got := s.Of(scored); got != key {
		t.Errorf("the same person has another key in another place: %s, %s", got, key)
	}
	seen := map[Key]string{key: "the first"}
	for name, other := range map[string]*workbook.Row{
		"another ID":            row("8", "Zoë Fell", "2013-10-02"),
		"another name":          row("7", "Zoë Bell", "2013-10-02"),
		"another date of birth": row("7", "Zoë Fell", "2013-10-03"),
		"no ID":                 row("", "Zoë Fell", "2013-10-02"),
		"no date of birth":      row("7", "Zoë Fell", ""),
		"ID runs into the name": row("7Z", "oë Fell", "2013-10-02"),
	} {
		got := s.Of(other)
		if seen[got] != "" {
			t.Errorf("%s has the key of %s", name, seen[got])
		}
		seen[got] = name
	}
	if made(t, t.TempDir()).Of(same) == key {
		t.Error("two folders give the same key, so that it can be found by trying")
	}
}

func TestSecretStays(t *testing.T) {
	folder := t.TempDir()
	if _, err := Load(folder); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("error %v, want fs.ErrNotExist", err)
	}
	first := made(t, folder)
	path := filepath.Join(folder, SecretFile)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("others can read the secret: %v", info.Mode())
	}
	who := row("7", "Zoë Fell", "")
	if made(t, folder).Of(who) != first.Of(who) {
		t.Error("the second run gives another key")
	}
	for _, damaged := range []string{"", "not hex", "abcd"} {
		if err := os.WriteFile(path, []byte(damaged), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := LoadOrMake(folder); err == nil {
			t.Errorf("the damaged secret %q was taken or replaced", damaged)
		}
	}
}

// FuzzLoad: any file is a secret or an error, and a secret is never replaced.
func FuzzLoad(f *testing.F) {
	f.Add(strings.Repeat("0f", secretBytes) + "\n")
	f.Add(strings.Repeat("0F", secretBytes))
	f.Add(strings.Repeat("00", secretBytes+1))
	f.Add("not hex")
	f.Fuzz(func(t *testing.T, text string) {
		folder := t.TempDir()
		path := filepath.Join(folder, SecretFile)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := LoadOrMake(folder)
		if (err == nil) != (len(s.bytes) == secretBytes) {
			t.Errorf("%d bytes, %v", len(s.bytes), err)
		}
		if after, err := os.ReadFile(path); err != nil || string(after) != text {
			t.Errorf("%q became %q, %v", text, after, err)
		}
	})
}

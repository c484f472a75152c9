package mail

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"tenback/cmd/internal/personkey"
)

// A person's password stays the same while others come and go. Only the owner can
// read the list.
func TestPasswords(t *testing.T) {
	path := filepath.Join(t.TempDir(), "passwords.txt")
	open := func() *Passwords {
		l, err := OpenPasswords(path)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	l := open()
	first, err := l.Of("a", "=Ida\tCalloway\n", "Ida.pdf")
	if err != nil {
		t.Fatal(err)
	}
	second, err := l.Of("b", "Ben", "Ben.pdf")
	if err != nil || first == second {
		t.Fatalf("%q for both, %v", first, err)
	}
	if err := l.Save(); err != nil {
		t.Fatal(err)
	}
	l = open()
	for person, want := range map[personkey.Key]string{"a": first, "b": second} {
		if got, err := l.Of(person, "x", "x"); err != nil || got != want {
			t.Errorf("%s has %q, %v", person, got, err)
		}
	}
	if got := l.Lines(); len(got) != 2 || got[0].Name != "=Ida Calloway" || got[0].Page != "Ida.pdf" || got[0].Person != "a" {
		t.Errorf("%+v", got)
	}
	l.Forget("a")
	if l.Has("a") || !l.Has("b") {
		t.Error("the wrong one was forgotten")
	}
	if err := l.Save(); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil || strings.Contains(string(text), first) || !strings.Contains(string(text), second) {
		t.Errorf("%s, %v", text, err)
	}
	if info, err := os.Stat(path); runtime.GOOS != "windows" && (err != nil || info.Mode().Perm() != 0o600) {
		t.Errorf("%v, %v", info.Mode(), err)
	}
}

// A damaged list is an error, because new passwords would not match the slips.
func TestDamagedPasswords(t *testing.T) {
	for name, text := range map[string]string{
		"another file":   "Name,Result\n",
		"a line too few": passwordsHeader + "\naaaa-bbbb-cccc\tIda\tIda.pdf\n",
		"no password":    passwordsHeader + "\n\tIda\tIda.pdf\ta\n",
		"nobody":         passwordsHeader + "\naaaa-bbbb-cccc\tIda\tIda.pdf\t\n",
		"a long line":    passwordsHeader + "\n" + strings.Repeat("x", 1<<20) + "\n",
	} {
		path := filepath.Join(t.TempDir(), "passwords.txt")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := OpenPasswords(path); err == nil || !strings.Contains(err.Error(), "damaged in line") || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// FuzzOpenPasswords: any file opens as a list or with an error, and a list is the
// same after Save.
func FuzzOpenPasswords(f *testing.F) {
	f.Add(passwordsHeader + "\naaaa-bbbb-cccc\tIda Calloway\tIda Calloway.pdf\ta\n")
	f.Add(passwordsHeader + "\r\naaaa-bbbb-cccc\tIda\t\ta\r\n")
	f.Add(passwordsHeader + "\n\tIda\tIda.pdf\ta")
	f.Fuzz(func(t *testing.T, text string) {
		path := filepath.Join(t.TempDir(), "passwords.txt")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		l, err := OpenPasswords(path)
		if err != nil {
			return
		}
		before := l.Lines()
		if err := l.Save(); err != nil {
			t.Fatal(err)
		}
		again, err := OpenPasswords(path)
		if err != nil || !slices.Equal(again.Lines(), before) {
			t.Fatalf("%q was saved and is %q, %v", before, again, err)
		}
	})
}

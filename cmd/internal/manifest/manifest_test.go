package manifest

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
)

func open(t *testing.T, folder string) *Account {
	t.Helper()
	a, doubt := Open(folder)
	if doubt != nil {
		t.Fatal(doubt)
	}
	return a
}

func write(t *testing.T, a *Account, file, content string, from Digest) {
	t.Helper()
	if err := a.Write(Page{File: file, Person: "key of " + file, MadeFrom: from, Program: "tenback 1"}, []byte(content)); err != nil {
		t.Fatal(err)
	}
}

func save(t *testing.T, a *Account) {
	t.Helper()
	if err := a.Save(); err != nil {
		t.Fatal(err)
	}
}

func staleNames(a *Account, wanted ...string) []string {
	set := map[string]bool{}
	for _, w := range wanted {
		set[w] = true
	}
	names := []string{}
	for _, p := range a.Stale(set) {
		names = append(names, p.File)
	}
	return names
}

// A page is current while it was made from the same and is as it was written.
func TestCurrent(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	write(t, a, "Ida.pdf", "a page", Digest{1})
	save(t, a)
	path := filepath.Join(folder, "Ida.pdf")
	for _, c := range []struct {
		name   string
		change func() error
		from   Digest
		want   bool
	}{
		{"as it was", func() error { return nil }, Digest{1}, true},
		{"made from something else", func() error { return nil }, Digest{2}, false},
		{"altered", func() error { return os.WriteFile(path, []byte("a pAge"), 0o600) }, Digest{1}, false},
		{"longer", func() error { return os.WriteFile(path, []byte("a page and more"), 0o600) }, Digest{1}, false},
		{"shorter", func() error { return os.WriteFile(path, []byte("a pa"), 0o600) }, Digest{1}, false},
		{"put back", func() error { return os.WriteFile(path, []byte("a page"), 0o600) }, Digest{1}, true},
		{"missing", func() error { return os.Remove(path) }, Digest{1}, false},
		{"a folder", func() error { return os.Mkdir(path, 0o700) }, Digest{1}, false},
	} {
		if err := c.change(); err != nil {
			t.Fatal(err)
		}
		if got := open(t, folder).Current("Ida.pdf", c.from); got != c.want {
			t.Errorf("%s: current is %v", c.name, got)
		}
	}
	if open(t, folder).Current("Wren.pdf", Digest{}) {
		t.Error("a page that was never made is current")
	}
}

// A run that was killed after a page and before the account was saved costs
// work, and never a wrong page.
func TestKilledBeforeSaving(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	write(t, a, "Ida.pdf", "the first", Digest{1})
	save(t, a)
	write(t, a, "Ida.pdf", "the second", Digest{2})
	again := open(t, folder) // of the account that was saved
	if again.Current("Ida.pdf", Digest{1}) || again.Current("Ida.pdf", Digest{2}) {
		t.Error("a page of which there is no account is current")
	}
}

func TestStale(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	for _, name := range []string{"Wren.pdf", "Ida.pdf", "Bo.pdf"} {
		write(t, a, name, name, Digest{})
	}
	theirs := filepath.Join(folder, "Theirs.pdf")
	if err := os.WriteFile(theirs, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if got := staleNames(a, "Ida.pdf", "New.pdf"); !slices.Equal(got, []string{"Bo.pdf", "Wren.pdf"}) {
		t.Errorf("stale are %q", got)
	}
	save(t, a)
	if got := staleNames(open(t, folder), "Ida.pdf"); !slices.Equal(got, []string{"Bo.pdf", "Wren.pdf"}) {
		t.Errorf("the next time stale are %q", got)
	}
	if err := os.Remove(filepath.Join(folder, "Bo.pdf")); err != nil {
		t.Fatal(err)
	}
	if got := staleNames(open(t, folder), "Ida.pdf"); !slices.Equal(got, []string{"Wren.pdf"}) {
		t.Errorf("after one was deleted stale are %q", got)
	}
	for _, name := range []string{"Wren.pdf", "Theirs.pdf"} {
		if _, err := os.Stat(filepath.Join(folder, name)); err != nil {
			t.Errorf("a file was removed: %v", err)
		}
	}
}

// On a disk that does not tell capitals apart a page whose name was only
// written otherwise is not stale. A hard link stands for such a disk.
func TestStaleWithoutCapitals(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	write(t, a, "ida.pdf", "a page", Digest{})
	if err := os.Link(filepath.Join(folder, "ida.pdf"), filepath.Join(folder, "Ida.pdf")); err != nil {
		if _, there := os.Stat(filepath.Join(folder, "Ida.pdf")); there != nil {
			t.Fatal(err)
		}
	}
	if got := staleNames(a, "Ida.pdf"); len(got) > 0 {
		t.Errorf("stale are %q", got)
	}
}

func TestForget(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	write(t, a, "Ida.pdf", "a page", Digest{1})
	write(t, a, "Wren.pdf", "a page", Digest{1})
	save(t, a)
	if err := Forget(folder, []string{"Ida.pdf", "Nobody.pdf"}); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(folder, fileName))
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(text), "Ida") {
		t.Error("the account still names the person")
	}
	if now := open(t, folder); now.Current("Ida.pdf", Digest{1}) || !now.Current("Wren.pdf", Digest{1}) {
		t.Error("the wrong page was forgotten")
	}
	if _, err := os.Stat(filepath.Join(folder, "Ida.pdf")); err != nil {
		t.Errorf("the page itself is gone: %v", err)
	}
	empty := t.TempDir()
	if err := Forget(empty, []string{"Ida.pdf"}); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(filepath.Join(empty, fileName)); err == nil {
		t.Error("an account was made where there was none")
	}
}

// An account that cannot be used is said to be so, counts for nothing, and is
// replaced.
func TestDamagedAccount(t *testing.T) {
	good := func(pages ...Page) string {
		text, err := json.Marshal(document{Format: format, Pages: pages})
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	ida := Page{File: "Ida.pdf", MadeFrom: Digest{1}}
	for name, text := range map[string]string{
		"empty":                 "",
		"cut short":             good(ida)[:40],
		"something after it":    good(ida) + "{}",
		"not ours":              `{"name": "a package", "version": "1"}`,
		"a list":                "[1,2,3]",
		"of a later version":    strings.Replace(good(ida), `"format":1`, `"format":2`, 1),
		"a short sum":           strings.Replace(good(ida), "00", "0", 1),
		"a sum that is none":    strings.Replace(good(ida), "00", "xx", 1),
		"a page elsewhere":      good(Page{File: "../Ida.pdf"}),
		"a page on a drive":     good(Page{File: `c:Ida.pdf`}),
		"a page behind a slash": good(Page{File: `sub\Ida.pdf`}),
		"not a page":            good(Page{File: "roster.xlsx"}),
		"a page twice":          good(ida, ida),
	} {
		folder := t.TempDir()
		path := filepath.Join(folder, fileName)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		a, doubt := Open(folder)
		if doubt == nil || !strings.Contains(doubt.Error(), path) || !strings.Contains(doubt.Error(), "anew") {
			t.Errorf("%s: doubt %v", name, doubt)
			continue
		}
		if a.Current("Ida.pdf", Digest{1}) || len(staleNames(a)) > 0 {
			t.Errorf("%s: it was used", name)
		}
		write(t, a, "Ida.pdf", "a page", Digest{1})
		save(t, a)
		if !open(t, folder).Current("Ida.pdf", Digest{1}) {
			t.Errorf("%s: it was not replaced", name)
		}
	}
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, fileName), 0o700); err != nil {
		t.Fatal(err)
	}
	if _, doubt := Open(folder); doubt == nil {
		t.Error("a folder was taken for an account")
	}
}

// Bad names never reach the disk.
func TestWriteRefuses(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	for _, name := range []string{"", "..", "../Ida.pdf", "sub/Ida.pdf", `sub\Ida.pdf`, "Ida.txt", "C:Ida.pdf"} {
		if err := a.Write(Page{File: name}, nil); err == nil {
			t.Errorf("%q was written", name)
		}
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) > 0 {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}

// Nothing is written where nothing changed; what is written is for its owner.
func TestSave(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	save(t, a)
	path := filepath.Join(folder, fileName)
	if _, err := os.Stat(path); err == nil {
		t.Error("an empty account was written")
	}
	write(t, a, "Ida.pdf", "a page", Digest{1})
	save(t, a)
	before, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && before.Mode().Perm() != 0o600 {
		t.Errorf("others can read it: %v", before.Mode())
	}
	save(t, open(t, folder))
	if after, err := os.Stat(path); err != nil || !os.SameFile(before, after) {
		t.Error("an account that did not change was written again")
	}
}

// Pages are made by several workers at once.
func TestManyWriters(t *testing.T) {
	folder := t.TempDir()
	a := open(t, folder)
	var wait sync.WaitGroup
	for w := range 8 {
		wait.Go(func() {
			for i := range 10 {
				name := fmt.Sprintf("%d-%d.pdf", w, i)
				if err := a.Write(Page{File: name, MadeFrom: Digest{byte(w)}}, []byte(name)); err != nil {
					t.Error(err)
				}
				if !a.Current(name, Digest{byte(w)}) {
					t.Errorf("%s is not current", name)
				}
			}
		})
	}
	wait.Wait()
	save(t, a)
	if got := len(staleNames(open(t, folder))); got != 80 {
		t.Errorf("%d pages", got)
	}
}

// FuzzOpen: whatever stands in the file, opening gives an account, and one that
// was read without doubt is the same after it was saved.
func FuzzOpen(f *testing.F) {
	sum := Digest{1}.String()
	page := func(name string) string {
		return fmt.Sprintf(`{"format":1,"pages":[{"file":%q,"person":"a","made_from":%q,"program":"tenback","sha256":%q,"bytes":7}]}`, name, sum, sum)
	}
	for _, text := range []string{page("Ida.pdf"), page("../Ida.pdf"), page("Ida.pdf")[:40], "null", "[]", `{"format":1,"pages":null}`} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		folder := t.TempDir()
		if err := os.WriteFile(filepath.Join(folder, fileName), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		a, doubt := Open(folder)
		for name := range a.pages {
			if filepath.Dir(filepath.Join(folder, name)) != folder {
				t.Errorf("%q is taken for a page of the folder", name)
			}
		}
		if doubt != nil && len(a.pages) > 0 {
			t.Errorf("in doubt, and used all the same: %v", doubt)
		}
		a.dirty = true
		save(t, a)
		if again := open(t, folder); !maps.Equal(again.pages, a.pages) {
			t.Errorf("saved %v, read %v", a.pages, again.pages)
		}
	})
}

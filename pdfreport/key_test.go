package pdfreport

import (
	"bytes"
	"errors"
	"testing"
)

func TestKeyIsReadBack(t *testing.T) {
	const key = "00ff17c0ffee"
	for _, tt := range []struct {
		name, key, person string
		want              string
	}{
		{"as written", key, "Ida Calloway", key},
		{"a name that looks like a key", key, "x)\n/Keywords (tenback person abcd)\n", key},
		{"none", "", "Ida Calloway", ""},
		{"none, and a name that looks like one", "", "x)\n/Keywords (tenback person abcd)\n", ""},
	} {
		p := short(t)
		p.Key, p.Name = tt.key, tt.person
		p.Brand = &Brand{Organisation: tt.person, Contact: tt.person}
		var page bytes.Buffer
		if _, err := WritePerson(&page, p); err != nil {
			t.Fatal(err)
		}
		got, err := ReadKey(page.Bytes())
		if got != tt.want || (err == nil) != (tt.want != "") {
			t.Errorf("%s: key %q, error %v", tt.name, got, err)
		}
	}
	twice := []byte("/Keywords (tenback person ab)\n/Keywords (tenback person cd)\n")
	if _, err := ReadKey(twice); !errors.Is(err, ErrNoKey) {
		t.Errorf("two keys: error %v", err)
	}
}

func TestKeyIsDigits(t *testing.T) {
	p := short(t)
	p.Key = "Ida Calloway"
	if _, err := WritePerson(&bytes.Buffer{}, p); err == nil {
		t.Error("a name was taken for a key")
	}
}

// FuzzReadKey: what is read is a key, and only where the file names one.
func FuzzReadKey(f *testing.F) {
	for _, file := range []string{"/Keywords (tenback person 00ff)\n", "/Keywords (tenback person ab)\n/Keywords (tenback person cd)\n",
		"/Keywords (tenback person )\n", "x /Keywords (tenback person ab)\n", "/Keywords (tenback person ab) /Author (x)\n", "%PDF-1.3\n"} {
		f.Add([]byte(file))
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		key, err := ReadKey(file)
		if (key == "") != (err != nil) || checkKey(key) != nil {
			t.Fatalf("key %q, error %v", key, err)
		}
		if line := []byte("/Keywords (" + keyMark + key + ")"); err == nil && bytes.Count(file, line) != 1 {
			t.Errorf("key %q, which the file does not name once", key)
		}
	})
}

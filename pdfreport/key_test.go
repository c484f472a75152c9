package pdfreport_test

import (
	"bytes"
	"errors"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
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
		p.Brand = &kit.Brand{Organisation: tt.person, Contact: tt.person}
		var page bytes.Buffer
		if _, err := person.Write(&page, p); err != nil {
			t.Fatal(err)
		}
		got, err := kit.ReadKey(page.Bytes())
		if got != tt.want || (err == nil) != (tt.want != "") {
			t.Errorf("%s: key %q, error %v", tt.name, got, err)
		}
	}
	twice := []byte("/Keywords (tenback person ab)\n/Keywords (tenback person cd)\n")
	if _, err := kit.ReadKey(twice); !errors.Is(err, kit.ErrNoKey) {
		t.Errorf("two keys: error %v", err)
	}
}

func TestKeyIsDigits(t *testing.T) {
	p := short(t)
	p.Key = "Ida Calloway"
	if _, err := person.Write(&bytes.Buffer{}, p); err == nil {
		t.Error("a name was taken for a key")
	}
}

package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"io"
	"io/fs"
	"testing"
)

// Everything in the program may be handed on, and the list says on what terms.
// A module with a licence of a new kind fails here until someone has read it.
func TestThirdParty(t *testing.T) {
	list, err := thirdParty(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"github.com/xuri/excelize/v2", "codeberg.org/go-pdf/fpdf", "The Go standard library", "Redistribution and use"} {
		if !bytes.Contains(list, []byte(want)) {
			t.Errorf("the list lacks %s", want)
		}
	}
}

func TestUnknownLicence(t *testing.T) {
	if kind, ok := kindOf("All rights reserved."); ok {
		t.Errorf("taken for %s", kind)
	}
}

var packing = []file{{"tenback", []byte("\x7fELF"), true}, {"completions/tenback.fish", []byte("complete"), false}}

// An archive is the same whenever it is packed, and unpacks to what went in.
func TestPack(t *testing.T) {
	for _, p := range platforms {
		first, err := pack(p, "tenback-1", packing)
		if err != nil {
			t.Fatal(err)
		}
		second, err := pack(p, "tenback-1", packing)
		if err != nil || !bytes.Equal(first, second) {
			t.Errorf("%v: packed twice and not the same (%v)", p, err)
		}
		unpack := untar
		if p.system == "windows" {
			unpack = unzip
		}
		got, err := unpack(first)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range packing {
			if back := got["tenback-1/"+f.name]; string(back.data) != string(f.data) || back.executable != f.executable {
				t.Errorf("%v: %s came back as %+v", p, f.name, back)
			}
		}
	}
}

func untar(data []byte) (map[string]file, error) {
	zipped, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	all := map[string]file{}
	for r := tar.NewReader(zipped); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return all, nil
		} else if err != nil {
			return nil, err
		}
		body, err := io.ReadAll(r)
		if err != nil {
			return nil, err
		}
		all[h.Name] = file{h.Name, body, h.FileInfo().Mode()&0o111 != 0}
	}
}

func unzip(data []byte) (map[string]file, error) {
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	all := map[string]file{}
	for _, f := range r.File {
		body, err := fs.ReadFile(r, f.Name)
		if err != nil {
			return nil, err
		}
		all[f.Name] = file{f.Name, body, f.Mode()&0o111 != 0}
	}
	return all, nil
}

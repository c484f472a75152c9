package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"testing"
	"testing/fstest"
)

// Everything in the program may be passed on, and the list says on what terms.
// A module with a licence of a new kind fails here until someone has read it.
func TestThirdParty(t *testing.T) {
	list, err := thirdParty(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"github.com/xuri/excelize/v2", "codeberg.org/go-pdf/fpdf", "The Go standard library", "Redistribution and use", "pkcs7/LICENSE"} {
		if !bytes.Contains(list, []byte(want)) {
			t.Errorf("the list lacks %s", want)
		}
	}
}

func TestUnknownLicence(t *testing.T) {
	if kinds := kindsOf("All rights reserved."); kinds != nil {
		t.Errorf("taken for %s", kinds)
	}
}

// An archive is the same whenever it is packed, and unpacks to what went in.
func TestPack(t *testing.T) {
	files := fstest.MapFS{"tenback-1/tenback": file([]byte("\x7fELF"), 0o755), "tenback-1/completions/tenback.fish": file([]byte("complete"), 0o644)}
	for name, pack := range map[string]func(fstest.MapFS) ([]byte, error){"zip": zipOf, "tar": tarOf} {
		first, err := pack(files)
		if err != nil {
			t.Fatal(err)
		}
		if second, err := pack(files); err != nil || !bytes.Equal(first, second) {
			t.Errorf("%s: packed twice and not the same (%v)", name, err)
		}
	}
	packed, err := tarOf(files)
	if err != nil {
		t.Fatal(err)
	}
	zipped, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for r := tar.NewReader(zipped); ; {
		h, err := r.Next()
		if err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if f := files[h.Name]; f != nil {
			if found++; err != nil || !bytes.Equal(data, f.Data) || h.FileInfo().Mode().Perm() != f.Mode {
				t.Errorf("%s came back as %q, %v, %v", h.Name, data, h.FileInfo().Mode(), err)
			}
		}
	}
	if found != len(files) {
		t.Errorf("%d of %d files came back", found, len(files))
	}
	packed, err = zipOf(files)
	if err != nil {
		t.Fatal(err)
	}
	book, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		t.Fatal(err)
	}
	if err := fstest.TestFS(book, "tenback-1/tenback", "tenback-1/completions/tenback.fish"); err != nil {
		t.Error(err)
	}
}

package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io/fs"
	"testing/fstest"
	"time"
)

// file returns a file or folder of an archive. All bear the same time, so that the archive
// does not depend on when it is made.
func file(data []byte, mode fs.FileMode) *fstest.MapFile {
	return &fstest.MapFile{Data: data, Mode: mode, ModTime: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
}

func zipOf(files fstest.MapFS) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	if err := w.AddFS(files); err != nil {
		return nil, err
	}
	err := w.Close()
	return out.Bytes(), err
}

func tarOf(files fstest.MapFS) ([]byte, error) {
	var out bytes.Buffer
	zipped := gzip.NewWriter(&out)
	w := tar.NewWriter(zipped)
	if err := w.AddFS(files); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	err := zipped.Close()
	return out.Bytes(), err
}

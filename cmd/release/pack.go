package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io/fs"
	"path"
	"time"
)

// packed is the time that all files in an archive bear: one that every system
// can show, and the same whenever the archive is made.
var packed = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

// pack puts files into an archive of the kind that the system is used to, all
// in one folder.
func pack(p platform, folder string, files []file) ([]byte, error) {
	if p.system == "windows" {
		return packZip(folder, files)
	}
	return packTar(folder, files)
}

func (f file) mode() fs.FileMode {
	if f.executable {
		return 0o755
	}
	return 0o644
}

func packZip(folder string, files []file) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range files {
		h := &zip.FileHeader{Name: path.Join(folder, f.name), Method: zip.Deflate, Modified: packed}
		h.SetMode(f.mode())
		into, err := w.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := into.Write(f.data); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return out.Bytes(), err
}

func packTar(folder string, files []file) ([]byte, error) {
	var out bytes.Buffer
	zipped := gzip.NewWriter(&out)
	w := tar.NewWriter(zipped)
	for _, f := range files {
		h := &tar.Header{Name: path.Join(folder, f.name), Mode: int64(f.mode()), Size: int64(len(f.data)), ModTime: packed, Format: tar.FormatPAX}
		if err := w.WriteHeader(h); err != nil {
			return nil, err
		}
		if _, err := w.Write(f.data); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	err := zipped.Close()
	return out.Bytes(), err
}

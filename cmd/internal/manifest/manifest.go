// Package manifest keeps account of the pages in a folder of reports, so that
// what is there already is not made again.
//
// The account says of every page that was made in the folder whose it is, a
// sum over all it was made from, and a sum over the file. A page is current
// only if both sums hold: one that somebody altered, or half of which a crash
// left, is made again. So the account saves work and is never what a page's
// rightness hangs on: where it is lost, damaged or late, pages are made anew.
package manifest

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"tenback/cmd/internal/filename"
	"tenback/workbook/safefile"
)

// fileName is the name of the account's file in the folder of the pages. No page
// has it, for their names end in .pdf.
const fileName = "tenback-pages.json"

const (
	// format is the version of the file's form; another one is not read.
	format = 1
	// maxBytes bounds the file: far more than the most people in a roster need.
	maxBytes = 64 << 20
)

// Page is what is known of one page.
type Page struct {
	File     string `json:"file"`      // its name in the folder
	Person   string `json:"person"`    // the key of whose it is
	MadeFrom Digest `json:"made_from"` // all that went into it
	Program  string `json:"program"`   // name and version
	Sum      Digest `json:"sha256"`    // of the file
	Bytes    int64  `json:"bytes"`     // of the file
}

// document is the form of the file.
type document struct {
	Format int    `json:"format"`
	Pages  []Page `json:"pages"`
}

// MarshalText writes a digest for JSON.
func (d Digest) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Digest) UnmarshalText(text []byte) error {
	if len(text) != 2*len(d) {
		return errors.New("a sum has another length")
	}
	_, err := hex.Decode(d[:], text)
	return err
}

// Account is the account of one folder. It is safe for use by several
// goroutines at once.
type Account struct {
	folder string
	mu     sync.Mutex
	pages  map[string]Page // by File
	dirty  bool            // differs from the file
	files  safefile.Group
}

// Open reads the account of a folder, which need not be there. If the file
// cannot be used the account is empty and doubt, a sentence, says why.
func Open(folder string) (a *Account, doubt error) {
	a = &Account{folder: folder, pages: map[string]Page{}}
	pages, err := read(filepath.Join(folder, fileName))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return a, nil
	case err != nil:
		a.dirty = true
		return a, fmt.Errorf("%s cannot be used (%w), so every page is made anew", filepath.Join(folder, fileName), err)
	}
	for _, p := range pages {
		a.pages[p.File] = p
	}
	return a, nil
}

// read reads and checks the file.
func read(path string) ([]Page, error) {
	data, err := safefile.ReadPlain(path, maxBytes)
	if err != nil {
		return nil, err
	}
	var d document
	in := json.NewDecoder(bytes.NewReader(data))
	in.DisallowUnknownFields()
	if err := in.Decode(&d); err != nil {
		return nil, errors.New("it is damaged or not of this program")
	}
	if _, err := in.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("it is damaged: something stands after its end")
	}
	if d.Format != format {
		return nil, fmt.Errorf("its form is number %d, and this program knows number %d", d.Format, format)
	}
	seen := map[string]bool{}
	for _, p := range d.Pages {
		if !isPageName(p.File) || seen[p.File] {
			return nil, fmt.Errorf("it is damaged: it names %q", p.File)
		}
		seen[p.File] = true
	}
	return d.Pages, nil
}

// isPageName tells whether a name is that of a page in the folder itself.
func isPageName(name string) bool { return filename.IsPlain(name) && strings.HasSuffix(name, ".pdf") }

// Current tells whether the page of that name was made from the same and lies
// in the folder as it was written.
func (a *Account) Current(file string, from Digest) bool {
	a.mu.Lock()
	p, known := a.pages[file]
	a.mu.Unlock()
	if !known || p.MadeFrom != from {
		return false
	}
	data, err := safefile.ReadPlain(filepath.Join(a.folder, file), p.Bytes)
	return err == nil && sha256.Sum256(data) == p.Sum
}

// Write writes a page's file and takes it into account. File, Person, MadeFrom
// and Program are to be given.
func (a *Account) Write(p Page, content []byte) error {
	if !isPageName(p.File) {
		return fmt.Errorf("%q is no name for a page", p.File)
	}
	if err := a.files.WriteBytes(filepath.Join(a.folder, p.File), content); err != nil {
		return err
	}
	p.Sum, p.Bytes = sha256.Sum256(content), int64(len(content))
	a.mu.Lock()
	defer a.mu.Unlock()
	a.pages[p.File], a.dirty = p, true
	return nil
}

// Stale lists, by name, the pages that were made in the folder, are still there
// and are not among those wanted now. Of pages that are gone it keeps no
// account.
func (a *Account) Stale(wanted map[string]bool) []Page {
	a.mu.Lock()
	defer a.mu.Unlock()
	var all []Page
	wantedAs := map[string]string{}
	for name := range wanted {
		wantedAs[anyCase(name)] = name
	}
	for name, p := range a.pages {
		if wanted[name] {
			continue
		}
		info, err := os.Stat(filepath.Join(a.folder, name))
		if errors.Is(err, fs.ErrNotExist) || err == nil && a.isFile(info, wantedAs[anyCase(name)]) {
			delete(a.pages, name)
			a.dirty = true
			continue
		}
		all = append(all, p)
	}
	slices.SortFunc(all, byFile)
	return all
}

// anyCase is one form of names that differ in capital and small letters alone.
func anyCase(name string) string { return strings.ToLower(strings.ToUpper(name)) }

// isFile tells that a page whose name has only changed between capital and small
// letters is that very file, for the disk does not tell them apart.
func (a *Account) isFile(info fs.FileInfo, name string) bool {
	if name == "" {
		return false
	}
	now, err := os.Stat(filepath.Join(a.folder, name))
	return err == nil && os.SameFile(info, now)
}

func byFile(a, b Page) int { return cmp.Compare(a.File, b.File) }

// Forget drops what the account of a folder says of pages, by their names. The
// pages themselves it leaves.
func Forget(folder string, files []string) error {
	a, doubt := Open(folder)
	if doubt != nil {
		return doubt
	}
	for _, name := range files {
		if _, known := a.pages[name]; known {
			delete(a.pages, name)
			a.dirty = true
		}
	}
	return a.Save()
}

// Save writes the account if it has changed. It is for its owner only.
func (a *Account) Save() error {
	a.mu.Lock()
	defer a.mu.Unlock()
	if !a.dirty {
		return nil
	}
	d := document{Format: format, Pages: []Page{}}
	for _, p := range a.pages {
		d.Pages = append(d.Pages, p)
	}
	slices.SortFunc(d.Pages, byFile)
	err := safefile.Write(filepath.Join(a.folder, fileName), func(w io.Writer) error {
		out := json.NewEncoder(w)
		out.SetEscapeHTML(false)
		out.SetIndent("", " ")
		return out.Encode(d)
	})
	if err != nil {
		return fmt.Errorf("no account of the pages could be kept, so the next run makes all of them anew: %w", err)
	}
	a.dirty = false
	return nil
}

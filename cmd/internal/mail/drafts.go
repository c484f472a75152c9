package mail

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tenback/cmd/internal/filename"
	"tenback/cmd/internal/personkey"
	"tenback/workbook/safefile"
)

// indexFile lists whose the messages in an outbox are.
const indexFile = ".tenback-outbox.json"

// maxIndex bounds its bytes.
const maxIndex = 64 << 20

// Drafts is a folder with one message a person.
type Drafts struct {
	path  string
	index map[string]personkey.Key // whose a message is, by file name
}

// OpenDrafts opens or creates the folder, for its owner only.
func OpenDrafts(path string) (*Drafts, error) {
	if err := os.MkdirAll(path, 0o700); err != nil {
		return nil, fmt.Errorf("the outbox cannot be created: %w", err)
	}
	f := &Drafts{path: path, index: map[string]personkey.Key{}}
	data, err := safefile.ReadPlain(filepath.Join(path, indexFile), maxIndex)
	if errors.Is(err, fs.ErrNotExist) {
		return f, nil
	}
	if err == nil {
		f.index, err = readIndex(data)
	}
	if err != nil {
		return nil, fmt.Errorf("%s cannot be used (%w); delete it together with the messages beside it", filepath.Join(path, indexFile), err)
	}
	return f, nil
}

// readIndex parses the index. It may name only messages in the folder, because
// what it names may be removed.
func readIndex(data []byte) (map[string]personkey.Key, error) {
	var index map[string]personkey.Key
	if err := json.Unmarshal(data, &index); err != nil {
		return nil, err
	}
	if index == nil {
		return nil, errors.New("it is empty")
	}
	for name := range index {
		if !filename.IsPlain(name) || filepath.Ext(name) != draftEnding {
			return nil, fmt.Errorf("it names %q, which is not a message", name)
		}
	}
	return index, nil
}

const draftEnding = ".eml"

// draftName is the file name of the message with a page.
func draftName(page string) string { return strings.TrimSuffix(page, ".pdf") + draftEnding }

// Expect records the owners of pages before their messages are added, so that a
// message is never there without a known owner. It removes old messages with such
// a page to somebody else.
func (f *Drafts) Expect(pages map[string]personkey.Key) error {
	owners := map[string]personkey.Key{}
	for page, person := range pages {
		owners[draftName(page)] = person
	}
	if _, err := f.remove(func(name string) bool { return owners[name] != "" && owners[name] != f.index[name] }); err != nil {
		return err
	}
	maps.Copy(f.index, owners)
	return f.save()
}

// Add writes a message with a page that was expected.
func (f *Drafts) Add(page string, message []byte) error {
	return safefile.WriteBytes(filepath.Join(f.path, draftName(page)), message)
}

// Keep removes the messages of earlier runs that are not among the pages, because
// their addresses may be outdated. It touches no other files, and returns the
// names of those removed.
func (f *Drafts) Keep(pages map[string]personkey.Key) (removed []string, err error) {
	kept := map[string]bool{}
	for page := range pages {
		kept[draftName(page)] = true
	}
	return f.remove(func(name string) bool { return !kept[name] })
}

// Of returns the file names of the messages to a person.
func (f *Drafts) Of(person personkey.Key) []string {
	var names []string
	for name, whose := range f.index {
		if whose == person {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// Forget removes the messages to a person.
func (f *Drafts) Forget(person personkey.Key) error {
	_, err := f.remove(func(name string) bool { return f.index[name] == person })
	return err
}

func (f *Drafts) remove(which func(name string) bool) (removed []string, err error) {
	for name := range f.index {
		if !which(name) {
			continue
		}
		switch err := os.Remove(filepath.Join(f.path, name)); {
		case err == nil:
			removed = append(removed, name)
		case !errors.Is(err, fs.ErrNotExist):
			return removed, fmt.Errorf("an old message cannot be removed: %w", err)
		}
		delete(f.index, name)
	}
	slices.Sort(removed)
	return removed, f.save()
}

func (f *Drafts) save() error {
	data, err := json.MarshalIndent(f.index, "", "\t")
	if err != nil {
		return err
	}
	return safefile.WriteBytes(filepath.Join(f.path, indexFile), append(data, '\n'))
}

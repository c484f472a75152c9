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

// indexFile says whose the messages in an outbox are.
const indexFile = ".tenback-outbox.json"

// maxIndex bounds its bytes: far more than the most people in a roster need.
const maxIndex = 64 << 20

// Drafts is the folder with one message a person.
type Drafts struct {
	path  string
	index map[string]personkey.Key // whose a message is, by file name
}

// OpenDrafts makes the folder if it is not there, for its owner only.
func OpenDrafts(path string) (*Drafts, error) {
	if err := os.MkdirAll(path, 0o700); err != nil {
		return nil, fmt.Errorf("the outbox cannot be made: %w", err)
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

// readIndex reads the index. It names messages in the folder and nothing else,
// for what it names may be removed.
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
			return nil, fmt.Errorf("it names %q, which is no message", name)
		}
	}
	return index, nil
}

const draftEnding = ".eml"

// draftName is the file name of the message with a page.
func draftName(page string) string { return strings.TrimSuffix(page, ".pdf") + draftEnding }

// Expect notes for some pages whose they are, before their messages are added:
// by one list written for all, where each Add would have to write its own. An
// old message with such a page to somebody else is removed.
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

// Add writes a message. Whose it is stands in the index first, so that a
// message is never there without being known.
func (f *Drafts) Add(page string, person personkey.Key, message []byte) error {
	name := draftName(page)
	if f.index[name] != person {
		f.index[name] = person
		if err := f.save(); err != nil {
			return err
		}
	}
	return safefile.WriteBytes(filepath.Join(f.path, name), message)
}

// Keep removes the messages of earlier runs that are not among the pages: they
// may be addressed as is right no more. It touches nothing that was not made
// here, and gives the names of what was removed.
func (f *Drafts) Keep(pages map[string]personkey.Key) (removed []string, err error) {
	kept := map[string]bool{}
	for page := range pages {
		kept[draftName(page)] = true
	}
	return f.remove(func(name string) bool { return !kept[name] })
}

// Of lists the messages to a person.
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

package mail

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/personkey"
	"tenback/cmd/internal/terminal"
	"tenback/pdfreport/kit"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/people"
	"tenback/workbook/questions"
	"tenback/workbook/safefile"
)

// notDeliveredMost bounds the bytes of the list of people without a message.
const notDeliveredMost = 64 << 20

// Forgetting finds and removes all that was made about one person.
type Forgetting struct {
	Files    batch.Files
	Name, ID string // as batch.SameName returns them; one is empty
	Roster   *workbook.Roster
	Password func() (string, error) // of the roster

	// What Find has found.
	Rows        []*workbook.Row
	Pages       []string // file names
	Drafts      []string
	HasPassword bool
	Lines       int // of the ledger
	Listed      int // lines on the list of people without a message
	Asked       int // questions about the person
	Talked      int // lines on the list of people to talk to first

	names     map[string]bool // of the person, as in the files
	keys      map[personkey.Key]bool
	folder    *Drafts // nil if there is no outbox
	passwords *Passwords
}

// Find looks for the person in the Roster and in the files beside it.
func (f *Forgetting) Find() error {
	if err := f.findPerson(f.Roster); err != nil {
		return err
	}
	return f.gather()
}

// findPerson finds the person in the roster. A person without rows is later found
// by the name.
func (f *Forgetting) findPerson(roster *workbook.Roster) error {
	f.names, f.keys = map[string]bool{}, map[personkey.Key]bool{}
	secret, noSecret := personkey.Load(f.Files.Pages())
	if noSecret != nil && !errors.Is(noSecret, fs.ErrNotExist) {
		return noSecret
	}
	var persons []int
	for _, v := range people.Visits(roster) {
		p := v.Row.Person
		if f.ID != "" && batch.SameName(p.ID) != f.ID || f.Name != "" && batch.SameName(p.Name) != f.Name {
			continue
		}
		if !slices.Contains(persons, v.Person) {
			persons = append(persons, v.Person)
		}
		f.Rows = append(f.Rows, v.Row)
		for _, line := range v.More {
			f.Rows = append(f.Rows, line.Row)
		}
		f.names[batch.SameName(p.Label())] = true
		if noSecret == nil {
			f.keys[secret.Of(v.Row)] = true
		}
	}
	if len(persons) > 1 {
		var where []string
		for _, row := range f.Rows {
			where = append(where, batch.Place(row))
		}
		return terminal.Hinted(fmt.Errorf("%d people match: %s", len(persons), strings.Join(where, ", ")), "name the person by --id, or give each an ID first")
	}
	if len(persons) == 0 && f.Name != "" {
		f.names[f.Name] = true
	}
	return nil
}

// isAbout reports whether an entry is about the person.
func (f *Forgetting) isAbout(e *Entry) bool {
	return f.keys[e.Person] || len(f.Rows) == 0 && f.names[batch.SameName(e.Name)]
}

// gather finds what the files have about the person.
func (f *Forgetting) gather() error {
	var err error
	if f.passwords, err = OpenPasswords(f.Files.Passwords()); err != nil {
		return err
	}
	// The key of a person without rows is in the lists.
	if len(f.Rows) == 0 {
		entries, err := LedgerLines(f.Files.Ledger(), f.isAbout)
		if err != nil {
			return err
		}
		for _, e := range entries {
			f.keys[e.Person] = true
		}
		for _, l := range f.passwords.Lines() {
			if f.names[batch.SameName(l.Name)] {
				f.keys[l.Person] = true
			}
		}
	}
	entries, err := LedgerLines(f.Files.Ledger(), f.isAbout)
	if err != nil {
		return err
	}
	f.Lines = len(entries)
	if err := f.gatherPages(); err != nil {
		return err
	}
	if _, err := os.Stat(f.Files.Outbox()); err == nil {
		if f.folder, err = OpenDrafts(f.Files.Outbox()); err != nil {
			return err
		}
	}
	for key := range f.keys {
		if f.folder != nil {
			f.Drafts = append(f.Drafts, f.folder.Of(key)...)
		}
		f.HasPassword = f.HasPassword || f.passwords.Has(key)
	}
	if _, f.Asked, err = f.questions(); err != nil {
		return err
	}
	if _, f.Talked, err = f.talkList(); err != nil {
		return err
	}
	_, f.Listed, err = f.withoutThem()
	return err
}

// questions returns the questions about the roster, less those about the person.
func (f *Forgetting) questions() (rest *questions.Book, gone int, err error) {
	rest, err = questions.Open(f.Files.Questions(), f.Password)
	if err != nil {
		return nil, 0, fmt.Errorf("%w; or delete the file", err)
	}
	return rest, rest.Forget(func(name string) bool { return f.names[batch.SameName(name)] }), nil
}

// talkList returns the list of people to talk to first, less the person.
func (f *Forgetting) talkList() (rest *questions.TalkList, gone int, err error) {
	rest, err = questions.OpenTalkList(f.Files.Talk(), f.Password)
	if err != nil {
		return nil, 0, fmt.Errorf("%w; or delete the file", err)
	}
	return rest, rest.Forget(func(name string) bool { return f.names[batch.SameName(name)] }), nil
}

// gatherPages finds the pages with the person's key. If no key is known it finds
// a page by its file name.
func (f *Forgetting) gatherPages() error {
	entries, err := os.ReadDir(f.Files.Pages())
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !e.Type().IsRegular() || !strings.HasSuffix(e.Name(), ".pdf") {
			continue
		}
		data, err := safefile.ReadPlain(filepath.Join(f.Files.Pages(), e.Name()), batch.MaxPage)
		if errors.Is(err, safefile.ErrTooLarge) {
			continue // no page of ours
		}
		if err != nil {
			return err
		}
		key, err := kit.ReadKey(data)
		byName := len(f.Rows) == 0 && len(f.keys) == 0 && f.names[batch.SameName(strings.TrimSuffix(e.Name(), ".pdf"))]
		if err == nil && (f.keys[personkey.Key(key)] || byName) {
			f.keys[personkey.Key(key)] = true
			f.Pages = append(f.Pages, e.Name())
		}
	}
	return nil
}

// withoutThem returns the list of people without a message, less the person.
func (f *Forgetting) withoutThem() (rest []byte, gone int, err error) {
	path := f.Files.NotDelivered()
	data, err := safefile.ReadPlain(path, notDeliveredMost)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, 0, nil
	case err != nil:
		return nil, 0, fmt.Errorf("%s cannot be used (%w); delete it; tenback deliver writes it again", path, err)
	}
	for line := range bytes.Lines(data) {
		name, _, _ := strings.Cut(string(line), "\t")
		if f.names[batch.SameName(name)] {
			gone++
			continue
		}
		rest = append(rest, line...)
	}
	return rest, gone, nil
}

// Remove removes what Find has found. It rewrites the slips and the questions with
// words and paper.
func (f *Forgetting) Remove(words *templates.Set, paper kit.Paper) error {
	for _, page := range f.Pages {
		if err := remove(filepath.Join(f.Files.Pages(), page)); err != nil {
			return err
		}
	}
	if err := batch.ForgetAccount(f.Files.Pages()); err != nil {
		return err
	}
	if f.folder != nil {
		for key := range f.keys {
			if err := f.folder.Forget(key); err != nil {
				return err
			}
		}
	}
	if rest, gone, err := f.withoutThem(); err != nil {
		return err
	} else if gone > 0 {
		if err := safefile.WriteBytes(f.Files.NotDelivered(), rest); err != nil {
			return err
		}
	}
	if rest, gone, err := f.questions(); err != nil {
		return err
	} else if gone > 0 {
		if err := rest.Save(f.Files.Questions(), f.Roster, words); err != nil {
			return err
		}
	}
	if rest, gone, err := f.talkList(); err != nil {
		return err
	} else if gone > 0 {
		if err := rest.Save(f.Files.Talk(), f.Roster, words); err != nil {
			return err
		}
		if err := remove(f.Files.TalkPages()); err != nil {
			return err
		}
	}
	if f.HasPassword {
		if err := f.removePassword(words, paper); err != nil {
			return err
		}
	}
	if f.Lines > 0 {
		return ForgetInLedger(f.Files.Ledger(), f.isAbout)
	}
	return nil
}

// removePassword removes the password and rewrites the slips.
func (f *Forgetting) removePassword(words *templates.Set, paper kit.Paper) error {
	for key := range f.keys {
		f.passwords.Forget(key)
	}
	return savePasswords(f.Files, f.passwords, words, paper)
}

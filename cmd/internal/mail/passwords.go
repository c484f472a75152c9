package mail

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/personkey"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/templates"
	"tenback/workbook/safefile"
)

// PasswordLine is the password of one person.
type PasswordLine struct {
	Password string
	Name     string
	Page     string // file name; the first if there are several
	Person   personkey.Key
}

// passwordsHeader is the first line of the tab-separated file. It is a text file
// because in a sheet a name that begins with = would become a formula.
const passwordsHeader = "Password\tName\tPage\tPerson"

// passwordsMost bounds the bytes of the file.
const passwordsMost = 64 << 20

// Passwords is the list of the passwords that were generated for a roster, so that
// a person keeps the same one. A password that the roster gives is not in it.
type Passwords struct {
	path  string
	lines []PasswordLine
	of    map[personkey.Key]string // the password of each person
}

// OpenPasswords reads the list at path; a missing list is empty.
func OpenPasswords(path string) (*Passwords, error) {
	l := &Passwords{path: path, of: map[personkey.Key]string{}}
	data, err := safefile.ReadPlain(path, passwordsMost)
	if errors.Is(err, fs.ErrNotExist) {
		return l, nil
	}
	if err != nil {
		return nil, uselessPasswords(path, err)
	}
	n := 0
	for line := range strings.Lines(string(data)) {
		n++
		line = strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r")
		fields := strings.Split(line, "\t")
		switch {
		case n == 1 && line == passwordsHeader:
			continue
		case n == 1 || len(fields) != 4 || CheckPassword(fields[0]) != nil || fields[3] == "":
			return nil, uselessPasswords(path, fmt.Errorf("it is damaged in line %d", n))
		}
		l.add(PasswordLine{fields[0], fields[1], fields[2], personkey.Key(fields[3])})
	}
	return l, nil
}

func uselessPasswords(path string, why error) error {
	return fmt.Errorf("%s cannot be used (%w); bring back a sound copy of it, or move it away to have new passwords generated for all", path, why)
}

// Of returns a person's password, and generates one if there is none.
func (l *Passwords) Of(person personkey.Key, name, page string) (string, error) {
	if password, known := l.of[person]; known {
		return password, nil
	}
	password, err := NewPassword()
	if err == nil {
		l.add(PasswordLine{password, oneLine(name), oneLine(page), person})
	}
	return password, err
}

// add adds a line; the first of a person counts.
func (l *Passwords) add(line PasswordLine) {
	l.lines = append(l.lines, line)
	if _, known := l.of[line.Person]; !known {
		l.of[line.Person] = line.Password
	}
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// Lines returns the passwords, sorted by name.
func (l *Passwords) Lines() []PasswordLine {
	return slices.SortedFunc(slices.Values(l.lines), func(a, b PasswordLine) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Page, b.Page))
	})
}

// Has reports whether there is a password of a person.
func (l *Passwords) Has(person personkey.Key) bool {
	_, known := l.of[person]
	return known
}

// Forget removes a person from the list.
func (l *Passwords) Forget(person personkey.Key) {
	delete(l.of, person)
	l.lines = slices.DeleteFunc(l.lines, func(line PasswordLine) bool { return line.Person == person })
}

// Save writes the list, for its owner only.
func (l *Passwords) Save() error {
	var out bytes.Buffer
	fmt.Fprintln(&out, passwordsHeader)
	for _, line := range l.Lines() {
		fmt.Fprintf(&out, "%s\t%s\t%s\t%s\n", line.Password, line.Name, line.Page, line.Person)
	}
	return safefile.WriteBytes(l.path, out.Bytes())
}

// savePasswords writes the list and its slips. An empty list and its slips are
// removed.
func savePasswords(files batch.Files, list *Passwords, words *templates.Set, paper kit.Paper) error {
	lines := list.Lines()
	if len(lines) == 0 {
		return errors.Join(remove(files.Passwords()), remove(files.Slips()))
	}
	if err := list.Save(); err != nil {
		return err
	}
	slips := testday.Slips{Paper: paper, Words: words, Program: version.Program()}
	for _, l := range lines {
		slips.People = append(slips.People, testday.Slip{Name: l.Name, File: l.Page, Password: l.Password})
	}
	var page bytes.Buffer
	if _, err := testday.WriteSlips(&page, slips); err != nil {
		return err
	}
	return safefile.WriteBytes(files.Slips(), page.Bytes())
}

// remove removes a file that need not exist.
func remove(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

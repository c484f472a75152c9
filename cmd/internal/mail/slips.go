package mail

import (
	"bytes"
	"errors"
	"io/fs"
	"os"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/templates"
	"tenback/workbook/safefile"
)

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

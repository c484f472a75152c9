package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/single"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/templates"
	"tenback/workbook/safefile"
)

// bundle is where the files lie that belong to one roster.
type bundle struct{ dir, base string }

// bundleOf takes a roster or its scored copy. A roster that is itself called
// -scored is known by its pages.
func bundleOf(path string) bundle {
	b := bundle{filepath.Dir(path), baseOf(path)}
	if _, err := os.Stat(b.pageFolder()); err != nil {
		b.base = strings.TrimSuffix(b.base, scoredEnding)
	}
	return b
}

func (b bundle) file(ending string) string { return filepath.Join(b.dir, b.base+ending) }
func (b bundle) pageFolder() string        { return b.file(pagesEnding) }
func (b bundle) outboxFolder() string      { return b.file("-outbox") }
func (b bundle) ledgerFile() string        { return b.file("-ledger.jsonl") }
func (b bundle) passwordsFile() string     { return b.file("-passwords.txt") }
func (b bundle) slipsFile() string         { return b.file("-password-slips.pdf") }

// notDeliveredFile lists who gets nothing.
func (b bundle) notDeliveredFile() string {
	return filepath.Join(b.outboxFolder(), "not-delivered.txt")
}

// notDeliveredMost bounds its bytes: far more than the most people in a roster
// need.
const notDeliveredMost = 64 << 20

// reserve takes what was made of a roster, in a folder and under a base name, for
// this program alone until release.
func reserve(dir, base, roster string) (release func(), err error) {
	if release, err = single.Take(dir, base); err != nil {
		return nil, fmt.Errorf("%s: %w", roster, err)
	}
	return release, nil
}

// savePasswords writes the list and its slips; where nobody is left on it,
// neither is kept.
func (b bundle) savePasswords(list *mail.Passwords, words *templates.Set, paper kit.Paper) error {
	lines := list.Lines()
	if len(lines) == 0 {
		return errors.Join(removeIfThere(b.passwordsFile()), removeIfThere(b.slipsFile()))
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
	return safefile.WriteBytes(b.slipsFile(), page.Bytes())
}

func removeIfThere(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

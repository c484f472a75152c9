package batch

import (
	"os"
	"path/filepath"
	"strings"
)

// Endings that are added to the name of a roster.
const (
	ScoredEnding = "-scored"
	PagesEnding  = "-reports"
)

// Files names the files that belong to one roster.
type Files struct{ Dir, Base string }

// FilesOf takes the path of a roster or of its scored copy. A roster that is
// itself called -scored is known by its pages.
func FilesOf(path string) Files {
	f := Files{filepath.Dir(path), BaseOf(path)}
	if _, err := os.Stat(f.Pages()); err != nil {
		f.Base = strings.TrimSuffix(f.Base, ScoredEnding)
	}
	return f
}

// BaseOf is the name of a file without folder and ending.
func BaseOf(path string) string {
	name := filepath.Base(path)
	return strings.TrimSuffix(name, filepath.Ext(name))
}

// File is the path of a file whose name is the base and an ending.
func (f Files) File(ending string) string { return filepath.Join(f.Dir, f.Base+ending) }

// Pages is the folder of the pages.
func (f Files) Pages() string { return f.File(PagesEnding) }

// Outbox is the folder of the messages.
func (f Files) Outbox() string { return f.File("-outbox") }

// Ledger records what was sent.
func (f Files) Ledger() string { return f.File("-ledger.jsonl") }

// Passwords lists the passwords of the pages.
func (f Files) Passwords() string { return f.File("-passwords.txt") }

// Slips are the passwords on paper.
func (f Files) Slips() string { return f.File("-password-slips.pdf") }

// Questions are the questions about the roster, with their answers.
func (f Files) Questions() string { return f.File("-questions.xlsx") }

// Talk lists the people to talk to before a test, with what came of it.
func (f Files) Talk() string { return f.File("-talk-first.xlsx") }

// TalkPages is the same list on paper.
func (f Files) TalkPages() string { return f.File("-talk-first.pdf") }

// NotDelivered lists the people without a message.
func (f Files) NotDelivered() string { return filepath.Join(f.Outbox(), "not-delivered.txt") }

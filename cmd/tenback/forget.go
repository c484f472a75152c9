package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
	"golang.org/x/text/cases"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/personkey"
	"tenback/cmd/internal/terminal"
	"tenback/pdfreport/kit"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/cell"
	"tenback/workbook/safefile"
)

func forgetCommand() *cli.Command {
	return &cli.Command{
		Name:      "forget",
		Usage:     "remove all that was made about one person",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Lists, and removes when you say yes, what was made about a person beside the
roster: the page, the message in the outbox, the password, and what the ledger
says, of which only a sum is left that tells nobody who it was.

The roster and its scored copy are yours: the rows to delete in them are named,
and so are other files that may tell of the person.

Example:  tenback forget fitness-week.xlsx --id 1007`,
		Flags: append(rosterFlags(),
			&cli.StringFlag{Name: "name", Usage: "the person called `NAME`, as in the roster"},
			&cli.StringFlag{Name: "id", Usage: "the person with this `ID`"},
			&cli.BoolFlag{Name: "yes", Usage: "do not ask before removing"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			f := forgetting{bundle: bundleOf(path), roster: path, name: sameName(c.String("name")), id: sameName(c.String("id"))}
			if (f.name == "") == (f.id == "") {
				return usageError("forget needs either --name or --id")
			}
			if f.read, err = readOptions(c); err != nil {
				return err
			}
			return f.run(c.Context, c.App.Writer, terminal.NewAsker(c.App.Reader, c.App.Writer), c.Bool("yes"))
		},
	}
}

// sameName is a name or ID without what does not matter when they are compared,
// such as signs that the terminal does not show.
func sameName(text string) string { return cases.Fold().String(cell.Clean(text)) }

// forgetting is one run of the forget command.
type forgetting struct {
	bundle
	roster   string
	read     workbook.ReadOptions
	name, id string // as sameName gives them; one is empty

	rows   []*workbook.Row // of the person
	names  map[string]bool // by which the person is called in what was written
	keys   map[personkey.Key]bool
	pages  []string // file names
	drafts []string
	lines  int // of the ledger
	listed int // lines on the list of those who got nothing

	folder      *mail.Drafts // nil if there is no outbox
	passwords   *mail.Passwords
	hasPassword bool // there is a password of the person on the list
}

func (f *forgetting) run(ctx context.Context, out io.Writer, asker *terminal.Asker, yes bool) error {
	roster, err := openRoster(f.roster, f.read)
	if err != nil {
		return err
	}
	release, err := reserve(f.dir, f.base, f.roster)
	if err != nil {
		return err
	}
	defer release()
	if err := f.find(roster); err != nil {
		return err
	}
	if err := f.gather(); err != nil {
		return err
	}
	found := f.tell(out)
	f.tellOthers(out)
	if !found {
		if len(f.rows) == 0 {
			return hinted{fmt.Errorf("%s: nobody is called so, and nothing that was made is about such a person", f.roster), "write the name or the ID as it stands in the roster"}
		}
		fmt.Fprintln(out, "There is nothing here to remove.")
		return nil
	}
	if !yes {
		answer, err := asker.Ask(ctx, "Remove these for good?", "yes", "no")
		if err != nil && !errors.Is(err, terminal.ErrNoAnswer) {
			return err
		}
		if answer != "yes" {
			fmt.Fprintln(out, "Nothing was removed; --yes removes without asking.")
			return nil
		}
	}
	if err := f.remove(roster); err != nil {
		return err
	}
	fmt.Fprintln(out, "Removed.")
	return nil
}

// find looks for the person in the roster. Somebody whose rows are deleted
// already is looked for by the name alone.
func (f *forgetting) find(roster *workbook.Roster) error {
	f.names, f.keys = map[string]bool{}, map[personkey.Key]bool{}
	secret, noSecret := personkey.Load(f.pageFolder())
	if noSecret != nil && !errors.Is(noSecret, fs.ErrNotExist) {
		return noSecret
	}
	var persons []int
	for _, v := range workbook.Visits(roster) {
		p := v.Row.Person
		if f.id != "" && sameName(p.ID) != f.id || f.name != "" && sameName(p.Name) != f.name {
			continue
		}
		if !slices.Contains(persons, v.Person) {
			persons = append(persons, v.Person)
		}
		f.rows = append(f.rows, v.Row)
		for _, line := range v.More {
			f.rows = append(f.rows, line.Row)
		}
		f.names[sameName(p.Label())] = true
		if noSecret == nil {
			f.keys[secret.Of(v.Row)] = true
		}
	}
	if len(persons) > 1 {
		var where []string
		for _, row := range f.rows {
			where = append(where, batch.Place(row))
		}
		return hinted{fmt.Errorf("%d people are meant by that: %s", len(persons), strings.Join(where, ", ")), "name the person by --id, or give each an ID first"}
	}
	if len(persons) == 0 && f.name != "" {
		f.names[f.name] = true
	}
	return nil
}

// isAbout tells whether an entry is about the person.
func (f *forgetting) isAbout(e *mail.Entry) bool {
	return f.keys[e.Person] || len(f.rows) == 0 && f.names[sameName(e.Name)]
}

// gather looks for what there is about the person.
func (f *forgetting) gather() error {
	var err error
	if f.passwords, err = mail.OpenPasswords(f.passwordsFile()); err != nil {
		return err
	}
	// Of somebody who is not in the roster any more, the lists tell the key.
	if len(f.rows) == 0 {
		entries, err := mail.LedgerLines(f.ledgerFile(), f.isAbout)
		if err != nil {
			return err
		}
		for _, e := range entries {
			f.keys[e.Person] = true
		}
		for _, l := range f.passwords.Lines() {
			if f.names[sameName(l.Name)] {
				f.keys[l.Person] = true
			}
		}
	}
	entries, err := mail.LedgerLines(f.ledgerFile(), f.isAbout)
	if err != nil {
		return err
	}
	f.lines = len(entries)
	if err := f.gatherPages(); err != nil {
		return err
	}
	if _, err := os.Stat(f.outboxFolder()); err == nil {
		if f.folder, err = mail.OpenDrafts(f.outboxFolder()); err != nil {
			return err
		}
	}
	for key := range f.keys {
		if f.folder != nil {
			f.drafts = append(f.drafts, f.folder.Of(key)...)
		}
		f.hasPassword = f.hasPassword || f.passwords.Has(key)
	}
	_, f.listed, err = f.withoutThem()
	return err
}

// gatherPages looks for the person's key in all pages. One whose key is not
// known any more, for the rows were deleted before, is known by its file's name.
func (f *forgetting) gatherPages() error {
	entries, err := os.ReadDir(f.pageFolder())
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
		data, err := safefile.ReadPlain(filepath.Join(f.pageFolder(), e.Name()), batch.MaxPage)
		if errors.Is(err, safefile.ErrTooLarge) {
			continue // no page of ours
		}
		if err != nil {
			return err
		}
		key, err := kit.ReadKey(data)
		byName := len(f.rows) == 0 && len(f.keys) == 0 && f.names[sameName(strings.TrimSuffix(e.Name(), ".pdf"))]
		if err == nil && (f.keys[personkey.Key(key)] || byName) {
			f.keys[personkey.Key(key)] = true
			f.pages = append(f.pages, e.Name())
		}
	}
	return nil
}

// withoutThem is the list of those who got nothing without the person.
func (f *forgetting) withoutThem() (rest []byte, gone int, err error) {
	path := f.notDeliveredFile()
	data, err := safefile.ReadPlain(path, notDeliveredMost)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, 0, nil
	case err != nil:
		return nil, 0, fmt.Errorf("%s cannot be used (%w); delete it, and tenback deliver makes it again", path, err)
	}
	for line := range bytes.Lines(data) {
		name, _, _ := strings.Cut(string(line), "\t")
		if f.names[sameName(name)] {
			gone++
			continue
		}
		rest = append(rest, line...)
	}
	return rest, gone, nil
}

// tell lists what would be removed.
func (f *forgetting) tell(out io.Writer) (found bool) {
	say := func(format string, args ...any) {
		if !found {
			fmt.Fprintln(out, "To remove:")
		}
		found = true
		fmt.Fprintf(out, "  "+format+"\n", args...)
	}
	for _, page := range f.pages {
		say("%s", filepath.Join(f.pageFolder(), page))
	}
	for _, draft := range f.drafts {
		say("%s", filepath.Join(f.outboxFolder(), draft))
	}
	if f.hasPassword {
		say("the password in %s and on %s", f.passwordsFile(), f.slipsFile())
	}
	if f.lines > 0 {
		say("%s of %s, of which a sum is left that tells nobody who it was", terminal.Count(f.lines, "line", "lines"), f.ledgerFile())
	}
	if f.listed > 0 {
		say("%s of %s", terminal.Count(f.listed, "line", "lines"), f.notDeliveredFile())
	}
	return found
}

// tellOthers names what else may tell of the person and is not removed here.
func (f *forgetting) tellOthers(out io.Writer) {
	fmt.Fprintln(out, "Left to you:")
	if len(f.rows) > 0 {
		var where []string
		for _, row := range f.rows {
			where = append(where, batch.Place(row))
		}
		fmt.Fprintf(out, "  the person's rows, %s, in the roster and its scored copy; while they are there the next run makes the page again\n", strings.Join(where, ", "))
	}
	seenTo := []string{f.pageFolder(), f.outboxFolder(), f.ledgerFile(), f.passwordsFile(), f.slipsFile()}
	files, _ := os.ReadDir(f.dir) // what cannot be listed was read from a moment ago
	for _, e := range files {
		path := filepath.Join(f.dir, e.Name())
		ours := strings.HasPrefix(e.Name(), f.base+"-") || strings.HasPrefix(e.Name(), f.base+" (backup ")
		if ours && !slices.Contains(seenTo, path) {
			fmt.Fprintf(out, "  %s, which may tell of the person too\n", path)
		}
	}
	fmt.Fprintln(out, "  messages that were sent, copies that were printed, and backups of this computer")
}

func (f *forgetting) remove(roster *workbook.Roster) error {
	for _, page := range f.pages {
		if err := removeIfThere(filepath.Join(f.pageFolder(), page)); err != nil {
			return err
		}
	}
	if err := batch.ForgetAccount(f.pageFolder()); err != nil {
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
		if err := safefile.WriteBytes(f.notDeliveredFile(), rest); err != nil {
			return err
		}
	}
	if f.hasPassword {
		if err := f.removePassword(roster); err != nil {
			return err
		}
	}
	if f.lines > 0 {
		return mail.ForgetInLedger(f.ledgerFile(), f.isAbout)
	}
	return nil
}

// removePassword takes the password off the list and makes the slips anew, in
// the language of the roster.
func (f *forgetting) removePassword(roster *workbook.Roster) error {
	for key := range f.keys {
		f.passwords.Forget(key)
	}
	lang, err := langOr("", roster)
	if err != nil {
		return err
	}
	words, err := templates.Load(lang, "")
	if err != nil {
		return err
	}
	return f.savePasswords(f.passwords, words, localePaper(os.Getenv))
}

package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/terminal"
	"tenback/workbook"
)

func forgetCommand() *cli.Command {
	return &cli.Command{
		Name:      "forget",
		Usage:     "remove all that tenback wrote about one person",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Lists what tenback wrote about a person beside the roster, and removes it when you
say yes: the page, the message in the outbox, the password, the questions, the
lines of the list "talk first" and of the ledger, leaving only a hash.

The roster and its scored copy are yours: the rows to delete in them are named,
and so are other files that may contain the person.

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
			f := &mail.Forgetting{Files: batch.FilesOf(path), Name: batch.SameName(c.String("name")), ID: batch.SameName(c.String("id"))}
			if (f.Name == "") == (f.ID == "") {
				return usageError("forget needs either --name or --id")
			}
			reading, err := readOptions(c)
			if err != nil {
				return err
			}
			return forget(c.Context, c.App.Writer, f, path, reading, terminal.NewAsker(c.App.Reader, c.App.Writer), c.Bool("yes"))
		},
	}
}

// forget is one run of the command.
func forget(ctx context.Context, out io.Writer, f *mail.Forgetting, path string, reading workbook.ReadOptions, asker *terminal.Asker, yes bool) error {
	roster, err := openRoster(path, reading)
	if err != nil {
		return err
	}
	release, err := reserve(f.Files.Dir, f.Files.Base, path)
	if err != nil {
		return err
	}
	defer release()
	f.Roster, f.Password = roster, reading.Password
	if err := f.Find(); err != nil {
		return err
	}
	found := printFound(out, f)
	printOthers(out, f)
	if !found {
		if len(f.Rows) == 0 {
			return terminal.Hinted(fmt.Errorf("%s: nobody has that name or ID, and no file is about such a person", path), "write the name or the ID as in the roster")
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
	if err := removeFound(f, roster); err != nil {
		return err
	}
	fmt.Fprintln(out, "Removed.")
	return nil
}

// removeFound removes what was found; slips are in the language of the roster.
func removeFound(f *mail.Forgetting, roster *workbook.Roster) error {
	words, err := wordsFor(roster)
	if err != nil {
		return err
	}
	return f.Remove(words, localePaper(os.Getenv))
}

// printFound lists what would be removed.
func printFound(out io.Writer, f *mail.Forgetting) (found bool) {
	say := func(format string, args ...any) {
		if !found {
			fmt.Fprintln(out, "To remove:")
		}
		found = true
		fmt.Fprintf(out, "  "+format+"\n", args...)
	}
	for _, page := range f.Pages {
		say("%s", filepath.Join(f.Files.Pages(), page))
	}
	for _, draft := range f.Drafts {
		say("%s", filepath.Join(f.Files.Outbox(), draft))
	}
	if f.HasPassword {
		say("the password in %s and on %s", f.Files.Passwords(), f.Files.Slips())
	}
	if f.Lines > 0 {
		say("%s of %s, leaving only a hash", terminal.Count(f.Lines, "line", "lines"), f.Files.Ledger())
	}
	if f.Asked > 0 {
		say("%s in %s", terminal.Count(f.Asked, "question", "questions"), f.Files.Questions())
	}
	if f.Talked > 0 {
		say("%s in %s; %s as a whole, which tenback check writes again", terminal.Count(f.Talked, "line", "lines"), f.Files.Talk(), f.Files.TalkPages())
	}
	if f.Listed > 0 {
		say("%s of %s", terminal.Count(f.Listed, "line", "lines"), f.Files.NotDelivered())
	}
	return found
}

// printOthers names what else may contain the person and is not removed.
func printOthers(out io.Writer, f *mail.Forgetting) {
	fmt.Fprintln(out, "Left to you:")
	if len(f.Rows) > 0 {
		var where []string
		for _, row := range f.Rows {
			where = append(where, batch.Place(row))
		}
		fmt.Fprintf(out, "  the person's rows, %s, in the roster and its scored copy; with them the next run makes the page again\n", strings.Join(where, ", "))
	}
	seenTo := []string{f.Files.Pages(), f.Files.Outbox(), f.Files.Ledger(), f.Files.Passwords(), f.Files.Slips(), f.Files.Questions(), f.Files.Talk(), f.Files.TalkPages()}
	files, _ := os.ReadDir(f.Files.Dir) // the roster was just read from it
	for _, e := range files {
		path := filepath.Join(f.Files.Dir, e.Name())
		ours := strings.HasPrefix(e.Name(), f.Files.Base+"-") || strings.HasPrefix(e.Name(), f.Files.Base+" (backup ")
		if ours && !slices.Contains(seenTo, path) {
			fmt.Fprintf(out, "  %s, which may contain the person too\n", path)
		}
	}
	fmt.Fprintln(out, "  messages that were sent, copies that were printed, and backups of this computer")
}

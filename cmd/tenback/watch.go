package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/desk"
)

func watchCommand() *cli.Command {
	return &cli.Command{
		Name:      "watch",
		Usage:     "a desk on the day: score the roster whenever it is saved",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Stays open while results are entered. Each time the roster is saved, the pages of
new and changed people are written into ROSTER-reports, and the columns into
ROSTER-scored.xlsx. The roster itself is never changed. While another program has
ROSTER-scored.xlsx open, the columns wait; the pages do not.

The screen shows who was scored last, who to talk to first, and
which cells to mend. It shows names and results: turn it away from the queue.

With --print the page of each new or changed person is passed to a command, as
its last argument; the command must return by itself, as lp does. Pages made when
the desk opens, or because the look of all pages changed, are not printed. There
is no shell: "lp -d 'Room 12'" is a program and two arguments.

Ctrl-C closes the desk.

Example:  tenback watch fitness-week.xlsx --print "lp -o sides=two-sided-long-edge"

EXIT STATUS:
   0    closed by Ctrl-C
   1    the desk could not open: file missing, locked, not readable
   2    wrong usage`,
		Flags: append(append(readFlags(), lookFlags()...),
			&cli.StringFlag{Name: "print", Usage: "pass each new page to `COMMAND`"},
			&cli.StringFlag{Name: "out", Usage: "write the results into `DIR` instead of beside the roster"},
			&cli.BoolFlag{Name: "break-signature", Usage: "write the results of a digitally signed roster too; they are not signed"},
			paperFlag(),
		),
		Action: func(c *cli.Context) error {
			p, err := runPlanFromFlags(c)
			if err != nil {
				return err
			}
			command, err := printCommand(c)
			if err != nil {
				return err
			}
			return p.watch(c, command)
		},
	}
}

// printCommand returns the command of --print with the path of its program; nil
// without --print.
func printCommand(c *cli.Context) ([]string, error) {
	if !c.IsSet("print") {
		return nil, nil
	}
	argv, err := desk.ParseCommand(c.String("print"))
	if err != nil {
		return nil, usageError(fmt.Sprintf("--print: %v", err))
	}
	if argv[0], err = exec.LookPath(argv[0]); err != nil {
		return nil, usageError(fmt.Sprintf("--print: the program cannot be found: %v", err))
	}
	return argv, nil
}

// watch runs the desk.
func (p runPlan) watch(c *cli.Context, command []string) error {
	if err := writable(p.out); err != nil {
		return err
	}
	if _, err := os.Stat(p.roster); err != nil {
		_, err := openRoster(p.roster, p.read) // its error says what to do
		return err
	}
	err := desk.Run(c.Context, desk.Config{Roster: p.roster, Answers: batch.FilesOf(p.roster).Questions(), Scored: p.scored(), Out: p.out, Base: p.base(), Pages: p.pageFolder(), Print: command,
		BreakSignature: p.breakSignature, Screen: c.App.Writer, Errs: c.App.ErrWriter,
		Read: func(notes io.Writer) (desk.Input, error) {
			roster, earlier, maker, err := p.open(notes)
			if err != nil {
				return desk.Input{}, err
			}
			return desk.Input{Roster: roster, Earlier: earlier, Options: p.score, Person: maker.person, Words: maker.words[maker.lang]}, nil
		}})
	if err == nil {
		return errClosed
	}
	return err
}

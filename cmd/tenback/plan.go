package main

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/workbook/starter"
)

func planCommand() *cli.Command {
	return &cli.Command{
		Name:      "plan",
		Usage:     "print when to test again, and write the next season's workbook",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Says when to test again and which change would count, and writes ROSTER-next.xlsx:
the people carried over (those who left too), with the sheets and headers of the
roster, and the results, weights and heart rates empty. The roster itself is not
touched. When the next season is tested, read both together:

  tenback run ROSTER-next.xlsx --earlier ROSTER.xlsx

Example:  tenback plan fitness-week.xlsx

` + sharedHelp,
		Flags: append(readFlags(),
			&cli.StringFlag{Name: "out", Usage: "write the workbook into `DIR` instead of beside the roster"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			s, err := read(c, path)
			if err != nil {
				return err
			}
			dir := cmp.Or(c.String("out"), filepath.Dir(path))
			if err := writable(dir); err != nil {
				return err
			}
			next := filepath.Join(dir, batch.BaseOf(path)+"-next.xlsx")
			var made starter.NextSeason
			err = writeNew(next, "it may hold results; choose another folder with --out", func(w io.Writer) error {
				var err error
				made, err = starter.WriteNextSeason(w, s.Roster, passwordOf(c, path))
				return err
			})
			if err != nil {
				return err
			}
			report.Plan(c.App.Writer, s)
			fmt.Fprintf(c.App.Writer, "\nWorkbook  %s (%s: %s", next, strings.Join(made.Sheets, ", "), terminal.Count(made.People, "person", "people"))
			if made.Left > 0 {
				fmt.Fprintf(c.App.Writer, ", %d of them not in the last round", made.Left)
			}
			fmt.Fprintf(c.App.Writer, ")\nThen      tenback run %s", terminal.Argument(next))
			for _, earlier := range append([]string{path}, c.StringSlice("earlier")...) {
				fmt.Fprintf(c.App.Writer, " --earlier %s", terminal.Argument(earlier))
			}
			fmt.Fprintln(c.App.Writer)
			if s.Roster.Locked() {
				fmt.Fprintln(c.App.Writer, "Note      the new workbook has no password, unlike the roster; give it one before you fill it in")
			}
			return nil
		},
	}
}

package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/version"
	"tenback/testdata/demo"
	"tenback/workbook"
	"tenback/workbook/safefile"
)

const (
	demoRoster  = "quillhaven.xlsx"
	demoEarlier = "quillhaven-earlier.xlsx"
)

func demoCommand() *cli.Command {
	return &cli.Command{
		Name:      "demo",
		Usage:     "write an invented roster and run the main job on it",
		ArgsUsage: "[DIR]",
		Description: `Writes into DIR (default tenback-demo) the roster of an invented town: a school
class, a workplace and a running squad, with a few deliberately messy rows, and
the workbook of two earlier seasons. Then it runs the main job on it.`,
		Flags: []cli.Flag{langFlag("the pages and the result columns")},
		Action: func(c *cli.Context) error {
			settings, err := settingsOf(c)
			if err != nil {
				return err
			}
			if _, err := languageOf(settings); err != nil {
				return err // before anything is written
			}
			dir := "tenback-demo"
			if c.Args().Len() > 0 {
				if dir, err = oneArgument(c, "a folder"); err != nil {
					return err
				}
			}
			if err := writable(dir); err != nil {
				return err
			}
			roster := filepath.Join(dir, demoRoster)
			if err := safefile.WriteBytes(roster, demo.Roster); err != nil {
				return err
			}
			earlier := filepath.Join(dir, demoEarlier)
			if err := safefile.WriteBytes(earlier, demo.Earlier); err != nil {
				return err
			}
			p := runPlan{roster: roster, read: workbook.ReadOptions{Since: version.Made, Settings: settings}, earlier: []string{earlier}, out: dir, reports: true, paper: localePaper(os.Getenv)}
			err = p.run(c.Context, c.App.Writer, c.App.ErrWriter)
			if err != nil && !errors.Is(err, errLeftOut) {
				return err
			}
			fmt.Fprintf(c.App.Writer, "\nThe people are invented, and some rows are messy on purpose.\nOpen first: %s (the result columns are at the right),\nthen any page in %s.\n", p.scored(), p.folder())
			return nil
		},
	}
}

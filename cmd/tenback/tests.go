package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/catalogue"
	"tenback/cmd/internal/terminal"
	"tenback/scoring/fieldtests"
)

func testsCommand() *cli.Command {
	return &cli.Command{
		Name:      "tests",
		Usage:     "list the field tests known, or show one in full",
		ArgsUsage: "[ID]",
		Description: `Without an ID: every test with its column in a roster and whom it suits.
With an ID: how to run it, what it needs, each equation with its error, the
people it was checked on, and its source.

Example:  tenback tests walk-1-mile`,
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "left-out", Usage: "list published equations that are not used, and what is missing"},
		},
		Action: func(c *cli.Context) error {
			if c.Bool("left-out") {
				if err := noArgument(c); err != nil {
					return err
				}
				catalogue.LeftOut(c.App.Writer)
				return nil
			}
			if c.Args().Len() == 0 {
				catalogue.Tests(c.App.Writer)
				return nil
			}
			id, err := oneArgument(c, "a test's ID")
			if err != nil {
				return err
			}
			test, ok := fieldtests.ByID(id)
			if !ok {
				return terminal.Hinted(fmt.Errorf("there is no test %q", id), "tenback tests lists them")
			}
			catalogue.Test(c.App.Writer, test)
			return nil
		},
	}
}

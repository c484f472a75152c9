package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/catalogue"
	"tenback/cmd/internal/terminal"
	"tenback/scoring/reference"
)

func tablesCommand() *cli.Command {
	return &cli.Command{
		Name:      "tables",
		Usage:     "list the published tables, or print one",
		ArgsUsage: "[ID]",
		Description: `Without an ID: every table with its source. With an ID: the table as used.

Example:  tenback tables adult-groups`,
		Action: func(c *cli.Context) error {
			w := c.App.Writer
			if c.Args().Len() == 0 {
				catalogue.Tables(w)
				return nil
			}
			id, err := oneArgument(c, "a table's ID")
			if err != nil {
				return err
			}
			for _, known := range reference.Tables() {
				if known.ID != id {
					continue
				}
				catalogue.Table(w, known)
				return nil
			}
			return terminal.Hinted(fmt.Errorf("there is no table %q", id), "tenback tables lists them")
		},
	}
}

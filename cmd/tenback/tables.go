package main

import (
	"fmt"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/terminal"
	"tenback/scoring/fieldtests"
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
				t := terminal.Table(w)
				t.AppendHeader(table.Row{"ID", "Table"})
				for _, known := range reference.Tables() {
					t.AppendRow(table.Row{known.ID, known.Title})
				}
				t.Render()
				fmt.Fprintln(w, "\ntenback tables ID prints one with its source.")
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
				fmt.Fprintln(w, terminal.Wrap(known.Title, ""))
				terminal.Section(w, "About", append([]string{"unit: " + known.Unit, "values: " + known.Status, "source: " + fieldtests.Cite(known.Source)}, known.Notes...))
				fmt.Fprintln(w)
				t := terminal.Table(w)
				for i, row := range known.Rows() {
					cells := make(table.Row, len(row))
					for j, cell := range row {
						cells[j] = cell
					}
					if i == 0 {
						t.AppendHeader(cells)
						continue
					}
					t.AppendRow(cells)
				}
				t.Render()
				return nil
			}
			return terminal.Hinted(fmt.Errorf("there is no table %q", id), "tenback tables lists them")
		},
	}
}

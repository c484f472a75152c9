package main

import (
	"fmt"
	"slices"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/workbook"
)

func explainCommand() *cli.Command {
	return &cli.Command{
		Name:      "explain",
		Usage:     "show the full working of one row",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Prints what was read from which cell, the formula as published, the numbers put
in, the result, its error, and each table look-up with its source.

Example:  tenback explain fitness-week.xlsx --row 7

` + sharedHelp,
		Flags: append(readFlags(),
			&cli.IntFlag{Name: "row", Usage: "the row `N` of the sheet"},
			&cli.StringFlag{Name: "name", Usage: "the person called `NAME`, or with this ID or number in the list"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			name := batch.SameName(c.String("name"))
			if c.IsSet("row") == (name != "") {
				return usageError("explain needs either --row or --name")
			}
			s, err := read(c, path)
			if err != nil {
				return err
			}
			outcomes, found := s.Outcomes, 0
			for i := range outcomes {
				person := &outcomes[i].Row.Person
				byRow := c.IsSet("row") && slices.ContainsFunc(outcomes[i].Lines(), func(l workbook.Line) bool { return l.Row.Number == c.Int("row") })
				byName := name != "" && slices.ContainsFunc([]string{person.Name, person.ID, outcomes[i].Row.ListNumber}, func(s string) bool { return batch.SameName(s) == name })
				if byRow || byName {
					if found > 0 {
						fmt.Fprint(c.App.Writer, "\n\n")
					}
					found++
					report.Explain(c.App.Writer, s.Roster, &outcomes[i], outcomes[i].Score(&s.Options))
				}
			}
			if found == 0 {
				return terminal.Hinted(fmt.Errorf("no such person in %s", path), "give the row number at the left edge of the sheet, or the name as in the sheet")
			}
			return nil
		},
	}
}

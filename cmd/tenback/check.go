package main

import (
	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/report"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "read and score a roster, write nothing, list every problem",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Reads and scores as run does, and lists every cell that could not be used, with
what to type instead, and every remark.

Example:  tenback check fitness-week.xlsx --columns

` + sharedHelp,
		Flags: append(readFlags(),
			&cli.BoolFlag{Name: "columns", Usage: "print what each column was taken for; correct it with --column"},
			&cli.BoolFlag{Name: "json", Usage: "print everything as JSON"},
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
			if c.Bool("json") {
				err = report.JSON(c.App.Writer, s)
			} else {
				report.Check(c.App.Writer, s.Roster, s.Outcomes, c.Bool("columns"))
			}
			if err != nil {
				return err
			}
			return leftOut(s.Outcomes)
		},
	}
}

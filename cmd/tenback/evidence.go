package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/catalogue"
	"tenback/cmd/internal/terminal"
)

func evidenceCommand() *cli.Command {
	return &cli.Command{
		Name:  "evidence",
		Usage: "compare computed with published values",
		Description: `Prints every worked example (published, ours, difference, source), the points of
the published tables that differ, if any, and how the equations do on 31 men
whose uptake was measured. The same comparison is one of the tests.`,
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "all", Usage: "print every table point too"},
		},
		Action: func(c *cli.Context) error {
			if err := noArgument(c); err != nil {
				return err
			}
			w := c.App.Writer
			disagree, err := catalogue.Examples(w)
			if err != nil {
				return err
			}
			more, err := catalogue.Points(w, c.Bool("all"))
			if err != nil {
				return err
			}
			if err := catalogue.Coverage(w); err != nil {
				return err
			}
			if n := disagree + more; n > 0 {
				return fmt.Errorf("%s with what was published", terminal.Count(n, "value disagrees", "values disagree"))
			}
			return nil
		},
	}
}

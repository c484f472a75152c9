package main

import (
	"fmt"

	"github.com/urfave/cli/v2"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "read and score a roster, write nothing, list every problem",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Does all the reading and scoring of a run and lists every cell that could not
be used, with what to type instead, and every remark.

Example:  tenback check fitness-week.xlsx

` + exitStatusHelp,
		Flags: readFlags(),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			roster, outcomes, err := read(c, path)
			if err != nil {
				return err
			}
			w := c.App.Writer
			printClinician(w, outcomes)
			blocking, remarks := gather(roster, outcomes)
			if len(blocking) > 0 {
				fmt.Fprintf(w, "To mend: %s\n", count(len(blocking), "cell", "cells"))
				printProblems(w, blocking)
				fmt.Fprintln(w)
			}
			if len(remarks) > 0 {
				fmt.Fprintf(w, "Good to know: %s\n", count(len(remarks), "remark", "remarks"))
				printProblems(w, remarks)
				fmt.Fprintln(w)
			}
			left := 0
			for i := range outcomes {
				if outcomes[i].LeftOut() {
					left++
				}
			}
			fmt.Fprintf(w, "%s of %s can be scored\n", fmt.Sprint(len(outcomes)-left), count(len(outcomes), "person", "people"))
			return leftOut(outcomes)
		},
	}
}

package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/scoring"
	"tenback/workbook"
)

// readFlags are the options of every command that reads and scores a roster.
func readFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringSliceFlag{Name: "sheet", Usage: "read only the sheet called `NAME` (may be given again)"},
		&cli.StringSliceFlag{Name: "equation", Usage: "use the equation called `ID` for its test (see tenback tests ID; may be given again)"},
		&cli.BoolFlag{Name: "fallback", Usage: "estimate people without a test from what else is known: rough, and marked so"},
	}
}

func readOptions(c *cli.Context) workbook.ReadOptions {
	return workbook.ReadOptions{Sheets: c.StringSlice("sheet")}
}

func scoreOptions(c *cli.Context) (scoring.Options, error) {
	for _, id := range c.StringSlice("equation") {
		if _, _, ok := scoring.EquationByID(id); !ok {
			return scoring.Options{}, usageError(fmt.Sprintf("--equation: there is no equation %q; tenback tests ID shows those of a test", id))
		}
	}
	return scoring.Options{Equations: c.StringSlice("equation"), Fallback: c.Bool("fallback")}, nil
}

// read opens a roster as the options of the command say, and scores it.
func read(c *cli.Context, path string) (*workbook.Roster, []workbook.Outcome, error) {
	options, err := scoreOptions(c)
	if err != nil {
		return nil, nil, err
	}
	roster, err := workbook.Open(path, readOptions(c))
	if err != nil {
		return nil, nil, err
	}
	return roster, batch.Score(roster, options), nil
}

package main

import (
	"github.com/urfave/cli/v2"

	"tenback/workbook"
)

// readFlags are the options of every command that reads a roster.
func readFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringSliceFlag{Name: "sheet", Usage: "read only the sheet called `NAME` (may be given again)"},
	}
}

func readOptions(c *cli.Context) (workbook.ReadOptions, error) {
	return workbook.ReadOptions{Sheets: c.StringSlice("sheet")}, nil
}

package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/workbook"
)

func doctorCommand() *cli.Command {
	return &cli.Command{
		Name:      "doctor",
		Usage:     "print diagnostics for a bug report, without names or results",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Prints the versions, what each column was taken for, and the problems by kind.
No name, result or text of the roster is printed. Read the output all the same
before you send it.

Example:  tenback doctor fitness-week.xlsx > report.txt

` + sharedHelp,
		Flags: readFlags(),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			w := c.App.Writer
			fmt.Fprintf(w, "%s, %s/%s, %s\n", version.Program(), runtime.GOOS, runtime.GOARCH, runtime.Version())
			s, err := read(c, path)
			if err != nil {
				return unnamed(path, err)
			}
			report.Diagnose(w, s)
			return leftOut(s.Outcomes)
		},
	}
}

// unnamed returns err without the name of the file or any text of the roster. A
// mistake in the command line and a hint stay as they are.
func unnamed(path string, err error) error {
	if isUsage(err) {
		return err
	}
	text := strings.ReplaceAll(err.Error(), path, "the roster")
	without := errors.New(workbook.WordsAlone(strings.ReplaceAll(text, filepath.Base(path), "the roster")))
	if hint := terminal.HintOf(err); hint != "" {
		return terminal.Hinted(without, hint)
	}
	return without
}

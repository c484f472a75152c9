package main

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/workbook"
	"tenback/workbook/grid"
	"tenback/workbook/source"
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
			diagnose(w, s)
			return leftOut(s.outcomes)
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

// diagnose prints what was read, without what the roster says.
func diagnose(w io.Writer, read scoredRoster) {
	roster, outcomes := read.roster, read.outcomes
	fmt.Fprintf(w, "text file %t, password %t, signed %t\n", source.IsText(roster.Path), roster.Locked(), roster.Signed)
	names := map[string]string{}
	for i, s := range slices.Concat(roster.Sheets, roster.Lists) {
		names[s.Name] = fmt.Sprintf("sheet %d", i+1)
		fmt.Fprintf(w, "\n%s, header in row %d, %s\n", names[s.Name], s.HeaderRow, terminal.Count(len(s.Rows), "row", "rows"))
		for _, c := range s.Columns {
			fmt.Fprintf(w, "  %-3s → %s\n", grid.Column(c.Index), c.Meaning)
		}
	}
	seen := map[string]int{}
	for i := range outcomes {
		score := outcomes[i].Score(&read.options)
		if best := score.Best(); best != nil {
			seen["scored by "+best.Equation.ID]++
		}
		for _, f := range score.Flags {
			seen["remark "+f.Code.ID()]++
		}
	}
	blocking, remarks := findingsOf(roster, outcomes)
	for _, f := range append(blocking, remarks...) {
		kind := "remark"
		if f.Blocking {
			kind = "problem"
		}
		seen[fmt.Sprintf("%s in %s: %s", kind, names[f.Sheet], workbook.WordsAlone(f.What.String()))] += max(1, len(f.Cells))
	}
	fmt.Fprintf(w, "\n%s, %d left out\n", countPeople(outcomes), countLeftOut(outcomes))
	for _, what := range slices.Sorted(maps.Keys(seen)) {
		fmt.Fprintf(w, "  %4d %s\n", seen[what], what)
	}
}

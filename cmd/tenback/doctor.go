package main

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"runtime"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/scoring"
	"tenback/workbook"
	"tenback/workbook/grid"
)

func doctorCommand() *cli.Command {
	return &cli.Command{
		Name:      "doctor",
		Usage:     "print what a report of a fault needs, without names or results",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Prints how the roster is built and what is read from it: programs, sheets,
columns, kinds and forms of cells, problems met. Letters are shown as A and a,
digits as 9; no name, result or text of the roster is printed. Read it through
all the same before you send it to anyone.

Example:  tenback doctor fitness-week.xlsx > report.txt`,
		Flags: readFlags(),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			w := c.App.Writer
			fmt.Fprintf(w, "program   %s, %s/%s, %s\n", version.Program(), runtime.GOOS, runtime.GOARCH, runtime.Version())
			anatomy, err := workbook.Dissect(path, passwordOf(c, path))
			if err != nil {
				return unnamed(path, withPasswordHint(err))
			}
			printAnatomy(w, anatomy)
			roster, outcomes, err := read(c, path)
			var usage usageError
			if errors.As(err, &usage) {
				return err
			}
			if err != nil {
				fmt.Fprintf(w, "\nNobody was read: %s\n", workbook.Shapeless(unnamed(path, err).Error()))
				return errLeftOut
			}
			printReading(w, roster, outcomes)
			return leftOut(outcomes)
		},
	}
}

// unnamed takes the file's name, which may be someone's, out of an error. A piece
// of advice stays.
func unnamed(path string, err error) error {
	without := errors.New(strings.ReplaceAll(err.Error(), path, "the roster"))
	var h hinted
	if errors.As(err, &h) {
		return hinted{without, h.hint}
	}
	return without
}

func printAnatomy(w io.Writer, a *workbook.Anatomy) {
	kind := "workbook"
	if a.Text {
		kind = "text file"
	}
	fmt.Fprintf(w, "file      %s, %d bytes", kind, a.Bytes)
	if a.Program != "" {
		fmt.Fprintf(w, ", written by %s", a.Program)
	}
	for _, is := range []struct {
		so   bool
		what string
	}{{a.Locked, "with a password"}, {a.Signed, "signed"}, {a.Date1904, "dates from 1904"}} {
		if is.so {
			fmt.Fprintf(w, ", %s", is.what)
		}
	}
	fmt.Fprintln(w)
	for _, kind := range slices.Sorted(maps.Keys(a.Parts)) {
		fmt.Fprintf(w, "  %4d %s\n", a.Parts[kind], kind)
	}
	if a.Problem != "" {
		fmt.Fprintf(w, "reading ended early: %s\n", a.Problem)
	}
	for i, s := range a.Sheets {
		fmt.Fprintf(w, "\nsheet %d   %s, %s, merged %d, tables %d", i+1, terminal.Count(s.Rows, "row", "rows"), terminal.Count(s.Cells, "cell", "cells"), s.Merged, s.Tables)
		if s.Hidden {
			fmt.Fprint(w, ", hidden")
		}
		if s.Filtered {
			fmt.Fprint(w, ", filtered")
		}
		fmt.Fprintln(w, "\n  first rows")
		for _, row := range s.Top {
			fmt.Fprintf(w, "    %s\n", strings.Join(row, " | "))
		}
		fmt.Fprintln(w, "  columns")
		for _, c := range s.Columns {
			var shapes []string
			for _, shape := range c.Shapes {
				shapes = append(shapes, fmt.Sprintf("%d × %s", shape.Count, shape.Shape))
			}
			if c.Other > 0 {
				shapes = append(shapes, fmt.Sprintf("%d others", c.Other))
			}
			fmt.Fprintf(w, "    %-3s %s\n", grid.Column(c.Index), strings.Join(shapes, " | "))
		}
	}
}

// printReading tells what was made of the roster.
func printReading(w io.Writer, roster *workbook.Roster, outcomes []workbook.Outcome) {
	fmt.Fprintln(w, "\nWhat the columns were taken for")
	names := map[string]string{}
	for i, s := range slices.Concat(roster.Sheets, roster.Lists) {
		names[s.Name] = fmt.Sprintf("list %d", i+1)
		fmt.Fprintf(w, "  list %d, header in row %d, %s\n", i+1, s.HeaderRow, terminal.Count(len(s.Rows), "row", "rows"))
		for _, c := range s.Columns {
			fmt.Fprintf(w, "    %-3s %s → %s\n", grid.Column(c.Index), workbook.Shape(c.Header), c.Meaning)
		}
	}
	scored := map[string]int{}
	flags := map[scoring.FlagCode]int{}
	for i := range outcomes {
		score := outcomes[i].Score()
		if best := score.Best(); best != nil {
			scored[best.Equation.ID]++
		}
		for _, f := range score.Flags {
			flags[f.Code]++
		}
	}
	fmt.Fprintf(w, "\nRead: %s, left out: %d\n", countPeople(outcomes), countLeftOut(outcomes))
	for _, id := range slices.Sorted(maps.Keys(scored)) {
		fmt.Fprintf(w, "  %4d by %s\n", scored[id], id)
	}
	fmt.Fprintln(w, "\nRemarks on scores")
	for _, code := range slices.Sorted(maps.Keys(flags)) {
		fmt.Fprintf(w, "  %4d %s\n", flags[code], code.ID())
	}
	blocking, remarks := findingsOf(roster, outcomes)
	fmt.Fprintln(w, "\nProblems, without what was read")
	for _, f := range append(blocking, remarks...) {
		f.Sheet = names[f.Sheet]
		fmt.Fprintf(w, "  %s, %s: %s\n", f.Problem.Where(), terminal.Count(max(1, len(f.Cells)), "cell", "cells"), workbook.Shapeless(f.What.String()))
	}
}

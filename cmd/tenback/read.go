package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/inquiry"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/people"
)

// rosterFlags returns the options of every command that reads a roster. They are
// hidden from the help of each command, because the guide "options" has them.
func rosterFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringSliceFlag{Name: "sheet", Hidden: true, Usage: "read only the sheet called `NAME`; repeat it for more"},
		&cli.StringSliceFlag{Name: "column", Hidden: true, Usage: "what a column holds, as `\"HEADER=MEANING\"`: a header that is known, or ignore"},
		&cli.StringSliceFlag{Name: "set", Hidden: true, Usage: "a setting of the list below, as `\"NAME=VALUE\"`; it wins over the roster's own"},
		&cli.StringFlag{Name: "test-date", Hidden: true, Usage: "`DATE` of the test (2026-05-31) for rows without one"},
		&cli.BoolFlag{Name: "password", Hidden: true, Usage: "ask for the roster's password; without a terminal set " + passwordVariable},
	}
}

// readFlags returns the options of every command that reads and scores a roster.
func readFlags() []cli.Flag {
	return append(rosterFlags(),
		&cli.StringFlag{Name: "adult-table", Hidden: true, Usage: "the setting \"Adult table\": `TABLE` may also be any CSV file"},
		&cli.StringSliceFlag{Name: "earlier", Hidden: true, Usage: "an earlier workbook `FILE` of the same people, to compare with; repeat it for more"},
	)
}

// lookFlags returns the options on what pages say.
func lookFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "audience", Usage: "who reads the pages: `WHO` is school, workplace or squad"},
		langFlag("the pages and columns"),
		wordsFlag(),
		&cli.StringFlag{Name: "org", Usage: "`NAME` of your organisation, at the head of every page"},
		&cli.StringFlag{Name: "contact", Usage: "`LINE` at the foot of every page: whom to ask"},
	}
}

// langFlag returns the option on the language of what is written.
func langFlag(of string) cli.Flag {
	return &cli.StringFlag{Name: "lang", Usage: "`LANGUAGE` of " + of + ": " + strings.Join(templates.Languages(), ", ")}
}

// wordsFlag returns the option on words of one's own.
func wordsFlag() cli.Flag {
	return &cli.StringFlag{Name: "words", Usage: "use your own words from the .tmpl files in `DIR`"}
}

func readOptions(c *cli.Context) (workbook.ReadOptions, error) {
	settings, err := settingsOf(c)
	options := workbook.ReadOptions{Since: version.Made, Sheets: c.StringSlice("sheet"), Language: templates.FindLanguage, Password: passwordOf(c, c.Args().First()), Settings: settings}
	if err != nil {
		return options, err
	}
	for _, pair := range c.StringSlice("column") {
		// A header may contain "=", and so may the parentheses of a meaning.
		end := strings.LastIndex(pair, "(")
		if end < 0 || !strings.HasSuffix(pair, ")") {
			end = len(pair)
		}
		at := strings.LastIndex(pair[:end], "=")
		if at < 1 || at == len(pair)-1 {
			return options, usageError(fmt.Sprintf("--column: %q should be HEADER=MEANING, such as \"Puls i vila=resting heart rate\"", pair))
		}
		if options.Columns == nil {
			options.Columns = map[string]string{}
		}
		options.Columns[pair[:at]] = pair[at+1:]
	}
	if text := c.String("test-date"); text != "" {
		day, err := time.Parse(time.DateOnly, text)
		if err != nil {
			return options, usageError(fmt.Sprintf("--test-date: %q should be year-month-day, such as 2026-05-31", text))
		}
		options.TestDate = day
	}
	return options, nil
}

// read opens a roster by the options of the command and scores it.
func read(c *cli.Context, path string) (report.Scored, error) {
	reading, err := readOptions(c)
	if err != nil {
		return report.Scored{}, err
	}
	roster, err := openRoster(path, reading)
	if err != nil {
		return report.Scored{}, err
	}
	options, err := scoreOptions(roster)
	if err != nil {
		return report.Scored{}, err
	}
	noteClock(c.App.ErrWriter, roster)
	earlier, err := openEarlier(c.StringSlice("earlier"), path, reading, c.App.ErrWriter)
	if err != nil {
		return report.Scored{}, err
	}
	return report.Scored{Roster: roster, Earlier: earlier, Options: options, Outcomes: batch.Score(roster, options, earlier...)}, nil
}

func noteClock(errs io.Writer, roster *workbook.Roster) {
	if text := batch.ClockText(roster); text != "" {
		fmt.Fprintf(errs, "tenback: note: %s; %s\n", text, batch.ClockIgnored)
	}
}

// openEarlier reads the earlier workbooks of a roster, and notes on errs how many
// cells of each could not be read.
func openEarlier(paths []string, roster string, reading workbook.ReadOptions, errs io.Writer) ([]*workbook.Roster, error) {
	var all []*workbook.Roster
	for _, path := range paths {
		same, err := sameFile(path, roster)
		if err != nil {
			return nil, fmt.Errorf("--earlier: %w", err)
		}
		if same {
			return nil, usageError(fmt.Sprintf("--earlier: %s is the roster itself; its sheets are compared anyway", path))
		}
		if reading.Answers, err = inquiry.Answers(path, reading.Password); err != nil {
			return nil, withPasswordHint(err)
		}
		e, err := workbook.OpenEarlier(path, reading)
		if err != nil {
			return nil, withPasswordHint(err)
		}
		if n := people.CellsToMend(e); n > 0 {
			fmt.Fprintf(errs, "tenback: note: %s to mend in the earlier workbook; tenback check %s lists them\n", terminal.Count(n, "cell", "cells"), terminal.Argument(path))
		}
		all = append(all, e)
	}
	return all, nil
}

// sameFile reports whether two paths lead to one file.
func sameFile(a, b string) (bool, error) {
	x, err := os.Stat(a)
	if err != nil {
		return false, err
	}
	y, err := os.Stat(b)
	if err != nil {
		return false, err
	}
	return os.SameFile(x, y), nil
}

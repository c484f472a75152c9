package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/cell"
	"tenback/workbook/safefile"
	"tenback/workbook/source"
)

// rosterFlags are the options of every command that reads a roster.
func rosterFlags() []cli.Flag {
	return []cli.Flag{
		sheetFlag(),
		columnFlag(),
		&cli.StringFlag{Name: "date-order", Usage: "of dates typed as text: `ORDER` day-first or month-first"},
		&cli.StringFlag{Name: "sex-code", Usage: "what numbers in the sex column mean, such as `1=M,2=F`"},
		&cli.StringFlag{Name: "test-date", Usage: "`DATE` of the test (2026-05-31) for rows without one"},
		passwordFlag(),
	}
}

func sheetFlag() cli.Flag {
	return &cli.StringSliceFlag{Name: "sheet", Usage: "read only the sheet called `NAME` (may be given again)"}
}

func columnFlag() cli.Flag {
	return &cli.StringSliceFlag{Name: "column", Usage: "what a column holds, as `\"HEADER=MEANING\"`: a header that is known, or ignore (may be given again)"}
}

// readFlags are the options of every command that reads and scores a roster.
func readFlags() []cli.Flag {
	return append(rosterFlags(),
		&cli.StringSliceFlag{Name: "equation", Usage: "use the equation called `ID` for its test (see tenback tests ID; may be given again)"},
		&cli.StringFlag{Name: "adult-table", Usage: "read adults against `TABLE`: " + strings.Join(adultTables(), ", ") + ", or one of your own: a CSV file, or sheet:NAME for a sheet of the roster"},
		&cli.StringFlag{Name: "youth-table", Usage: "read people under 18 against `TABLE`: " + strings.Join(youthTables(), ", ")},
		&cli.StringSliceFlag{Name: "earlier", Usage: "an earlier workbook `FILE` of the same people, to compare with (may be given again)"},
		&cli.BoolFlag{Name: "fallback", Usage: "estimate people without a test from what else is known: rough, and marked so"},
	)
}

func readOptions(c *cli.Context) (workbook.ReadOptions, error) {
	options := workbook.ReadOptions{Since: version.Made, Sheets: c.StringSlice("sheet"), Language: templates.FindLanguage, Password: passwordOf(c, c.Args().First())}
	for _, pair := range c.StringSlice("column") {
		at := strings.LastIndex(pair, "=") // a header may hold the sign itself
		if at < 1 || at == len(pair)-1 {
			return options, usageError(fmt.Sprintf("--column: %q should be HEADER=MEANING, such as \"Puls i vila=resting heart rate\"", pair))
		}
		if options.Columns == nil {
			options.Columns = map[string]string{}
		}
		options.Columns[pair[:at]] = pair[at+1:]
	}
	switch order := c.String("date-order"); order {
	case "":
	case "day-first":
		options.DateOrder = cell.DayFirst
	case "month-first":
		options.DateOrder = cell.MonthFirst
	default:
		return options, usageError(fmt.Sprintf("--date-order is day-first or month-first, not %q", order))
	}
	if codes := c.String("sex-code"); codes != "" {
		options.SexCodes = map[string]scoring.Sex{}
		for _, pair := range strings.Split(codes, ",") {
			code, letter, _ := strings.Cut(strings.TrimSpace(pair), "=")
			sex, ok := map[string]scoring.Sex{"F": scoring.Female, "M": scoring.Male}[strings.ToUpper(letter)]
			if !ok || code == "" {
				return options, usageError(fmt.Sprintf("--sex-code: %q should be such as 1=M,2=F", codes))
			}
			options.SexCodes[code] = sex
		}
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

func scoreOptions(c *cli.Context) (scoring.Options, error) {
	options := scoring.Options{Equations: c.StringSlice("equation")}
	if c.Bool("fallback") {
		options.Fallback = fieldtests.WithoutExercise()
	}
	for _, id := range options.Equations {
		if _, _, ok := fieldtests.Equation(id); !ok {
			return options, usageError(fmt.Sprintf("--equation: there is no equation %q; tenback tests ID shows those of a test", id))
		}
	}
	var err error
	if id := c.String("adult-table"); id != "" {
		if options.Adults, err = adultTable(id, c.Args().First(), passwordOf(c, c.Args().First())); err != nil {
			return options, err
		}
	}
	if id := c.String("youth-table"); id != "" {
		var ok bool
		if options.Youth, ok = reference.YouthTableByID(id); !ok {
			return options, usageError(fmt.Sprintf("--youth-table: there is no table %q; known are %s", id, strings.Join(youthTables(), ", ")))
		}
	}
	return options, nil
}

// adultTable finds a published table by name, or reads one from a CSV file or
// from a sheet of the roster.
func adultTable(id, roster string, password func() (string, error)) (*reference.GroupTable, error) {
	if t, ok := reference.AdultTable(id); ok {
		return t, nil
	}
	if sheet, ok := strings.CutPrefix(id, "sheet:"); ok {
		rows, err := source.SheetText(roster, sheet, password)
		if err != nil {
			return nil, fmt.Errorf("the adult table cannot be read: %w", err)
		}
		return reference.OwnGroupTable(sheet, rows)
	}
	if !strings.EqualFold(filepath.Ext(id), ".csv") {
		return nil, usageError(fmt.Sprintf("--adult-table: there is no table %q; known are %s, or give a CSV file or sheet:NAME", id, strings.Join(adultTables(), ", ")))
	}
	f, err := openPlain(id)
	if err != nil {
		return nil, fmt.Errorf("the adult table cannot be read: %w", err)
	}
	defer f.Close()
	return reference.ReadGroupTable(filepath.Base(id), f)
}

func adultTables() []string {
	var all []string
	for _, t := range reference.AdultTables {
		all = append(all, t.ID)
	}
	return all
}

func youthTables() []string {
	var all []string
	for _, t := range reference.YouthTables {
		all = append(all, t.ID)
	}
	return all
}

// scoredRoster is a roster with what was read and scored with it.
type scoredRoster struct {
	roster   *workbook.Roster
	earlier  []*workbook.Roster
	options  scoring.Options
	outcomes []workbook.Outcome
}

// read opens a roster as the options of the command say, and scores it.
func read(c *cli.Context, path string) (scoredRoster, error) {
	reading, err := readOptions(c)
	if err != nil {
		return scoredRoster{}, err
	}
	options, err := scoreOptions(c)
	if err != nil {
		return scoredRoster{}, err
	}
	roster, err := openRoster(path, reading)
	if err != nil {
		return scoredRoster{}, err
	}
	noteClock(c.App.ErrWriter, roster)
	earlier, err := openEarlier(c.StringSlice("earlier"), path, reading, c.App.ErrWriter)
	if err != nil {
		return scoredRoster{}, err
	}
	return scoredRoster{roster, earlier, options, batch.Score(roster, options, earlier...)}, nil
}

func noteClock(errs io.Writer, roster *workbook.Roster) {
	if text := batch.ClockText(roster); text != "" {
		fmt.Fprintf(errs, "tenback: note: %s; %s\n", text, batch.ClockIgnored)
	}
}

// openEarlier reads the earlier workbooks of a roster, and says of each how many
// of its cells are to mend.
func openEarlier(paths []string, roster string, reading workbook.ReadOptions, errs io.Writer) ([]*workbook.Roster, error) {
	var all []*workbook.Roster
	for _, path := range paths {
		same, err := sameFile(path, roster)
		if err != nil {
			return nil, fmt.Errorf("--earlier: %w", err)
		}
		if same {
			return nil, usageError(fmt.Sprintf("--earlier: %s is the roster itself, whose sheets are compared anyway", path))
		}
		e, err := workbook.OpenEarlier(path, reading)
		if err != nil {
			return nil, withPasswordHint(err)
		}
		if n := workbook.CellsToMend(e); n > 0 {
			fmt.Fprintf(errs, "tenback: note: %s to mend in the earlier workbook; tenback check %s lists them\n", terminal.Count(n, "cell", "cells"), terminal.Argument(path))
		}
		all = append(all, e)
	}
	return all, nil
}

// openPlain opens a plain file for reading; what keeps it from that names it.
func openPlain(path string) (*os.File, error) {
	f, _, err := safefile.OpenPlain(path, os.O_RDONLY)
	if errors.Is(err, safefile.ErrNotPlain) {
		err = fmt.Errorf("%s: %w", path, err)
	}
	return f, err
}

// sameFile tells whether two paths lead to one file.
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

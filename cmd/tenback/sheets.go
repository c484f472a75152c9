package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/workbook/safefile"
	"tenback/workbook/source"
	"tenback/workbook/starter"
)

// blankMost is the greatest number of empty lines of a sheet.
const blankMost = 1000

func sheetsCommand() *cli.Command {
	return &cli.Command{
		Name:      "sheets",
		Usage:     "make recording sheets to print, and a plan of the test day",
		ArgsUsage: "[ROSTER.xlsx]",
		Description: `Makes one PDF a test: how it is run, what to say, when to stop someone, tables
to read from, and the people of the roster in order with room to write. Beside
them test-day-plan.pdf says how many waves, minutes and helpers the tests take.

With a roster the tests are those it has columns for, and the folder is
ROSTER-sheets. With --blank the lines are empty and the tests must be named.

Example:  tenback sheets fitness-week.xlsx
          tenback sheets --blank 24 --test walk-1-mile --test step-41-cm

` + sharedHelp,
		Flags: append(rosterFlags(),
			&cli.IntFlag{Name: "blank", Usage: "`N` empty lines instead of the people of a roster"},
			&cli.StringSliceFlag{Name: "test", Usage: "make the sheets of this test; tenback tests lists the `ID`s"},
			&cli.StringFlag{Name: "shuttle-start", Value: "8.0", Usage: "`SPEED` of level 1 of your recording: 8.0 or 8.5 km/h"},
			&cli.StringFlag{Name: "out", Usage: "write the sheets into `DIR` instead of ROSTER-sheets"},
			paperFlag(),
			langFlag("the sheets"),
			wordsFlag(),
		),
		Action: func(c *cli.Context) error {
			day, err := testDayFromFlags(c)
			if err != nil {
				return err
			}
			return day.print(c.Context, c.App.Writer)
		},
	}
}

// testDay holds what the papers of one test day are made from.
type testDay struct {
	out          string // folder
	tests        []*scoring.Test
	people       []testday.Listed
	blank        int
	shuttleStart float64
	paper        kit.Paper
	words        *templates.Set
}

func testDayFromFlags(c *cli.Context) (testDay, error) {
	d := testDay{out: c.String("out"), blank: c.Int("blank")}
	var err error
	if d.paper, err = paperOf(c); err != nil {
		return d, err
	}
	switch start := c.String("shuttle-start"); start {
	case "8.0", "8":
		d.shuttleStart = 8.0
	case "8.5":
		d.shuttleStart = 8.5
	default:
		return d, usageError(fmt.Sprintf("--shuttle-start is 8.0 or 8.5, not %q", start))
	}
	for _, id := range c.StringSlice("test") {
		t, ok := fieldtests.ByID(id)
		switch {
		case !ok:
			return d, usageError(fmt.Sprintf("--test: there is no test %q; tenback tests lists them", id))
		case !testday.Recordable(t):
			return d, usageError(fmt.Sprintf("--test: %s: %v", id, testday.ErrNotRecordable))
		}
		d.tests = append(d.tests, t)
	}
	if c.IsSet("blank") {
		if err := d.fillBlank(c); err != nil {
			return d, err
		}
		d.words, err = wordsOf(c)
		return d, err
	}
	path, err := oneArgument(c, "a roster, or --blank N")
	if err != nil {
		return d, err
	}
	return d, d.fillFrom(c, path)
}

// fillBlank checks the options of sheets without people.
func (d *testDay) fillBlank(c *cli.Context) error {
	switch {
	case c.Args().Len() > 0:
		return usageError(fmt.Sprintf("sheets takes a roster or --blank, not both, but got %q too", c.Args().First()))
	case d.blank < 1 || d.blank > blankMost:
		return usageError(fmt.Sprintf("--blank takes a whole number from 1 to %d", blankMost))
	case len(d.tests) == 0:
		return usageError("--blank needs to know the tests: add --test ID, such as --test walk-1-mile; tenback tests lists them")
	}
	if d.out == "" {
		d.out = "blank-sheets"
	}
	return nil
}

// fillFrom takes the people from a roster, and the tests if none are named.
func (d *testDay) fillFrom(c *cli.Context, path string) error {
	reading, err := readOptions(c)
	if err != nil {
		return err
	}
	roster, err := openRoster(path, reading)
	if errors.Is(err, source.ErrNoPeople) {
		return terminal.Hinted(err, "fill in the names first, or print empty lines with --blank N --test ID")
	}
	if err != nil {
		return err
	}
	lang, err := languageOf(roster.Settings)
	if err != nil {
		return err
	}
	if d.words, err = templates.Load(lang, c.String("words")); err != nil {
		return err
	}
	for _, sheet := range roster.Sheets {
		for i := range sheet.Rows {
			row := &sheet.Rows[i]
			d.people = append(d.people, testday.Listed{Name: row.Person.Name, ID: row.Person.ID, Group: row.Person.Group,
				Sheet: sheet.Name, Row: row.Number, Known: &row.Entry})
		}
	}
	if len(d.tests) == 0 {
		for _, t := range starter.ResultTests(roster) {
			if testday.Recordable(t) {
				d.tests = append(d.tests, t)
			}
		}
	}
	if len(d.tests) == 0 {
		return terminal.Hinted(fmt.Errorf("%s: no column of the roster belongs to a test that is run with a group", path),
			"name the tests with --test ID; tenback tests lists them")
	}
	if d.out == "" {
		d.out = filepath.Join(filepath.Dir(path), batch.BaseOf(path)+"-sheets")
	}
	return nil
}

// print writes the files and lists them.
func (d *testDay) print(ctx context.Context, out io.Writer) error {
	if err := writable(d.out); err != nil {
		return err
	}
	var replaced []rune
	made := func(name string, report kit.Report) {
		fmt.Fprintf(out, "%-28s%s\n", name, terminal.Count(report.Pages, "page", "pages"))
		replaced = append(replaced, report.Replaced...)
	}
	for _, t := range d.tests {
		if err := ctx.Err(); err != nil {
			return err
		}
		recording := testday.Recording{Test: t, People: d.people, Blank: d.blank, ShuttleStart: d.shuttleStart,
			Paper: d.paper, Words: d.words, Program: version.Program()}
		for _, c := range starter.TestColumns(t, d.words) {
			recording.Columns = append(recording.Columns, testday.Column(c))
		}
		report, err := d.save(t.ID+".pdf", func(w io.Writer) (kit.Report, error) { return testday.WriteRecording(w, recording) })
		if err != nil {
			return err
		}
		made(t.ID+".pdf", report)
	}
	plan := testday.Plan{Tests: d.tests, People: max(len(d.people), d.blank), Paper: d.paper, Words: d.words, Program: version.Program()}
	report, err := d.save("test-day-plan.pdf", func(w io.Writer) (kit.Report, error) { return testday.WritePlan(w, plan) })
	if err != nil {
		return err
	}
	made("test-day-plan.pdf", report)
	if len(replaced) > 0 {
		fmt.Fprintf(out, "\nNote: %s\n", batch.NoFont(replaced))
	}
	fmt.Fprintf(out, "\nSheets  %s (%s)\n", d.out, terminal.Count(len(d.tests)+1, "file", "files"))
	return nil
}

// save writes one document whole or not at all.
func (d *testDay) save(name string, draw func(io.Writer) (kit.Report, error)) (kit.Report, error) {
	var page bytes.Buffer
	report, err := draw(&page)
	if err != nil {
		return report, fmt.Errorf("%s: %w", name, err)
	}
	return report, safefile.WriteBytes(filepath.Join(d.out, name), page.Bytes())
}

package main

import (
	"fmt"
	"io"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/scoring/reference"
)

// newApp declares the commands, each in a file of its own.
func newApp(out, errs io.Writer) *cli.App {
	cli.VersionPrinter, cli.FlagStringer = printVersion, flagText // the library has no other way
	return &cli.App{
		Name:      "tenback",
		Usage:     "VO2max from field tests: from a roster to scored columns and one page a person",
		UsageText: "tenback [run] ROSTER.xlsx [options]\n   tenback COMMAND [options] [arguments]",
		Version:   version.Number,
		Description: `The roster itself is never changed unless you ask with --in-place.
Try it:  tenback demo

An estimate is no diagnosis. Screen people before testing, know when to stop a
test, and follow local rules and the advice of licensed professionals.`,
		Flags:     []cli.Flag{cli.HelpFlag}, // the library drops it because of our help command
		Writer:    out,
		ErrWriter: errs,
		Commands: []*cli.Command{
			runCommand(), watchCommand(), checkCommand(), explainCommand(), groupCommand(), planCommand(), newCommand(), demoCommand(),
			deliverCommand(), forgetCommand(),
			sheetsCommand(), testsCommand(), tablesCommand(), evidenceCommand(), doctorCommand(), helpCommand(), completionCommand(), manualCommand(),
		},
		DisableSliceFlagSeparator: true, // sheet names may hold commas
		EnableBashCompletion:      true,
		HideHelpCommand:           true,
		ExitErrHandler:            func(*cli.Context, error) {}, // conclude decides
		OnUsageError:              onUsageError,
		CommandNotFound:           func(*cli.Context, string) {},
	}
}

// printVersion prints the version and the editions of the published tables.
func printVersion(c *cli.Context) {
	w := c.App.Writer
	fmt.Fprintf(w, "%s\n\ntables, with source and the mark of their edition:\n", version.Program())
	t := terminal.Table(w)
	for _, known := range reference.Tables() {
		if !known.ShownOnly {
			t.AppendRow(table.Row{"  " + known.ID, known.Source, known.Edition()})
		}
	}
	t.Render()
}

// onUsageError converts the library's error, so it decides the exit status.
func onUsageError(_ *cli.Context, err error, _ bool) error { return usageError(err.Error()) }

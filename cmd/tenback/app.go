package main

import (
	"io"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/version"
)

// newApp declares the program: one file a command.
func newApp(out, errs io.Writer) *cli.App {
	return &cli.App{
		Name:      "tenback",
		Usage:     "VO2max from field tests: from a roster to scored columns and one page a person",
		UsageText: "tenback [run] ROSTER.xlsx [options]\n   tenback COMMAND [options] [arguments]",
		Version:   version.String(),
		Description: `Reads a workbook of people and their field tests, estimates VO2max with its
error, reads it against published tables, and writes result columns and one
PDF a person. The roster itself is never changed unless you ask with --in-place.

Try it:  tenback demo

` + exitStatusHelp + `

An estimate is no diagnosis. Screen people before testing, know when to stop a
test, and follow local rules and the advice of licensed professionals.`,
		Writer:    out,
		ErrWriter: errs,
		Commands: []*cli.Command{
			runCommand(), checkCommand(), explainCommand(), groupCommand(), newCommand(), demoCommand(),
			sheetsCommand(), testsCommand(), tablesCommand(), evidenceCommand(), doctorCommand(),
		},
		DisableSliceFlagSeparator: true, // sheet names may hold commas
		HideHelpCommand:           true,
		ExitErrHandler:            func(*cli.Context, error) {}, // report decides
		OnUsageError:              onUsageError,
		CommandNotFound:           func(*cli.Context, string) {},
	}
}

// onUsageError turns the library's complaint into our kind of error, so that
// it reaches stderr and the exit status.
func onUsageError(_ *cli.Context, err error, _ bool) error { return usageError(err.Error()) }

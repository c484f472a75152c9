package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"tenback/cmd/internal/terminal"
	"tenback/workbook/roster"
)

// The exit statuses.
const (
	statusOK      = 0
	statusFailed  = 1
	statusUsage   = 2
	statusLeftOut = 3
	statusStopped = 130
)

// sharedHelp ends the help of the commands that read a roster.
const sharedHelp = `Options of reading, such as --sheet and --set: tenback help options
Exit statuses: tenback help trouble`

const exitStatuses = `
   0    all rows scored
   1    the run failed: file missing, locked, no usable sheet
   2    wrong usage
   3    done, but some rows were left out, or some people have no message
   130  stopped by Ctrl-C`

// usageError is a mistake in the command line.
type usageError string

func (e usageError) Error() string { return string(e) }

// isUsage reports whether err is a mistake in the command line.
func isUsage(err error) bool {
	var usage usageError
	var setting *roster.SettingError
	return errors.As(err, &usage) || errors.As(err, &setting) && setting.ByOption
}

// errLeftOut ends a run that listed rows it could not score.
var errLeftOut = errors.New("some rows were left out")

// errClosed ends the desk, which Ctrl-C closes.
var errClosed = errors.New("closed")

// conclude prints what went wrong, if anything, and returns the exit status.
func conclude(w io.Writer, err error) int {
	switch {
	case err == nil, errors.Is(err, errClosed):
		return statusOK
	case errors.Is(err, errLeftOut):
		return statusLeftOut
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(w, "tenback: stopped")
		return statusStopped
	case isUsage(err):
		fmt.Fprintf(w, "tenback: error: %v\n", strings.TrimSpace(err.Error()))
		fmt.Fprintln(w, "tenback: hint: tenback --help shows the commands, tenback COMMAND --help the options")
		return statusUsage
	}
	fmt.Fprintf(w, "tenback: error: %v\n", err)
	if hint := terminal.HintOf(err); hint != "" {
		fmt.Fprintf(w, "tenback: hint: %s\n", hint)
	}
	return statusFailed
}

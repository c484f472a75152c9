// Tenback turns a roster of field-test results into VO2max estimates with
// their errors, result columns in the sheet and one page a person.
//
// See README.md, or run `tenback --help`.
package main

import (
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"tenback/cmd/internal/single"
	"tenback/cmd/internal/terminal"
	"tenback/workbook/safefile"
)

// grace is the time in which a command may end by itself after Ctrl-C.
const grace = 600 * time.Millisecond

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	ended := make(chan int, 1)
	go func() { ended <- run(ctx, os.Args, os.Stdout, os.Stderr) }()
	status := wait(ctx, ended)
	stop()
	if status != statusStopped {
		terminal.StayOpen(os.Stdout)
	}
	os.Exit(status)
}

// wait returns the exit status of the command, which ended reports. A command that
// does not end in time after Ctrl-C is left in the middle, without its half-written
// files.
func wait(ctx context.Context, ended <-chan int) (status int) {
	select {
	case status = <-ended:
		return status
	case <-ctx.Done():
	}
	select {
	case status = <-ended:
		return status
	case <-time.After(grace):
		safefile.Abandon()
		single.Abandon()
		return conclude(os.Stderr, ctx.Err())
	}
}

// run is the program without exit and standard streams.
func run(ctx context.Context, args []string, out, err io.Writer) (status int) {
	out, err = terminal.Plain(out), terminal.Plain(err)
	app := newApp(out, err)
	args, usage := arrange(app, args)
	if usage != nil {
		return conclude(err, usage)
	}
	failure := app.RunContext(ctx, args)
	if ctx.Err() != nil && (failure == nil || errors.Is(failure, errLeftOut)) {
		failure = ctx.Err() // the command did not notice
	}
	return conclude(err, failure)
}

// Tenback turns a roster of field-test results into VO2max estimates with
// their errors, result columns in the sheet and one page a person.
//
// See README.md, or run `tenback --help`.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"

	"tenback/cmd/internal/terminal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args, os.Stdout, os.Stderr)
	stop()
	terminal.StayOpen(os.Stdout)
	os.Exit(status)
}

// run is the program without exit and standard streams.
func run(ctx context.Context, args []string, out, err io.Writer) (status int) {
	out, err = terminal.Plain(out), terminal.Plain(err)
	app := newApp(out, err)
	args, usage := arrange(app, args)
	if usage != nil {
		return conclude(err, usage)
	}
	return conclude(err, app.RunContext(ctx, args))
}

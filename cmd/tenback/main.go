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
	"runtime/debug"
	"syscall"
)

// memoryGoal is how much memory the garbage collector tries to stay within. A
// roster of 100,000 people takes about 270 MB, which would otherwise double
// before it collects; larger ones go beyond and take longer.
const memoryGoal = 340 << 20

// garbagePercent is how much garbage may pile up, of what is in use, before it
// is collected: a page leaves a megabyte and little is in use, so at the usual
// 100 a quarter of the time went into collecting. The goal above still holds.
const garbagePercent = 400

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryGoal)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePercent)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args, os.Stdout, os.Stderr)
	stop()
	stayOpen(os.Stdout)
	os.Exit(status)
}

// run is the whole program: nothing below it exits or touches the standard
// streams.
func run(ctx context.Context, args []string, out, err io.Writer) (status int) {
	app := newApp(out, err)
	args, usage := arrange(app, args)
	if usage != nil {
		return report(err, usage)
	}
	return report(err, app.RunContext(ctx, args))
}

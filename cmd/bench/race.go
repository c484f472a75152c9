package main

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"
)

// spent is what one run of a program took.
type spent struct {
	wall, cpu time.Duration
	memory    int64 // peak, in bytes; 0 where the system does not report it
}

// run runs a program as a process of its own. The word OUT in its arguments
// becomes a fresh folder; look, if not nil, sees it before it is removed.
func run(ctx context.Context, args []string, look func(out string) error) (spent, error) {
	out, err := os.MkdirTemp("", "tenback-bench-*")
	if err != nil {
		return spent{}, err
	}
	defer func() { _ = os.RemoveAll(out) }()
	args = slices.Clone(args)
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "OUT", out)
	}
	command := exec.CommandContext(ctx, args[0], args[1:]...)
	command.Stderr = os.Stderr
	start := time.Now()
	err = command.Run()
	wall := time.Since(start)
	if err != nil {
		return spent{}, fmt.Errorf("%s: %w", strings.Join(args, " "), err)
	}
	if look != nil {
		err = look(out)
	}
	return spent{wall, command.ProcessState.UserTime() + command.ProcessState.SystemTime(), peakMemory(command.ProcessState)}, err
}

// race runs the programs in turn, so that other load meets all of them, and
// returns for each the run with the median wall time.
func race(ctx context.Context, times int, programs ...[]string) ([]spent, error) {
	all := make([][]spent, len(programs))
	for range times {
		for i, p := range programs {
			s, err := run(ctx, p, nil)
			if err != nil {
				return nil, err
			}
			all[i] = append(all[i], s)
		}
	}
	medians := make([]spent, len(programs))
	for i, runs := range all {
		slices.SortFunc(runs, func(x, y spent) int { return cmp.Compare(x.wall, y.wall) })
		medians[i] = runs[len(runs)/2]
	}
	return medians, nil
}

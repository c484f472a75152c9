package main

import (
	"context"
	"errors"
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
	memory    int64 // bytes at most; 0 where the system does not tell
}

// program is a contestant.
type program struct {
	name string
	args []string // the program's file first
	env  []string // on top of ours
	// okay is an exit status that counts as done besides 0.
	okay int
}

// run runs the program once, as a process of its own. The word OUT in its
// arguments becomes a fresh folder, which is removed again unless keep looks at
// it.
func (p program) run(ctx context.Context, keep func(out string) error) (spent, error) {
	out, err := os.MkdirTemp("", "tenback-bench-*")
	if err != nil {
		return spent{}, err
	}
	defer func() { _ = os.RemoveAll(out) }()
	args := slices.Clone(p.args)
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "OUT", out)
	}
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	cmd.Env = append(os.Environ(), p.env...)
	var complaint strings.Builder
	cmd.Stderr = &complaint
	start := time.Now()
	err = cmd.Run()
	wall := time.Since(start)
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() == p.okay && p.okay != 0 {
		err = nil
	}
	if err != nil {
		return spent{}, fmt.Errorf("%s: %w\n%s", p.name, err, complaint.String())
	}
	if keep != nil {
		if err := keep(out); err != nil {
			return spent{}, err
		}
	}
	return spent{wall, cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), mostMemory(cmd.ProcessState)}, nil
}

// race runs the programs in turn, so many times each, so that whatever else the
// machine does meets all of them, and gives the median of each.
func race(ctx context.Context, times int, programs ...program) ([]spent, error) {
	all := make([][]spent, len(programs))
	for range times {
		for i, p := range programs {
			s, err := p.run(ctx, nil)
			if err != nil {
				return nil, err
			}
			all[i] = append(all[i], s)
		}
	}
	medians := make([]spent, len(programs))
	for i, runs := range all {
		medians[i] = spent{
			wall:   median(runs, func(s spent) time.Duration { return s.wall }),
			cpu:    median(runs, func(s spent) time.Duration { return s.cpu }),
			memory: median(runs, func(s spent) int64 { return s.memory }),
		}
	}
	return medians, nil
}

// median is the middle one of a quantity of the runs.
func median[R any, T ~int64](runs []R, of func(R) T) T {
	var all []T
	for _, r := range runs {
		all = append(all, of(r))
	}
	slices.Sort(all)
	return all[len(all)/2]
}

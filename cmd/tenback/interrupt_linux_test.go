package main

import (
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Ctrl-C ends every command that reads a roster, at any moment, with status 130 and
// no temporary file. SIGTERM does too.
func TestInterrupted(t *testing.T) {
	notShort(t)
	t.Parallel()
	const hung = time.Minute
	for i, args := range [][]string{
		{"check"}, {"check", "--json"}, {"explain", "--name", "Person 0007"}, {"group"}, {"plan"}, {"sheets"}, {"doctor"},
		{"run"}, {"run", "--no-reports"}, {"run", "--combined"}, {"watch"}, {"deliver"}, {"forget", "--name", "Person 0007", "--yes"},
	} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			t.Parallel()
			random := rand.New(rand.NewPCG(5, uint64(i)))
			roster := weekOf(t, 50_000, -1, 0) // takes longer to read than any moment below
			dir := filepath.Dir(roster)
			for _, signal := range []os.Signal{os.Interrupt, os.Interrupt, syscall.SIGTERM} {
				cmd := command(append(args, roster)...)
				if err := cmd.Start(); err != nil {
					t.Fatal(err)
				}
				time.Sleep(time.Duration(random.Int64N(int64(time.Second))))
				if err := cmd.Process.Signal(signal); err != nil {
					t.Fatal(err)
				}
				guard := time.AfterFunc(hung, func() { _ = cmd.Process.Kill() }) // it may just have ended
				err := cmd.Wait()
				if !guard.Stop() {
					t.Fatalf("it did not end within %v", hung)
				}
				if status := statusOf(err, signal); status != statusStopped && !(args[0] == "watch" && status == statusOK) {
					t.Errorf("status %d after %v", status, signal)
				}
				for _, pattern := range []string{".tenback-*.tmp", "*/.tenback-*.tmp", ".*.tenback-lock"} {
					if left, err := filepath.Glob(filepath.Join(dir, pattern)); err != nil || len(left) > 0 {
						t.Errorf("left behind: %v %v", left, err)
					}
				}
				noHalfFiles(t, dir, nil)
			}
		})
	}
}

// statusOf returns the exit status of a program. A signal that came before the
// program could handle it gives statusStopped, as a shell reports it.
func statusOf(ended error, sent os.Signal) int {
	var exit *exec.ExitError
	if !errors.As(ended, &exit) {
		return statusOK
	}
	if by, ok := exit.Sys().(syscall.WaitStatus); ok && by.Signaled() && by.Signal() == sent {
		return statusStopped
	}
	return exit.ExitCode()
}

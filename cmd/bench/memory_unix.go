//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peakMemory returns the peak resident memory of a process, in bytes.
func peakMemory(state *os.ProcessState) int64 {
	usage, ok := state.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return usage.Maxrss
	}
	return usage.Maxrss << 10
}

//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// mostMemory is the most memory that a process held at a time, in bytes.
func mostMemory(state *os.ProcessState) int64 {
	usage, ok := state.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return usage.Maxrss
	}
	return usage.Maxrss << 10
}

package main

import (
	"os"
	"runtime/debug"
	"runtime/metrics"
)

// The collector usually lets as much garbage pile up as there is in use. Of a
// very large roster that is more than a small computer likes to give, so from
// muchMemory on it has to work harder, as long as it keeps roomToCollect times
// what is in use: with less it would do little else.
const (
	muchMemory    = 355 << 20 // bytes of all that the program holds
	roomToCollect = 1.6
)

// boundMemory sets that by what is in use now, unless the user has set
// GOMEMLIMIT.
func boundMemory() {
	if os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	debug.SetMemoryLimit(max(muchMemory, int64(roomToCollect*float64(inUse()))))
}

// inUse is how many bytes were in use when the collector last looked.
func inUse() uint64 {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	return live[0].Value.Uint64()
}

// While pages are made garbage may pile up to garbageMost, whatever is in use, but
// not beyond garbagePercent of that: a page leaves some hundred kilobytes behind,
// and at the usual 100 percent a quarter of the time went into collecting.
const (
	garbageMost    = 80 << 20 // bytes
	garbagePercent = 400
)

// leaveGarbage begins that, unless the user has set GOGC; what it returns ends it.
func leaveGarbage() (end func()) {
	if os.Getenv("GOGC") != "" {
		return func() {}
	}
	percent := min(garbagePercent, 100*garbageMost/max(inUse(), 1))
	before := debug.SetGCPercent(int(max(100, percent)))
	return func() { debug.SetGCPercent(before) }
}

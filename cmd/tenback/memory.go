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
	inUse := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(inUse)
	debug.SetMemoryLimit(max(muchMemory, int64(roomToCollect*float64(inUse[0].Value.Uint64()))))
}

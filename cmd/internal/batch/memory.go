package batch

import (
	"os"
	"runtime/debug"
	"runtime/metrics"
)

// The garbage collector lets as much garbage pile up as is live. On a very large
// roster that is too much for a small computer, so above muchMemory it must work
// harder, but keeps roomToCollect times the live bytes.
const (
	muchMemory    = 420 << 20 // bytes of all that the program holds
	roomToCollect = 1.6
)

// boundMemory sets the memory limit by what is live now, unless the user has set
// GOMEMLIMIT.
func boundMemory() {
	if os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	debug.SetMemoryLimit(max(muchMemory, int64(roomToCollect*float64(live()))))
}

// live returns the bytes that were live at the last collection.
func live() uint64 {
	bytes := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(bytes)
	return bytes[0].Value.Uint64()
}

// While pages are drawn, garbage may pile up to garbageMost or garbagePercent of
// the live bytes, whichever is less. A page leaves some hundred kilobytes behind,
// and at the usual 100 percent collecting took a quarter of the time.
const (
	garbageMost    = 80 << 20 // bytes
	garbagePercent = 400
)

// leaveGarbage allows that until end is called, unless the user has set GOGC.
func leaveGarbage() (end func()) {
	if os.Getenv("GOGC") != "" {
		return func() {}
	}
	percent := min(garbagePercent, 100*garbageMost/max(live(), 1))
	before := debug.SetGCPercent(int(max(100, percent)))
	return func() { debug.SetGCPercent(before) }
}

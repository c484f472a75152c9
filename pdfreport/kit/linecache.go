package kit

import "sync"

// Most of what a roster's pages say is said on many of them, and again where a
// page is laid out in several ways. So broken lines are cached.

// lineKey is what the lines of a text depend on.
type lineKey struct {
	text   string
	weight Weight
	width  float64
	marked bool // see BreakMarked
}

// The cache takes some megabytes at most. A longer text is someone's own.
const (
	linesCached     = 4096
	cachedBytesMost = 2000
)

// lineCache holds the lines of texts. It is safe for concurrent use.
type lineCache struct {
	mu    sync.RWMutex
	lines map[lineKey][]Line
}

// get returns the lines of a text and calls set for those not cached. The lines
// are shared: callers must not change them.
func (c *lineCache) get(key lineKey, set func() []Line) []Line {
	c.mu.RLock()
	lines, known := c.lines[key]
	c.mu.RUnlock()
	if known {
		return lines
	}
	lines = set()
	if len(key.text) > cachedBytesMost {
		return lines
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.lines == nil || len(c.lines) >= linesCached {
		c.lines = make(map[lineKey][]Line, linesCached)
	}
	c.lines[key] = lines
	return lines
}

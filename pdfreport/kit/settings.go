package kit

import "sync"

// Nearly all that the pages of a roster say is said on many of them, and again
// where a page is laid out in several ways, so lines are kept once they are set.

// setting is what a text's lines hang on, besides the fonts.
type setting struct {
	text   string
	weight Weight
	width  float64
	marked bool // see breakMarked
}

// Bounds of what is kept, some megabytes. A longer text is of somebody's own words.
const (
	settingsMost     = 4096
	settingBytesMost = 2000
)

// settings keeps the lines of texts. It is safe for use by several goroutines at
// once. The zero value is ready for use.
type settings struct {
	mu    sync.RWMutex
	lines map[setting][]Line
}

// of gives the lines of a text, which set makes where they are not kept. They
// are shared, so they are not to be changed.
func (k *settings) of(s setting, set func() []Line) []Line {
	if len(s.text) > settingBytesMost {
		return set()
	}
	k.mu.RLock()
	lines, known := k.lines[s]
	k.mu.RUnlock()
	if known {
		return lines
	}
	lines = set()
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.lines == nil || len(k.lines) >= settingsMost {
		k.lines = make(map[setting][]Line, settingsMost)
	}
	k.lines[s] = lines
	return lines
}

package kit

// Axis maps values to places along a width, in points from its left edge.
type Axis struct{ Lo, Hi, Width float64 }

// At returns the place of a value.
func (a Axis) At(v float64) float64 { return (v - a.Lo) / (a.Hi - a.Lo) * a.Width }

// Label is a text to be centred at a place.
type Label struct {
	At, Width float64
	Text      string
	Face      Face
}

// Spread moves labels sideways until they are between 0 and end and at least gap
// apart, in the same order.
func Spread(labels []Label, gap, end float64) []Label {
	placed := append([]Label(nil), labels...)
	edge := 0.0
	for i := range placed {
		l := &placed[i]
		l.At = max(l.At, edge+l.Width/2)
		edge = l.At + l.Width/2 + gap
	}
	edge = end
	for i := len(placed) - 1; i >= 0; i-- {
		l := &placed[i]
		l.At = min(l.At, edge-l.Width/2)
		edge = l.At - l.Width/2 - gap
	}
	return placed
}

// Labelled returns a label and measures its width.
func Labelled(at float64, text string, f Face) Label {
	return Label{at, TextWidth(text, f.Weight) * f.Size, text, f}
}

const (
	StripHeight = 20.0
	TickLength  = 3.0
)

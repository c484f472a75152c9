package kit

// Axis maps values to places along a width, in points from its left edge.
type Axis struct{ Lo, Hi, Width float64 }

func (a Axis) At(v float64) float64 { return (v - a.Lo) / (a.Hi - a.Lo) * a.Width }

// Label is a text that wants to stand centred at a place.
type Label struct {
	At, Width float64
	Text      string
	Face      Face
}

// Spread moves labels sideways, as little as a simple rule can, until they lie
// between 0 and end and at least gap apart. They keep their order.
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

// Labelled makes a label with its width measured.
func Labelled(at float64, text string, f Face) Label {
	return Label{at, TextWidth(text, f.Weight) * f.Size, text, f}
}

const (
	StripHeight = 20.0
	TickLength  = 3.0
)

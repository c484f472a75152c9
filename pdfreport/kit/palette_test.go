package kit

import "testing"

// sight simulates full loss of one kind of cone on linear light.
//
// Source: Machado GM, Oliveira MM, Fernandes LAF. A physiologically-based model
// for simulation of color vision deficiency. IEEE Trans Vis Comput Graph
// 2009;15:1291-1298; matrices for severity 1.0 (from memory).
var sight = map[string][3][3]float64{
	"full":     {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"no red":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"no green": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"no blue":  {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

func see(kind string, c Colour) rgb {
	m, in := sight[kind], c.linear()
	var out rgb
	for i := range out {
		for j := range in {
			out[i] += m[i][j] * in[j]
		}
		out[i] = min(max(out[i], 0), 1)
	}
	return out
}

// TestTextContrast: all text has a contrast of 4.5 to 1 for every kind of colour
// vision.
func TestTextContrast(t *testing.T) {
	for _, text := range []Colour{Ink, Soft, Petrol, Copper} {
		for _, ground := range []Colour{White, Mist} {
			for kind := range sight {
				if c := contrast(see(kind, text), see(kind, ground)); c < 4.5 {
					t.Errorf("%v on %v, %s: contrast %.2f", text, ground, kind, c)
				}
			}
		}
	}
	// Names on the bars of the resting heart rate.
	if c := contrast(Ink.linear(), GroupTones[0].linear()); c < 4.5 {
		t.Errorf("names on bars: contrast %.2f", c)
	}
}

// TestTonesApart: the groups darken step by step for every kind of colour vision.
func TestTonesApart(t *testing.T) {
	for kind := range sight {
		for i := 1; i < len(GroupTones); i++ {
			a, b := see(kind, GroupTones[i-1]), see(kind, GroupTones[i])
			if a.luminance() <= b.luminance() {
				t.Errorf("%s: tone %d is not darker than tone %d", kind, i, i-1)
			}
			if c := contrast(a, b); c < 1.25 {
				t.Errorf("%s: tones %d and %d differ by %.2f only", kind, i-1, i, c)
			}
		}
	}
}

// TestReaderMarkStandsOut: the reader's copper contrasts with white, which edges
// it.
func TestReaderMarkStandsOut(t *testing.T) {
	for kind := range sight {
		if c := contrast(see(kind, Copper), see(kind, White)); c < 3 {
			t.Errorf("%s: contrast %.2f", kind, c)
		}
	}
}

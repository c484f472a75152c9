package chart

import (
	"strconv"
	"testing"
)

func number(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

// TestOutlookLabels: names of edges and line never touch, and the wedge stays in the
// drawing.
func TestOutlookLabels(t *testing.T) {
	const height = outlookLeast
	named := func(name string) func(float64) string {
		return func(v float64) string { return name + ": " + number(v, 1) }
	}
	for _, line := range []float64{15, 18} {
		for age := 50.2; age < lastAge; age += 4.3 {
			for v := line; v <= 97; v++ {
				o := Outlook{Age: age, Years: int(age), Value: v, Low: v * 0.95, High: v * 1.05, Slow: 0.25, Fast: 0.5, Line: line,
					LineName: "least for living on your own: " + number(line, 0), You: named("You"), SlowName: named("slow fall"), FastName: named("fast fall")}
				ages, values := o.axes(240, height)
				for _, p := range o.corners() {
					if x, y := ages.At(p[0]), values.At(p[1]); x < -1e-6 || x > ages.Width+1e-6 || y < -1e-6 || y > values.Width+1e-6 {
						t.Fatalf("%.1f %.0f: corner %v is drawn at %.1f, %.1f", age, v, p, x, y)
					}
				}
				bottom := 0.0
				for _, e := range o.ends(height, func(v float64) float64 { return height - outlookFoot - values.At(v) }) {
					if top := e.middle - e.text.Height()/2; top < bottom-1e-6 {
						t.Errorf("%.1f %.0f: a name begins at %.1f, before %.1f", age, v, top, bottom)
					}
					bottom = e.middle + e.text.Height()/2
				}
				if bottom > height-outlookFoot+1e-6 {
					t.Errorf("%.1f %.0f: the names end at %.1f", age, v, bottom)
				}
				last := -10.0
				for _, l := range o.agesUnder(ages, number) {
					if l.At-l.Width/2 < last {
						t.Errorf("%.1f: %q touches the age before it", age, l.Text)
					}
					last = l.At + l.Width/2
				}
			}
		}
	}
}

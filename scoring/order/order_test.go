package order

import "testing"

func TestTrueFirst(t *testing.T) {
	for _, c := range []struct {
		a, b bool
		want int
	}{{true, true, 0}, {false, false, 0}, {true, false, -1}, {false, true, 1}} {
		if got := TrueFirst(c.a, c.b); got != c.want {
			t.Errorf("%v beside %v: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

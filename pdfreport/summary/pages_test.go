package summary

import (
	"math/rand/v2"
	"slices"
	"testing"

	"tenback/pdfreport/kit"
)

// TestPour: every row is there once, in order, however rows and pages fall.
func TestPour(t *testing.T) {
	const pageHeight = 700.0
	for round := range uint64(300) {
		draw := rand.New(rand.NewPCG(2, round))
		var want, got []int
		piece := func(height float64) kit.Block {
			n := len(want)
			want = append(want, n)
			return kit.Draw(height, func(*kit.Sheet, float64, float64) { got = append(got, n) })
		}
		var all []passage
		for range 1 + draw.IntN(6) {
			p := passage{head: piece(20 + 200*draw.Float64()), again: kit.Space(20)}
			for range draw.IntN(60) {
				p.rows = append(p.rows, piece(14+20*draw.Float64()))
			}
			all = append(all, p)
		}
		for i, page := range pour(all, pageHeight) {
			room := pageHeight
			if i > 0 {
				room -= kit.ContinuedHeight
			}
			if page.Height() > room || len(page) == 0 {
				t.Errorf("page %d is %.0f high, with %d pieces", i+1, page.Height(), len(page))
			}
			page.Draw(nil, 0, 0)
		}
		if !slices.Equal(got, want) {
			t.Fatalf("drawn %v", got)
		}
	}
}

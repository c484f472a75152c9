package splice

import (
	"math/rand/v2"
	"testing"
)

// TestRangeSet compares the look-up with a walk over the ranges, for every
// cell of a small sheet.
func TestRangeSet(t *testing.T) {
	const size = 14
	rows := func(n, step int) (all []Range) {
		for r := 1; r <= n; r += step {
			all = append(all, Range{r, 3, r, 4}, Range{r, 7, r, 7})
		}
		return all
	}
	random := rand.New(rand.NewPCG(1, 2))
	var scattered []Range
	for range 12 {
		r, c := 1+random.IntN(size), 1+random.IntN(size)
		scattered = append(scattered, Range{r, c, r + random.IntN(5), c + random.IntN(4)})
	}
	tests := []struct {
		name   string
		ranges []Range
		bands  int // -1 for whatever comes out
	}{
		{"none", nil, 0},
		{"one cell", []Range{{5, 5, 5, 5}}, 1},
		{"whole columns", []Range{wholeColumns(3, 4), wholeColumns(9, 9)}, 1},
		{"groups of rows", rows(size, 2), 7},
		{"every row its own range", rows(size, 1), size},
		{"nested", []Range{{2, 2, 9, 9}, {4, 4, 5, 12}}, 3},
		{"upside down", []Range{{5, 5, 4, 5}, {0, 1, 1, 1}}, 0},
		{"scattered", scattered, -1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			set := newRangeSet(tt.ranges)
			if tt.bands >= 0 && len(set.bands) != tt.bands {
				t.Errorf("%d bands, want %d", len(set.bands), tt.bands)
			}
			naive := func(row, col int) bool {
				for _, r := range tt.ranges {
					if r.valid() && r.contains(row, col) {
						return true
					}
				}
				return false
			}
			for row := 1; row <= size+6; row++ {
				for col := 1; col <= size+6; col++ {
					if got := set.contains(row, col); got != naive(row, col) {
						t.Fatalf("%v: %v", Address{row, col}, got)
					}
					box := Range{row, col, row + 2, col + 3}
					cell, ok := set.meets(box)
					want := false
					for r := box.FirstRow; r <= box.LastRow; r++ {
						for c := box.FirstCol; c <= box.LastCol; c++ {
							if !want && naive(r, c) {
								want = true
								if cell != (Address{r, c}) {
									t.Fatalf("%v meets at %v, want %v", box, cell, Address{r, c})
								}
							}
						}
					}
					if ok != want {
						t.Fatalf("%v meets: %v", box, ok)
					}
				}
			}
		})
	}
}

func wholeColumns(first, last int) Range { return Range{1, first, MaxRow, last} }

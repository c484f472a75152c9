package splice

import (
	"math/rand/v2"
	"testing"

	"tenback/workbook/grid"
)

// TestRangeSet compares the look-up with a walk over the ranges, for every
// cell of a small sheet.
func TestRangeSet(t *testing.T) {
	const size = 14
	rows := func(n, step int) (all []Range) {
		for r := 1; r <= n; r += step {
			all = append(all, Range{FirstRow: r, FirstCol: 3, LastRow: r, LastCol: 4}, Address{Row: r, Col: 7}.Range())
		}
		return all
	}
	random := rand.New(rand.NewPCG(1, 2))
	var scattered []Range
	for range 12 {
		r, c := 1+random.IntN(size), 1+random.IntN(size)
		scattered = append(scattered, Range{FirstRow: r, FirstCol: c, LastRow: r + random.IntN(5), LastCol: c + random.IntN(4)})
	}
	tests := []struct {
		name   string
		ranges []Range
	}{
		{"none", nil},
		{"one cell", []Range{{FirstRow: 5, FirstCol: 5, LastRow: 5, LastCol: 5}}},
		{"whole columns", []Range{wholeColumns(3, 4), wholeColumns(9, 9)}},
		{"groups of rows", rows(size, 2)},
		{"every row its own range", rows(size, 1)},
		{"nested", []Range{{FirstRow: 2, FirstCol: 2, LastRow: 9, LastCol: 9}, {FirstRow: 4, FirstCol: 4, LastRow: 5, LastCol: 12}}},
		{"upside down", []Range{{FirstRow: 5, FirstCol: 5, LastRow: 4, LastCol: 5}, {FirstRow: 0, FirstCol: 1, LastRow: 1, LastCol: 1}}},
		{"scattered", scattered},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			set := newRangeSet(tt.ranges)
			naive := func(row, col int) bool {
				for _, r := range tt.ranges {
					if r.Valid() && r.Contains(row, col) {
						return true
					}
				}
				return false
			}
			for row := 1; row <= size+6; row++ {
				for col := 1; col <= size+6; col++ {
					if got := set.contains(row, col); got != naive(row, col) {
						t.Fatalf("%v: %v", Address{Row: row, Col: col}, got)
					}
					box := Range{FirstRow: row, FirstCol: col, LastRow: row + 2, LastCol: col + 3}
					cell, ok := set.meets(box)
					want := false
					for r := box.FirstRow; r <= box.LastRow; r++ {
						for c := box.FirstCol; c <= box.LastCol; c++ {
							if !want && naive(r, c) {
								want = true
								if cell != (Address{Row: r, Col: c}) {
									t.Fatalf("%v meets at %v, want %v", box, cell, Address{Row: r, Col: c})
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

func wholeColumns(first, last int) Range {
	return Range{FirstRow: 1, FirstCol: first, LastRow: grid.MaxRow, LastCol: last}
}

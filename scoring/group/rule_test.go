package group

import (
	"fmt"
	"slices"
	"testing"
)

// The tests here take the side of a reader who knows the rule itself. Of all
// the counts there could be they keep those that would have been printed just
// so; a hidden cell must still be open then.

// ways calls f with every way to share n people among k cells.
func ways(n, k int, f func(counts []int)) {
	counts := make([]int, k)
	var share func(i, left int)
	share = func(i, left int) {
		if i == k-1 {
			counts[i] = left
			f(counts)
			return
		}
		for x := range left + 1 {
			counts[i] = x
			share(i+1, left-x)
		}
	}
	share(0, n)
}

// prints collects, for everything that can be printed, the values that each
// cell can have.
type prints map[string][]map[int]bool

func (p prints) add(printed string, counts []int) {
	if p[printed] == nil {
		for range counts {
			p[printed] = append(p[printed], map[int]bool{})
		}
	}
	for i, x := range counts {
		p[printed][i][x] = true
	}
}

// fewest is the smallest number of values that a hidden cell can have. What is
// printed begins with a letter a cell, h for hidden.
func (p prints) fewest() (n int, where string) {
	n = 1 << 30
	for printed, cells := range p {
		for i, seen := range cells {
			if printed[i] == 'h' && len(seen) < n {
				n, where = len(seen), printed
			}
		}
	}
	return n, where
}

func TestSplitAgainstReaderOfTheRule(t *testing.T) {
	for _, listed := range []bool{false, true} {
		for _, smallest := range []int{3, 5} {
			for k := 2; k <= 6; k++ {
				for n := smallest; n <= 3*smallest+12-k; n++ {
					seen := prints{}
					ways(n, k, func(counts []int) {
						if listed && slices.Contains(counts, 0) {
							return
						}
						categories := make([]category, k)
						for i, x := range counts {
							categories[i] = category{count: x, listed: listed}
						}
						if !showable(categories, smallest) {
							return // not even the total is printed
						}
						letters, sums := "", ""
						for _, cut := range split(0, k, sorted{categories: categories}.cut(smallest)) {
							sum := 0
							for i := cut[0]; i < cut[1]; i++ {
								sum += counts[i]
								letters += map[bool]string{true: "h", false: "s"}[cut[1]-cut[0] > 1]
							}
							sums += fmt.Sprint(" ", sum)
						}
						seen.add(letters+sums, counts)
					})
					want := smallest
					if listed {
						want--
					}
					if got, where := seen.fewest(); got < want {
						t.Errorf("listed %v, smallest %d, %d in %d: only %d values in %s", listed, smallest, n, k, got, where)
					}
				}
			}
		}
	}
}

func TestCrossAgainstReaderOfTheRule(t *testing.T) {
	for _, c := range []struct{ rows, smallest, most int }{{2, 3, 20}, {2, 5, 30}, {3, 3, 22}, {4, 3, 15}} {
		for n := 2 * c.smallest; n <= c.most; n++ {
			seen := prints{}
			ways(n, c.rows*2, func(counts []int) {
				v, by := variablesOf(counts)
				for _, class := range append(v.classes, by.classes...) {
					if class.count < c.smallest {
						return // such classes are not made
					}
				}
				letters, rest := "", fmt.Sprint(v.classes, by.classes)
				for _, row := range crossed(v, by, c.smallest).rows {
					for range 2 * (row.to - row.from) {
						letters += map[bool]string{true: "h", false: "s"}[row.joined()]
					}
					rest += fmt.Sprint(row)
				}
				seen.add(letters+rest, counts)
			})
			if got, where := seen.fewest(); got < c.smallest {
				t.Errorf("%d in %d rows, smallest %d: only %d values in %s", n, c.rows, c.smallest, got, where)
			}
		}
	}
}

// variablesOf makes two variables, the second of two classes, from the counts
// of their cells by row.
func variablesOf(counts []int) (v, by *variable) {
	v, by = &variable{classes: make([]class, len(counts)/2)}, &variable{classes: make([]class, 2)}
	for i, n := range counts {
		v.classes[i/2].count += n
		by.classes[i%2].count += n
		for range n {
			v.of, by.of = append(v.of, i/2), append(by.of, i%2)
		}
	}
	return v, by
}

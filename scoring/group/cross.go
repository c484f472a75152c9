package group

import "slices"

// cross counts people by the classes of one variable and by the two classes of
// another, in rows: single classes of the first, or neighbours taken together
// because a cell of one of them is too small.
type cross struct {
	rows []crossRow
	of   []int // the row of each class
}

// crossRow is what is printed of the classes from..to-1.
type crossRow struct {
	from, to int
	counts   []int // by class of the other variable
}

// joined tells whether the row holds several classes.
func (r crossRow) joined() bool { return r.to-r.from > 1 }

// crossed counts people by two variables, the second of no more than two
// classes, and takes rows together where a cell is too small: it cuts the rows
// in the middle, and each half in the middle, as long as all cells of both
// sides may be shown.
//
// Two classes and no more are what makes this safe, and no other place than the
// middle. A row's total is known, so one of its cells tells the other. Of two
// sides A and B taken together the reader knows both totals and the sums of
// their columns. All that is open is how many of the first column are in A, and
// from the least to the most that these allow there are at least smallest
// steps. At each of the first smallest numbers some cell is too small, so A and
// B would have been taken together, and likewise at the last: the reader who
// knows this rule can rule out only what is in between. If another place were
// tried after the middle, he could rule out more, and at times all but one.
func crossed(v, by *variable, smallest int) cross {
	counts := make([][]int, len(v.classes))
	for i := range counts {
		counts[i] = make([]int, len(by.classes))
	}
	for i, c := range v.of {
		counts[c][by.of[i]]++
	}
	sum := func(from, to int) []int {
		s := make([]int, len(by.classes))
		for _, row := range counts[from:to] {
			for j, n := range row {
				s[j] += n
			}
		}
		return s
	}
	showable := func(from, to int) bool { return slices.Min(sum(from, to)) >= smallest }
	x := cross{of: make([]int, len(v.classes))}
	for _, cut := range split(0, len(counts), func(from, to int) int {
		if middle := (from + to) / 2; middle > from && showable(from, middle) && showable(middle, to) {
			return middle
		}
		return to
	}) {
		for i := cut[0]; i < cut[1]; i++ {
			x.of[i] = len(x.rows)
		}
		x.rows = append(x.rows, crossRow{cut[0], cut[1], sum(cut[0], cut[1])})
	}
	return x
}

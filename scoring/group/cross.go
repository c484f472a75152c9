package group

import "slices"

// cross counts people by the classes of one variable and the two classes of another.
// A row is one class of the first, or neighbours joined because a cell is too small.
type cross struct {
	rows []crossRow
	of   []int // the row of each class
}

// crossRow is what is printed of the classes from..to-1.
type crossRow struct {
	from, to int
	counts   []int // by class of the other variable
}

// joined reports whether the row holds several classes.
func (r crossRow) joined() bool { return r.to-r.from > 1 }

// crossed counts people by two variables, the second of at most two classes. It
// cuts the rows in the middle, and each half in the middle, as long as all cells of
// both sides may be shown.
//
// It is safe because of the two classes and because only the middle is tried. A
// row's total is known, so one cell gives the other. Of two joined sides A and B the
// reader knows both totals and the column sums. Only the count of the first column
// in A is open, and the sums leave it at least smallest steps. At the first and the
// last smallest of them some cell is too small, so A and B would be joined: a reader
// of the rule can exclude only those between. Trying another place after the middle
// would exclude more, at times all but one.
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

package splice

import (
	"slices"
	"sort"
)

// rangeSet is a set of cells given as ranges. A look-up takes a binary search and
// a walk over the ranges that reach down to the row.
type rangeSet struct {
	ranges []Range // by rising first row
	lowest []int   // last row of the first i+1 ranges
}

// newRangeSet omits ranges that are not inside a sheet.
func newRangeSet(ranges []Range) rangeSet {
	var set rangeSet
	for _, r := range ranges {
		if r.Valid() {
			set.ranges = append(set.ranges, r)
		}
	}
	slices.SortStableFunc(set.ranges, func(a, b Range) int { return a.FirstRow - b.FirstRow })
	low := 0
	for _, r := range set.ranges {
		low = max(low, r.LastRow)
		set.lowest = append(set.lowest, low)
	}
	return set
}

func (s *rangeSet) contains(row, col int) bool {
	_, ok := s.meets(Address{Row: row, Col: col}.Range())
	return ok
}

// meets returns the first cell, by row, that is in the set and in r.
func (s *rangeSet) meets(r Range) (first Address, ok bool) {
	i := sort.Search(len(s.ranges), func(i int) bool { return s.ranges[i].FirstRow > r.LastRow })
	for i--; i >= 0 && s.lowest[i] >= r.FirstRow; i-- {
		if q := s.ranges[i]; q.Overlaps(r) {
			at := Address{Row: max(q.FirstRow, r.FirstRow), Col: max(q.FirstCol, r.FirstCol)}
			if !ok || at.Row < first.Row || at.Row == first.Row && at.Col < first.Col {
				first, ok = at, true
			}
		}
	}
	return first, ok
}

package splice

import (
	"slices"
	"sort"
)

// rangeSet tells whether a cell lies in any of many ranges. It keeps the rows
// in bands that have the same columns, so a look-up takes two binary searches
// however many ranges there are.
type rangeSet struct {
	bands []band    // by rising rows; no two overlap
	all   []colSpan // columns of all bands
}

// band is a stretch of rows with the columns that are in the set there.
type band struct {
	first, last int
	cols        []colSpan // by rising columns; no two touch
}

type colSpan struct{ first, last int }

// newRangeSet leaves out ranges that are not inside a sheet.
func newRangeSet(ranges []Range) rangeSet {
	var set rangeSet
	var pending []Range
	var edges []int // rows where a range begins or has just ended
	for _, r := range ranges {
		if r.Valid() {
			pending = append(pending, r)
			edges = append(edges, r.FirstRow, r.LastRow+1)
		}
	}
	set.all = columnsOf(pending)
	slices.SortFunc(pending, func(a, b Range) int { return a.FirstRow - b.FirstRow })
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var active []Range
	for i, row := range edges {
		active = slices.DeleteFunc(active, func(r Range) bool { return r.LastRow < row })
		for len(pending) > 0 && pending[0].FirstRow == row {
			active = append(active, pending[0])
			pending = pending[1:]
		}
		if len(active) == 0 {
			continue // also at the last edge, where everything has ended
		}
		b := band{row, edges[i+1] - 1, columnsOf(active)}
		if n := len(set.bands); n > 0 && slices.Equal(set.bands[n-1].cols, b.cols) {
			b.cols = set.bands[n-1].cols // held once for a column of many row groups
		}
		set.bands = append(set.bands, b)
	}
	return set
}

// columnsOf joins the columns of ranges.
func columnsOf(ranges []Range) []colSpan {
	spans := make([]colSpan, len(ranges))
	for i, r := range ranges {
		spans[i] = colSpan{r.FirstCol, r.LastCol}
	}
	slices.SortFunc(spans, func(a, b colSpan) int { return a.first - b.first })
	joined := spans[:0]
	for _, s := range spans {
		if n := len(joined); n > 0 && s.first <= joined[n-1].last+1 {
			joined[n-1].last = max(joined[n-1].last, s.last)
		} else {
			joined = append(joined, s)
		}
	}
	return slices.Clip(joined)
}

func (s *rangeSet) contains(row, col int) bool {
	_, ok := s.meets(Address{Row: row, Col: col}.Range())
	return ok
}

// meets gives the first cell, by row, that lies in the set and in r.
func (s *rangeSet) meets(r Range) (Address, bool) {
	if _, ok := firstColumn(s.all, r); !ok {
		return Address{}, false
	}
	i := sort.Search(len(s.bands), func(i int) bool { return s.bands[i].last >= r.FirstRow })
	for ; i < len(s.bands) && s.bands[i].first <= r.LastRow; i++ {
		if col, ok := firstColumn(s.bands[i].cols, r); ok {
			return Address{Row: max(s.bands[i].first, r.FirstRow), Col: col}, true
		}
	}
	return Address{}, false
}

// firstColumn gives the first column of r that is in the spans.
func firstColumn(spans []colSpan, r Range) (col int, ok bool) {
	i := sort.Search(len(spans), func(i int) bool { return spans[i].last >= r.FirstCol })
	if i == len(spans) || spans[i].first > r.LastCol {
		return 0, false
	}
	return max(spans[i].first, r.FirstCol), true
}

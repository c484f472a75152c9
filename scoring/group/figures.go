package group

import (
	"cmp"
	"math"
	"slices"
)

// QuartilesFrom returns the number of people from which quartiles are printed, so
// that each half that a quartile halves is a group of its own. Among five people a
// quartile is one person's value.
func QuartilesFrom(smallest int) int { return max(8, 2*smallest) }

// sample is one person's value, the place of the person's category, and the
// values at which each category but the first opens for the person.
type sample struct {
	value    float64
	category int
	lines    []float64
}

// set is the people of a figure, and what a reader knows of them already. A cut
// is a place between categories, from 0, before the first of them.
type set struct {
	samples []sample // rising
	// known holds, by cut, whether the reader knows how many of the set are below.
	known []bool
	// summed holds the same of everyone, where the set is only a part: what is learnt
	// of one set can then be subtracted.
	summed []bool
}

func newSet(samples []sample, known, summed []bool) set {
	slices.SortFunc(samples, func(a, b sample) int { return cmp.Compare(a.value, b.value) })
	return set{samples, known, summed}
}

// cutsOf marks the cuts between the classes of a variable, and the two ends. The
// figure's people are not in the first skip categories.
func cutsOf(v *variable, skip int) []bool {
	cuts := make([]bool, len(v.categories)-skip+1)
	for _, c := range v.classes {
		cuts[max(0, c.from-skip)] = true
	}
	cuts[len(cuts)-1] = true
	return cuts
}

// addFigures adds the VO2max of everyone and of each class of some variables.
func (s *Summary) addFigures(part Part, people []person, standing, sides *variable, by ...*variable) {
	sampled := func(within func(i int) bool) []sample {
		var samples []sample
		for i, p := range people {
			if within(i) {
				samples = append(samples, sample{float64(p.vo2), p.standing, p.lines})
			}
		}
		return samples
	}
	summed := cutsOf(standing, 0)
	s.addFigure(Figure{Part: part, Of: labelAll}, true, newSet(sampled(func(int) bool { return true }), summed, nil))
	for _, v := range by {
		if len(v.classes) == 1 {
			continue // everyone
		}
		// A class with its own row by sides has known sides, printed or not.
		x := crossed(v, sides, s.Smallest)
		for c, class := range v.classes {
			known := make([]bool, len(summed))
			if x.rows[x.of[c]].joined() {
				known[0], known[len(known)-1] = true, true
			} else {
				known = cutsOf(sides, 0)
			}
			s.addFigure(Figure{Part: part, Of: class.label}, true, newSet(sampled(func(i int) bool { return v.of[i] == c }), known, summed))
		}
	}
}

// addResting adds the figure of the resting rate of those who have one.
func (s *Summary) addResting(part Part, people []person, v *variable) {
	var samples []sample
	count := true // how many have a rate also says how many have none
	for i, p := range people {
		switch {
		case p.resting == nil:
			count = count && !v.classes[v.of[i]].joined()
		case part == Adults:
			samples = append(samples, sample{p.resting.Rate.Amount, int(p.resting.Band), restingLines})
		default:
			samples = append(samples, sample{value: p.resting.Rate.Amount}) // no bands
		}
	}
	cuts := []bool{true, true}
	if part == Adults {
		cuts = cutsOf(v, len(v.categories)-len(restingBands))
	}
	s.addFigure(Figure{Part: part, Quantity: RestingRate, Of: labelAll}, count, newSet(samples, cuts, nil))
}

// addFigure adds what may be printed of a figure, if anything.
func (s *Summary) addFigure(f Figure, count bool, of set) {
	n := len(of.samples)
	if n < s.Smallest {
		return
	}
	if count {
		f.People = Cell{Shown: true, Count: n}
	}
	quartiles := []int{2}
	if n >= QuartilesFrom(s.Smallest) {
		quartiles = []int{2, 1, 3}
	}
	values := [4]*Value{1: &f.LowerQuartile, 2: &f.Median, 3: &f.UpperQuartile}
	var printed []int
	for _, q := range quartiles {
		if with := append(slices.Clone(printed), q); of.safe(with, s.Smallest) {
			printed = with
			*values[q] = of.quartile(q)
		}
	}
	if len(printed) > 0 {
		s.Figures = append(s.Figures, f)
	}
}

// ranks returns the two places in order, from 0, around a quartile; the same place
// twice where it is one person's value.
func (s set) ranks(q int) (low, high int, part float64) {
	low = q * (len(s.samples) - 1) / 4
	part = float64(q*(len(s.samples)-1)%4) / 4
	if high = low; part > 0 {
		high++
	}
	return low, high, part
}

// quartile returns a quartile (2 is the median) as QUARTILE.INC of spreadsheets has
// it: the value at place q(n-1)/4, counted from 0, interpolated. It is rounded to
// whole units, so that it is no one's own value to the decimal.
func (s set) quartile(q int) Value {
	low, high, part := s.ranks(q)
	from, to := s.samples[low].value, s.samples[high].value
	return Value{true, math.Round(from + part*(to-from))}
}

// safe reports whether some quartiles may be printed together. The reader is assumed
// to know each person's lines and to compare: a median above everyone's health line
// means that at most half are below it.
//
// They are safe if they add nothing about the cuts known of everyone, and if every
// unknown count may still reach smallest, and be as low as before if it is small.
// Where cuts are known of everyone no category may be raised, because what several
// sets have at least adds up.
func (s set) safe(quartiles []int, smallest int) bool {
	before, after := s.below(nil), s.below(quartiles)
	strict := len(s.summed) > 2 && slices.Contains(s.summed[1:len(s.summed)-1], true)
	for c := range before {
		if strict && s.summed[c] && after[c] != before[c] {
			return false
		}
		if c == 0 || s.known[c-1] && s.known[c] {
			continue
		}
		was, is := between(before[c-1], before[c]), between(after[c-1], after[c])
		raised := is.low > was.low && (strict || s.count(c-1) < smallest)
		if raised || is.high < min(smallest, was.high) {
			return false
		}
	}
	return true
}

// count is how many of the people are in a category.
func (s set) count(category int) int {
	n := 0
	for _, x := range s.samples {
		if x.category == category {
			n++
		}
	}
	return n
}

type bounds struct{ low, high int }

// between bounds the people between two cuts by those below each.
func between(lower, upper bounds) bounds {
	return bounds{max(0, upper.low-lower.high), upper.high - lower.low}
}

// below returns what the reader can infer about the people below each cut, from what
// is known and from some quartiles.
func (s set) below(quartiles []int) []bounds {
	n, last := len(s.samples), len(s.known)-1
	cuts := make([]bounds, last+1)
	for c := range cuts {
		cuts[c].high = n
		if s.known[c] {
			exact := 0
			for category := range c {
				exact += s.count(category)
			}
			cuts[c] = bounds{exact, exact}
		}
	}
	for _, q := range quartiles {
		low, high, _ := s.ranks(q)
		value := s.quartile(q).Amount
		for c := 1; c < last; c++ {
			// From high on people have the value or more, so they are not below the
			// cut, except those whose line is higher.
			higher := 0
			for _, x := range s.samples {
				if x.lines[c-1] > value+0.5 {
					higher++
				}
			}
			cuts[c].high = min(cuts[c].high, high+higher)
			// The reverse holds up to low.
			lower := 0
			for _, x := range s.samples {
				if x.lines[c-1] < value-0.5 {
					lower++
				}
			}
			cuts[c].low = max(cuts[c].low, low+1-lower)
		}
	}
	for c := range last {
		cuts[c+1].low = max(cuts[c+1].low, cuts[c].low)
	}
	for c := last; c > 0; c-- {
		cuts[c-1].high = min(cuts[c-1].high, cuts[c].high)
	}
	return cuts
}

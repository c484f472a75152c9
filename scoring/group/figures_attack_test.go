package group

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// line is where a category opens, with the categories below it. Where people
// of a set have different lines, it is known only to be somewhere from..to.
type line struct {
	from, to float64
	below    []string
}

// linesOf lists the lines that a reader who knows the published tables can hold
// a figure against.
func linesOf(f Figure) []line {
	switch {
	case f.Quantity == RestingRate && f.Part == Adults:
		return []line{{40, 40, []string{"resting-not-given", "resting-very-slow"}}, {60, 60, []string{"resting-very-slow", "resting-fit"}},
			{70, 70, []string{"resting-very-slow", "resting-fit", "resting-usual"}}, {81, 81, []string{"resting-very-slow", "resting-fit", "resting-usual", "resting-raised"}}}
	case f.Quantity == RestingRate:
		return nil
	case f.Part == Youth:
		l := line{34.6, 41.8, []string{"line-below"}} // girls, boys
		switch f.Of.Key {
		case "sex-female":
			l.to = l.from
		case "sex-male":
			l.from = l.to
		}
		return []line{l}
	}
	row, _ := reference.DefaultAdults(false).Row(scoring.Male, 25)
	var lines []line
	var below []string
	for _, g := range reference.Groups()[1:] {
		below = append(below, fmt.Sprint("adults-", int(g)))
		at := float64(row.Reaches(g))
		lines = append(lines, line{at, at, slices.Clone(below)})
	}
	return lines
}

// readFigures adds what figures say. People above a value in order are at or
// above each line that the value reaches.
func (r *reader) readFigures(figures []Figure) {
	for _, f := range figures {
		if !f.People.Shown {
			continue
		}
		n, part := f.People.Count, partKeys[f.Part]
		if f.Quantity == RestingRate && f.Part == Adults {
			r.equals(product(part, []string{"resting-very-slow", "resting-fit", "resting-usual", "resting-raised", "resting-fast"}, []string{"all"}), "", float64(n))
		}
		for _, l := range linesOf(f) {
			below := product(part, keysOf(f.Of), l.below)
			if f.Quantity == RestingRate && slices.Contains(l.below, "resting-not-given") {
				below = product(part, []string{"all"}, l.below[1:])
			}
			for q, v := range []Value{{}, f.LowerQuartile, f.Median, f.UpperQuartile} {
				if v.Shown && v.Amount-0.5 >= l.to {
					r.atMost(below, math.Ceil(float64(q*(n-1))/4))
				}
				if v.Shown && v.Amount+0.5 < l.from {
					r.atLeast(below, math.Floor(float64(q*(n-1))/4)+1)
				}
			}
		}
	}
}

// careless makes the figures of every set that is not small, without any care
// but for their rounding.
func careless(people []someone, smallest int) []Figure {
	values := map[[2]string][]sample{}
	heads := map[[2]string]Figure{}
	for _, s := range people {
		p := personOf(s.member())
		if p.part == Unplaced {
			continue
		}
		add := func(q Quantity, key string, x float64) {
			at := [2]string{partKeys[p.part] + string(rune('0'+q)), key}
			values[at] = append(values[at], sample{value: x})
			heads[at] = Figure{Part: p.part, Quantity: q, Of: Label{Key: key}}
		}
		add(VO2max, "all", float64(p.vo2))
		add(VO2max, "sex-"+p.sex.String(), float64(p.vo2))
		if p.resting != nil {
			add(RestingRate, "all", p.resting.Rate.Amount)
		}
	}
	var all []Figure
	for at, samples := range values {
		if len(samples) < smallest {
			continue
		}
		of := newSet(samples, nil, nil)
		f := heads[at]
		f.People = Cell{Shown: true, Count: len(samples)}
		f.LowerQuartile, f.Median, f.UpperQuartile = of.quartile(1), of.quartile(2), of.quartile(3)
		all = append(all, f)
	}
	return all
}

// TestFiguresTellNothingHidden lets the reader hold every figure against the
// lines between the categories, in rosters where these are known.
func TestFiguresTellNothingHidden(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 13))
	told, printed := 0, 0
	for range 400 {
		people := slices.DeleteFunc(invent(r), func(s someone) bool { return s.age >= 18 && (s.age < 20 || s.age > 29 || s.sex != scoring.Male) })
		smallest := 3 + r.IntN(4)
		s := summarise(t, people, smallest)
		small := func(figures []Figure) []finding {
			found := attack(t, people, s, s.Tables, func(r *reader) { r.readFigures(figures) })
			return slices.DeleteFunc(found, func(x finding) bool { return x.is >= smallest })
		}
		for _, x := range small(s.Figures) {
			t.Errorf("%d people, smallest %d: %s", len(people), smallest, x)
		}
		if len(small(careless(people, smallest))) > 0 {
			told++
		}
		printed += len(s.Figures)
	}
	if told < 40 {
		t.Errorf("careless figures tell a small count in %d rosters only: too few for a test", told)
	}
	if printed < 400 {
		t.Errorf("%d figures: too few for a test", printed)
	}
	t.Logf("%d figures kept; careless ones tell a small count in %d rosters", printed, told)
}

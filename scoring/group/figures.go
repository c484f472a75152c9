package group

import (
	"cmp"
	"math"
	"slices"
)

// quartilesFrom is how many people a set must have for its quartiles to be
// printed. Among five people the quartiles are the second and the fourth
// person's own values, and the quarter below is one person. From twice the
// smallest group on, and from eight in any case, each half that a quartile
// halves is a group of its own.
func quartilesFrom(smallest int) int { return max(8, 2*smallest) }

// figures makes the figures of one part.
type figures struct {
	to              *Summary
	part            Part
	people          []person
	standing, sides *variable
}

// sample is one person's value, and whether the person is in an open cell, one
// whose count the reader may know.
type sample struct {
	value float64
	open  bool
}

// addEach adds a figure for each class of a variable. Its people count as open
// if the class has a row of its own in the table by this variable and the sides
// of the standing, be that table printed or not.
func (f *figures) addEach(v *variable) {
	if len(v.classes) == 1 {
		return // everyone
	}
	x := crossed(v, f.sides, f.to.Smallest)
	samples := make([][]sample, len(v.classes))
	for i, c := range v.of {
		samples[c] = append(samples[c], f.uptake(i, !x.rows[x.of[c]].joined()))
	}
	for c, class := range v.classes {
		f.add(VO2max, class.label, Cell{Shown: true, Count: class.count}, samples[c])
	}
}

// addAll adds the figure of everyone.
func (f *figures) addAll() {
	var samples []sample
	for i := range f.people {
		samples = append(samples, f.uptake(i, true))
	}
	f.add(VO2max, labelAll, Cell{Shown: true, Count: len(samples)}, samples)
}

// uptake is one person's VO2max. It is open if the person's standing is printed
// by itself.
func (f *figures) uptake(i int, open bool) sample {
	return sample{float64(f.people[i].vo2), open && !f.standing.classes[f.standing.of[i]].joined()}
}

// addResting adds the resting rate of those who have one. Youths have no
// bands, so there is nothing hidden that theirs could tell.
func (f *figures) addResting(v *variable) {
	var samples []sample
	people := Cell{Shown: true}
	for i := range f.people {
		class := v.classes[v.of[i]]
		if r := f.people[i].resting; r != nil {
			samples = append(samples, sample{r.Rate.Amount, f.part == Youth || !class.joined()})
			people.Count++
		} else if class.joined() {
			people.Shown = false // how many have one tells how many have none
		}
	}
	if !people.Shown {
		people.Count = 0
	}
	f.add(RestingRate, labelAll, people, samples)
}

// add adds a figure if a number of it can be shown.
func (f *figures) add(q Quantity, of Label, people Cell, samples []sample) {
	n := len(samples)
	if n < f.to.Smallest {
		return
	}
	slices.SortFunc(samples, func(a, b sample) int { return cmp.Compare(a.value, b.value) })
	figure := Figure{Part: f.part, Quantity: q, Of: of, People: people, Median: quantile(samples, 2)}
	if n >= quartilesFrom(f.to.Smallest) {
		figure.LowerQuartile, figure.UpperQuartile = quantile(samples, 1), quantile(samples, 3)
	}
	if figure.LowerQuartile.Shown || figure.Median.Shown || figure.UpperQuartile.Shown {
		f.to.Figures = append(f.to.Figures, figure)
	}
}

// quantile gives a quartile (2 is the median) of sorted samples, as the
// function QUARTILE.INC of spreadsheets has it: the value at place q(n-1)/4,
// counted from 0, on a straight line between the two people there. It is
// rounded to whole units, so that it is nobody's own value to the decimal.
//
// It is hidden if any of the people it could be drawn from, those whose rounded
// values lie where these two lie, is in a cell that is not open.
func quantile(samples []sample, q int) Value {
	low := q * (len(samples) - 1) / 4
	part := float64(q*(len(samples)-1)%4) / 4
	high := low
	if part > 0 {
		high++
	}
	from, to := math.Round(samples[low].value), math.Round(samples[high].value)
	for _, s := range samples {
		if r := math.Round(s.value); !s.open && from <= r && r <= to {
			return Value{}
		}
	}
	return Value{true, math.Round(samples[low].value + part*(samples[high].value-samples[low].value))}
}

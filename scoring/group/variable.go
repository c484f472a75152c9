package group

import (
	"fmt"
	"strings"

	"tenback/scoring/reference"
)

// variable sorts every person of a part into one of its categories. Several
// tables share its counts, so what is printed of them is decided once, here.
//
// What is printed are the counts of classes: single categories, or neighbours
// taken together because one of them is too small.
type variable struct {
	categories []category
	classes    []class
	of         []int // the class of each person
}

// category is one of the ways in which people differ.
type category struct {
	label Label
	count int
	// listed marks a category that is named only because someone is in it, so
	// that the name alone tells of one person.
	listed bool
}

// class is what is printed of a variable: the categories from..to-1.
type class struct {
	from, to int
	label    Label
	count    int
}

// joined tells whether the class holds several categories.
func (c class) joined() bool { return c.to-c.from > 1 }

// sorted is people by category, before it is decided what is printed.
type sorted struct {
	categories []category
	of         []int // the category of each person
}

// sortPeople sorts people by a function that gives a place among the labels. A
// category of listed that nobody is in is left out.
func sortPeople(people []person, labels []Label, listed func(int) bool, placeOf func(*person) int) sorted {
	counts := make([]int, len(labels))
	for i := range people {
		counts[placeOf(&people[i])]++
	}
	var s sorted
	at := make([]int, len(labels))
	for i, label := range labels {
		if counts[i] > 0 || !listed(i) {
			at[i] = len(s.categories)
			s.categories = append(s.categories, category{label, counts[i], listed(i)})
		}
	}
	s.of = make([]int, len(people))
	for i := range people {
		s.of[i] = at[placeOf(&people[i])]
	}
	return s
}

// always and never are for variables whose categories are all alike.
func always(int) bool { return true }
func never(int) bool  { return false }

// classify decides what is printed.
func (s sorted) classify(smallest int) *variable {
	v := &variable{categories: s.categories, of: make([]int, len(s.of))}
	at := make([]int, len(s.categories))
	for k, cut := range split(0, len(s.categories), func(from, to int) bool {
		return showable(s.categories[from:to], smallest)
	}) {
		c := class{from: cut[0], to: cut[1]}
		var labels []Label
		for i := c.from; i < c.to; i++ {
			c.count += s.categories[i].count
			labels = append(labels, s.categories[i].label)
			at[i] = k
		}
		c.label = joint(labels)
		v.classes = append(v.classes, c)
	}
	for i, c := range s.of {
		v.of[i] = at[c]
	}
	return v
}

// split cuts the places from..to-1 in the middle, and the halves in the middle
// again and again, for as long as both sides may be shown.
//
// Whether a cut is made depends on its own two sides alone, and where it would
// be made on nothing but the number of places. That is on purpose. A rule that
// hides beside a small count the smallest of the large ones, as is common, can
// be reckoned back by those who know it: of 4, 10 and 10 it hides 4 and one 10;
// together they are 14; the hidden large one is no larger than the 10 that is
// shown; so the small one is at least 4, and being small, it is 4.
func split(from, to int, showable func(from, to int) bool) [][2]int {
	middle := (from + to) / 2
	if to-from < 2 || !showable(from, middle) || !showable(middle, to) {
		return [][2]int{{from, to}}
	}
	return append(split(from, middle, showable), split(middle, to, showable)...)
}

// showable tells whether the sum of some categories may be shown: whether each
// of them might by itself have people enough, when each of the others that is
// listed has one at least.
func showable(categories []category, smallest int) bool {
	people, listed := 0, 0
	for _, c := range categories {
		people += c.count
		if c.listed {
			listed++
		}
	}
	return people-max(0, listed-1) >= smallest
}

// joint labels what is taken together: "High, Elite", or "50 and over".
func joint(labels []Label) Label {
	first, last := labels[0], labels[len(labels)-1]
	if len(labels) == 1 {
		return first
	}
	var keys, texts []string
	for _, l := range labels {
		if len(l.Of) == 0 {
			l.Of = []string{l.Key}
		}
		keys = append(keys, l.Of...)
		texts = append(texts, l.Text)
	}
	label := Label{Key: strings.Join(keys, "+"), Text: strings.Join(texts, ", ")}
	if first.Ages != (reference.Ages{}) {
		label = agesLabel(reference.Ages{Min: first.Ages.Min, Max: last.Ages.Max})
	}
	label.Of = keys
	return label
}

func agesLabel(a reference.Ages) Label {
	return Label{Key: fmt.Sprintf("ages-%d-%d", a.Min, a.Max), Text: a.String(), Ages: a}
}

// labels heads a variable's classes.
func (v *variable) labels() []Label {
	var all []Label
	for _, c := range v.classes {
		all = append(all, c.label)
	}
	return all
}

package group

import (
	"fmt"
	"strings"

	"tenback/scoring/reference"
)

// variable sorts every person of a part into classes: single categories, or
// neighbours joined because one is too small. Several tables share it.
type variable struct {
	categories []category
	classes    []class
	of         []int // the class of each person
}

// category is one of the ways in which people differ.
type category struct {
	label  Label
	count  int
	listed bool // exists only because it has people, so that its name implies one
}

// class is what is printed of a variable: the categories from..to-1.
type class struct {
	from, to int
	label    Label
	count    int
}

// joined reports whether the class holds several categories.
func (c class) joined() bool { return c.to-c.from > 1 }

// sorted is people by category, before it is decided what is printed.
type sorted struct {
	categories []category
	of         []int // the category of each person
}

// sortPeople sorts people by their place among the labels. Listed categories
// without people are left out.
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

func always(int) bool { return true }
func never(int) bool  { return false }

// classify decides what is printed.
func (s sorted) classify(smallest int) *variable {
	return s.in(split(0, len(s.categories), s.cut(smallest)))
}

// sides returns the two sides of the first cut, or everyone if there is none.
func (s sorted) sides(smallest int) *variable {
	n := len(s.categories)
	cut := s.cut(smallest)(0, n)
	if cut == n {
		return s.in([][2]int{{0, n}})
	}
	return s.in([][2]int{{0, cut}, {cut, n}})
}

// in joins the categories of each piece.
func (s sorted) in(pieces [][2]int) *variable {
	v := &variable{categories: s.categories, of: make([]int, len(s.of))}
	at := make([]int, len(s.categories))
	for k, piece := range pieces {
		c := class{from: piece[0], to: piece[1]}
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

// split cuts the places from..to-1 in two, and each side again. cut returns where,
// or to for nowhere.
func split(from, to int, cut func(from, to int) int) [][2]int {
	at := cut(from, to)
	if at == to {
		return [][2]int{{from, to}}
	}
	return append(split(from, at, cut), split(at, to, cut)...)
}

// cut returns the place nearest to the middle between two sides that may be shown,
// the earlier of two; to if there is none.
//
// It must not depend on which count is larger. The common rule, which hides the
// smallest of the large counts beside a small one, can be reversed: of 4, 10 and 10
// it hides 4 and one 10, together 14. The hidden large one is at most the shown 10,
// so the small one is at least 4, and being small, it is 4.
func (s sorted) cut(smallest int) func(from, to int) int {
	return func(from, to int) int {
		middle := (from + to) / 2
		for d := range to - from {
			for _, at := range [2]int{middle - d, middle + d} {
				if from < at && at < to && showable(s.categories[from:at], smallest) && showable(s.categories[at:to], smallest) {
					return at
				}
			}
		}
		return to
	}
}

// showable reports whether the sum of some categories may be shown: each might have
// enough people when every other listed one has at least one.
func showable(categories []category, smallest int) bool {
	people, listed := 0, 0
	for _, c := range categories {
		people += c.count
		if c.listed {
			listed++
		}
	}
	if listed == len(categories) {
		listed-- // the one itself
	}
	return people-listed >= smallest
}

// joint labels joined categories: "High, Elite", or "50 and over".
func joint(labels []Label) Label {
	first, last := labels[0], labels[len(labels)-1]
	if len(labels) == 1 {
		return first
	}
	var keys, texts []string
	for _, l := range labels {
		if len(l.Of) == 0 {
			l.Of, l.Texts = []string{l.Key}, []string{l.Text}
		}
		keys = append(keys, l.Of...)
		texts = append(texts, l.Texts...)
	}
	label := Label{Key: strings.Join(keys, "+")}
	if first.Ages != (reference.Ages{}) {
		label = agesLabel(reference.Ages{Min: first.Ages.Min, Max: last.Ages.Max})
	}
	label.Of, label.Texts = keys, texts
	return label
}

func agesLabel(a reference.Ages) Label {
	return Label{Key: fmt.Sprintf("ages-%d-%d", a.Min, a.Max), Ages: a}
}

// labels heads a variable's classes.
func (v *variable) labels() []Label {
	var all []Label
	for _, c := range v.classes {
		all = append(all, c.label)
	}
	return all
}

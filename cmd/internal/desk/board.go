// Package desk is the desk of a testing day: it scores the roster whenever it is
// saved, makes and prints the new pages, and shows who was scored last, what is
// to be mended and whom a clinician should see first.
package desk

import (
	"cmp"
	"slices"
	"time"
)

// recentMost bounds the list of people scored last.
const recentMost = 50

// Result is one scored person.
type Result struct {
	Entered     string // all that was entered of the person
	Place       string // such as "Class 8B row 7"
	Name, Group string
	Test        string
	Value       string // with the likely range
	Page        string // file name; empty if it failed
	Made        bool   // the page was made for this reading
	At          time.Time
}

// Caution is a person whom a clinician should see before testing hard.
type Caution struct{ Place, Name, Why string }

// Mend is what keeps a person from being scored: a cell to mend, or the need for
// another test.
type Mend struct {
	Name            string // of the person; empty if about several
	Cell            string // such as "Class 8B!D9"
	Read, What, Fix string
	OtherTest       bool // needs another kind of test; no cell is wrong
}

// key omits what changes when rows are inserted or sorted.
func (m Mend) key() Mend {
	if m.Name != "" {
		m.Cell = ""
	}
	return m
}

func (c Caution) key() Caution {
	c.Place = ""
	return c
}

// Reading is the outcome of reading the roster once.
type Reading struct {
	At       time.Time
	People   int
	Visits   int      // more than People where some were tested on several days
	Untested int      // people without a result yet
	Another  int      // people who need another kind of test
	Results  []Result // in the order of the roster
	ToMend   []Mend
	Cautions []Caution
}

// News is what changed since the reading before.
type News struct {
	First  bool     // no reading before; Scored is empty then
	Scored []Result // new, or with other entries
	Lost   []string // pages of people without a result now
	ToMend []Mend
	Mended []Mend
	// Cautions are new; the first reading's are all of them.
	Cautions []Caution
	// Made counts pages made for other reasons: at the first reading, or because
	// the look of all pages changed.
	Made int
}

// Board is the latest reading. Cells to mend and cautions are sorted, the latest
// first.
type Board struct {
	Reading
	Recent []Result // people scored last, the latest first

	scored map[string]bool
}

// Read reports whether there was a reading yet.
func (b *Board) Read() bool { return b.scored != nil }

// Take replaces the reading and returns what is new.
func (b *Board) Take(r Reading) News {
	news := News{First: !b.Read(), ToMend: without(r.ToMend, b.ToMend), Mended: without(b.ToMend, r.ToMend),
		Cautions: without(r.Cautions, b.Cautions)}
	scored, pages := map[string]bool{}, map[string]bool{}
	for _, now := range r.Results {
		pages[now.Page] = true
		// A page that failed is news once it is made.
		if now.Page != "" {
			scored[now.Entered] = true
		}
		switch {
		case b.scored[now.Entered] || news.First:
			if now.Made {
				news.Made++
			}
		case now.Page != "":
			now.At = r.At
			news.Scored = append(news.Scored, now)
		}
	}
	for _, before := range b.Results {
		if before.Page != "" && !pages[before.Page] {
			news.Lost = append(news.Lost, before.Page)
		}
	}
	latest := slices.Clone(news.Scored)
	slices.Reverse(latest)
	b.Recent = slices.Concat(latest, slices.DeleteFunc(slices.Clone(b.Recent), func(old Result) bool {
		return slices.ContainsFunc(news.Scored, func(now Result) bool { return now.Page == old.Page }) || slices.Contains(news.Lost, old.Page)
	}))
	b.Recent = b.Recent[:min(len(b.Recent), recentMost)]
	r.ToMend, r.Cautions = latestFirst(r.ToMend, b.ToMend), latestFirst(r.Cautions, b.Cautions)
	b.Reading, b.scored = r, scored
	return news
}

// keyed is compared by its key.
type keyed[T any] interface {
	comparable
	key() T
}

// without returns the elements of now that are not in before.
func without[T keyed[T]](now, before []T) []T {
	known := map[T]bool{}
	for _, x := range before {
		known[x.key()] = true
	}
	var fresh []T
	for _, x := range now {
		if !known[x.key()] {
			fresh = append(fresh, x)
		}
	}
	return fresh
}

// latestFirst moves the elements that are not in before to the front.
func latestFirst[T keyed[T]](now, before []T) []T {
	rank := map[T]int{}
	for i, x := range before {
		if rank[x.key()] == 0 {
			rank[x.key()] = 1 + i
		}
	}
	sorted := slices.Clone(now)
	slices.SortStableFunc(sorted, func(x, y T) int { return cmp.Compare(rank[x.key()], rank[y.key()]) })
	return sorted
}

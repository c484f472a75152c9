// Package desk is the desk of a testing day: it scores the roster whenever it is
// saved, makes and prints the new pages, and shows who was scored last, what is
// to be mended and whom a clinician should see first.
package desk

import (
	"cmp"
	"slices"
	"time"
)

// recentMost is how many of the people scored last are kept.
const recentMost = 50

// Result is one scored person.
type Result struct {
	Entered     string // who it is and all that was entered
	Place       string // where the person stands, such as "Class 8B row 7"
	Name, Group string
	Test        string
	Value       string // with the likely range
	Page        string // its file's name; empty if none could be made
	Made        bool   // the page was made for this reading
	At          time.Time
}

// Caution is someone whom a clinician should see before testing, or before
// testing hard.
type Caution struct{ Place, Name, Why string }

// Mend is something to put right, so that nobody is left out: in the roster, or
// by another test.
type Mend struct {
	Name            string // of the person; empty if it is about no one person
	Cell            string // with its sheet, such as "Class 8B!D9"
	Read, What, Fix string
	OtherTest       bool // no cell is wrong: the person needs another kind of test
}

// key is what stays of it when rows are inserted or sorted.
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

// Reading is what one reading of the roster gave.
type Reading struct {
	At       time.Time
	People   int
	Visits   int      // of them; more than people where some were tested on several days
	Untested int      // people for whom nothing has been entered yet
	Another  int      // people left out who need another kind of test
	Results  []Result // of everyone scored, in the order of the roster
	ToMend   []Mend
	Cautions []Caution
}

// News is what a reading changed.
type News struct {
	First  bool     // there was no reading before: no result is news then
	Scored []Result // new, or with other entries than before
	Lost   []string // pages of people who have no result any more
	ToMend []Mend
	Mended []Mend
	// Cautions are new; the first reading's are all of them.
	Cautions []Caution
	// Made counts the pages made for no news: at the first reading, or because
	// something changed for everybody, such as the organisation's name.
	Made int
}

// Board is what stands there now; of cells to mend and of cautions the latest
// comes first.
type Board struct {
	Reading
	Recent []Result // the people scored last, the latest first

	scored map[string]bool
}

// Read tells whether there was a reading yet.
func (b *Board) Read() bool { return b.scored != nil }

// Take puts a reading in the place of the one before.
func (b *Board) Take(r Reading) News {
	news := News{First: !b.Read(), ToMend: without(r.ToMend, b.ToMend), Mended: without(b.ToMend, r.ToMend),
		Cautions: without(r.Cautions, b.Cautions)}
	scored, pages := map[string]bool{}, map[string]bool{}
	for _, now := range r.Results {
		pages[now.Page] = true
		// Someone whose page failed is news when it is there at last.
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

// keyed tells things apart by a part of them.
type keyed[T any] interface {
	comparable
	key() T
}

// without lists what of now was not there before.
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

// latestFirst puts what was not there before first, and the rest in the order
// that it had.
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

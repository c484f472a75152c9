package group

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"tenback/scoring"
)

var released = time.Date(2026, 5, 11, 0, 0, 0, 0, time.UTC)

// twoClasses is two classes of adults.
func twoClasses(r *rand.Rand, n int) []someone {
	var all []someone
	for i := range n {
		all = append(all, someone{group: fmt.Sprint("Class ", 1+i*2/n), sex: []scoring.Sex{scoring.Female, scoring.Male}[r.IntN(2)],
			age: 20 + r.IntN(30), vo2: 22 + r.IntN(30), resting: 50 + r.IntN(45)})
	}
	return all
}

// A summary again is fine, and one after one person came, left or was measured again is
// not; a new round is independent.
func TestExposes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	people := twoClasses(r, 60)
	release := func(people []someone, day time.Time) Release {
		s := summarise(t, people, DefaultSmallest)
		return s.Release(day)
	}
	first := release(people, released)
	classTwo := people[30:]
	for _, c := range []struct {
		name   string
		people []someone
		day    time.Time
		want   bool
	}{
		{"again", people, released, false},
		{"a day later", people, released.AddDate(0, 0, 1), false},
		{"one left", people[1:], released, true},
		{"one came", append(twoClasses(r, 1), people...), released, true},
		{"one left, and no day is known", people[1:], time.Time{}, true},
		{"one left, in the next season", people[1:], released.AddDate(0, 5, 0), false},
		{"one class alone", classTwo, released, true}, // the other class has rows of its own
	} {
		if got := release(c.people, c.day).Exposes([]Release{first}); got != c.want {
			t.Errorf("%s: exposes %v", c.name, got)
		}
	}
	shown := 0
	for i := range people { // one is measured again, and moves to another printed row or not
		again := append([]someone{}, people...)
		again[i].vo2 = 74 - people[i].vo2
		next := release(again, released)
		if !next.equals(first) {
			shown++
		}
		if next.Exposes([]Release{first}) == next.equals(first) {
			t.Errorf("person %d measured again: exposes %v", i, next.Exposes([]Release{first}))
		}
	}
	if shown < len(people)/2 {
		t.Errorf("%d of %d changes show", shown, len(people))
	}
}

// Among random sequences of summaries of one roster no sum or difference of accepted
// ones has a count of fewer than five people, by the people themselves.
func TestSequencesExposeNoOne(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	accepted, refused := 0, 0
	for range 200 {
		people := twoClasses(r, 30+r.IntN(120))
		var kept [][]bool // who was in
		var releases []Release
		for range 4 {
			in := make([]bool, len(people))
			var some []someone
			cut := r.IntN(4)
			for i := range people {
				switch cut {
				case 0:
					in[i] = true
				case 1:
					in[i] = i >= r.IntN(3)
				case 2:
					in[i] = people[i].group == "Class 1"
				case 3:
					in[i] = r.IntN(4) > 0
				}
				if in[i] {
					some = append(some, people[i])
				}
			}
			s := summarise(t, some, DefaultSmallest)
			next := s.Release(released)
			if next.Exposes(releases) {
				refused++
				continue
			}
			accepted++
			kept, releases = append(kept, in), append(releases, next)
		}
		for a := range kept {
			for b := range kept {
				if n := onlyIn(kept[a], kept[b]); onlyIn(kept[b], kept[a]) == 0 && n > 0 && n < DefaultSmallest && len(releases[a].Counts) > 0 && len(releases[b].Counts) > 0 {
					t.Errorf("%d people are in one summary and not in another", n)
				}
			}
		}
	}
	t.Logf("%d accepted, %d refused", accepted, refused)
	if accepted < 200 || refused < 100 {
		t.Errorf("%d accepted, %d refused: the test shows little", accepted, refused)
	}
}

func onlyIn(a, b []bool) (n int) {
	for i := range a {
		if a[i] && !b[i] {
			n++
		}
	}
	return n
}

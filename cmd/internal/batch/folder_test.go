package batch

import (
	"context"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
	"tenback/workbook"
)

// week is a roster of three people and the folder of their pages.
type week struct {
	*testing.T
	roster *workbook.Roster
	folder *Folder
	look   person.Person
	score  scoring.Options
}

func newWeek(t *testing.T) *week {
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	return &week{T: t, roster: rosterOf(3), folder: &Folder{Path: filepath.Join(t.TempDir(), "pages")}, look: person.Person{Words: words, Program: "tenback 1"}}
}

func (w *week) row(i int) *workbook.Row { return &w.roster.Sheets[0].Rows[i] }

func (w *week) path(i int) string { return filepath.Join(w.folder.Path, w.row(i).Person.Name+".pdf") }

func (w *week) person(o *workbook.Outcome) person.Person {
	p := w.look
	p.Name, p.Score, p.Tested, p.Review = o.Row.Person.Name, o.Score(&scoring.Options{}), o.Row.Entry.Tested, o.Review
	return p
}

// write brings the pages up to date and returns the names of those written.
func (w *week) write() (made []string, work Work) {
	w.Helper()
	work, err := w.folder.Write(context.Background(), Score(w.roster, w.score), &w.score, w.person, func() {})
	if err != nil || len(work.Failures) > 0 {
		w.Fatal(err, work.Failures)
	}
	for _, o := range work.Made {
		made = append(made, o.Row.Person.Name)
	}
	return made, work
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// A page is written if its file has other bytes, watched or not.
func TestFolderWritesWhatDiffers(t *testing.T) {
	for _, watched := range []bool{false, true} {
		w := newWeek(t)
		w.folder.Watched = watched
		all := []string{"Person 000", "Person 001", "Person 002"}
		for _, c := range []struct {
			name   string
			change func()
			want   []string
		}{
			{"at first", func() {}, all},
			{"unchanged", func() {}, nil},
			{"another pulse", func() { w.row(1).Entry.Trials[0].Set(scoring.ExerciseHR, scoring.Q(131, scoring.BeatsPerMinute), "") }, all[1:2]},
			{"other cells", func() { w.row(1).Entry.Set(scoring.Age, scoring.Q(45, scoring.Years), "Z99") }, nil},
			{"altered", func() { must(t, os.WriteFile(w.path(2), []byte("x"), 0o600)) }, all[2:]},
			{"missing", func() { must(t, os.Remove(w.path(0))) }, all[:1]},
			{"another look", func() { w.look.Brand = &kit.Brand{Organisation: "Quillhaven"} }, all},
		} {
			c.change()
			if got, work := w.write(); !slices.Equal(got, c.want) || len(got)+work.Kept != 3 {
				t.Errorf("%s: wrote %q and kept %d, want %q", c.name, got, work.Kept, c.want)
			}
		}
	}
}

// Drawing is skipped only if everything the page depends on is equal.
func TestFolderSkipsOnlyTheSame(t *testing.T) {
	w := newWeek(t)
	w.folder.Watched = true
	w.write()
	isCurrent := func() bool {
		o := &Score(w.roster, w.score)[0]
		p := w.person(o)
		p.Key = "key"
		last := w.folder.drawn[o.Report]
		last.from.person.Key = p.Key
		w.folder.drawn[o.Report] = last
		return w.folder.isCurrent(o.Report, sourceOf(o, p, &w.score))
	}
	if !isCurrent() {
		t.Fatal("an unchanged page is drawn again")
	}
	own := *reference.AdultTables[0]
	own.Source = "own.csv"
	entry := &w.row(0).Entry
	for name, change := range map[string]func(){
		"an input":        func() { entry.Set(scoring.BodyMass, scoring.Q(60.0000001, scoring.Kilograms), "") },
		"the birth":       func() { entry.Born = time.Date(1981, 3, 4, 0, 0, 0, 0, time.UTC) },
		"the test day":    func() { entry.Tested = time.Date(2026, 5, 11, 0, 0, 0, 0, time.UTC) },
		"one test more":   func() { entry.Trials = append(entry.Trials, entry.Trials[0]) },
		"no test":         func() { entry.Trials = nil },
		"the paper":       func() { w.look.Paper = kit.Letter },
		"the audience":    func() { w.look.Audience = templates.Squad },
		"the words":       func() { w.look.Words = w.look.Words.For(templates.Squad) },
		"the problems":    func() { w.look.Problems = []person.Problem{{What: scoring.Verbatim("a")}} },
		"an equation":     func() { w.score.Equations = []string{"walk1-kline1987-absolute"} },
		"another table":   func() { w.score.Adults = reference.AdultTables[1] },
		"an edited table": func() { w.score.Adults = &own },
		"a youth table":   func() { w.score.Youth = reference.YouthTables[1] },
		"the fallback":    func() { w.score.Fallback = fieldtests.WithoutExercise() },
	} {
		look, score, was := w.look, w.score, *entry
		trials := slices.Clone(entry.Trials)
		entry.Values = scoring.Values{}
		for in := range scoring.InputCount {
			if q, ok := was.Get(in); ok {
				entry.Set(in, q, "")
			}
		}
		change()
		if isCurrent() {
			t.Errorf("%s does not count", name)
		}
		w.look, w.score, *entry = look, score, was
		entry.Trials = trials
	}
	if !isCurrent() {
		t.Error("the page is not current any more")
	}
}

// An earlier visit counts for the page of a later one.
func TestFolderReviews(t *testing.T) {
	w := newWeek(t)
	w.roster.Sheets[0].Rows = w.roster.Sheets[0].Rows[:2]
	for i, day := range []int{1, 30} {
		w.row(i).Person = workbook.Person{Name: "Ida", ID: "7"}
		w.row(i).Entry.Tested = time.Date(2026, 4, day, 0, 0, 0, 0, time.UTC)
	}
	w.folder.Watched = true
	if made, _ := w.write(); len(made) != 2 {
		t.Fatal(made)
	}
	w.row(0).Entry.Trials[0].Set(scoring.Time, scoring.Q(17, scoring.Minutes), "")
	if made, _ := w.write(); len(made) != 2 {
		t.Errorf("made %q, not the pages of both visits", made)
	}
}

// TestEnteredKnowsEveryField: a field added to an entry must be added to Entered.
func TestEnteredKnowsEveryField(t *testing.T) {
	for typ, want := range map[reflect.Type][]string{
		reflect.TypeFor[scoring.Entry](): {"Values", "Born", "Tested", "YearsAtMost", "MayBeChild", "Trials", "Mornings", "Notes", "Doubts", "HealthUnread"},
		reflect.TypeFor[scoring.Trial](): {"Test", "Values", "Attempt", "Attempts"},
	} {
		var got []string
		for i := range typ.NumField() {
			got = append(got, typ.Field(i).Name)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%v has the fields %q, and Entered writes %q", typ, got, want)
		}
	}
	seen := map[string]bool{}
	for _, change := range []func(e *scoring.Entry){
		func(e *scoring.Entry) {},
		func(e *scoring.Entry) { e.YearsAtMost = 3 },
		func(e *scoring.Entry) { e.MayBeChild = true },
		func(e *scoring.Entry) { e.Mornings = 3 },
		func(e *scoring.Entry) { e.Notes = []scoring.DangerNote{{Text: "fainted"}} },
		func(e *scoring.Entry) { e.HealthUnread = "K1" },
		func(e *scoring.Entry) { e.Doubts = []scoring.Doubt{{Inputs: []scoring.Input{scoring.Age}}} },
		func(e *scoring.Entry) { e.Set(scoring.Age, scoring.Q(3, scoring.Years), "") },
		func(e *scoring.Entry) { e.Trials[0].Set(scoring.Age, scoring.Q(3, scoring.Years), "") },
		func(e *scoring.Entry) { e.Trials[0].Attempt, e.Trials[0].Attempts = 1, 2 },
		func(e *scoring.Entry) { e.Trials[0].Attempt, e.Trials[0].Attempts = 2, 2 },
		func(e *scoring.Entry) { e.Born = time.Unix(1, 0) },
		func(e *scoring.Entry) { e.Tested = time.Unix(1, 0) },
	} {
		test, _ := fieldtests.ByID("walk-1-mile")
		e := &scoring.Entry{Trials: []scoring.Trial{{Test: test}}}
		change(e)
		if text := Entered(e); seen[text] {
			t.Errorf("%s is written of two entries", text)
		} else {
			seen[text] = true
		}
	}
}

// Stale lists only pages made here whose people have none now.
func TestFolderStale(t *testing.T) {
	w := newWeek(t)
	w.write()
	must(t, os.WriteFile(filepath.Join(w.folder.Path, "Theirs.pdf"), []byte("%PDF"), 0o600))
	must(t, os.WriteFile(filepath.Join(w.folder.Path, accountFile), nil, 0o600))
	w.roster.Sheets[0].Rows = w.roster.Sheets[0].Rows[1:]
	_, work := w.write()
	if want := []string{"Person 000.pdf"}; !slices.Equal(work.Stale, want) {
		t.Errorf("stale %q, want %q", work.Stale, want)
	}
	if _, err := os.Stat(filepath.Join(w.folder.Path, accountFile)); err == nil {
		t.Error("the list of version 0.1.0 is still there")
	}
	// A disk that ignores case lists a page under the name it had before.
	must(t, os.Link(w.path(0), filepath.Join(w.folder.Path, "person 001.pdf")))
	if _, work = w.write(); len(work.Stale) != 1 {
		t.Errorf("stale %q", work.Stale)
	}
}

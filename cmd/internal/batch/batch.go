// Package batch scores a roster and makes its pages. Results have one order,
// however many workers run.
package batch

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"time"

	"tenback/cmd/internal/filename"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/order"
	"tenback/workbook"
	"tenback/workbook/people"
	"tenback/workbook/result"
)

// Score scores every visit of a roster, in the order of the sheets. Each
// visit with a page gets its file name: the person's name, and the day if the
// person was tested on several. Each visit is compared with the person's earlier
// ones, also those of earlier workbooks.
func Score(roster *workbook.Roster, options scoring.Options, earlier ...*workbook.Roster) []workbook.Outcome {
	boundMemory()
	defer boundMemory()
	seasons := people.NewSeasons(roster, earlier...)
	visits := seasons.Visits
	days := map[int]int{}
	for _, v := range visits {
		days[v.Person]++
	}
	outcomes := make([]workbook.Outcome, len(visits))
	assess(outcomes, visits, &options)
	var names filename.Set
	for i := range outcomes {
		o, v := &outcomes[i], &visits[i]
		if o.HasPage() {
			name := v.Row.Person.Name
			if tested := v.Row.Entry.Tested; days[v.Person] > 1 && !tested.IsZero() {
				name = cmp.Or(name, v.Row.Person.ID) + " " + tested.Format(time.DateOnly)
			}
			o.Report = names.Unique(".pdf", name, name+" "+v.Row.Person.ID, name+" "+v.Row.Person.ID+" "+v.Row.Sheet)
		}
	}
	review(outcomes, seasons, options)
	return outcomes
}

// assess scores the visits on all processors.
func assess(outcomes []workbook.Outcome, visits []workbook.Visit, options *scoring.Options) {
	done := testsOf(visits)
	share := (len(visits) + runtime.GOMAXPROCS(0) - 1) / runtime.GOMAXPROCS(0)
	var wait sync.WaitGroup
	for from := 0; from < len(visits); from += share {
		wait.Go(func() {
			for i := from; i < min(from+share, len(visits)); i++ {
				outcomes[i] = result.New(&visits[i], options, done)
			}
		})
	}
	wait.Wait()
}

// testsOf lists the tests of visits.
func testsOf(visits []workbook.Visit) []*scoring.Test {
	var all []*scoring.Test
	for i := range visits {
		for _, t := range visits[i].Row.Entry.Trials {
			if !slices.Contains(all, t.Test) {
				all = append(all, t.Test)
			}
		}
	}
	return all
}

// datedVisit is a visit that can be compared.
type datedVisit struct {
	change.Dated
	earlier bool // of an earlier workbook
}

// review compares each outcome with the person's earlier visits.
func review(outcomes []workbook.Outcome, seasons workbook.Seasons, options scoring.Options) {
	visits := map[int]int{} // per person, comparable or not
	for _, all := range [][]workbook.Visit{seasons.Visits, seasons.Earlier} {
		for i := range all {
			visits[all[i].Person]++
		}
	}
	lines := map[int][]datedVisit{} // of people with several visits
	add := func(v *workbook.Visit, earlier bool) {
		if day := v.Row.Entry.Tested; visits[v.Person] > 1 && v.Doubt.IsZero() && !day.IsZero() && !v.Withheld {
			score := options.Assess(&v.Row.Entry)
			lines[v.Person] = append(lines[v.Person], datedVisit{change.Dated{Day: day, Score: &score}, earlier})
		}
	}
	for i := range seasons.Visits {
		add(&seasons.Visits[i], false)
	}
	for i := range seasons.Earlier {
		add(&seasons.Earlier[i], true)
	}
	for _, line := range lines {
		// If two workbooks have the same day, the roster's visit counts.
		slices.SortStableFunc(line, func(a, b datedVisit) int {
			return cmp.Or(a.Day.Compare(b.Day), order.TrueFirst(!a.earlier, !b.earlier))
		})
	}
	for i := range seasons.Visits {
		v, o := &seasons.Visits[i], &outcomes[i]
		switch day := v.Row.Entry.Tested; {
		case v.Withheld || !v.Doubt.IsZero():
		case day.IsZero() && visits[v.Person] > 1:
			o.Doubt = people.DayUnknown
		default:
			o.Review = change.ReviewOf(upTo(lines[v.Person], day))
		}
	}
}

// upTo returns the dates of a line up to a day, each once.
func upTo(line []datedVisit, day time.Time) []change.Dated {
	var all []change.Dated
	for _, d := range line {
		if d.Day.After(day) || len(all) > 0 && all[len(all)-1].Day.Equal(d.Day) {
			continue
		}
		all = append(all, d.Dated)
	}
	return all
}

// LastRound is the day on which the last round of testing began, so that a
// season's sheets count once; zero if no day is known.
func LastRound(roster *workbook.Roster) time.Time {
	_, days := people.TestDays(people.Visits(roster))
	starts := change.Rounds(days)
	if len(starts) == 0 {
		return time.Time{}
	}
	return starts[len(starts)-1]
}

// Failure is a page that could not be made.
type Failure struct {
	Outcome *workbook.Outcome
	Err     error
}

// Pages calls makePage for every outcome with a page, and done after each, from as
// many goroutines as workers. A page that fails, even by a panic, does not stop
// the others. Cancelling the context does, with its error.
func Pages(ctx context.Context, outcomes []workbook.Outcome, workers int, makePage func(*workbook.Outcome) error, done func()) ([]Failure, error) {
	results := make([]error, len(outcomes))
	places := make(chan struct{}, max(1, workers))
	var wait sync.WaitGroup
	var stopped error
	for i := range outcomes {
		if outcomes[i].Report == "" {
			continue
		}
		if stopped = ctx.Err(); stopped != nil {
			break
		}
		places <- struct{}{}
		wait.Go(func() {
			defer func() { <-places }()
			results[i] = guard(makePage, &outcomes[i])
			done()
		})
	}
	wait.Wait()
	var failures []Failure
	for i, e := range results {
		if e != nil {
			failures = append(failures, Failure{&outcomes[i], e})
		}
	}
	return failures, stopped
}

// guard returns a panic as the page's error.
func guard(makePage func(*workbook.Outcome) error, o *workbook.Outcome) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("fault in the program while drawing the page: %v", p)
		}
	}()
	return makePage(o)
}

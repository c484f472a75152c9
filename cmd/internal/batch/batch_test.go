package batch

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook"
)

// rosterOf returns n people who walked a mile.
func rosterOf(n int) *workbook.Roster {
	test, _ := fieldtests.ByID("walk-1-mile")
	sheet := &workbook.Sheet{Name: "Class"}
	for i := range n {
		row := workbook.Row{Sheet: sheet.Name, Number: i + 2, Person: workbook.Person{Name: fmt.Sprintf("Person %03d", i)}}
		row.Entry.SetSex(scoring.Female, "")
		row.Entry.Set(scoring.Age, scoring.Q(45, scoring.Years), "")
		row.Entry.Set(scoring.BodyMass, scoring.Q(60+float64(i%20), scoring.Kilograms), "")
		trial := scoring.Trial{Test: test}
		trial.Set(scoring.Time, scoring.Q(14, scoring.Minutes), "")
		trial.Set(scoring.ExerciseHR, scoring.Q(130, scoring.BeatsPerMinute), "")
		row.Entry.Trials = []scoring.Trial{trial}
		sheet.Rows = append(sheet.Rows, row)
	}
	return &workbook.Roster{Sheets: []*workbook.Sheet{sheet}}
}

func TestScoreKeepsTheOrderOfTheSheet(t *testing.T) {
	roster := rosterOf(3)
	roster.Sheets[0].Rows[1].Entry.Trials = nil
	outcomes := Score(roster, scoring.Options{})
	var got []string
	for _, o := range outcomes {
		got = append(got, o.Row.Person.Name+"|"+o.Report)
	}
	want := []string{"Person 000|Person 000.pdf", "Person 001|", "Person 002|Person 002.pdf"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A test that is only compared with norms has a page too.
func TestNormsGetAPage(t *testing.T) {
	roster := rosterOf(1)
	entry := &roster.Sheets[0].Rows[0].Entry
	entry.Set(scoring.Age, scoring.Q(67, scoring.Years), "")
	test, _ := fieldtests.ByID("step-in-place-2-min")
	trial := scoring.Trial{Test: test}
	trial.Set(scoring.StepsInPlace, scoring.Q(86, scoring.Laps), "")
	entry.Trials = []scoring.Trial{trial}
	if got := Score(roster, scoring.Options{})[0]; got.Score(&scoring.Options{}).Best() != nil || got.Report != "Person 000.pdf" {
		t.Errorf("report %q", got.Report)
	}
}

// Namesakes get different file names, the same in every run.
func TestNamesakes(t *testing.T) {
	names := func() []string {
		roster := rosterOf(3)
		for i := range roster.Sheets[0].Rows {
			roster.Sheets[0].Rows[i].Person = workbook.Person{Name: "Ida Calloway", ID: []string{"7", "8", ""}[i]}
		}
		var all []string
		for _, o := range Score(roster, scoring.Options{}) {
			all = append(all, o.Report)
		}
		return all
	}
	first := names()
	if want := []string{"Ida Calloway.pdf", "Ida Calloway 8.pdf", "Ida Calloway Class.pdf"}; !slices.Equal(first, want) {
		t.Errorf("got %q, want %q", first, want)
	}
	if again := names(); !slices.Equal(first, again) {
		t.Errorf("then %q", again)
	}
}

// One person on two rows of a day is one outcome and one page; on two days the
// pages carry the day.
func TestOnePageAVisit(t *testing.T) {
	roster := rosterOf(5)
	rows := roster.Sheets[0].Rows
	monday := time.Date(2026, time.May, 11, 0, 0, 0, 0, time.UTC)
	for i, p := range []workbook.Person{{Name: "Ida Calloway", ID: "7"}, {Name: "Ida Calloway", ID: "7"}, {Name: "Jo Wren", ID: "8"}, {Name: "Jo Wren", ID: "8"}, {ID: "9"}} {
		rows[i].Person = p
		rows[i].Entry.Tested = monday
	}
	rows[3].Entry.Tested = monday.AddDate(0, 0, 4)
	var got []string
	for _, o := range Score(roster, scoring.Options{}) {
		got = append(got, fmt.Sprint(len(o.Lines()), " ", o.Report))
	}
	want := []string{"2 Ida Calloway.pdf", "1 Jo Wren 2026-05-11.pdf", "1 Jo Wren 2026-05-15.pdf", "1 9.pdf"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Failures are reported in the order of the sheet with any number of workers, and
// the other pages are made.
func TestPagesFailOneByOne(t *testing.T) {
	for _, workers := range []int{1, 2, 7} {
		outcomes := Score(rosterOf(50), scoring.Options{})
		var made, counted atomic.Int64
		failures, err := Pages(context.Background(), outcomes, workers, func(o *workbook.Outcome) error {
			switch o.Row.Number {
			case 10:
				panic("drawing")
			case 5, 30:
				return errors.New("disk")
			}
			made.Add(1)
			return nil
		}, func() { counted.Add(1) })
		if err != nil {
			t.Fatal(err)
		}
		var rows []int
		for _, f := range failures {
			rows = append(rows, f.Outcome.Row.Number)
		}
		if !slices.Equal(rows, []int{5, 10, 30}) || made.Load() != 47 || counted.Load() != 50 {
			t.Errorf("%d workers: rows %v failed, %d made, %d counted", workers, rows, made.Load(), counted.Load())
		}
		if message := failures[1].Err.Error(); !strings.Contains(message, "drawing") || strings.Contains(message, "goroutine") {
			t.Errorf("a panic is told as %q", message)
		}
	}
}

func TestPagesStopWhenTold(t *testing.T) {
	outcomes := Score(rosterOf(50), scoring.Options{})
	ctx, cancel := context.WithCancel(context.Background())
	var made atomic.Int64
	var once sync.Once
	_, err := Pages(ctx, outcomes, 2, func(*workbook.Outcome) error {
		made.Add(1)
		once.Do(cancel)
		return nil
	}, func() {})
	if !errors.Is(err, context.Canceled) || made.Load() == 50 {
		t.Errorf("error %v after %d pages", err, made.Load())
	}
}

// Scoring sets a memory limit, or a large roster takes half as much again.
func TestScoreBoundsMemory(t *testing.T) {
	t.Setenv("GOMEMLIMIT", "")
	before := debug.SetMemoryLimit(math.MaxInt64)
	defer debug.SetMemoryLimit(before)
	Score(rosterOf(1), scoring.Options{})
	if got := debug.SetMemoryLimit(-1); got < muchMemory || got == math.MaxInt64 {
		t.Errorf("the limit is %d bytes", got)
	}
}

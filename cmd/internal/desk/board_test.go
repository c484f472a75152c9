package desk

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"tenback/cmd/internal/manifest"
	"tenback/workbook"
)

// result is someone with what was entered, in a file of the name.
func result(name string, entered byte) Result {
	return Result{Sum: manifest.Digest{entered, name[0]}, Name: name, Page: name + ".pdf"}
}

func made(r Result) Result {
	r.Made = true
	return r
}

func names(results []Result) []string {
	all := []string{}
	for _, r := range results {
		all = append(all, r.Name)
	}
	return all
}

func TestTake(t *testing.T) {
	at := func(minute int) time.Time { return time.Date(2026, 5, 11, 14, minute, 0, 0, time.UTC) }
	failed := result("Wren", 2)
	failed.Page = ""
	var b Board
	for _, step := range []struct {
		name         string
		results      []Result
		scored, lost []string
		made         int
		recent       []string
	}{
		{"what stands there at the beginning is no news", []Result{made(result("Ida", 1)), result("Wren", 1)}, nil, nil, 1, nil},
		{"nothing changed", []Result{result("Ida", 1), result("Wren", 1)}, nil, nil, 0, nil},
		{"someone new", []Result{result("Ida", 1), made(result("Bo", 1)), result("Wren", 1)}, []string{"Bo"}, nil, 0, []string{"Bo"}},
		{"two changed", []Result{made(result("Ida", 2)), result("Bo", 1), made(result("Wren", 2))}, []string{"Ida", "Wren"}, nil, 0, []string{"Wren", "Ida", "Bo"}},
		{"the order changed", []Result{result("Wren", 2), result("Bo", 1), result("Ida", 2)}, nil, nil, 0, []string{"Wren", "Ida", "Bo"}},
		{"a new look for all", []Result{made(result("Ida", 2)), made(result("Bo", 1)), made(result("Wren", 2))}, nil, nil, 3, []string{"Wren", "Ida", "Bo"}},
		{"the same one again", []Result{result("Ida", 2), made(result("Bo", 2)), result("Wren", 2)}, []string{"Bo"}, nil, 0, []string{"Bo", "Wren", "Ida"}},
		{"one gone", []Result{result("Ida", 2), result("Bo", 2)}, nil, []string{"Wren.pdf"}, 0, []string{"Bo", "Ida"}},
		{"one whose page failed", []Result{result("Ida", 2), result("Bo", 2), failed}, nil, nil, 0, []string{"Bo", "Ida"}},
		{"and is there at last", []Result{result("Ida", 2), result("Bo", 2), made(result("Wren", 2))}, []string{"Wren"}, nil, 0, []string{"Wren", "Bo", "Ida"}},
	} {
		first := !b.Read()
		news := b.Take(Reading{At: at(1), Results: step.results})
		if got := names(news.Scored); !slices.Equal(got, step.scored) || !slices.Equal(news.Lost, step.lost) || news.Made != step.made || news.First != first {
			t.Errorf("%s: scored %q, lost %q, %d made, first %v", step.name, got, news.Lost, news.Made, news.First)
		}
		if got := names(b.Recent); !slices.Equal(got, step.recent) {
			t.Errorf("%s: recent are %q, want %q", step.name, got, step.recent)
		}
	}
	if b.Recent[0].At != at(1) {
		t.Errorf("the time is %v", b.Recent[0].At)
	}
}

func TestProblemsAndCautions(t *testing.T) {
	p := func(cell string) workbook.Problem {
		return workbook.Problem{Sheet: "8B", Cell: cell, What: "no number"}
	}
	ida, bo := Caution{"8B row 2", "Ida", "chest pain"}, Caution{"8B row 3", "Bo", "chest pain"}
	var b Board
	news := b.Take(Reading{ToMend: []workbook.Problem{p("C2"), p("C3")}, Cautions: []Caution{ida}})
	if len(news.ToMend) != 2 || len(news.Mended) != 0 || len(news.Cautions) != 1 {
		t.Errorf("at the beginning %+v", news)
	}
	news = b.Take(Reading{ToMend: []workbook.Problem{p("C3"), p("C4"), p("C4")}, Cautions: []Caution{ida, bo}})
	if !slices.Equal(news.ToMend, []workbook.Problem{p("C4")}) || !slices.Equal(news.Mended, []workbook.Problem{p("C2")}) || !slices.Equal(news.Cautions, []Caution{bo}) {
		t.Errorf("then %+v", news)
	}
	if news = b.Take(Reading{}); len(news.ToMend) != 0 || len(news.Mended) != 2 {
		t.Errorf("at last %+v", news)
	}
}

func TestRecentIsBounded(t *testing.T) {
	var b Board
	b.Take(Reading{})
	var all []Result
	for i := range 3 * recentMost {
		all = append(all, Result{Sum: manifest.Digest{byte(i)}, Page: fmt.Sprintf("%d.pdf", i)})
	}
	news := b.Take(Reading{Results: all})
	if len(news.Scored) != 3*recentMost || len(b.Recent) != recentMost || b.Recent[0].Page != "149.pdf" {
		t.Errorf("%d scored, %d recent", len(news.Scored), len(b.Recent))
	}
}

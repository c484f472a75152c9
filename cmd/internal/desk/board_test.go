package desk

import (
	"fmt"
	"slices"
	"testing"
	"time"
)

// resultOf returns a result with a page named after the person.
func resultOf(name string, entered byte) Result {
	return Result{Entered: string([]byte{entered, name[0]}), Name: name, Page: name + ".pdf"}
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
	failed := resultOf("Wren", 2)
	failed.Page = ""
	var b Board
	for _, step := range []struct {
		name         string
		results      []Result
		scored, lost []string
		made         int
		recent       []string
	}{
		{"what stands there at the beginning is no news", []Result{made(resultOf("Ida", 1)), resultOf("Wren", 1)}, nil, nil, 1, nil},
		{"nothing changed", []Result{resultOf("Ida", 1), resultOf("Wren", 1)}, nil, nil, 0, nil},
		{"someone new", []Result{resultOf("Ida", 1), made(resultOf("Bo", 1)), resultOf("Wren", 1)}, []string{"Bo"}, nil, 0, []string{"Bo"}},
		{"two changed", []Result{made(resultOf("Ida", 2)), resultOf("Bo", 1), made(resultOf("Wren", 2))}, []string{"Ida", "Wren"}, nil, 0, []string{"Wren", "Ida", "Bo"}},
		{"the order changed", []Result{resultOf("Wren", 2), resultOf("Bo", 1), resultOf("Ida", 2)}, nil, nil, 0, []string{"Wren", "Ida", "Bo"}},
		{"a new look for all", []Result{made(resultOf("Ida", 2)), made(resultOf("Bo", 1)), made(resultOf("Wren", 2))}, nil, nil, 3, []string{"Wren", "Ida", "Bo"}},
		{"the same one again", []Result{resultOf("Ida", 2), made(resultOf("Bo", 2)), resultOf("Wren", 2)}, []string{"Bo"}, nil, 0, []string{"Bo", "Wren", "Ida"}},
		{"one gone", []Result{resultOf("Ida", 2), resultOf("Bo", 2)}, nil, []string{"Wren.pdf"}, 0, []string{"Bo", "Ida"}},
		{"one whose page failed", []Result{resultOf("Ida", 2), resultOf("Bo", 2), failed}, nil, nil, 0, []string{"Bo", "Ida"}},
		{"and is there at last", []Result{resultOf("Ida", 2), resultOf("Bo", 2), made(resultOf("Wren", 2))}, []string{"Wren"}, nil, 0, []string{"Wren", "Bo", "Ida"}},
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

func TestMendsAndCautions(t *testing.T) {
	ida, bo := Mend{Name: "Ida", Cell: "8B!C2", What: "no number"}, Mend{Name: "Bo", Cell: "8B!C3", What: "no number"}
	nobody := Mend{Cell: "8B!C4", What: "whose is it?"}
	pain := Caution{"8B row 2", "Ida", "chest pain"}
	var b Board
	for _, step := range []struct {
		name          string
		toMend        []Mend
		cautions      []Caution
		fresh, mended []Mend
		cautioned     []Caution
		shown         []Mend
	}{
		{"at the beginning all is news", []Mend{ida, nobody}, []Caution{pain}, []Mend{ida, nobody}, nil, []Caution{pain}, []Mend{ida, nobody}},
		{"nothing new", []Mend{ida, nobody}, []Caution{pain}, nil, nil, nil, []Mend{ida, nobody}},
		{"one mended, one new", []Mend{nobody, bo}, []Caution{pain}, []Mend{bo}, []Mend{ida}, nil, []Mend{bo, nobody}},
		{"rows moved", []Mend{nobody, {Name: "Bo", Cell: "8B!C9", What: "no number"}}, []Caution{{"8B row 8", "Ida", "chest pain"}}, nil, nil, nil, []Mend{{Name: "Bo", Cell: "8B!C9", What: "no number"}, nobody}},
		{"all well", nil, nil, nil, []Mend{{Name: "Bo", Cell: "8B!C9", What: "no number"}, nobody}, nil, nil},
	} {
		news := b.Take(Reading{ToMend: step.toMend, Cautions: step.cautions})
		if !slices.Equal(news.ToMend, step.fresh) || !slices.Equal(news.Mended, step.mended) || !slices.Equal(news.Cautions, step.cautioned) || !slices.Equal(b.ToMend, step.shown) {
			t.Errorf("%s: %+v", step.name, news)
		}
	}
}

func TestRecentIsBounded(t *testing.T) {
	var b Board
	b.Take(Reading{})
	var all []Result
	for i := range 3 * recentMost {
		all = append(all, Result{Entered: fmt.Sprint(i), Page: fmt.Sprintf("%d.pdf", i)})
	}
	news := b.Take(Reading{Results: all})
	if len(news.Scored) != 3*recentMost || len(b.Recent) != recentMost || b.Recent[0].Page != "149.pdf" {
		t.Errorf("%d scored, %d recent", len(news.Scored), len(b.Recent))
	}
}

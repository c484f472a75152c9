package workbook

import (
	"fmt"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/workbook/people"
)

// healthOf reads a sheet of people with ages and runs, and lists the health answers of
// each visit, its notes, and the cells of what is not a plain answer.
func healthOf(t *testing.T, sheets ...sheetOf) (answers []string, r *Roster) {
	t.Helper()
	r, err := openBook(buildBook(t, nil, sheets...), ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range people.Visits(r) {
		e := &v.Row.Entry
		var said []string
		for in := range scoring.InputCount {
			if q, ok := e.Get(in); ok && (in.Info().YesNo || in == scoring.SystolicBP || in == scoring.DiastolicBP) {
				said = append(said, fmt.Sprintf("%s=%g@%s", in, q.Amount, e.Cell(in)))
			}
		}
		for _, n := range e.Notes {
			said = append(said, fmt.Sprintf("note %s@%s", n.Kind, n.Cell))
		}
		for _, p := range v.Row.Problems {
			said = append(said, fmt.Sprintf("says %s %v", p.Cell, p.Blocking))
		}
		answers = append(answers, strings.Join(said, " "))
	}
	return answers, r
}

// TestHealthColumns: of several columns of one question the most careful answer counts,
// what an answer speaks of besides makes another question unclear, and rows of one person
// that disagree are unclear.
func TestHealthColumns(t *testing.T) {
	got, _ := healthOf(t, sheetOf{"People", [][]any{{"Name", "Sex", "Age", "Diabetes", "Heart disease", "Cleared by a clinician", "GP ok", "Blood pressure", "12 minute run (m)"},
		{"Ann", "F", 30, "yes", "no", "yes", "no", "128/82", 2300},
		{"Bo", "M", 24, "no", "?", "yes", "yes", "high", 2200},
		{"Cy", "M", 24, "on insulin", "-", "", "", "n/a", 2400},
		{"Di", "F", 24, "no", "no", "", "", 300, 2100}}},
		sheetOf{"List", [][]any{{"Name", "Diabetes"}, {"Di", "yes"}}})
	for i, want := range []string{
		"known-disease=1@D2 cleared=0@G2 systolic-bp=128@H2 diastolic-bp=82@H2",
		"known-disease=0.5@E3 cleared=1@F3 says H3 false says E3 true",
		"known-disease=0.5@D4 insulin=0.5@D4 says D4 true",
		"known-disease=0.5@D5 says H5 false says List!B2 false",
	} {
		if got[i] = strings.ReplaceAll(got[i], "says B2", "says List!B2"); !sameWords(got[i], want) {
			t.Errorf("row %d: %q, want %q", i+2, got[i], want)
		}
	}
}

func sameWords(a, b string) bool { return equalSets(strings.Fields(a), strings.Fields(b)) }

// TestHealthByValues: a column whose cells answer a health question is asked about,
// whatever its header, and an empty cell in a column of noes is remarked on.
func TestHealthByValues(t *testing.T) {
	rows := [][]any{{"Name", "Sex", "Age", "Zeppelin", "Chest pain", "12 minute run (m)"}}
	for i, q7 := range []string{"no", "no", "diabetic", "no", "asthma", "no"} {
		rows = append(rows, []any{fmt.Sprint("Person ", string(rune('A'+i))), "F", 30, q7, "no", 2300 + i})
	}
	rows[4][4] = ""
	got, r := healthOf(t, sheetOf{"People", rows})
	if len(r.Questions) != 1 || r.Questions[0].Cell != "D1" || len(r.Questions[0].Choices) == 0 {
		t.Errorf("questions %v", r.Questions)
	}
	if e := r.Sheets[0].Rows[0].Entry; e.HealthUnread != "D1" {
		t.Errorf("rows wait for %q", e.HealthUnread)
	}
	for i, want := range []string{"symptoms=0@E2", "symptoms=0@E3", "symptoms=0@E4 known-disease=0.5@D4 note known-disease@D4 says D4 false", "says E5 false",
		"symptoms=0@E6 asthma=0.5@D6 note asthma@D6 says D6 false", "symptoms=0@E7"} {
		if !sameWords(got[i], want) {
			t.Errorf("row %d: %q, want %q", i+2, got[i], want)
		}
	}
	rows[0][3] = "Notes"
	if _, r := healthOf(t, sheetOf{"People", rows}); len(r.Questions) > 0 {
		t.Errorf("notes are asked about: %v", r.Questions)
	}
	ticks := [][]any{{"Name", "Sex", "Age", "Chest pain", "12 minute run (m)"}, {"Ann", "F", 30, "x", 2300}, {"Bo", "M", 30, "", 2300}, {"Cy", "M", 30, "", 2300}, {"Di", "F", 30, "", 2300}}
	if got, r := healthOf(t, sheetOf{"People", ticks}); strings.Join(got, "|") != "symptoms=1@D2|||" || len(r.Questions) > 0 {
		t.Errorf("ticks: %q, %v", got, r.Questions)
	}
}

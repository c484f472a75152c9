package workbook

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook/people"
	"tenback/workbook/questions"
	"tenback/workbook/result"
	"tenback/workbook/roster"
)

// doubted lists the doubts of a roster by cell, with ! where they cost a score, and how
// many people have an estimate.
func doubted(r *Roster) (cells string, scored int) {
	var all []string
	for _, v := range people.Visits(r) {
		o := result.New(&v, &scoring.Options{}, nil)
		if o.Estimated() {
			scored++
		}
		for _, p := range o.Problems() {
			if p.Doubtful {
				all = append(all, strings.TrimPrefix(p.Where(), "People!")+strings.Repeat("!", map[bool]int{true: 1}[p.Blocking]))
			}
		}
	}
	slices.Sort(all)
	return strings.Join(all, " "), scored
}

// TestConfirmations: a doubtful value counts once somebody said that it is right, in the
// file of questions or in the row, also where it is on another sheet; an impossible one
// never.
func TestConfirmations(t *testing.T) {
	tests := sheetOf{"People", [][]any{{"Name", "Sex", "Age", "Stature (cm)", "Checked", "12 minute run (m)"},
		{"Ann", "F", 30, 165, "", 2300}, {"Bo", "M", 24, 180, "", 4400}, {"Cy", "M", 24, 180, "yes", 4400}, {"Di", "M", 9, 135, "yes", 4400}, {"Ed", "M", 24, 182, "?", 4400}}}
	masses := sheetOf{"Weights", [][]any{{"Name", "Body mass (kg)"}, {"Ann", 62}, {"Bo", 70}, {"Cy", 71}, {"Di", 38}, {"Ed", 44}}}
	book := buildBook(t, nil, tests, masses)
	read := func(answers roster.Answers) *Roster {
		t.Helper()
		r, err := openBook(book, ReadOptions{Answers: answers})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	r := read(roster.Answers{})
	if cells, scored := doubted(r); cells != "F3! F6! Weights!B6" || scored != 2 {
		t.Errorf("before the answers: %q, %d scored", cells, scored)
	}
	var findings []Finding
	for _, v := range people.Visits(r) {
		o := result.New(&v, &scoring.Options{}, nil)
		findings = append(findings, r.Findings(o.Problems())...)
	}
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	asked := questions.Of(r, findings, words)
	var seen []string
	for i := range asked.Cells {
		c := &asked.Cells[i]
		if c.Right = c.MayBeRight; c.Open() || c.Right {
			seen = append(seen, fmt.Sprint(c.Sheet, "!", c.Cell, " ", c.Was, " ", c.MayBeRight))
		}
	}
	if want := []string{"People!F3 4400 true", "People!F5 4400 false", "People!E6 ? true", "People!F6 4400 true", "Weights!B6 44 true"}; !equalSets(seen, want) {
		t.Errorf("asked %q, want %q", seen, want)
	}
	if cells, scored := doubted(read(asked.Answers())); cells != "" || scored != 4 {
		t.Errorf("after the answers: %q, %d scored", cells, scored)
	}
}

func equalSets(a, b []string) bool {
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b)
}

// TestOutsideTheGroup: one member far from all others is asked about at one cell; a
// group that is mixed in itself is not.
func TestOutsideTheGroup(t *testing.T) {
	class := func(change func(rows [][]any)) *Roster {
		rows := [][]any{{"Name", "Class", "Sex", "Date of birth", "Body mass (kg)", "20 m shuttle level", "Test date"}}
		for i := range 8 {
			rows = append(rows, []any{fmt.Sprint("Pupil ", string(rune('A'+i))), "7a", []string{"M", "F"}[i%2], fmt.Sprintf("%d-03-%02d", 2012+i%2, 10+i), 38 + 2*i, 3 + i%4, "2025-10-06"})
		}
		change(rows)
		return readRows(t, ReadOptions{}, rows...)
	}
	for _, c := range []struct {
		name, want string
		change     func(rows [][]any)
	}{
		{"all alike", "", func([][]any) {}},
		{"one born much later", "D4!", func(rows [][]any) { rows[3][3] = "2018-03-04" }},
		{"two of them", "D4! D5!", func(rows [][]any) { rows[3][3], rows[4][3] = "2018-03-04", "2016-05-06" }},
		{"a test four years before", "G6!", func(rows [][]any) { rows[5][6] = "2021-10-06" }},
		{"a body mass far above", "E3", func(rows [][]any) { rows[2][4] = 178 }},
		{"a heavy pupil", "", func(rows [][]any) { rows[2][4] = 95 }},
		{"two seasons", "", func(rows [][]any) {
			for i := 1; i < 4; i++ {
				rows[i][6] = "2024-10-07"
			}
		}},
		{"ages of a club", "", func(rows [][]any) {
			for i := 1; i < 9; i++ {
				rows[i][3] = fmt.Sprintf("%d-03-04", 2005+i)
			}
		}},
		{"a later test of one person", "", func(rows [][]any) { rows[8] = slices.Clone(rows[7]); rows[8][6] = "2026-05-20" }},
	} {
		if cells, _ := doubted(class(c.change)); cells != c.want {
			t.Errorf("%s: asked about %q, want %q", c.name, cells, c.want)
		}
	}
}

// TestNothingOddIsScored: values that were once scored without a word.
func TestNothingOddIsScored(t *testing.T) {
	for _, c := range []struct {
		want string // the cells that are asked about, then how many people are scored
		rows [][]any
	}{
		{"E4!; 3", [][]any{{"Name", "Sex", "Age", "Height (cm)", "Body mass (kg)", "1 mile walk", "1 mile walk pulse"}, // 178 kg among people of 70
			{"Ann", "F", 40, 165, 66, "15:10", 128}, {"Bo", "M", 44, 178, 74, "14:20", 121}, {"Cy", "M", 39, 181, 178, "14:50", 126}, {"Di", "F", 51, 170, 71, "15:40", 133}}},
		{"E2; 3", [][]any{{"Name", "Sex", "Age", "Height (cm)", "Weight (kg)", "20 m shuttle level"}, {"Ann", "F", 12, 120, 90, 4}, {"Bo", "M", 12, 150, 41, 5}, {"Cy", "M", 12, 147, 39, 6}}},
		{"G2! G3!; 2", [][]any{{"Name", "Sex", "Age", "Weight (kg)", "Resting HR", "1 mile walk", "Walk pulse"}, {"Ann", "F", 40, 66, 70, "15:10", 230}, {"Di", "F", 40, 66, 70, "15:10", 60},
			{"Bo", "M", 44, 75, 64, "14:20", 121}, {"Cy", "M", 39, 77, 60, "14:50", 126}}},
		{"D1?; 3", [][]any{{"Name", "Sex", "Age", "Resting HR", "12 minute run (m)"}, {"Ann", "F", 40, 33, 2100}, {"Bo", "M", 44, 36, 2300}, {"Cy", "M", 39, 30, 2200}}},
		{"D2!; 0", [][]any{{"Name", "Sex", "Age", "20 m shuttle level"}, {"Ann", "F", 9, "20.5"}}},
		{"E2!; 0", [][]any{{"Name", "Sex", "Age", "Body mass (kg)", "1 mile run"}, {"Ann", "F", 12, 40, "4:05"}}},
		{"D2!; 1", [][]any{{"Name", "Sex", "Age", "12 minute run (m)"}, {"Ann", "F", 40, 4400}, {"Bo", "M", 40, 2400}}},
		{"E2!; 0", [][]any{{"Name", "Sex", "Age", "Body mass (kg)", "1 mile walk", "Walk pulse"}, {"Ann", "F", 40, 66, "8:00", 140}}},
		{"E2; 4", [][]any{{"Name", "Sex", "Age", "Height (cm)", "Body mass (kg)", "1.5 mile run"}, // out of range, and the equation does without it
			{"Ann", "F", 25, 165, 418, "13:10"}, {"Bo", "M", 24, 178, 74, "11:20"}, {"Cy", "M", 29, 181, 78, "11:50"}, {"Di", "F", 21, 170, 71, "12:40"}}},
		// Columns.
		{"D1?; 0", [][]any{{"Name", "Sex", "Age", "Body mass (kg)", "1 mile walk", "Walk pulse"}, {"Ann", "F", 40, 22.4, "15:10", 128}, {"Bo", "M", 44, 25.1, "14:20", 121}, {"Cy", "M", 39, 27.9, "14:50", 126}}},
		{"F1?; 0", [][]any{{"Name", "Sex", "Age", "Body mass (kg)", "1 mile walk", "Walk pulse", "Resting HR"}, {"Ann", "F", 40, 62, "15:10", 62, 68}, {"Bo", "M", 44, 75, "14:20", 58, 64}, {"Cy", "M", 39, 77, "14:50", 66, 71}}},
	} {
		r := readRows(t, ReadOptions{}, c.rows...)
		var at []string
		for _, q := range r.Questions {
			at = append(at, q.Cell+"?")
		}
		scored := 0
		for _, v := range people.Visits(r) {
			o := result.New(&v, &scoring.Options{}, nil)
			if o.Estimated() {
				scored++
			}
			for _, d := range o.Row.Entry.Doubts {
				mark := ""
				if slices.ContainsFunc(o.Refused, func(r scoring.Refusal) bool { return r.Doubt != nil && r.Doubt.Cell == d.Cell }) {
					mark = "!"
				}
				at = append(at, d.Cell+mark)
			}
		}
		if got := fmt.Sprintf("%s; %d", strings.Join(at, " "), scored); got != c.want {
			t.Errorf("%v\n asked at %s, want %s", c.rows, got, c.want)
		}
	}
}

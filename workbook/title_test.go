package workbook

import (
	"strings"
	"testing"
	"time"

	"tenback/scoring"
)

func TestTitleDay(t *testing.T) {
	for title, want := range map[string]string{
		"Fitness week 11 May 2026":                     "11 May 2026",
		"Fitness test, 11th of May 2026, class 7c":     "11 May 2026",
		"Date: 11.05.2026":                             "11 May 2026",
		"2026-05-11 Fitness day":                       "11 May 2026",
		"Sporttag am 11. Mai 2026":                     "11 May 2026",
		"Cross du 11 mai 2026":                         "11 May 2026",
		"Test de condición, 11 de mayo de 2026":        "11 May 2026",
		"2026年5月11日 体力テスト":                             "11 May 2026",
		"May 11, 2026":                                 "11 May 2026",
		"13/05/2026":                                   "13 May 2026",
		"5/13/2026":                                    "13 May 2026",
		"05/03/2026":                                   "!this could be 5 March 2026 or 3 May 2026",
		"Fitness week 11 - 15 May 2026":                "!names several days",
		"11.–15.05.2026":                               "!names several days",
		"11.05. bis 15.05.2026":                        "!names several days",
		"11 May – 15 May 2026":                         "!names several days",
		"11 and 12 May 2026":                           "!names several days",
		"Fitness week May 2026":                        "!names the month without the day",
		"Class 7 May 2026":                             "!names the month without the day",
		"2026年5月":                                      "!names the month without the day",
		"Printed 11.05.2026":                           "",
		"School year 2025/2026":                        "",
		"Fitness week 2026":                            "",
		"Class 7c, room 12":                            "",
		"11.05.2026 and 12.05.2026":                    "!name several days",
		"Run on 11.05.2026, walk on 13.05.2026":        "!name several days",
		"Fitness week 11 May 2027":                     "!is in the future",
		"Best run 11:30 (2019), 31.02.2026":            "!there is no such date",
		strings.Repeat("Fitness week 11 May 2026 ", 9): "",
	} {
		roster := readRows(t, ReadOptions{}, []any{title}, []any{"Name", "1.5 mile run"}, []any{"Ada", "11:30"})
		got := ""
		if day := roster.Sheets[0].Rows[0].Entry.Tested; !day.IsZero() {
			got = day.Format("2 January 2006")
		}
		said := strings.Join(complaints(roster), "\n")
		switch complaint, wrong := strings.CutPrefix(want, "!"); {
		case wrong && (got != "" || !strings.Contains(said, complaint) || !strings.Contains(said, "A1")):
			t.Errorf("%q: %q, said %q, want %q", title, got, said, want)
		case !wrong && (got != want || (said == "") != (want == "")):
			t.Errorf("%q: %q, said %q, want %q", title, got, said, want)
		}
	}
}

// TestBlocks reads two lists of one sheet under lines that name their distances. The
// club's name speaks of cycling.
func TestBlocks(t *testing.T) {
	r := readRows(t, ReadOptions{}, []any{"Town cycling club, fun run"}, []any{"10 KM"}, []any{"Name", "Sex", "Age", "Finish time"},
		[]any{"Ada Fern", "F", 31, "52:10"}, []any{"Bo Marsh", "M", 42, "47:33"}, []any{"5 KM"}, []any{"Cy Reed", "M", 27, "24:50"})
	want := []float64{10000, 10000, 5000}
	if len(r.Sheets[0].Rows) != len(want) {
		t.Fatal(complaints(r))
	}
	for i, row := range r.Sheets[0].Rows {
		if len(row.Entry.Trials) != 1 {
			t.Fatal(complaints(r))
		}
		if q, _ := row.Entry.Trials[0].Get(scoring.Distance); q.Amount != want[i] {
			t.Errorf("%s ran %v m, want %v", row.Person.Name, q.Amount, want[i])
		}
	}
}

func TestTitleDayInACellOfItsOwn(t *testing.T) {
	rows := func(head ...any) [][]any {
		return [][]any{{"Fitness day"}, {"Date:", day(2026, 5, 11)}, head, {"Ada", "11:30", day(2026, 5, 12)}}
	}
	tested := func(opt ReadOptions, head ...any) (time.Time, []string) {
		roster := readRows(t, opt, rows(head...)...)
		return roster.Sheets[0].Rows[0].Entry.Tested, complaints(roster)
	}
	if got, said := tested(ReadOptions{}, "Name", "1.5 mile run"); got.Day() != 11 || len(said) != 1 || !strings.HasPrefix(said[0], `B2 ("2026-05-11"): there is no column`) {
		t.Errorf("title: %v, %v", got, said)
	}
	if got, said := tested(ReadOptions{}, "Name", "1.5 mile run", "Test date"); got.Day() != 12 || len(said) != 0 {
		t.Errorf("column: %v, %v", got, said)
	}
	if got, said := tested(ReadOptions{TestDate: testToday}, "Name", "1.5 mile run"); !got.Equal(testToday) || len(said) != 0 {
		t.Errorf("option: %v, %v", got, said)
	}
}

// Without a column or a title the header of a result may give the day.
func TestDayOfHeaders(t *testing.T) {
	for _, c := range []struct {
		heads [2]string
		day   int    // of May 2026; 0 for none
		said  string // part of the only complaint
	}{
		{[2]string{"1.5 mile run 12.05.2026", "Resting HR"}, 12, `B1 ("1.5 mile run 12.05.2026"): there is no column for the test date, so 12 May 2026 was taken`},
		{[2]string{"1.5 mile run 12.05.2026", "12 minute run (m) 12.05.2026"}, 12, "12 May 2026 was taken"},
		{[2]string{"1.5 mile run 12.05.2026", "12 minute run (m) 19.05.2026"}, 0, "the headers of the results name several days"},
		{[2]string{"1.5 mile run 03/05/2026", "Joined 19.05.2026"}, 0, "this could be 3 May 2026 or 5 March 2026"},
		{[2]string{"1.5 mile run 12.05.2027", "Resting HR"}, 0, "is in the future"},
	} {
		roster := readRows(t, ReadOptions{}, []any{"Name", c.heads[0], c.heads[1]}, []any{"Ada", "11:30", nil})
		day := roster.Sheets[0].Rows[0].Entry.Tested
		said := complaints(roster)
		if got := day.Day(); day.IsZero() != (c.day == 0) || !day.IsZero() && got != c.day || len(said) != 1 || !strings.Contains(said[0], c.said) {
			t.Errorf("%q: %v, said %q", c.heads, day, said)
		}
	}
}

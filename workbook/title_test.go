package workbook

import (
	"strings"
	"testing"
	"time"
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
		"Fitness week 11 - 15 May 2026":                "!gives several days",
		"11.–15.05.2026":                               "!gives several days",
		"11.05. bis 15.05.2026":                        "!gives several days",
		"11 May – 15 May 2026":                         "!gives several days",
		"11 and 12 May 2026":                           "!gives several days",
		"Fitness week May 2026":                        "!gives the month without the day",
		"Class 7 May 2026":                             "!gives the month without the day",
		"2026年5月":                                      "!gives the month without the day",
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

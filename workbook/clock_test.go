package workbook

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
)

// A computer whose clock was set back takes no day for one of another century,
// and says of each day once that it is in the future; the results stay. One
// whose clock is far ahead reads all as it stands.
func TestClockFarOff(t *testing.T) {
	rows := [][]any{{"Name", "Sex", "Date of birth", "Test date", "1.5 mile run"},
		{"Ada", "F", "1981-03-04", "2026-05-11", "12:30"},
		{"Ben", "M", "04.03.81", "11.05.26", "12:40"},
		{"Cyd", "F", day(1990, 7, 1), day(2026, 5, 11), "12:50"},
		{"Dot", "F", "", "13.05.2026", "13:00"}}
	const future = "; correct the date; if it is right, correct the date of this computer"
	for _, c := range []struct {
		name string
		now  time.Time
		day  string // of the test
		say  []string
	}{
		{"in its year", time.Date(2026, 6, 1, 9, 0, 0, 0, time.UTC), "2026-05-11", nil},
		{"at the beginning of its time", time.Unix(0, 0), "0001-01-01", []string{
			`!C2 ("1981-03-04"): 4 March 1981 is in the future` + future,
			`!C3 ("04.03.81"): 4 March 1981 is in the future` + future,
			`!C4 ("1990-07-01"): 1 July 1990 is in the future` + future,
			`!D2 ("2026-05-11"): 11 May 2026 is in the future` + future,
			`!D3 ("11.05.26"): 11 May 2026 is in the future` + future,
			`!D4 ("2026-05-11"): 11 May 2026 is in the future` + future,
			`!D5 ("13.05.2026"): 13 May 2026 is in the future` + future}},
		{"some years back", time.Date(2019, 1, 1, 0, 0, 0, 0, time.UTC), "0001-01-01", []string{
			`!D2 ("2026-05-11"): 11 May 2026 is in the future` + future,
			`!D3 ("11.05.26"): 11 May 2026 is in the future` + future,
			`!D4 ("2026-05-11"): 11 May 2026 is in the future` + future,
			`!D5 ("13.05.2026"): 13 May 2026 is in the future` + future}},
		{"far ahead", time.Date(2099, 12, 31, 23, 59, 59, 0, time.UTC), "2026-05-11", []string{
			`!C3 ("04.03.81"): 4 March 2081 is after the test on 11 May 2026; correct the date of birth or the test date`}},
	} {
		roster := readRows(t, ReadOptions{Today: c.now}, rows...)
		said := slices.DeleteFunc(complaints(roster), func(s string) bool { return !strings.HasPrefix(s, "!") })
		if slices.Sort(said); !slices.Equal(said, c.say) {
			t.Errorf("%s: said %q\nwant %q", c.name, said, c.say)
		}
		for _, row := range roster.Sheets[0].Rows {
			if len(row.Entry.Trials) != 1 {
				t.Errorf("%s: the result of %s is lost", c.name, row.Person.Name)
			}
			if got := row.Entry.Tested.Format(time.DateOnly); got != c.day && row.Person.Name != "Dot" {
				t.Errorf("%s: %s was tested on %s, want %s", c.name, row.Person.Name, got, c.day)
			}
		}
	}
}

// A computer whose date is before a day that has passed holds no date against
// it: all is read as by a clock that is right, also what was tested since that day.
func TestClockBeforeItsTime(t *testing.T) {
	rows := [][]any{{"Name", "Sex", "Date of birth", "Test date", "1.5 mile run"},
		{"Ada", "F", "1981-03-04", "2031-05-11", "12:30"},
		{"Ben", "M", "04.03.81", "11.05.31", "12:40"},
		{"Cyd", "F", day(1990, 7, 1), day(2031, 5, 11), "12:50"},
		{"Dot", "F", "04.03.24", "11.05.31", "13:00"},
		{"Eve", "F", "2032-01-01", "2031-05-11", "13:00"},
		{"Far", "F", "1981-03-04", "2131-05-11", "13:00"}}
	since := time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)
	right := readRows(t, ReadOptions{Since: since, Today: time.Date(2032, 6, 1, 9, 0, 0, 0, time.UTC)}, rows...)
	if !right.WrongToday.IsZero() || right.Sheets[0].Rows[3].Entry.Born.Year() != 2024 {
		t.Fatalf("by a clock that is right: %v, born %v", right.WrongToday, right.Sheets[0].Rows[3].Entry.Born)
	}
	for _, now := range []time.Time{time.Unix(0, 0), time.Date(2002, 3, 4, 0, 0, 0, 0, time.UTC), since.Add(-time.Second)} {
		wrong := readRows(t, ReadOptions{Since: since, Today: now}, rows...)
		if !wrong.WrongToday.Equal(now) {
			t.Errorf("%v is taken for %v", now, wrong.WrongToday)
		}
		for i := range rows[1:] {
			if got, want := inWords(&wrong.Sheets[0].Rows[i]), inWords(&right.Sheets[0].Rows[i]); got != want {
				t.Errorf("%v: %s\nwant %s", now, got, want)
			}
		}
		if got, want := complaints(wrong), complaints(right); !slices.Equal(got, want) {
			t.Errorf("%v: said %q\nwant %q", now, got, want)
		}
	}
}

// TestDistanceSettlesTheTime: a time that is one of minutes or one of hours is read by
// the distance of the race, from wherever that is known.
func TestDistanceSettlesTheTime(t *testing.T) {
	for _, c := range []struct {
		header []any
		row    []any
		want   float64 // seconds
	}{
		{[]any{"Name", "Race distance (m)", "Race time"}, []any{"Ann", 42195, "3:41:14"}, 13274},
		{[]any{"Name", "Race distance (m)", "Race time"}, []any{"Ann", 42195, "4:15"}, 15300},
		{[]any{"Name", "Race distance (m)", "Race time"}, []any{"Ann", 1500, "5:08:00"}, 308},
		{[]any{"Name", "Race distance (km)", "Race time"}, []any{"Ann", 21.0975, "1:41"}, 6060},
		{[]any{"Name", "Test", "Result"}, []any{"Ann", "marathon", "3:41:14"}, 13274},
		{[]any{"Name", "Marathon"}, []any{"Ann", "3:33"}, 12780},
		{[]any{"Name", "5 km run"}, []any{"Ann", "20:15"}, 1215},
		{[]any{"Name", "1 mile run"}, []any{"Ann", "8:08"}, 488},
	} {
		r := readRows(t, ReadOptions{}, c.header, c.row)
		trials := r.Sheets[0].Rows[0].Entry.Trials
		if len(trials) != 1 {
			t.Errorf("%v: %v", c.row, complaints(r))
			continue
		}
		if q, _ := trials[0].Get(scoring.Time); q.Amount != c.want {
			t.Errorf("%v is read as %v s, want %v", c.row, q.Amount, c.want)
		}
	}
}

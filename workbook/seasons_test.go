package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/testdata/demo"
	"tenback/workbook/people"
	"tenback/workbook/source"
	"tenback/workbook/starter"
)

// seasonsInWords lists each visit: person, day, and why it is not compared.
func seasonsInWords(s people.Seasons) string {
	var lines []string
	for _, v := range append(append([]people.Visit(nil), s.Visits...), s.Earlier...) {
		line := fmt.Sprintf("%d %s:%d %s", v.Person, v.Sheet.Name, v.Row.Number, v.Row.Entry.Tested.Format("2006-01-02"))
		if !v.Doubt.IsZero() {
			line += " !"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}

func TestSeasons(t *testing.T) {
	born, swapped := day(2010, 5, 4), day(2010, 4, 5)
	autumn, spring := day(2025, 9, 8), day(2026, 3, 9)
	const head = "ID,Name,Sex,DOB,Test date,1.5 mile run"
	row := func(values ...any) []any { return values }
	sheet := func(name string, rows ...[]any) sheetOf {
		var header []any
		for h := range strings.SplitSeq(head, ",") {
			header = append(header, h)
		}
		return sheetOf{name, append([][]any{header}, rows...)}
	}
	for _, tc := range []struct {
		name    string
		sheets  []sheetOf
		earlier []sheetOf
		want    string
		say     []string // parts of the problems of the visits' rows, in order
	}{
		{name: "a sheet a season", sheets: []sheetOf{
			sheet("Autumn 2025", row("7", "Ada Lind", "F", born, autumn, "12:30")),
			sheet("Spring 2026", row("7", "Ada Lind", "F", born, spring, "12:00")),
		}, want: "0 Autumn 2025:2 2025-09-08\n0 Spring 2026:2 2026-03-09"},
		{name: "an earlier workbook, by ID and by name", sheets: []sheetOf{
			sheet("Squad", row("7", "Ada Lind", "F", born, spring, "12:00"), row(nil, "Ben Ohm", "M", born, spring, "11:00"), row("9", "Cyd Rue", "F", born, spring, "13:00")),
		}, earlier: []sheetOf{
			sheet("Squad", row("7", "Ada Lind", "F", nil, autumn, "12:30"), row(nil, "ohm, BEN", "M", born, autumn, "11:20"), row("10", "Dot Fell", "F", born, autumn, "14:00")),
		}, want: "0 Squad:2 2026-03-09\n1 Squad:3 2026-03-09\n2 Squad:4 2026-03-09\n" +
			"0 [autumn.xlsx]Squad:2 2025-09-08\n1 [autumn.xlsx]Squad:3 2025-09-08\n3 [autumn.xlsx]Squad:4 2025-09-08"},
		{name: "another sex and another date of birth", sheets: []sheetOf{
			sheet("Squad", row("7", "Ada Lind", "F", born, spring, "12:00"), row("8", "Ben Ohm", "M", born, spring, "11:00")),
		}, earlier: []sheetOf{
			sheet("Squad", row("7", "Ada Lind", "M", born, autumn, "12:30"), row("8", "Ben Ohm", "M", swapped, autumn, "11:20")),
		}, want: "0 Squad:2 2026-03-09 !\n1 Squad:3 2026-03-09 !\n2 [autumn.xlsx]Squad:2 2025-09-08\n3 [autumn.xlsx]Squad:3 2025-09-08",
			say: []string{`Squad!C2 ("female"): this ID stands beside the other sex ([autumn.xlsx]Squad!C2)`, `Squad!D3 ("2010-05-04"): this ID stands beside another date of birth ([autumn.xlsx]Squad!D3)`}},
		{name: "day and month of birth exchanged, and no ID", sheets: []sheetOf{
			sheet("Squad", row(nil, "Ada Lind", "F", born, spring, "12:00")),
		}, earlier: []sheetOf{
			sheet("Squad", row(nil, "Ada Lind", "F", swapped, autumn, "12:30")),
		}, want: "0 Squad:2 2026-03-09 !\n1 [autumn.xlsx]Squad:2 2025-09-08",
			say: []string{`Squad!D2 ("2010-05-04"): the name stands in an earlier workbook beside a date of birth that is nearly this one; taken as two people ([autumn.xlsx]Squad!D2)`}},
		{name: "the workbooks exchanged", sheets: []sheetOf{
			sheet("Squad", row("7", "Ada Lind", "F", born, autumn, "12:30")),
		}, earlier: []sheetOf{
			sheet("Squad", row("7", "Ada Lind", "F", born, spring, "12:00")),
		}, want: "0 Squad:2 2025-09-08 !\n0 [autumn.xlsx]Squad:2 2026-03-09 !",
			say: []string{`Squad!E2 ("2025-09-08"): the test in the earlier workbook is later than this one ([autumn.xlsx]Squad!E2, 2026-03-09)`}},
		{name: "two seasons pasted into each other's sheets", sheets: []sheetOf{
			sheet("Autumn 2025", row("7", "Ada Lind", "F", born, spring, "12:00")),
			sheet("Spring 2026", row("7", "Ada Lind", "F", born, autumn, "12:30")),
		}, want: "0 Autumn 2025:2 2026-03-09 !\n0 Spring 2026:2 2025-09-08 !",
			say: []string{`Autumn 2025!E2 ("2026-03-09"): the sheets are named "Autumn 2025" and "Spring 2026", but this test is later than the one in Spring 2026!E2 (2025-09-08)`}},
		{name: "the day was not changed for the next season", sheets: []sheetOf{
			sheet("Autumn 2025", row("7", "Ada Lind", "F", born, autumn, "12:30")),
			sheet("Spring 2026", row("7", "Ada Lind", "F", born, autumn, "12:00")),
		}, want: "0 Autumn 2025:2 2025-09-08 !",
			say: []string{`Spring 2026!F2 ("12:00"): the same person has the same test with another result on the same day in Autumn 2025!F2`}},
		{name: "two attempts on one day of the only season", sheets: []sheetOf{
			sheet("Autumn", row("7", "Ada Lind", "F", born, autumn, "12:30"), row("7", "Ada Lind", "F", born, autumn, "12:20")),
		}, want: "0 Autumn:2 2025-09-08", say: []string{`Autumn!F3 ("12:20"): the same person has the same test with another result in F2; the better attempt counts`}},
		{name: "no day on the next sheet", sheets: []sheetOf{
			sheet("Autumn", row("7", "Ada Lind", "F", born, autumn, "12:30")),
			sheet("Spring", row("7", "Ada Lind", "F", born, nil, "12:00")),
		}, want: "0 Autumn:2 2025-09-08\n0 Spring:2 0001-01-01 !",
			say: []string{`Spring!D2 ("2010-05-04"): the age can't be worked out, because the test day is not known; type the test date of this row`, `Spring!B2 ("Ada Lind"): this test has no day, and the same test stands with another result in Autumn!F2`}},
		{name: "a day in the future", sheets: []sheetOf{
			sheet("Autumn", row("7", "Ada Lind", "F", born, autumn, "12:30")),
			sheet("Spring", row("7", "Ada Lind", "F", born, day(2031, 3, 9), "12:00")),
		}, want: "0 Autumn:2 2025-09-08\n0 Spring:2 0001-01-01 !",
			say: []string{`Spring!E2 ("2031-03-09"): 9 March 2031 is in the future; correct the date; if it is right, correct the date of this computer`, `Spring!B2 ("Ada Lind"): the day of this test can't be read, so it is not compared`}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			read := func(sheets []sheetOf) *Roster {
				roster, err := openBook(buildBook(t, nil, sheets...), ReadOptions{Today: time.Date(2026, time.June, 1, 0, 0, 0, 0, time.UTC)})
				if err != nil {
					t.Fatal(err)
				}
				return roster
			}
			roster := read(tc.sheets)
			var earlier []*Roster
			if tc.earlier != nil {
				e := read(tc.earlier)
				e.NameAfter("autumn.xlsx")
				earlier = append(earlier, e)
			}
			before := people.Visits(roster)
			s := people.NewSeasons(roster, earlier...)
			if got := seasonsInWords(s); got != tc.want {
				t.Errorf("visits\n%s\nwant\n%s", got, tc.want)
			}
			var said []string
			for _, v := range s.Visits {
				said = append(said, sayings(v.Row.Problems)...)
			}
			if len(said) != len(tc.say) {
				t.Fatalf("said\n%s\nwant\n%s", strings.Join(said, "\n"), strings.Join(tc.say, "\n"))
			}
			for i := range said {
				if !strings.Contains(said[i], tc.say[i]) {
					t.Errorf("said %s\nwant %s", said[i], tc.say[i])
				}
			}
			// What earlier workbooks say changes nothing of what is scored here.
			for i, v := range s.Visits {
				if inWords(v.Row) != inWords(before[i].Row) {
					t.Errorf("read as %s, without the earlier workbook as %s", inWords(v.Row), inWords(before[i].Row))
				}
			}
		})
	}
}

func TestMornings(t *testing.T) {
	may := day(2026, 5, 11)
	for _, tc := range []struct {
		name     string
		sheets   []sheetOf
		rate     float64
		mornings int
	}{
		{"one reading", []sheetOf{{"P", [][]any{{"Name", "Resting HR", "1.5 mile run"}, {"Ada", 61, "12:00"}}}}, 61, 0},
		{"columns of days", []sheetOf{{"P", [][]any{{"Name", "Rest HR day 1", "Rest HR day 2", "Rest HR day 3", "1.5 mile run"}, {"Ada", 61, 90, 64, "12:00"}}}}, 64, 3},
		{"one morning is missing", []sheetOf{{"P", [][]any{{"Name", "Rest HR Mon", "Rest HR Tue", "Rest HR Wed", "1.5 mile run"}, {"Ada", 60, nil, 64, "12:00"}}}}, 62, 2},
		{"numbered in front", []sheetOf{{"P", [][]any{{"Name", "Day 1 resting HR", "Day 2 resting HR", "1.5 mile run"}, {"Ada", 60, 62, "12:00"}}}}, 61, 2},
		{"a second sheet, one row a morning", []sheetOf{
			{"P", [][]any{{"Name", "Test date", "1.5 mile run"}, {"Ada", may, "12:00"}}},
			{"Mornings", [][]any{{"Name", "Date", "Resting HR"}, {"Ada", day(2026, 5, 4), 58}, {"Ada", day(2026, 5, 5), 66}, {"Ada", day(2026, 5, 6), 60}, {"Ada", day(2026, 1, 6), 99}}},
		}, 60, 3},
	} {
		t.Run(tc.name, func(t *testing.T) {
			roster, err := openBook(buildBook(t, nil, tc.sheets...), ReadOptions{Today: time.Date(2026, time.June, 1, 0, 0, 0, 0, time.UTC)})
			if err != nil {
				t.Fatal(err)
			}
			visits := people.Visits(roster)
			if len(visits) != 1 {
				t.Fatalf("%d visits", len(visits))
			}
			e := visits[0].Row.Entry
			if q, _ := e.Get(scoring.RestingHR); q.Amount != tc.rate || e.Mornings != tc.mornings {
				t.Errorf("%v of %d mornings, want %v of %d; %v", q, e.Mornings, tc.rate, tc.mornings, sayings(append(roster.Problems, visits[0].Row.Problems...)))
			}
			for _, p := range visits[0].Row.Problems {
				t.Errorf("said %s", p)
			}
		})
	}
}

func TestPaceColumns(t *testing.T) {
	roster, err := openBook(buildBook(t, nil, sheetOf{"P", [][]any{{"Name", "Fixed pace (mph)", "Pulse at pace", "1.5 mile run"}, {"Ada", 7, 150, "12:00"}}}), ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	e := people.Visits(roster)[0].Row.Entry
	speed, _ := e.Get(scoring.PaceSpeed)
	pulse, _ := e.Get(scoring.PaceHR)
	if got := speed.In(scoring.MilesPerHour); got < 6.999 || got > 7.001 || pulse.Amount != 150 {
		t.Errorf("%v mph at %v", got, pulse)
	}
}

// What WriteNextSeason writes is a roster of the same people: IDs with their
// zeros, dates of birth, groups and conditions as they were, and no results.
func TestNextSeason(t *testing.T) {
	born, autumn, spring := day(1990, 5, 4), day(2025, 9, 8), day(2026, 3, 9)
	head := []any{"ID", "Name", "Class", "Sex", "DOB", "Test date", "Bench height (cm)", "Body mass (kg)", "Step test pulse", "Notes"}
	sheet := func(name string, rows ...[]any) sheetOf { return sheetOf{name, append([][]any{head}, rows...)} }
	book := buildBook(t, nil,
		sheet("Autumn 2025", []any{"007", "Ada Lind", "8A", "F", born, autumn, 30, 61, 140, "x"}, []any{"008", "Ben Ohm", "8A", "M", born, autumn, 30, 80, 130, nil}),
		sheet("Spring 2026", []any{"007", "Ada Lind", "8A", "F", born, spring, 30, 60, 135, "y"}, []any{"009", "=Cyd", "8B", "F", born, spring, 40, 70, 138, nil}))
	path := filepath.Join(t.TempDir(), "r.xlsx")
	if err := os.WriteFile(path, book, 0o600); err != nil {
		t.Fatal(err)
	}
	roster, err := Open(path, ReadOptions{Today: time.Date(2026, time.June, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	made, err := starter.WriteNextSeason(&out, roster, nil)
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(made) != "{[Next season] 3 1}" {
		t.Errorf("made %v", made)
	}
	next, err := openBook(out.Bytes(), ReadOptions{Today: time.Date(2026, time.June, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, v := range people.Visits(next) {
		e := v.Row.Entry
		bench, _ := e.Get(scoring.BenchHeight)
		got = append(got, fmt.Sprintf("%s %s %s %v %s mass %v trials %d bench %v day %v", v.Row.Person.ID, v.Row.Person.Name, v.Row.Person.Group, e.Sex(),
			v.Row.Birth.Time.Format(time.DateOnly), e.Has(scoring.BodyMass), len(e.Trials), bench.Amount, e.Tested.IsZero()))
	}
	want := []string{
		"007 Ada Lind 8A female 1990-05-04 mass false trials 0 bench 0 day true",
		"009 =Cyd 8B female 1990-05-04 mass false trials 0 bench 0 day true",
		"008 Ben Ohm 8A male 1990-05-04 mass false trials 0 bench 0 day true",
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("next season\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	rows, err := source.SheetText(writeTemp(t, out.Bytes()), "Next season", nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprintf("%q", rows[2]); !strings.Contains(got, `"40"`) || strings.Contains(got, "138") {
		t.Errorf("the bench stays and the pulse goes: %s", got)
	}
	if again, _ := os.ReadFile(path); !bytes.Equal(again, book) {
		t.Error("the roster was changed")
	}
}

func writeTemp(t *testing.T, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "next.xlsx")
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// The demonstration's earlier seasons are read without a slip and hold the people of the present one.
func TestDemoEarlierReadsBack(t *testing.T) {
	earlier := openBytes(t, "earlier.xlsx", demo.Earlier)
	for _, p := range earlier.Problems {
		if p.Blocking {
			t.Error(p)
		}
	}
	for _, v := range people.Visits(earlier) {
		for _, p := range v.Row.Problems {
			if p.Blocking {
				t.Error(p)
			}
		}
	}
	earlier.NameAfter("earlier.xlsx")
	now := openBytes(t, "demo.xlsx", demo.Roster)
	s := people.NewSeasons(now, earlier)
	people, again, left, doubts := map[int]bool{}, 0, map[int]bool{}, 0
	for _, v := range s.Visits {
		people[v.Person] = true
		if !v.Doubt.IsZero() {
			doubts++
		}
	}
	tested := map[int]bool{}
	for _, v := range s.Earlier {
		if !people[v.Person] {
			left[v.Person] = true
		} else if !tested[v.Person] {
			tested[v.Person] = true
			again++
		}
	}
	// One date of birth is exchanged, so that person counts among those who left.
	if len(s.Visits) != 60 || again < 45 || len(left) != 9 || doubts != 1 {
		t.Errorf("%d visits, %d people tested before, %d left, %d doubts", len(s.Visits), again, len(left), doubts)
	}
}

// Rows may have moved since the roster was read, and a name would get another's ID.
func TestNextSeasonOfChangedRoster(t *testing.T) {
	rows := func(name string) []byte {
		return buildBook(t, nil, sheetOf{"Squad", [][]any{{"ID", "Name", "Sex", "DOB", "Test date", "1.5 mile run"}, {"7", name, "F", day(2000, 5, 4), day(2026, 3, 9), "12:30"}}})
	}
	path := writeTemp(t, rows("Ada Lind"))
	roster, err := Open(path, ReadOptions{Today: time.Date(2026, time.June, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, rows("Ben Ohm"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := starter.WriteNextSeason(io.Discard, roster, nil); !errors.Is(err, source.ErrChangedSinceRead) {
		t.Errorf("the error is %v", err)
	}
}

package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/people"
)

// visitsInWords writes each visit as its person, its rows and what they say.
func visitsInWords(roster *Roster) string {
	var lines []string
	for _, v := range people.Visits(roster) {
		rows := fmt.Sprintf("%s:%d", v.Sheet.Name, v.Row.Number)
		for _, l := range v.More {
			rows += fmt.Sprintf("+%s:%d", l.Sheet.Name, l.Row.Number)
		}
		lines = append(lines, fmt.Sprintf("%d %s %s", v.Person, rows, strings.TrimSpace(inWords(v.Row))))
	}
	return strings.Join(lines, "\n")
}

func TestVisits(t *testing.T) {
	born, other := day(2010, 5, 1), day(2010, 5, 2)
	monday, friday := day(2026, 5, 11), day(2026, 5, 15)
	for _, tc := range []struct {
		name   string
		sheets []sheetOf
		want   string
		say    []string // problems of the roster and its rows, in order, by parts
	}{
		{name: "one ID on two sheets", sheets: []sheetOf{
			{"Run", [][]any{{"ID", "Name", "Weight", "1.5 mile run"}, {"007", "Ada Lind", 50, "11:30"}, {"008", "Ben Ohm", nil, "12:00"}}},
			{"Shuttle", [][]any{{"ID", "Name", "Weight", "20 m shuttle level"}, {"007", "Lind, Ada", 52, "7.4"}}},
		}, want: "0 Run:2+Shuttle:2 Ada Lind #007 of Run body-mass=50 kg@C2 [run-1.5-mile time=11:30@D2] [shuttle-20-m shuttle-level=7 levels@Shuttle!D2 shuttle-in-level=4 laps@Shuttle!D2]\n" +
			"1 Run:3 Ben Ohm #008 of Run [run-1.5-mile time=12:00@D3]",
			say: []string{`Shuttle!C2 ("52 kg"): the body mass differs from that in Run!C2 of the same person, which was used`}},
		{name: "name and date of birth without an ID", sheets: []sheetOf{
			{"P", [][]any{{"Name", "DOB", "Test date", "1.5 mile run", "20 m shuttle level"}, {"Ada Lind", born, monday, "11:30", nil}, {"ada LIND ", born, monday, nil, "7.4"}, {"Ada Lind", other, monday, "12:30", nil}}},
		}, want: "0 P:2+P:3 Ada Lind age=16.03 years@B2 [run-1.5-mile time=11:30@D2] [shuttle-20-m shuttle-level=7 levels@E3 shuttle-in-level=4 laps@E3]\n" +
			"1 P:4 Ada Lind age=16.02 years@B4 [run-1.5-mile time=12:30@D4]",
			say: []string{`P!B4 ("2010-05-02"): the name stands in another row beside a date of birth that is nearly this one; taken as two people (P!B2)`}},
		{name: "several test days", sheets: []sheetOf{
			{"P", [][]any{{"ID", "Test date", "1.5 mile run"}, {"7", monday, "11:30"}, {"7", friday, "11:20"}, {"8", monday, "12:30"}, {"8", nil, "12:40"}, {"7", nil, "11:40"}}},
		}, want: "0 P:2 #7 [run-1.5-mile time=11:30@C2]\n0 P:3 #7 [run-1.5-mile time=11:20@C3]\n" +
			"1 P:4+P:5 #8 [run-1.5-mile time=12:30@C4]\n0 P:6 #7 [run-1.5-mile time=11:40@C6]",
			say: []string{`P!C5 ("12:40"): the same person has the same test with another result in C4; the better attempt counts`}},
		{name: "a row copied", sheets: []sheetOf{
			{"P", [][]any{{"ID", "1.5 mile run"}, {"7", "11:30"}, {"7", "11:30"}}},
		}, want: "0 P:2+P:3 #7 [run-1.5-mile time=11:30@B2]", say: []string{`P!B3 ("11:30"): the same person has the same result in B2; it was counted once`}},
		{name: "no result in one of the rows", sheets: []sheetOf{
			{"P", [][]any{{"ID", "Sex", "1.5 mile run"}, {"7", "F", nil}, {"7", nil, "11:30"}}},
		}, want: "0 P:2+P:3 #7 sex=0 male 1, female 0@B2 [run-1.5-mile time=11:30@C3]"},
		{name: "one ID, two names", sheets: []sheetOf{
			{"P", [][]any{{"ID", "Name", "1.5 mile run"}, {"7", "Ada Lind", "11:30"}, {"7", "Ben Ohm", "12:30"}, {"7", "Ben Ohm", "12:20"}}},
		}, want: "0 P:2 Ada Lind #7 [run-1.5-mile time=11:30@C2]\n1 P:3+P:4 Ben Ohm #7 [run-1.5-mile time=12:20@C4]",
			say: []string{`P!C4 ("12:20"): the same person has the same test with another result in C3; the better attempt counts`, `!P!B3 ("Ben Ohm"): this ID stands beside another name (P!B2); write the name alike`}},
		{name: "one ID, two sexes, two dates of birth", sheets: []sheetOf{
			{"P", [][]any{{"ID", "Sex", "DOB", "Test date", "1.5 mile run"}, {"7", "F", nil, nil, "11:30"}, {"7", "M", nil, nil, "12:30"}, {"8", nil, born, monday, "11:30"}, {"8", nil, other, monday, "11:30"}, {"9", nil, 2010, monday, "11:30"}, {"9", nil, 2011, monday, "11:30"}}},
		}, want: "0 P:2 #7 sex=0 male 1, female 0@B2 [run-1.5-mile time=11:30@E2]\n1 P:3 #7 sex=1 male 1, female 0@B3 [run-1.5-mile time=12:30@E3]\n" +
			"2 P:4 #8 age=16.03 years@C4 [run-1.5-mile time=11:30@E4]\n3 P:5 #8 age=16.02 years@C5 [run-1.5-mile time=11:30@E5]\n" +
			"4 P:6 #9 age=15.86 years@C6 [run-1.5-mile time=11:30@E6]\n5 P:7 #9 age=14.86 years@C7 [run-1.5-mile time=11:30@E7]",
			say: []string{`P!C6 ("2010"): only the year of birth`, `!P!B3 ("male"): this ID stands beside the other sex (P!B2)`, `!P!C5 ("2010-05-02"): this ID stands beside another date of birth (P!C4)`, `!P!C7 ("2011"): this ID stands beside another date of birth (P!C6)`}},
		{name: "numbers that start again on each sheet", sheets: []sheetOf{
			{"5a", [][]any{{"ID", "1.5 mile run"}, {1, "11:30"}}}, {"5b", [][]any{{"ID", "1.5 mile run"}, {1, "12:30"}}},
		}, want: "0 5a:2 #1 of 5a [run-1.5-mile time=11:30@B2]\n1 5b:2 #1 of 5b [run-1.5-mile time=12:30@B2]",
			say: []string{`!5b!A2 ("1"): this ID stands on another sheet with the same test, and no name tells`}},
		{name: "places in a list", sheets: []sheetOf{
			{"5a", [][]any{{"No.", "1.5 mile run"}, {1, "11:30"}}}, {"5b", [][]any{{"No.", "20 m shuttle level"}, {1, "7.4"}}},
		}, want: "0 5a:2 #1 of 5a [run-1.5-mile time=11:30@B2]\n1 5b:2 #1 of 5b [shuttle-20-m shuttle-level=7 levels@B2 shuttle-in-level=4 laps@B2]"},
		{name: "the ID is missing on one sheet", sheets: []sheetOf{
			{"P", [][]any{{"ID", "Name", "DOB", "Test date", "1.5 mile run"}, {"7", "Ada Lind", born, monday, "11:30"}, {"8", "Ben Ohm", born, monday, "11:30"}, {"9", "Ben Ohm", born, monday, "11:30"}}},
			{"Q", [][]any{{"Name", "DOB", "Test date", "20 m shuttle level"}, {"Ada Lind", born, monday, "7.4"}, {"Ben Ohm", born, monday, "7.4"}}},
		}, want: "0 P:2+Q:2 Ada Lind #7 of P age=16.03 years@C2 [run-1.5-mile time=11:30@E2] [shuttle-20-m shuttle-level=7 levels@Q!D2 shuttle-in-level=4 laps@Q!D2]\n" +
			"1 P:3 Ben Ohm #8 of P age=16.03 years@C3 [run-1.5-mile time=11:30@E3]\n2 P:4 Ben Ohm #9 of P age=16.03 years@C4 [run-1.5-mile time=11:30@E4]\n3 Q:3 Ben Ohm of Q age=16.03 years@B3 [shuttle-20-m shuttle-level=7 levels@D3 shuttle-in-level=4 laps@D3]",
			say: []string{`P!B4 ("Ben Ohm"): the name and the date of birth stand under another ID too; taken as two people (P!B3)`, `Q!A3 ("Ben Ohm"): the name stands in another row too, and nothing tells whether this is the same person; taken as two people (P!B4)`,
				`!Q!A3 ("Ben Ohm"): several people have this name and date of birth`}},
		{name: "nearly alike", sheets: []sheetOf{
			{"P", [][]any{{"ID", "Name", "DOB", "Test date", "1.5 mile run"},
				{"0417", "Ada Lind", nil, nil, "11:30"}, {"417", nil, nil, nil, "11:40"}, {"a1", nil, nil, nil, "11:00"}, {"A1", nil, nil, nil, "11:10"},
				{nil, "Cyd Marlow", born, monday, "11:30"}, {nil, "Cyd Marlov", born, monday, "11:30"}, {nil, "Cyd\u200b Marlow", born, monday, "11:31"},
				{nil, "Dot Rue", nil, nil, "12:00"}, {nil, "Dot Rue", nil, nil, "12:01"}}},
		}, want: "0 P:2 Ada Lind #0417 [run-1.5-mile time=11:30@E2]\n1 P:3 #417 [run-1.5-mile time=11:40@E3]\n2 P:4 #a1 [run-1.5-mile time=11:00@E4]\n3 P:5 #A1 [run-1.5-mile time=11:10@E5]\n" +
			"4 P:6 Cyd Marlow age=16.03 years@C6 [run-1.5-mile time=11:30@E6]\n5 P:7 Cyd Marlov age=16.03 years@C7 [run-1.5-mile time=11:30@E7]\n6 P:8 Cyd\u200b Marlow age=16.03 years@C8 [run-1.5-mile time=11:31@E8]\n" +
			"7 P:9 Dot Rue [run-1.5-mile time=12:00@E9]\n8 P:10 Dot Rue [run-1.5-mile time=12:01@E10]",
			say: []string{
				`P!A3 ("417"): the ID "417" is nearly "0417"; taken as two people (P!B2)`, `P!A5 ("A1"): the ID "A1" is nearly "a1"; taken as two people (P!A4)`,
				`P!B8 ("Cyd\u200b Marlow"): the name looks like another one and differs in signs that cannot be seen; taken as two people (P!B6)`,
				`P!B10 ("Dot Rue"): the name stands in another row too, and nothing tells whether this is the same person; taken as two people (P!B9)`,
				`P!B7 ("Cyd Marlov"): the name is nearly that of another row with the same date of birth; taken as two people (P!B6)`,
				`P!B8 ("Cyd\u200b Marlow"): the name is nearly that of another row with the same date of birth; taken as two people (P!B7)`,
			}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			roster, err := openBook(buildBook(t, nil, tc.sheets...), ReadOptions{})
			if err != nil {
				t.Fatal(err)
			}
			if got := visitsInWords(roster); got != tc.want {
				t.Errorf("visits\n%s\nwant\n%s", got, tc.want)
			}
			said := sayings(roster.Problems)
			for _, v := range people.Visits(roster) {
				said = append(said, sayings(v.Row.Problems)...)
			}
			if len(said) != len(tc.say) {
				t.Fatalf("said\n%s\nwant\n%s", strings.Join(said, "\n"), strings.Join(tc.say, "\n"))
			}
			for i := range said {
				if !strings.HasPrefix(said[i], tc.say[i]) {
					t.Errorf("said %s\nwant %s", said[i], tc.say[i])
				}
			}
		})
	}
}

func sayings(problems []Problem) []string {
	var all []string
	for _, p := range problems {
		mark := ""
		if p.Blocking {
			mark = "!"
		}
		all = append(all, mark+p.String())
	}
	return all
}

// Everybody of one name, one ID or one birthday must not keep the program for
// hours. The limit detects work that grows with the square; it is no measure of speed.
func TestManyAlike(t *testing.T) {
	const n = 20_000
	for name, person := range map[string]func(i int) (Person, time.Time){
		"one name":     func(int) (Person, time.Time) { return Person{Name: "Ada Lind"}, time.Time{} },
		"one ID":       func(i int) (Person, time.Time) { return Person{Name: fmt.Sprint("Ada ", i), ID: "7"}, time.Time{} },
		"one birthday": func(i int) (Person, time.Time) { return Person{Name: fmt.Sprint("Ada ", i)}, testToday },
		"near IDs":     func(i int) (Person, time.Time) { return Person{ID: strings.Repeat("0", i%200) + "7"}, time.Time{} },
	} {
		sheet := &Sheet{Name: "P"}
		for i := range n {
			p, born := person(i)
			row := Row{Sheet: "P", Number: i + 2, Person: p}
			row.Entry.Born = born
			sheet.Rows = append(sheet.Rows, row)
		}
		start := time.Now()
		people.Compare(&Roster{Sheets: []*Sheet{sheet}})
		if d := time.Since(start); d > 3*time.Minute {
			t.Errorf("%s: %v", name, d)
		}
	}
}

// A person of several rows has the same results in each of them.
func TestEveryRowOfAPersonGetsTheResults(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.xlsx")
	head := []any{"ID", "Name", "Sex", "Age", "1.5 mile run", "20 m shuttle level"}
	book := buildBook(t, nil, sheetOf{"Run", [][]any{head, {"7", "Ada", "F", 30, "11:30", nil}, {"8", "Ben", "M", 30, "11:00", nil}}},
		sheetOf{"Shuttle", [][]any{head, {"8", "Ben", nil, nil, nil, "8.1"}, {"7", "Ada", nil, nil, nil, "7.4"}}})
	if err := os.WriteFile(path, book, 0o600); err != nil {
		t.Fatal(err)
	}
	dst := filepath.Join(t.TempDir(), "scored.xlsx")
	mustWrite(t, path, dst, WriteOptions{})
	f, err := excelize.OpenFile(dst)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, pair := range [][2]string{{"Run 2", "Shuttle 3"}, {"Run 3", "Shuttle 2"}} {
		var got [2]string
		for i, at := range pair {
			sheet, row, _ := strings.Cut(at, " ")
			for _, col := range "GHIJKLMNOPQR" {
				v, err := f.GetCellValue(sheet, string(col)+row)
				if err != nil {
					t.Fatal(err)
				}
				got[i] += v + "|"
			}
		}
		if got[0] != got[1] || !strings.Contains(got[0], "run") {
			t.Errorf("%v hold %v", pair, got)
		}
	}
}

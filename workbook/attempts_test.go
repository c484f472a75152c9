package workbook

import "testing"

func TestAttempts(t *testing.T) {
	for _, tc := range []struct {
		name      string
		rows      [][]any
		want, say []string
	}{
		{"the better level counts, whole levels before parts of the next", [][]any{
			{"Name", "Beep test level attempt 1", "Beep test level attempt 2"}, {"Ada", "5.4", "6.2"}, {"Ben", "7.2", "A"}, {"Cyd", "exc", "off"}, {"Dot", "7", "7.4"}},
			[]string{"Ada [shuttle-20-m shuttle-level=6 levels@C2 shuttle-in-level=2 laps@C2]", "Ben [shuttle-20-m shuttle-level=7 levels@B3 shuttle-in-level=2 laps@B3]", "Cyd", "Dot [shuttle-20-m shuttle-level=7 levels@B5]"},
			[]string{`C1 ("Beep test level attempt 2"): this column and B1 ("Beep test level attempt 1") are attempts at one test; the better one`, `B4 ("exc"): read as not tested`, `C3 ("A"): read as not tested; so in 2 cells`}},
		{"the shorter time and the longer distance", [][]any{
			{"Name", "1.5 mile run attempt 1", "1.5 mile run attempt 2", "12 minute run (m) attempt 1", "12 minute run (m) attempt 2"}, {"Ada", "12:30", "12:10", nil, nil}, {"Ben", nil, nil, 2400, 2300}, {"Cyd", "12:10", "12:xx", nil, nil}},
			[]string{"Ada [run-1.5-mile time=12:10@C2]", "Ben [run-12-minute distance=2400 m@D3]", "Cyd"},
			[]string{`C1 ("1.5 mile run attempt 2"): this column and B1`, `E1 ("12 minute run (m) attempt 2"): this column and D1`, `!C4 ("12:xx"): `}},
		{"the last complete attempt at a test by pulse", [][]any{
			{"Name", "1 mile walk attempt 1", "1 mile walk HR attempt 1", "1 mile walk attempt 2", "1 mile walk HR attempt 2"}, {"Ada", "15:20", 131, "14:50", 140}, {"Ben", "15:20", 131, "14:50", nil}},
			[]string{"Ada [walk-1-mile time=14:50@D2 exercise-hr=140 beats/min@E2]", "Ben [walk-1-mile time=15:20@B3 exercise-hr=131 beats/min@C3]"},
			[]string{`D1 ("1 mile walk attempt 2"): this column and B1 ("1 mile walk attempt 1") are attempts at one test by pulse; the last complete one`}},
		{"a column for the best one must agree", [][]any{
			{"Name", "Beep test level attempt 1", "Beep test level attempt 2", "Beep test level best"}, {"Ada", "5.4", "6.2", "6.2"}, {"Ben", "5.4", "6.2", "5.4"}, {"Cyd", nil, nil, "7.3"}},
			[]string{"Ada [shuttle-20-m shuttle-level=6 levels@C2 shuttle-in-level=2 laps@C2]", "Ben", "Cyd [shuttle-20-m shuttle-level=7 levels@D4 shuttle-in-level=3 laps@D4]"},
			[]string{`C1 ("Beep test level attempt 2"): this column and B1`, `!D3 ("5.4"): the best attempt is another one, in C3; correct the one that is wrong`}},
		{"other days are no attempts: the latest with a result counts", [][]any{
			{"Name", "Beep test Autumn", "Beep test Spring", "Beep test Summer"}, {"Ada", "7.4", "6.2", nil}, {"Ben", "5.4", "absent", nil}},
			[]string{"Ada [shuttle-20-m shuttle-level=6 levels@C2 shuttle-in-level=2 laps@C2]", "Ben"},
			[]string{`B1 ("Beep test Autumn"): this column is of another day than C1 ("Beep test Spring"), whose results were used`, `D1 ("Beep test Summer"): this column is of another day than C1`, `C3 ("absent"): read as not tested`}},
		{"years decide before places", [][]any{
			{"Name", "1.5 mile run 2026", "1.5 mile run 2025"}, {"Ada", "12:30", "12:10"}},
			[]string{"Ada [run-1.5-mile time=12:30@B2]"}, []string{`C1 ("1.5 mile run 2025"): this column is of another day than B1`}},
		{"several results behind the test that a row names", [][]any{
			{"Name", "Test", "Result", "Result 2"}, {"Ada", "1.5 mile run", "12:30", "12:10"}},
			[]string{"Ada [run-1.5-mile time=12:10@D2]"}, nil},
	} {
		t.Run(tc.name, func(t *testing.T) { readsAs(t, readRows(t, ReadOptions{}, tc.rows...), tc.want, tc.say) })
	}
}

// Rows that are about no person, among people whose names are words of statistics.
func TestRowsAboutNoPerson(t *testing.T) {
	list := [][]any{{"Beep test 8b"}, {"Name", "Sex", "Age", "20 m shuttle level"}, {"Max Total", "M", 13, "6.4"}, {"Min-ji Summer", "F", 13, "7"}, {"Max", nil, nil, "5.2"}, {"Mean, Ada", "F", 13, 8}}
	people := []string{"Max Total", "Min-ji Summer", "Max", "Mean, Ada"}
	for _, tc := range []struct {
		name string
		rows [][]any
		say  string
	}{
		{"words", [][]any{{"Highest", nil, 13, 8}, {"TOTAL / AVG", nil, nil, 6.6}, {"Durchschnitt Klasse 8b", nil, 13, 6.6}, {"Fastest (girls)", nil, nil, 8}}, ""},
		{"numbers that are a statistic of their column", [][]any{{}, {"Max", nil, 13, 8}, {nil, nil, 13, 7.5}}, ""},
		{"formulas over the column, with and without a stored value", [][]any{{"Class 8b", nil, cached{"AVERAGE(C3:C6)", 13.0}, cached{"AVERAGE(D3:D6)", 6.1}}, {nil, nil, nil, cached{"MAX(D3:D6)", nil}}}, ""},
		{"the header again, a row of units, the title again", [][]any{{"Beep test 8b"}, {"Name", "Sex", "Age", "20 m shuttle level"}, {"Pupil name", "Gender", "Age", "Beep test level"}, {nil, nil, "years", "level"}},
			`A7 ("Beep test 8b"): read as a note, not as a person`},
		{"below the list", [][]any{{}, {"A = absent"}, {"A", "absent"}, {"Tested by", "K Tarn"}, {"Signature"}, {"Page 1 of 2"}},
			`A8 ("A = absent"): read as a note, not as a person; so in 5 cells`},
		{"headings of groups", [][]any{{"Class 8c"}, {"Team Red"}}, `A7 ("Class 8c"): read as a note, not as a person; so in 2 cells`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			roster, err := openBook(rosterBook{tabs: []tab{{name: "People", rows: append(list[:len(list):len(list)], tc.rows...)}}}.bytes(t), ReadOptions{})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, r := range roster.Sheets[0].Rows {
				got = append(got, r.Person.Name)
			}
			if len(got) != len(people) {
				t.Errorf("read %q, want %q", got, people)
			}
			said := complaints(roster)
			if tc.say == "" && len(said) != 0 || tc.say != "" && (len(said) != 1 || said[0] != tc.say) {
				t.Errorf("said %q, want %q", said, tc.say)
			}
		})
	}
}

func TestZeroIsNoResult(t *testing.T) {
	readsAs(t, readRows(t, ReadOptions{}, []any{"Name", "20 m shuttle level", "1.5 mile run", "12 minute run (m)"},
		[]any{"Ada", 0, nil, nil}, []any{"Ben", nil, "0:00", nil}, []any{"Cyd", nil, nil, 0}, []any{"Dot", nil, nil, "?"}),
		[]string{"Ada", "Ben", "Cyd", "Dot"}, []string{`B2 ("0"): read as not tested`, `C3 ("0:00"): read as not tested`, `D4 ("0"): read as not tested`, `!D5 ("?"): this is not a number`})
}

// A formula whose value is not stored is named, whatever its column.
func TestFormulasWithoutValue(t *testing.T) {
	roster, err := openBook(rosterBook{tabs: []tab{{name: "People", rows: [][]any{{"Name", "Sex", "DOB", "1.5 mile run"},
		{cached{"F2", nil}, "F", day(2010, 5, 1), "12:30"}, {"Ben", cached{"F3", nil}, day(2010, 5, 1), cached{"F3", nil}}, {"Cyd", "F", cached{"F4", nil}, errorValue("#DIV/0!")}}}}}.bytes(t), ReadOptions{TestDate: testToday})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"!A2: the result of the formula is not stored in the file; open", "!B3: the result of the formula", "!D3: the result of the formula", "!C4: the result of the formula", `!D4 ("#DIV/0!"): the cell holds the error #DIV/0!`}
	said := complaints(roster)
	for i := range max(len(want), len(said)) {
		if i >= len(said) || i >= len(want) || len(said[i]) < len(want[i]) || said[i][:len(want[i])] != want[i] {
			t.Fatalf("said %q", said)
		}
	}
}

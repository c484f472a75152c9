package workbook

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/people"
	"tenback/workbook/source"
)

// readsAs compares what was read of a sheet with lines for its people, and its
// problems by their beginnings.
func readsAs(t *testing.T, roster *Roster, want, say []string) {
	t.Helper()
	var got []string
	for _, s := range roster.Sheets {
		for i := range s.Rows {
			got = append(got, strings.TrimSpace(inWords(&s.Rows[i])))
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("read\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	said := complaints(roster)
	if len(said) != len(say) {
		t.Errorf("said\n%s\nwant\n%s", strings.Join(said, "\n"), strings.Join(say, "\n"))
		return
	}
	for i := range said {
		if !strings.HasPrefix(said[i], say[i]) {
			t.Errorf("said %s\nwant %s", said[i], say[i])
		}
	}
}

func TestRaces(t *testing.T) {
	readsAs(t, readRows(t, ReadOptions{},
		[]any{"Name", "1000 m run", "3000 m", "5 km", "10 km run (min)", "1 mile"},
		[]any{"Ada", "4:10", "12:30", "23:10", 48.5, "9:10"},
		[]any{"Ben", nil, 1230, "40:00", "DNF", nil}), []string{
		"Ada [race time=12:30@C2 distance=3000 m@C1] [race time=23:10@D2 distance=5000 m@D1] [race time=48:30@E2 distance=10000 m@E1] [run-1-mile time=9:10@F2]",
		"Ben [race time=12:30@C3 distance=3000 m@C1] [race time=40:00@D3 distance=5000 m@D1]",
	}, []string{`F1 ("1 mile"): the header does not say whether this was run or walked; by the speed`,
		`C1 ("3000 m"): read as a race over 3000 m`, `D1 ("5 km"): read as a race over 5000 m`, `E1 ("10 km run (min)"): read as a race over 10000 m`,
		`B1 ("1000 m run"): this test is not scored`,
		`C1 ("3000 m"): plain numbers were read as minutes and seconds`, `E3 ("DNF"): read as not tested`,
	})
}

func TestLevelAndShuttleInTwoColumns(t *testing.T) {
	want := []string{"Ada [shuttle-20-m shuttle-level=7 levels@B2 shuttle-in-level=10 laps@C2]", "Ben [shuttle-20-m shuttle-level=6 levels@B3]"}
	for _, head := range [][]any{{"Name", "Level", "Shuttle"}, {"Name", "Beep test level", "Shuttles"}, {"Name", "Stufe", "Bahn"}} {
		readsAs(t, readRows(t, ReadOptions{}, head, []any{"Ada", 7, 10}, []any{"Ben", "6", nil}), want, nil)
	}
	two := readRows(t, ReadOptions{}, []any{nil, "Beep test", nil}, []any{"Name", "Level", "Shuttle"}, []any{"Ada", 7, 10}, []any{"Ben", "6", nil})
	want = []string{"Ada [shuttle-20-m shuttle-level=7 levels@B3 shuttle-in-level=10 laps@C3]", "Ben [shuttle-20-m shuttle-level=6 levels@B4]"}
	readsAs(t, two, want, nil)
	// Apart from each other the words mean nothing.
	readsAs(t, readRows(t, ReadOptions{}, []any{"Name", "Level", "1.5 mile run", "Shuttle"}, []any{"Ada", 7, "11:30", 4}),
		[]string{"Ada [run-1.5-mile time=11:30@C2]"}, []string{
			`?B1 ("Level"): not recognised, so it was left alone; by its words and values it may be: 20 m shuttle level or 20 m shuttle level (2-minute stages)`,
			`?D1 ("Shuttle"): not recognised, so it was left alone; by its words and values it may be: 20 m shuttle level or 20 m shuttle laps or 20 m shuttle level (2-minute stages)`})
}

func TestMappingSheet(t *testing.T) {
	people := sheetOf{"People", [][]any{{"Vem", "Puls i vila", "Resultat A", "Weight"}, {"Ada", 60, "11:30", 70}}}
	mapping := func(rows ...[]any) sheetOf {
		return sheetOf{"Tenback  Columns", append([][]any{{"Header", "Meaning"}}, rows...)}
	}
	good := mapping([]any{"Vem", "Name"}, []any{"Resultat A", "1.5 mile run"}, []any{"weight", "ignore"}, []any{"left empty", nil})
	roster, err := openBook(buildBook(t, nil, good, people), ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	readsAs(t, roster, []string{"Ada resting-hr=60 beats/min@B2 [run-1.5-mile time=11:30@C2]"}, nil)
	hidden := func(f *excelize.File) {
		if err := f.SetSheetVisible("Tenback  Columns", false); err != nil {
			t.Fatal(err)
		}
	}
	// Options count first; a hidden mapping is used too.
	roster, err = openBook(buildBook(t, hidden, people, good), ReadOptions{Columns: map[string]string{"Resultat A": "12 minute run (km)", "WEIGHT": "body mass (lb)"}})
	if err != nil {
		t.Fatal(err)
	}
	readsAs(t, roster, []string{"Ada body-mass=31.75 kg@D2 resting-hr=60 beats/min@B2"}, []string{`!C2 ("11:30")`})
	_, err = openBook(buildBook(t, nil, people, mapping([]any{"Vem", "Naem of student"})), ReadOptions{})
	if !errors.Is(err, source.ErrColumn) || !strings.Contains(err.Error(), `B2: "Naem of student" is not a known column`) {
		t.Errorf("a meaning that is not known: %v", err)
	}
}

func TestSheetText(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.xlsx")
	wide := make([]any, 101)
	wide[100] = "x"
	book := buildBook(t, nil, sheetOf{"Table", [][]any{{"sex", "age_min"}, {}, {"F", 20.5}, {nil, "x"}}}, sheetOf{"Wide", [][]any{wide}})
	if err := os.WriteFile(path, book, 0o600); err != nil {
		t.Fatal(err)
	}
	rows, err := source.SheetText(path, "table", nil)
	if err != nil || !slices.EqualFunc(rows, [][]string{{"sex", "age_min"}, {"F", "20.5"}, {"", "x"}}, slices.Equal) {
		t.Errorf("%q, %v", rows, err)
	}
	for sheet, kind := range map[string]error{"Wide": source.ErrTooLarge, "none": source.ErrNoSheet} {
		if _, err := source.SheetText(path, sheet, nil); !errors.Is(err, kind) {
			t.Errorf("sheet %s: %v, want %v", sheet, err, kind)
		}
	}
	if _, err := source.SheetText(path+"x", "Table", nil); !errors.Is(err, source.ErrMissing) {
		t.Errorf("no file: %v", err)
	}
}

func TestHiddenColumnsAndFiltersAreSaid(t *testing.T) {
	rows := sheetOf{"People", [][]any{{"Name", "Weight", "Remark", "1.5 mile run"}, {"Ada", 60, nil, "11:30"}, {"Ben", 70, nil, "11:40"}}}
	read := []string{"Ada body-mass=60 kg@B2 [run-1.5-mile time=11:30@D2]", "Ben body-mass=70 kg@B3 [run-1.5-mile time=11:40@D3]"}
	for _, tc := range []struct {
		change func(f *excelize.File) error
		say    []string
	}{
		{func(f *excelize.File) error { return f.SetColVisible("People", "B:C", false) }, []string{`B1: hidden columns were read like the others: "Weight"; leave out`}},
		{func(f *excelize.File) error { return f.SetRowVisible("People", 3, false) }, []string{`A3: hidden rows were read like the others: 1`}},
		{func(f *excelize.File) error {
			if err := f.AutoFilter("People", "A1:D3", []excelize.AutoFilterOptions{{Column: "A", Expression: "x == Ada"}}); err != nil {
				return err
			}
			return f.SetRowVisible("People", 3, false)
		}, []string{`A3: a filter is on; the rows it hides were read like the others: 1`}},
	} {
		book := buildBook(t, func(f *excelize.File) {
			if err := tc.change(f); err != nil {
				t.Fatal(err)
			}
		}, rows)
		roster, err := openBook(book, ReadOptions{})
		if err != nil {
			t.Fatal(err)
		}
		readsAs(t, roster, read, tc.say)
	}
}

func TestTestOfTheSheet(t *testing.T) {
	read := func(sheet string, rows ...[]any) *Roster {
		t.Helper()
		roster, err := openBook(buildBook(t, nil, sheetOf{sheet, rows}), ReadOptions{})
		if err != nil {
			t.Fatal(err)
		}
		return roster
	}
	head, ada := []any{"Name", "Time"}, []any{"Ada", "13:30"}
	for _, tc := range []struct{ sheet, title, want string }{
		{"1.5 mile run", "", "Ada [run-1.5-mile time=13:30@B2]"},
		{"Results", "1.5 mile run, class 7c", "Ada [run-1.5-mile time=13:30@B2]"},
		{"5 km run", "", "Ada [race time=13:30@B2 distance=5000 m@B1]"},
		{"1.5 mile run", "1 mile walk", "Ada [walk-1-mile time=13:30@B2]"},
		{"1.5 mile run and 1 mile walk", "", "Ada"},
		{"Beep test", "", "Ada"}, // whose result is no time
		{"Sheet1", "", "Ada"},
	} {
		rows := [][]any{head, ada}
		want := tc.want
		if tc.title != "" {
			rows = [][]any{{tc.title}, head, ada}
			want = strings.ReplaceAll(strings.ReplaceAll(want, "@B2", "@B3"), "@B1", "@B2")
		}
		roster := read(tc.sheet, rows...)
		if got := strings.TrimSpace(inWords(&roster.Sheets[0].Rows[0])); got != want || want == "Ada" && len(roster.Problems) == 0 {
			t.Errorf("sheet %q, title %q: %s, want %s; said %v", tc.sheet, tc.title, got, want, roster.Problems)
		}
	}
	beep := read("Beep test", []any{"Name", "Age", "Level"}, []any{"Ada", 30, 7})
	readsAs(t, beep, []string{"Ada age=30 years@B2 [shuttle-20-m shuttle-level=7 levels@C2]"}, nil)
}

func TestListsCompleteWhatOtherSheetsSay(t *testing.T) {
	folk := sheetOf{"Staff", [][]any{{"ID", "Name", "Sex", "DOB", "Weight"},
		{"7", "Ada Lind", "F", day(1990, 5, 11), 60}, {"8", "Ben Ohm", "M", day(1980, 5, 11), 70}, {nil, "Cyd Rue", "F", day(1985, 5, 11), 65},
		{nil, "Dot Fell", "F", nil, 61}, {nil, "Dot Fell", "F", nil, 62}, {"9", "Nobody Else", "F", day(1985, 5, 11), 65}, {"11", "Fay Holm", "F", "1/2/1985", 64}}}
	run := sheetOf{"Run", [][]any{{"ID", "Name", "Test date", "1.5 mile run"},
		{"7", nil, day(2026, 5, 11), "13:00"}, {nil, "Ben Ohm", day(2026, 5, 11), "12:00"}, {nil, "Cyd Rue", nil, "14:00"}, {nil, "Dot Fell", nil, "14:10"}, {"9", "Eve Gill", nil, "14:20"}, {"11", nil, nil, "14:30"}}}
	roster, err := openBook(buildBook(t, nil, folk, run), ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	want := `0 Run:2 Ada Lind #7 sex=0 male 1, female 0@Staff!C2 age=36 years@Staff!D2 body-mass=60 kg@Staff!E2 [run-1.5-mile time=13:00@D2]
1 Run:3 Ben Ohm #8 sex=1 male 1, female 0@Staff!C3 age=46 years@Staff!D3 body-mass=70 kg@Staff!E3 [run-1.5-mile time=12:00@D3]
2 Run:4 Cyd Rue sex=0 male 1, female 0@Staff!C4 body-mass=65 kg@Staff!E4 [run-1.5-mile time=14:00@D4]
3 Run:5 Dot Fell [run-1.5-mile time=14:10@D5]
4 Run:6 Eve Gill #9 [run-1.5-mile time=14:20@D6]
5 Run:7 Fay Holm #11 sex=0 male 1, female 0@Staff!C8 body-mass=64 kg@Staff!E8 [run-1.5-mile time=14:30@D7]`
	if got := visitsInWords(roster); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	var said []string
	for _, v := range people.Visits(roster) {
		said = append(said, sayings(v.Row.Problems)...)
	}
	if len(roster.Lists) != 1 || len(roster.Sheets) != 1 || len(said) != 2 ||
		!strings.HasPrefix(said[0], `!Staff!D4 ("1985-05-11"): the age can't be worked out`) || !strings.HasPrefix(said[1], `!Staff!D8 ("1/2/1985"): this waits for an answer about the column "DOB"`) {
		t.Errorf("said %q", said)
	}
	all := sayings(roster.Problems)
	if len(all) != 2 || !strings.HasPrefix(all[0], "Staff: this sheet has no column for a test result; it was read as a list") ||
		!strings.HasPrefix(all[1], `!Staff!B7 ("Nobody Else"): this ID stands beside another name (Run!B6)`) {
		t.Errorf("said %q", all)
	}
}

// Two lists beside each other must never lend each other results.
func TestListsAbreast(t *testing.T) {
	readsAs(t, readRows(t, ReadOptions{}, []any{"Name", "Beep test", "Name", "Beep test"}, []any{"Ada", nil, "Ben", "7.2"}, []any{"Cyd", "6.1", "Dan", nil}),
		[]string{"Ada", "Cyd [shuttle-20-m shuttle-level=6 levels@B3 shuttle-in-level=1 laps@B3]"},
		[]string{`!C1 ("Name"): a second list of people begins here`, `!A2 ("Ada"): there is no test result in this row`})
	// A name in a second script is no second list.
	readsAs(t, readRows(t, ReadOptions{}, []any{"氏名", "カナ氏名", "Beep test"}, []any{"青木", "アオキ", "7.2"}),
		[]string{"青木 [shuttle-20-m shuttle-level=7 levels@C2 shuttle-in-level=2 laps@C2]"}, nil)
}

func TestPeopleAcross(t *testing.T) {
	_, err := openBook(buildBook(t, nil, sheetOf{"Day", [][]any{{"Name", "Ada", "Ben"}, {"Age", 30, 31}, {"1.5 mile run", "11:30", "12:00"}}}), ReadOptions{})
	if !errors.Is(err, source.ErrNoHeader) || !strings.Contains(err.Error(), `the headers of sheet "Day" seem to run down`) {
		t.Errorf("%v", err)
	}
}

package workbook

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
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
		"Ada [race time=12:30@C2 distance=3000 m@C1] [race time=23:10@D2 distance=5000 m@D1] [race time=48:30@E2 distance=10000 m@E1]",
		"Ben [race time=40:00@D3 distance=5000 m@D1]",
	}, []string{
		`C1 ("3000 m"): read as a race over 3000 m`, `D1 ("5 km"): read as a race over 5000 m`, `E1 ("10 km run (min)"): read as a race over 10000 m`,
		`B1 ("1000 m run"): this test is not among those that are scored`, `!F1 ("1 mile"): the header does not say whether this was run or walked`,
		`!C3 ("1230"): this could be 12:30 (minutes and seconds) or 1230 seconds (20:30)`, `E3 ("DNF"): taken as no value`,
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
		[]string{"Ada [run-1.5-mile time=11:30@C2]"}, nil)
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
	_, err = openBook(buildBook(t, nil, people, mapping([]any{"Vem", "Nmae of student"})), ReadOptions{})
	if !errors.Is(err, ErrColumn) || !strings.Contains(err.Error(), `B2: "Nmae of student" is no column known here`) {
		t.Errorf("a meaning that is not known: %v", err)
	}
}

func TestSheetText(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.xlsx")
	wide := make([]any, maxTextCols+1)
	wide[maxTextCols] = "x"
	book := buildBook(t, nil, sheetOf{"Table", [][]any{{"sex", "age_min"}, {}, {"F", 20.5}, {nil, "x"}}}, sheetOf{"Wide", [][]any{wide}})
	if err := os.WriteFile(path, book, 0o600); err != nil {
		t.Fatal(err)
	}
	rows, err := SheetText(path, "table")
	if err != nil || !slices.EqualFunc(rows, [][]string{{"sex", "age_min"}, {"F", "20.5"}, {"", "x"}}, slices.Equal) {
		t.Errorf("%q, %v", rows, err)
	}
	for sheet, kind := range map[string]error{"Wide": ErrTooLarge, "none": ErrNoSheet} {
		if _, err := SheetText(path, sheet); !errors.Is(err, kind) {
			t.Errorf("sheet %s: %v, want %v", sheet, err, kind)
		}
	}
	if _, err := SheetText(path+"x", "Table"); !errors.Is(err, ErrUnreadable) {
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
		}, []string{`A3: a filter is on; the rows that it hides were read like the others: 1`}},
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

package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/columns"
	"tenback/workbook/heading"
	"tenback/workbook/people"
	"tenback/workbook/source"
)

func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	good := buildBook(t, nil, sheetOf{"People", [][]any{{"Name", "1.5 mile run"}, {"Ada", "11:30"}}})
	var encrypted bytes.Buffer
	f, err := excelize.OpenReader(bytes.NewReader(good))
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Write(&encrypted, excelize.Options{Password: "secret"}); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	locked := write("no-access.xlsx", good)
	if err := os.Chmod(locked, 0); err != nil {
		t.Fatal(err)
	}
	chart := func(f *excelize.File) {
		if err := f.AddChartSheet("Chart", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Values: "People!$A$1:$A$2"}}}); err != nil {
			t.Fatal(err)
		}
		if err := f.DeleteSheet("People"); err != nil {
			t.Fatal(err)
		}
	}
	for _, tc := range []struct {
		name string
		path string
		opt  ReadOptions
		kind error
		say  string
	}{
		{"missing", filepath.Join(dir, "none.xlsx"), ReadOptions{}, source.ErrMissing, "there is no such file"},
		{"folder", dir, ReadOptions{}, source.ErrDirectory, "this is a folder; name the workbook in it"},
		{"device", os.DevNull, ReadOptions{}, source.ErrUnreadable, "this is not a regular file; name a workbook"},
		{"no access", locked, ReadOptions{}, source.ErrUnreadable, "you have no permission to read the file"},
		{"empty", write("empty.xlsx", nil), ReadOptions{}, source.ErrEmpty, "the file is empty"},
		{"password", write("password.xlsx", encrypted.Bytes()), ReadOptions{}, source.ErrLocked, "the file is protected by a password"},
		{"text", write("text.xlsx", []byte("Name;Age\n")), ReadOptions{}, source.ErrNotWorkbook, "this is a text file, not a workbook"},
		{"cut", write("cut.xlsx", good[:len(good)/2]), ReadOptions{}, source.ErrDamaged, "the file is damaged or was not copied to its end"},
		{"another ending", write("named.xls", good), ReadOptions{}, source.ErrNotWorkbook, "give it the ending .xlsx"},
		{"only charts", write("chart.xlsx", buildBook(t, chart, sheetOf{"People", nil})), ReadOptions{}, source.ErrNoCells, "only charts"},
		{"blank", write("blank.xlsx", buildBook(t, nil, sheetOf{"People", nil})), ReadOptions{}, source.ErrNoHeader, "looked for headers such as Name, ID"},
		{"near miss", write("near.xlsx", buildBook(t, nil, sheetOf{"People", [][]any{{"Fammily name", "Distence"}, {"Ada", 1}}})), ReadOptions{}, source.ErrNoHeader, `"Fammily name" in People!A1 looks like "Family name"`},
		{"header too low", write("low.xlsx", buildBook(t, nil, sheetOf{"People", append(make([][]any, 30), []any{"Name", "Age"}, []any{"Ada", 30})})), ReadOptions{}, source.ErrNoHeader, "among the first 30"},
		{"nobody", write("nobody.xlsx", buildBook(t, nil, sheetOf{"People", [][]any{{"Name", "1.5 mile run"}, {}, {nil, nil}}})), ReadOptions{}, source.ErrNoPeople, "no row below the header"},
		{"unknown sheet", write("good.xlsx", good), ReadOptions{Sheets: []string{"Klasse"}}, source.ErrNoSheet, `there is no sheet "Klasse"; the sheets are "People"`},
		{"unknown column", write("good.xlsx", good), ReadOptions{Columns: map[string]string{"x": "restng heart rate"}}, source.ErrColumn, `"restng heart rate" is not a known column; did you mean "resting heart rate"?`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if tc.name == "no access" && (os.Geteuid() == 0 || runtime.GOOS == "windows") {
				t.Skip("this user may read every file")
			}
			roster, err := Open(tc.path, tc.opt)
			var known *source.Error
			if roster != nil || !errors.Is(err, tc.kind) || !errors.As(err, &known) {
				t.Fatalf("%v, want %v", err, tc.kind)
			}
			if s := err.Error(); !strings.Contains(s, tc.say) || !strings.HasPrefix(s, tc.path) || strings.Contains(s, "\n") {
				t.Errorf("%q does not say %q in one line", s, tc.say)
			}
		})
	}
}

func TestOpenFingerprintsWhatItRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.xlsx")
	if err := os.WriteFile(path, buildBook(t, nil, sheetOf{"P", [][]any{{"Name", "1.5 mile run"}, {"Ada", "11:30"}}}), 0o600); err != nil {
		t.Fatal(err)
	}
	roster := mustOpen(t, path)
	if seen, err := source.FingerprintOf(path); err != nil || seen != roster.Seen {
		t.Errorf("seen %x, want %x, %v", roster.Seen, seen, err)
	}
}

func TestDates1904(t *testing.T) {
	yes := true
	book := buildBook(t, func(f *excelize.File) {
		if err := f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}); err != nil {
			t.Fatal(err)
		}
	}, sheetOf{"People", [][]any{{"Name", "DOB", "1.5 mile run"}, {"Ada", typed{38868, "yyyy-mm-dd"}, "11:30"}}})
	roster, err := openBook(book, ReadOptions{TestDate: testToday})
	if err != nil {
		t.Fatal(err)
	}
	if born := roster.Sheets[0].Rows[0].Entry.Born; !born.Equal(time.Date(2010, 6, 1, 0, 0, 0, 0, time.UTC)) {
		t.Errorf("born %v, want 1 June 2010", born)
	}
}

func TestRightEdgeLeavesOursOut(t *testing.T) {
	rows := [][]any{
		{"Name", "1.5 mile run", "Remark", "VO2max (mL/kg/min)", "Likely low", "Likely high", "Estimated from"},
		{"Ada", "11:30", nil, 45, 40, 50, nil},
	}
	for _, tc := range []struct {
		change func(*excelize.File) error
		want   int
	}{
		{func(*excelize.File) error { return nil }, 3},
		{func(f *excelize.File) error { return f.MergeCell("People", "A5", "K5") }, 11},
		{func(f *excelize.File) error { return f.SetCellValue("People", "T9", "far") }, 20},
		{func(f *excelize.File) error { return f.AddTable("People", &excelize.Table{Range: "A1:C2"}) }, 3},
	} {
		book := buildBook(t, func(f *excelize.File) {
			if err := tc.change(f); err != nil {
				t.Fatal(err)
			}
		}, sheetOf{"People", rows})
		roster, err := openBook(book, ReadOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if got := roster.Sheets[0].LastCol; got != tc.want {
			t.Errorf("the right edge is %d, want %d", got, tc.want)
		}
	}
}

func TestHiddenRowsAreReadAndSaid(t *testing.T) {
	book := buildBook(t, func(f *excelize.File) {
		if err := f.SetRowVisible("People", 3, false); err != nil {
			t.Fatal(err)
		}
	}, sheetOf{"People", [][]any{{"Name", "1.5 mile run"}, {"Ada", "11:30"}, {"Ben", "11:40"}}})
	roster, err := openBook(book, ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if n := len(roster.Sheets[0].Rows); n != 2 {
		t.Errorf("%d people, want 2", n)
	}
	if len(roster.Problems) != 1 || !strings.Contains(roster.Problems[0].What.String(), "hidden rows were read") {
		t.Errorf("said %v", roster.Problems)
	}
}

// Every result of every test is read in both layouts from its own header, and
// comes out as it went in.
func TestEveryDeclaredColumnIsRead(t *testing.T) {
	for _, test := range fieldtests.All() {
		for _, r := range test.Results {
			info := r.Input.Info()
			amount := (info.Min + info.Max) / 2
			var typedIn any = amount
			switch r.Input {
			case scoring.Time:
				limits := columns.PossibleTimes(test)
				amount = (limits[0] + (limits[1]-limits[0])/3).Round(time.Minute).Seconds() // 4:02:00 needs a distance
				typedIn = scoring.Clock(time.Duration(amount) * time.Second)
			case scoring.ShuttleLevel, scoring.ShuttleLaps, scoring.StepsInPlace:
				amount = math.Floor(amount)
				typedIn = amount
			}
			for _, header := range append([]string{r.Column}, r.Headers...) {
				roster := readRows(t, ReadOptions{}, []any{"Name", header}, []any{"Ada", typedIn})
				trials := roster.Sheets[0].Rows[0].Entry.Trials
				if len(trials) != 1 || trials[0].Test != test {
					t.Errorf("%s, header %q: trials %v, %v", test.ID, header, trials, complaints(roster))
					continue
				}
				if q, ok := trials[0].Get(r.Input); !ok || math.Abs(q.Amount-amount) > 1e-6 {
					t.Errorf("%s, header %q: %v reads as %v", test.ID, header, typedIn, q)
				}
			}
			if r.Input != test.Results[0].Input {
				continue
			}
			for _, name := range append([]string{test.ID, test.Name}, test.Names...) {
				roster := readRows(t, ReadOptions{}, []any{"Name", "Test", "Result"}, []any{"Ada", name, typedIn})
				trials := roster.Sheets[0].Rows[0].Entry.Trials
				if len(trials) != 1 || trials[0].Test != test {
					t.Errorf("%s, named %q: trials %v, %v", test.ID, name, trials, complaints(roster))
				}
			}
		}
		for _, also := range test.Also {
			for _, header := range append([]string{also.Column}, also.Headers...) {
				if h, ok := heading.Match(header); !ok || h.Test != test || h.Input != also.Input {
					t.Errorf("%s: header %q means %+v", test.ID, header, h.Meaning)
				}
			}
		}
	}
}

func TestHundredThousandPeople(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a few seconds")
	}
	const n = 100_000
	f := excelize.NewFile()
	defer f.Close()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	if err := w.SetRow("A1", []any{"Name", "ID", "Class", "Sex", "Age", "Weight", "Resting HR", "1.5 mile run", "walk HR", "1 mile walk"}); err != nil {
		t.Fatal(err)
	}
	for i := range n {
		row := []any{fmt.Sprintf("Person %d", i), i, "5b", "F", 30, 60.5, 62, "11:30", 130, "15:10"}
		if err := w.SetRow(fmt.Sprintf("A%d", i+2), row); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	f.Close()
	data := b.Bytes()
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	start := time.Now()
	roster, err := openBook(data, ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	took := time.Since(start)
	runtime.GC()
	runtime.ReadMemStats(&after)
	if got := len(roster.Sheets[0].Rows); got != n {
		t.Errorf("%d people, want %d", got, n)
	}
	each := (int64(after.HeapAlloc) - int64(before.HeapAlloc)) / n
	t.Logf("%v, %d bytes a person", took, each)
	if each > 2048 {
		t.Errorf("%d bytes are kept of each person, more than MaxPeople allows for", each)
	}
}

func FuzzOpen(f *testing.F) {
	f.Add(buildBook(f, nil, sheetOf{"People", [][]any{
		{"Name", "Sex", "DOB", "Test date", "1.5 mile run", "Beep test", "HR"},
		{"Ada", "F", day(2000, 6, 1), day(2026, 6, 1), elevenThirty, 7.1, 150},
		{"Ben", 1, "01/02/2003", nil, 11.3, "7.10", "n/a"},
	}}))
	f.Add(buildBook(f, nil, sheetOf{"A", [][]any{{"Name", "Test", "Result"}, {"Ada", "walk-1-mile", "15:10"}}}, sheetOf{"B", [][]any{{"x"}}}))
	for _, r := range messyRosters() {
		f.Add(r.book.bytes(f))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		roster, err := openBook(data, ReadOptions{})
		var known *source.Error
		if err != nil && (!errors.As(err, &known) || strings.Contains(err.Error(), "\n")) {
			t.Errorf("%v is no error of this package in one line", err)
		}
		if (err == nil) != (roster != nil) {
			t.Error("neither a roster nor an error, or both")
		}
		if err == nil {
			people.Visits(roster)
		}
	})
}

// FuzzRoster puts fuzzed texts into the cells of a sound workbook.
func FuzzRoster(f *testing.F) {
	f.Add("Fitness week 11-15 May 2026", "Name\tSex\tDOB\tTest date\tAge\t1.5 mile run\tBeep test", "Ada\tF\t1/2/2003\t2026-01-01\t25\t11.30\t7.10")
	f.Add("12 min run 12.05.26", "Name\tTest\tResult\tHR\tMin\tSec", "Ada\t1.5 mile run\t930\t150\t11\t30")
	f.Add("1.5 mile run", "ID\tName\tLevel\tShuttle\tTime\tName\tTime\t5 km", "07\tAda\t6.5\t3\t11:30\tBen\t12:30\t23:10")
	f.Add("", "Nom\tPrénom\tPoids (lb)\tTaille (ft) (in)\tFC\tPower", "Lind\tAda\t1,234\t5'7\"\t-\t1e300")
	f.Fuzz(func(t *testing.T, title, head, row string) {
		sheet := sheetOf{name: "People"}
		for _, line := range []string{title, head, row, row} {
			var cells []any
			for i, s := range strings.SplitN(line, "\t", 20) {
				if x, err := strconv.ParseFloat(s, 64); err == nil && i%2 == 1 {
					cells = append(cells, x)
				} else {
					cells = append(cells, strings.ToValidUTF8(s, "?"))
				}
			}
			sheet.rows = append(sheet.rows, cells)
		}
		roster, err := openBook(buildBook(t, nil, sheet), ReadOptions{})
		if err != nil {
			return
		}
		for _, s := range roster.Sheets {
			for i := range s.Rows {
				r := &s.Rows[i]
				if r.Person.Label() == "" || r.Person.NameCell == "" {
					t.Errorf("a person without a name and a cell: %+v", r.Person)
				}
				scoring.Assess(&r.Entry)
				for _, p := range r.Problems {
					if p.What.IsZero() || p.Cell == "" {
						t.Errorf("a problem without words or place: %+v", p)
					}
				}
			}
		}
		problems := roster.Problems
		for _, v := range people.Visits(roster) {
			problems = append(problems, v.Row.Problems...)
		}
		for _, finding := range roster.Findings(problems) {
			if finding.What.IsZero() || finding.Where() == "" {
				t.Errorf("a finding without words or place: %+v", finding)
			}
		}
	})
}

// Wide headers that all say the same must not make memory or time grow with
// their product with the rows.
func TestWideRosterIsBounded(t *testing.T) {
	const columns, people = 16_000, 200
	head := make([]any, columns)
	head[0] = "Name"
	for i := 1; i < columns; i++ {
		head[i] = [...]string{"Weight", "1.5 mile run", "nothing known"}[i%3]
	}
	rows := [][]any{head}
	for i := range people {
		row := make([]any, columns)
		row[0], row[1], row[columns-1] = fmt.Sprintf("P%d", i), "11:30", "n/a"
		rows = append(rows, row)
	}
	book := buildBook(t, nil, sheetOf{"People", rows})
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	start := time.Now()
	roster, err := openBook(book, ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	took := time.Since(start)
	runtime.ReadMemStats(&after)
	if n := len(roster.Sheets[0].Rows); n != people {
		t.Errorf("%d people, want %d", n, people)
	}
	allocated := (after.TotalAlloc - before.TotalAlloc) >> 20
	t.Logf("%v, %d MB allocated in all", took, allocated)
	if allocated > 200*raceAllocates {
		t.Errorf("%d MB were allocated for a workbook of %d kB", allocated, len(book)>>10)
	}
}

// However many cells are wrong, the list of problems stays short enough to be
// held, and every row that is left out still says why.
func TestProblemsAreBounded(t *testing.T) {
	rows := [][]any{{"Name", "Weight", "Height", "Resting HR", "1.5 mile run"}}
	const people = 30_000
	for range people {
		rows = append(rows, []any{"Ada", "?!", "?!", "?!", "?!"})
	}
	roster := readRows(t, ReadOptions{}, rows...)
	n := 0
	for i := range roster.Sheets[0].Rows {
		k := len(roster.Sheets[0].Rows[i].Problems)
		if k == 0 {
			t.Fatalf("row %d says nothing", roster.Sheets[0].Rows[i].Number)
		}
		n += k
	}
	if n > 100_000+people {
		t.Errorf("%d problems are listed", n)
	}
	last := roster.Problems[len(roster.Problems)-1]
	if !strings.Contains(last.What.String(), "the rest of them are not listed") {
		t.Errorf("nothing is said of the problems that are left out: %v", last)
	}
}

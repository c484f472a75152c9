package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// sheetOf is a sheet to be built for a test: rows of cells, each nil, a value
// or a typed value with its number format.
type sheetOf struct {
	name string
	rows [][]any
}

// formula is a cell with a formula and the result that is stored for it.
type formula struct{ text string }

// buildBook makes a workbook of the sheets; change may do more to it.
func buildBook(t testing.TB, change func(*excelize.File), sheets ...sheetOf) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	styles := map[string]int{}
	for i, s := range sheets {
		if i == 0 {
			must(f.SetSheetName("Sheet1", s.name))
		} else {
			_, err := f.NewSheet(s.name)
			must(err)
		}
		for r, row := range s.rows {
			for c, v := range row {
				at, err := excelize.CoordinatesToCellName(c+1, r+1)
				must(err)
				switch v := v.(type) {
				case nil:
				case typed:
					must(f.SetCellValue(s.name, at, v.value))
					if styles[v.format] == 0 {
						id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &v.format})
						must(err)
						styles[v.format] = id
					}
					must(f.SetCellStyle(s.name, at, at, styles[v.format]))
				case formula:
					must(f.SetCellFormula(s.name, at, v.text))
				default:
					must(f.SetCellValue(s.name, at, v))
				}
			}
		}
	}
	if change != nil {
		change(f)
	}
	var b bytes.Buffer
	must(f.Write(&b))
	return b.Bytes()
}

var testToday = time.Date(2026, time.June, 1, 0, 0, 0, 0, time.UTC)

func openBook(data []byte, opt ReadOptions) (*Roster, error) {
	if opt.Today.IsZero() {
		opt.Today = testToday
	}
	return openReader("roster.xlsx", bytes.NewReader(data), int64(len(data)), opt)
}

// readRows opens a workbook of one sheet with these rows.
func readRows(t testing.TB, opt ReadOptions, rows ...[]any) *Roster {
	t.Helper()
	roster, err := openBook(buildBook(t, nil, sheetOf{"People", rows}), opt)
	if err != nil {
		t.Fatal(err)
	}
	return roster
}

// inWords writes what was read of a row: the person, then every value with
// its cell, then every trial.
func inWords(row *Row) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s", row.Person.Name)
	if row.Person.ID != "" {
		fmt.Fprintf(&b, " #%s", row.Person.ID)
	}
	if row.Person.Group != "" {
		fmt.Fprintf(&b, " of %s", row.Person.Group)
	}
	values := func(v *scoring.Values) {
		for in := range scoring.InputCount {
			if q, ok := v.Get(in); ok {
				fmt.Fprintf(&b, " %s=%s@%s", in, strings.TrimSpace(q.String()), v.Cell(in))
			}
		}
	}
	values(&row.Entry.Values)
	for i := range row.Entry.Trials {
		fmt.Fprintf(&b, " [%s", row.Entry.Trials[i].Test.ID)
		values(&row.Entry.Trials[i].Values)
		b.WriteString("]")
	}
	return b.String()
}

// complaints lists the problems of a roster, blocking ones with a "!", and the
// questions about columns with a "?".
func complaints(roster *Roster) []string {
	var all []string
	add := func(ps []Problem) {
		for _, p := range ps {
			mark := ""
			if p.Blocking {
				mark = "!"
			}
			all = append(all, mark+strings.TrimPrefix(p.String(), "People!"))
		}
	}
	add(roster.Problems)
	for _, q := range roster.Questions {
		all = append(all, fmt.Sprintf("?%s (%q): %s", q.Cell, q.Header, q.What))
	}
	for _, s := range roster.Sheets {
		for i := range s.Rows {
			add(s.Rows[i].Problems)
		}
	}
	return all
}

// elevenThirty is 11:30 as a spreadsheet takes it: half past eleven.
var elevenThirty = typed{11.5 / 24, "h:mm"}

func day(y int, m time.Month, d int) typed {
	return typed{time.Date(y, m, d, 0, 0, 0, 0, time.UTC), "yyyy-mm-dd"}
}

func TestReadRows(t *testing.T) {
	for _, tc := range []struct {
		name string
		opt  ReadOptions
		rows [][]any
		want []string // a line for each person
		say  []string // beginnings or parts of the problems, in their order
	}{
		{name: "a column per test",
			rows: [][]any{
				{"Name", "ID", "Class", "Sex", "Date of birth", "Test date", "Weight (kg)", "Resting HR", "1.5 mile run", "20 m shuttle level"},
				{"Ada Lind", typed{7, "000"}, "5b", "F", day(2000, 6, 1), day(2026, 6, 1), 60.5, 62, elevenThirty, nil},
				{"Ben Ohm", "008", "5b", "m", day(2001, 6, 1), day(2026, 6, 1), "70,5", "58 bpm", nil, "7.10"},
			},
			want: []string{
				"Ada Lind #007 of 5b sex=0 male 1, female 0@D2 age=26 years@E2 body-mass=60.5 kg@G2 resting-hr=62 beats/min@H2 [run-1.5-mile time=11:30@I2]",
				"Ben Ohm #008 of 5b sex=1 male 1, female 0@D3 age=25 years@E3 body-mass=70.5 kg@G3 resting-hr=58 beats/min@H3 [shuttle-20-m shuttle-level=7 levels@J3 shuttle-in-level=10 laps@J3]",
			},
			say: []string{`I2 ("11:30:00"): the spreadsheet stores hours and minutes, read as minutes and seconds; read as 11:30`},
		},
		{name: "test and result",
			rows: [][]any{
				{"Name", "Age", "Sex", "Test", "Result", "Exercise HR", "Effort"},
				{"Ada", 30, "F", "1.5 mile run", "11:30", 150, "steady"},
				{"Ben", 30, "M", "20m shuttle run", "7.10", nil, nil},
				{"Cyd", 30, "M", "Beep test", "52 laps", nil, nil},
				{"Dot", 30, "F", "12 MINUTE RUN", "2,450 m", nil, nil},
				{"Eve", 30, "F", "1-mile walk", "15:10", 132, nil},
				{"Fay", 30, "F", "VO2max", 45.5, nil, nil},
				{"Guy", 30, "M", "lab", "3.2 L/min", nil, nil},
				{"Hal", 30, "M", "1.5 mile rnu", "11:30", nil, nil},
				{"Ian", 30, "M", nil, "11:30", nil, nil},
				{"Jan", 30, "M", "1.5 mile run", nil, nil, nil},
				{"Kim", 30, "M", "1.5 mile run", "DNF", nil, nil},
			},
			want: []string{
				"Ada sex=0 male 1, female 0@C2 age=30 years@B2 [run-1.5-mile time=11:30@E2 exercise-hr=150 beats/min@F2 effort=0@G2]",
				"Ben sex=1 male 1, female 0@C3 age=30 years@B3 [shuttle-20-m shuttle-level=7 levels@E3 shuttle-in-level=10 laps@E3]",
				"Cyd sex=1 male 1, female 0@C4 age=30 years@B4 [shuttle-20-m shuttle-laps=52 laps@E4]",
				"Dot sex=0 male 1, female 0@C5 age=30 years@B5 [run-12-minute distance=2450 m@E5]",
				"Eve sex=0 male 1, female 0@C6 age=30 years@B6 [walk-1-mile time=15:10@E6 exercise-hr=132 beats/min@F6]",
				"Fay sex=0 male 1, female 0@C7 age=30 years@B7 [measured measured-vo2max=45.5 mL/kg/min@E7]",
				"Guy sex=1 male 1, female 0@C8 age=30 years@B8 [measured measured-vo2max-abs=3.2 L/min@E8]",
				"Hal sex=1 male 1, female 0@C9 age=30 years@B9",
				"Ian sex=1 male 1, female 0@C10 age=30 years@B10",
				"Jan sex=1 male 1, female 0@C11 age=30 years@B11",
				"Kim sex=1 male 1, female 0@C12 age=30 years@B12",
			},
			say: []string{
				`E12 ("DNF"): read as not tested`,
				`!D9 ("1.5 mile rnu"): this test is not known; did you mean "1.5-mile run"?`,
				`!E10 ("11:30"): the row does not name the test; name the test in the column "Test"`,
				`!D11 ("1.5 mile run"): the test has no result`,
			},
		},
		{name: "titles above, blank rows, notes and sums below",
			rows: [][]any{
				{"Fitness day 2026"},
				{"Name of the organiser: me"},
				{},
				{"Name", "Sex", "Age", "1.5 mile run"},
				{},
				{"Ada", "F", 30, "11:30"},
				{},
				{"Name", "Sex", "Age", "1.5 mile run"},
				{"Ben", "M", 31, "12:30"},
				{"Average", nil, 30.5, "12:00"},
				{nil, nil, "Mean", "12:00"},
				{},
				{"Times were taken by hand, to the second."},
			},
			want: []string{
				"Ada sex=0 male 1, female 0@B6 age=30 years@C6 [run-1.5-mile time=11:30@D6]",
				"Ben sex=1 male 1, female 0@B9 age=31 years@C9 [run-1.5-mile time=12:30@D9]",
			},
			say: []string{`A13 ("Times were taken by hand, to the second."): read as a note, not as a person`},
		},
		{name: "units in headers",
			rows: [][]any{
				{"Name", "Age", "Weight (lb)", "Height in cm", "1.5 mile run (sec)", "12 minute run (km)"},
				{"Ada", 30, 154, 170, 690, 2.5},
				{"Ben", 30, "70 kg", "1.80 m", 1130, "1.5 miles"},
			},
			want: []string{
				"Ada age=30 years@B2 body-mass=69.85 kg@C2 stature=170 cm@D2 [run-1.5-mile time=11:30@E2] [run-12-minute distance=2500 m@F2]",
				"Ben age=30 years@B3 body-mass=70 kg@C3 stature=180 cm@D3 [run-1.5-mile time=18:50@E3] [run-12-minute distance=2414.02 m@F3]",
			},
		},
		{name: "a header that names two units",
			rows: [][]any{
				{"Name", "Age", "Weight lbs kg", "Height (ft.) (in.)", "1.5 mile run"},
				{"Ada", 30, 154, "5'7\"", "11:30"},
				{"Ben", 30, "70 kg", 5.7, "11:30"},
			},
			want: []string{
				"Ada age=30 years@B2 stature=170.18 cm@D2 [run-1.5-mile time=11:30@E2]",
				"Ben age=30 years@B3 body-mass=70 kg@C3 [run-1.5-mile time=11:30@E3]",
			},
			say: []string{
				`!C2 ("154"): the header names both`,
				`!D3 ("5.7"): the header says feet`,
			},
		},
		{name: "ambiguous times name both readings",
			rows: [][]any{
				{"Name", "1.5 mile run"},
				{"Ada", typed{11.3, "0.00"}},
				{"Ben", "11.30"},
			},
			want: []string{"Ada", "Ben"},
			say: []string{
				`?B1 ("1.5 mile run"): the numbers can be read as times in more than one way`,
				`!B2 ("11.30"): this waits for an answer about the column "1.5 mile run"`,
				`!B3 ("11.30"): this waits for an answer about the column "1.5 mile run"`,
			},
		},
		{name: "minutes and seconds beside numbers decide how those are read",
			rows: [][]any{
				{"Name", "1.5 mile run"},
				{"Ada", typed{11.3, "0.00"}},
				{"Cyd", 930},
				{"Dot", "690 s"},
				{"Eve", "11.5 min"},
				{"Fay", "11'30\""},
			},
			want: []string{"Ada [run-1.5-mile time=11:30@B2]", "Cyd [run-1.5-mile time=9:30@B3]",
				"Dot [run-1.5-mile time=11:30@B4]", "Eve [run-1.5-mile time=11:30@B5]", "Fay [run-1.5-mile time=11:30@B6]"},
			say: []string{`B1 ("1.5 mile run"): plain numbers were read as minutes and seconds, which alone fits the whole column`},
		},
		{name: "the column decides that minutes have decimals",
			rows: [][]any{
				{"Name", "1.5 mile run"},
				{"Ada", 11.37}, {"Ben", 10.07}, {"Cyd", 12.98},
			},
			want: []string{"Ada [run-1.5-mile time=11:22@B2]", "Ben [run-1.5-mile time=10:04@B3]", "Cyd [run-1.5-mile time=12:59@B4]"},
			say:  []string{`B1 ("1.5 mile run"): plain numbers were read as minutes with decimals`},
		},
		{name: "minutes and seconds in two cells, headers in two rows",
			rows: [][]any{
				{nil, "1.5 mile run", nil, "1 mile walk", nil},
				{"Name", "Min.", "Sec.", "min", "sec"},
				{"Ada", 11, 30, nil, nil},
				{"Ben", 12, nil, 15, "05"},
				{"Cyd", 11, 75, nil, nil},
				{"Dot", 11.5, 10, nil, nil},
				{"Eve", "DNF", nil, 16, 0},
			},
			want: []string{"Ada [run-1.5-mile time=11:30@B3]", "Ben [run-1.5-mile time=12:00@B4] [walk-1-mile time=15:05@D4]", "Cyd", "Dot", "Eve [walk-1-mile time=16:00@D7]"},
			say: []string{
				`B4 ("12"): the cell for the seconds is empty`,
				`B7 ("DNF"): read as not tested`,
				`!C5 ("75"): the seconds must be from 0 to 59`,
				`!B6 ("11.5"): the minutes are not a whole number`,
			},
		},
		{name: "units below the header",
			rows: [][]any{
				{"Name", "Weight", "1.5 mile run"},
				{nil, "lb", "s"},
				{"Ada", 154, 690},
			},
			want: []string{"Ada body-mass=69.85 kg@B3 [run-1.5-mile time=11:30@C3]"},
		},
		{name: "heart rates find their test",
			rows: [][]any{
				{"Name", "Age", "Resting pulse", "Pulse", "1 mile walk", "walk HR", "1.5 mile run", "1.5 mile run heart rate"},
				{"Ada", 40, 60, nil, "15:00", 130, "12:00", 160},
				{"Ben", 40, 60, 131, "15:00", nil, nil, nil},
				{"Cyd", 40, 60, 131, "15:00", nil, "12:00", nil},
				{"Dot", 40, 600, nil, "15:00", nil, nil, nil},
				{"Eve", 40, 60, 22, "15:00", nil, nil, nil},
			},
			want: []string{
				"Ada age=40 years@B2 resting-hr=60 beats/min@C2 [walk-1-mile time=15:00@E2 exercise-hr=130 beats/min@F2] [run-1.5-mile time=12:00@G2 exercise-hr=160 beats/min@H2]",
				"Ben age=40 years@B3 resting-hr=60 beats/min@C3 [walk-1-mile time=15:00@E3 exercise-hr=131 beats/min@D3]",
				"Cyd age=40 years@B4 resting-hr=60 beats/min@C4 [walk-1-mile time=15:00@E4] [run-1.5-mile time=12:00@G4]",
				"Dot age=40 years@B5 [walk-1-mile time=15:00@E5]",
				"Eve age=40 years@B6 resting-hr=60 beats/min@C6 [walk-1-mile time=15:00@E6]",
			},
			say: []string{
				`!D4 ("131"): this may belong to the 1-mile walk or the 1.5-mile run`,
				`!C5 ("600"): 600 beats/min is outside 25 to 150 beats/min; type the resting heart rate in beats/min`,
				`!D6 ("22"): 22 beats/min is outside 60 to 230 beats/min; type the heart rate at the end of the exercise in beats/min; a count of ten seconds`,
			},
		},
		{name: "one heart rate that could be either",
			rows: [][]any{{"Name", "HR", "1 mile walk"}, {"Ada", 96, "15:00"}},
			want: []string{"Ada [walk-1-mile time=15:00@C2]"},
			say:  []string{`?B1 ("HR"): this may be the resting heart rate or the one in the test`},
		},
		{name: "one heart rate that is none at rest",
			rows: [][]any{{"Name", "HR", "1 mile walk"}, {"Ada", 131, "15:00"}},
			want: []string{"Ada [walk-1-mile time=15:00@C2 exercise-hr=131 beats/min@B2]"},
			say:  []string{`B1 ("HR"): read as heart rate at the end of the exercise`},
		},
		{name: "a step test from columns of its parts",
			rows: [][]any{
				{"Name", "Age", "Resting HR", "Bench height (cm)", "Step rate", "Minutes of stepping", "Exercise HR"},
				{"Ada", 40, 60, 30, 24, 3, 130},
				{"Ben", 40, 60, 30, 24, "2:30", 130},
				{"Cyd", 40, 60, nil, nil, nil, nil},
			},
			want: []string{
				"Ada age=40 years@B2 resting-hr=60 beats/min@C2 [step-stage exercise-hr=130 beats/min@G2 bench-height=30 cm@D2 step-rate=24 cycles/min@E2 stage-time=3:00@F2]",
				"Ben age=40 years@B3 resting-hr=60 beats/min@C3 [step-stage exercise-hr=130 beats/min@G3 bench-height=30 cm@D3 step-rate=24 cycles/min@E3 stage-time=2:30@F3]",
				"Cyd age=40 years@B4 resting-hr=60 beats/min@C4",
			},
			say: []string{`!A4 ("Cyd"): there is no test result in this row; fill in Exercise HR`},
		},
		{name: "given and family names in several languages",
			rows: [][]any{{"Name", "Vorname", "Klasse", "1.5 mile run"}, {"Lind", "Ada", "5b", "11:30"}},
			want: []string{"Ada Lind of 5b [run-1.5-mile time=11:30@D2]"},
		},
		{name: "two family names",
			rows: [][]any{{"Nombre", "Primer Apellido", "Segundo Apellido", "1.5 mile run"}, {"Ada", "Lind", "Ros", "11:30"}},
			want: []string{"Ada Lind Ros [run-1.5-mile time=11:30@D2]"},
		},
		{name: "a place in the list is no ID where there are names",
			rows: [][]any{{"№", "ФИО", "Пол", "Бег 2400 м"}, {1, "Анна Линд", "ж", "11:30"}, {2, nil, nil, nil}},
			want: []string{"Анна Линд sex=0 male 1, female 0@C2 [run-1.5-mile time=11:30@D2]"},
		},
		{name: "only numbers for people",
			rows: [][]any{{"No.", "1.5 mile run"}, {1, "11:30"}, {2, nil}, {nil, "12:30"}},
			want: []string{"#1 [run-1.5-mile time=11:30@B2]", "#2"},
			say:  []string{`!B4 ("12:30"): the result has no name or ID`, `!A3 ("2"): there is no test result in this row`},
		},
		{name: "age from the date of birth, the typed age, and neither",
			rows: [][]any{
				{"Name", "DOB", "Age", "Test date", "1.5 mile run"},
				{"Ada", day(2000, 6, 2), 25, day(2026, 6, 1), "11:30"},
				{"Ben", day(2000, 6, 2), 35, day(2026, 6, 1), "11:30"},
				{"Cyd", day(2000, 6, 2), 25, nil, "11:30"},
				{"Dot", day(2000, 6, 2), nil, nil, "11:30"},
				{"Eve", day(2026, 5, 31), nil, day(2026, 5, 1), "11:30"},
				{"Fay", 1990, nil, day(2026, 1, 1), "11:30"},
				{"Gil", nil, 250, nil, "11:30"},
				{"Hal", day(2024, 6, 2), nil, day(2026, 6, 1), "11:30"},
			},
			want: []string{
				"Ada age=26 years@B2 [run-1.5-mile time=11:30@E2]",
				"Ben age=26 years@B3 [run-1.5-mile time=11:30@E3]",
				"Cyd age=25 years@C4 [run-1.5-mile time=11:30@E4]",
				"Dot [run-1.5-mile time=11:30@E5]",
				"Eve [run-1.5-mile time=11:30@E6]",
				"Fay age=35.5 years@B7 [run-1.5-mile time=11:30@E7]",
				"Gil [run-1.5-mile time=11:30@E8]",
				"Hal [run-1.5-mile time=11:30@E9]",
			},
			say: []string{
				`B7 ("1990"): only the year of birth is given`,
				`C3 ("35"): the date of birth in B3 makes it 25 years on the test day, which was used`,
				`!B5 ("2000-06-02"): the age can't be worked out, because the test day is not known; type the test date of this row`,
				`!B6 ("2026-05-31"): 31 May 2026 is after the test on 1 May 2026`,
				`!C8 ("250"): 250 years is outside 5 to 110 years`,
				`!B9 ("2024-06-02"): the age on the test day, 2 years is outside`,
			},
		},
		{name: "the test date as an option",
			opt:  ReadOptions{TestDate: testToday},
			rows: [][]any{{"Name", "DOB", "1.5 mile run"}, {"Ada", day(2000, 6, 1), "11:30"}},
			want: []string{"Ada age=26 years@B2 [run-1.5-mile time=11:30@C2]"},
		},
		{name: "dates as text, the day first by the column",
			opt: ReadOptions{TestDate: testToday},
			rows: [][]any{
				{"Name", "DOB", "1.5 mile run"},
				{"Ada", "01/06/2000", "11:30"}, {"Ben", "13/06/2000", "11:30"}, {"Cyd", "31/02/2000", "11:30"},
			},
			want: []string{"Ada age=26 years@B2 [run-1.5-mile time=11:30@C2]", "Ben age=25.97 years@B3 [run-1.5-mile time=11:30@C3]", "Cyd [run-1.5-mile time=11:30@C4]"},
			say:  []string{`!B4 ("31/02/2000"): there is no such date`},
		},
		{name: "dates as text that nothing decides",
			opt:  ReadOptions{TestDate: testToday},
			rows: [][]any{{"Name", "DOB", "1.5 mile run"}, {"Ada", "01/06/2000", "11:30"}},
			want: []string{"Ada [run-1.5-mile time=11:30@C2]"},
			say: []string{`?B1 ("DOB"): day and month may be either way round, and no date of the column decides`,
				`!B2 ("01/06/2000"): this waits for an answer about the column "DOB"`},
		},
		{name: "dates as text, the order as an option",
			opt:  ReadOptions{TestDate: testToday, Settings: roster.SettingValues{roster.SetDateOrder: {Value: "month-first"}}},
			rows: [][]any{{"Name", "DOB", "1.5 mile run"}, {"Ada", "06/01/2000", "11:30"}},
			want: []string{"Ada age=26 years@B2 [run-1.5-mile time=11:30@C2]"},
		},
		{name: "sex codes need a legend",
			rows: [][]any{{"Name", "Sex", "1.5 mile run"}, {"Ada", 2, "11:30"}},
			want: []string{"Ada [run-1.5-mile time=11:30@C2]"},
			say: []string{`?B1 ("Sex"): a number may mean either sex, and the sheet does not say which`,
				`!B2 ("2"): this waits for an answer about the column "Sex"`},
		},
		{name: "sex codes as an option",
			opt:  ReadOptions{Settings: roster.SettingValues{roster.SetSexCode: {Value: "2=F"}}},
			rows: [][]any{{"Name", "Sex", "1.5 mile run"}, {"Ada", 2, "11:30"}},
			want: []string{"Ada sex=0 male 1, female 0@B2 [run-1.5-mile time=11:30@C2]"},
		},
		{name: "two columns that say the same",
			rows: [][]any{
				{"Name", "Weight", "Body mass (lb)", "1.5 mile run"},
				{"Ada", 70, nil, "11:30"}, {"Ben", nil, 154, "11:30"}, {"Cyd", 70, 200, "11:30"}, {"Dot", 70, "70 kg", "11:30"},
			},
			want: []string{
				"Ada body-mass=70 kg@B2 [run-1.5-mile time=11:30@D2]", "Ben body-mass=69.85 kg@C3 [run-1.5-mile time=11:30@D3]",
				"Cyd [run-1.5-mile time=11:30@D4]", "Dot body-mass=70 kg@B5 [run-1.5-mile time=11:30@D5]",
			},
			say: []string{`C1 ("Body mass (lb)"): this column and B1 ("Weight") hold the same`, `!C4 ("200"): B4 holds another value`},
		},
		{name: "columns named by the user",
			opt: ReadOptions{Columns: map[string]string{"Puls i vila efter kaffe": "resting heart rate", "Weight": "ignore"}},
			rows: [][]any{
				{"Name", "Puls i vila efter kaffe", "Weight", "1.5 mile run"}, {"Ada", 60, 70, "11:30"},
			},
			want: []string{"Ada resting-hr=60 beats/min@B2 [run-1.5-mile time=11:30@D2]"},
		},
		{name: "results without a test",
			rows: [][]any{{"Name", "RunTime", "Age", "Shuttle run laps"}, {"Ada", "11:30", 30, 40}},
			want: []string{"Ada age=30 years@C2 [shuttle-20-m shuttle-laps=40 laps@D2]"},
			say:  []string{`!B1 ("RunTime"): the header does not name the test`, `?B1 ("RunTime"): not recognised`},
		},
		{name: "shuttle levels that lost a zero",
			rows: [][]any{
				{"Name", "Beep test"},
				{"Ada", 11.1}, {"Ben", typed{11.1, "0.00"}}, {"Cyd", "11.1O"}, {"Dot", 11.5}, {"Eve", 8}, {"Fay", 52},
			},
			want: []string{"Ada", "Ben [shuttle-20-m shuttle-level=11 levels@B3 shuttle-in-level=10 laps@B3]", "Cyd",
				"Dot [shuttle-20-m shuttle-level=11 levels@B5 shuttle-in-level=5 laps@B5]", "Eve [shuttle-20-m shuttle-level=8 levels@B6]", "Fay"},
			say: []string{
				`!B2 ("11.1"): a number drops its last zero`,
				`!B4 ("11.1O"): there is a letter in place of a digit; type 11.10`,
				`!B7 ("52"): 52 levels is outside 1 to 21 levels; type the shuttle level; if these are laps, type 52 laps`,
			},
		},
		{name: "errors and formulas",
			rows: [][]any{
				{"Name", "Weight", "1.5 mile run"},
				{"Ada", formula{"70+1"}, "11:30"},
			},
			want: []string{"Ada [run-1.5-mile time=11:30@C2]"},
			say:  []string{`!B2: the result of the formula is not stored in the file`},
		},
		{name: "only one unit is possible",
			rows: [][]any{{"Name", "Height", "12 minute run"}, {"Ada", 1.75, 2.4}},
			want: []string{"Ada stature=175 cm@B2"},
			say: []string{`B1 ("Height"): the header names no unit; read in m, the only unit that fits all values`,
				`?C1 ("12 minute run"): the header, the values and the columns beside them do not agree on a unit`, `!C2 ("2.4"): this waits for`},
		},
		{name: "implausible values are not guessed at",
			rows: [][]any{
				{"Name", "Height", "Weight", "Measured VO2max", "12 minute run"},
				{"Ada", 17.5, 700, 3.2, 24},
			},
			want: []string{"Ada"},
			say: []string{
				`!B2 ("17.5"): 17.5 cm is outside 80 to 230 cm`,
				`!C2 ("700"): 700 kg is outside`,
				`!D2 ("3.2"): 3.2 mL/kg/min is outside 8 to 97 mL/kg/min; type the measured VO2max in mL/kg/min; if it is in L/min, type 3.2 L/min`,
				`!E2 ("24"): 24 m is outside 50 to 50000 m`,
			},
		},
		{name: "a group and a measured value are not ours",
			rows: [][]any{
				{"Name", "Group", "Measured VO2max (mL/kg/min)", "Percentile"},
				{"Ada", "red", 45, 50},
			},
			want: []string{"Ada of red [measured measured-vo2max=45 mL/kg/min@C2]"},
		},
		{name: "our columns of last time",
			rows: [][]any{
				{"Name", "1.5 mile run", "VO2max (mL/kg/min)", "Likely low", "Likely high", "Estimated from", "Group", "Percentile"},
				{"Ada", "11:30", 45, 40, 50, "x", "average", 50},
			},
			want: []string{"Ada [run-1.5-mile time=11:30@B2]"},
		},
		{name: "an unknown header that is nearly one",
			rows: [][]any{{"Name", "Restng heart rate", "1.5 mile run"}, {"Ada", 60, "11:30"}},
			want: []string{"Ada [run-1.5-mile time=11:30@C2]"},
			say:  []string{`?B1 ("Restng heart rate"): not recognised, so it was left alone; by its words and values it may be: resting heart rate`},
		},
		{name: "no result, but a header that is nearly one: it is asked about",
			rows: [][]any{{"Name", "Age", "1.5 mile rum", "Colour"}, {"Ada", 30, "11:30", "red"}},
			want: []string{"Ada age=30 years@B2"},
			say: []string{`!People: no column is recognised as a test result; not recognised were "1.5 mile rum", "Colour"; say what a column holds, in the questions file or with --column "HEADER=MEANING"`,
				`?C1 ("1.5 mile rum"): not recognised, so it was left alone; by its words and values it may be: 1.5 mile run`},
		},
		{name: "sheets in Japanese and Korean",
			rows: [][]any{
				{"氏名", "性別", "年齢", "20mシャトルラン(回)", "体重(kg)"},
				{"青木", "男", "１３歳", "５２", "４８．５"},
			},
			want: []string{"青木 sex=1 male 1, female 0@B2 age=13 years@C2 body-mass=48.5 kg@E2 [shuttle-20-m shuttle-laps=52 laps@D2]"},
		},
		{name: "the same test twice is two trials",
			rows: [][]any{
				{"Name", "Test", "Result", "Test", "Result"},
				{"Ada", "1.5 mile run", "11:30", "1.5 mile run", "11:20"},
			},
			want: []string{"Ada [run-1.5-mile time=11:30@C2] [run-1.5-mile time=11:20@E2]"},
		},
	} {
		t.Run(tc.name, func(t *testing.T) {
			roster := readRows(t, tc.opt, tc.rows...)
			var got []string
			for _, s := range roster.Sheets {
				for i := range s.Rows {
					got = append(got, strings.TrimSpace(inWords(&s.Rows[i])))
				}
			}
			if a, b := strings.Join(got, "\n"), strings.Join(tc.want, "\n"); a != b {
				t.Errorf("read\n%s\nwant\n%s", a, b)
			}
			said := complaints(roster)
			if len(said) != len(tc.say) {
				t.Errorf("said\n%s\nwant\n%s", strings.Join(said, "\n"), strings.Join(tc.say, "\n"))
				return
			}
			for i := range said {
				if !strings.HasPrefix(said[i], tc.say[i]) {
					t.Errorf("said %s\nwant %s", said[i], tc.say[i])
				}
			}
		})
	}
}

func TestSheets(t *testing.T) {
	people := func(name string) [][]any {
		return [][]any{{"Name", "1.5 mile run"}, {name, "11:30"}}
	}
	contacts := [][]any{{"Name", "Email"}, {"Office", "x@example.org"}}
	book := buildBook(t, func(f *excelize.File) {
		if err := f.SetSheetVisible("Last year", false); err != nil {
			t.Fatal(err)
		}
	}, sheetOf{"5a", people("Ada")}, sheetOf{"5b", people("Ben")}, sheetOf{"Contacts", contacts},
		sheetOf{"Notes", [][]any{{"remember", "the", "cones"}}}, sheetOf{"Last year", people("Old")})
	for _, tc := range []struct {
		ask  []string
		want string
		kind error
	}{
		{nil, "5a: Ada of 5a; 5b: Ben of 5b", nil},
		{[]string{"5B"}, "5b: Ben", nil},
		{[]string{"5b", "5b"}, "5b: Ben", nil},
		{[]string{"Last year"}, "Last year: Old", nil},
		{[]string{"Contacts"}, "", source.ErrNoHeader}, // an address book
		{[]string{"Notes"}, "", source.ErrNoHeader},
		{[]string{"6c"}, "", source.ErrNoSheet},
	} {
		roster, err := openBook(book, ReadOptions{Sheets: tc.ask})
		if !errors.Is(err, tc.kind) {
			t.Errorf("%q: %v, want %v", tc.ask, err, tc.kind)
			continue
		}
		var got []string
		if roster != nil {
			for _, s := range roster.Sheets {
				p := s.Rows[0].Person
				line := s.Name + ": " + p.Name
				if p.Group != "" {
					line += " of " + p.Group
				}
				got = append(got, line)
			}
		}
		if s := strings.Join(got, "; "); s != tc.want {
			t.Errorf("%q: %q, want %q", tc.ask, s, tc.want)
		}
	}
}

package reference

import (
	"slices"
	"strings"
	"testing"
)

var bothSexes = []Sex{Female, Male}

func TestUnits(t *testing.T) {
	if got := VO2(35).METs(); got != 10 {
		t.Errorf("35 mL/kg/min is %g MET", float64(got))
	}
	if got := MET(11).VO2(); got != 38.5 {
		t.Errorf("11 MET is %g mL/kg/min", float64(got))
	}
	for v, want := range map[MET]MET{9.949: 9.9, 9.951: 10, 10.04: 10, 0: 0} {
		if got := RoundMET(v); got != want {
			t.Errorf("%g MET rounds to %g, want %g", float64(v), float64(got), float64(want))
		}
	}
}

func TestWords(t *testing.T) {
	if Unspecified.String() != "not given" || Female.String() != "female" || Male.String() != "male" {
		t.Errorf("%s, %s, %s", Unspecified, Female, Male)
	}
	if got := (Ages{40, 49}).String(); got != "40–49" {
		t.Errorf("%q", got)
	}
	if got := (Ages{80, openEnd}).String(); got != "80 and over" {
		t.Errorf("%q", got)
	}
}

func TestWholeYears(t *testing.T) {
	for age, want := range map[float64]int{17.999: 17, 18: 18, 18.001: 18, 0.5: 0} {
		if got := WholeYears(age); got != want {
			t.Errorf("%g is %d whole years, want %d", age, got, want)
		}
	}
}

// At the edges of a row: the first and last year belong to it, the years
// beside them do not.
func TestRowsByAge(t *testing.T) {
	for _, c := range []struct {
		years int
		want  string // "" for none
	}{{17, ""}, {18, "18–19"}, {19, "18–19"}, {20, "20–29"}, {29, "20–29"}, {30, "30–39"}, {79, "70–79"}, {80, "80 and over"}, {120, "80 and over"}, {121, ""}} {
		for _, sex := range bothSexes {
			row, ok := AdultGroups.Row(sex, c.years)
			if ok != (c.want != "") || ok && (row.Ages.String() != c.want || row.Sex != sex) {
				t.Errorf("%s %d: row %s, %v; want %q", sex, c.years, row.Ages, ok, c.want)
			}
		}
	}
	if _, ok := AdultGroups.Row(Unspecified, 45); ok {
		t.Error("a row for no sex")
	}
	spans := map[string]Ages{"ruiz2016": {8, 19}, "lobelo2009": {12, 19}, "mayo2017": {6, 10}, "cureton1990": {12, 19}}
	for _, table := range YouthTables {
		span := spans[table.ID]
		for years, want := range map[int]bool{span.Min - 1: false, span.Min: true, span.Max: true, span.Max + 1: false} {
			for _, sex := range bothSexes {
				if _, ok := table.Line(sex, years); ok != want {
					t.Errorf("%s for %s %d: %v", table.ID, sex, years, ok)
				}
			}
		}
		if found, ok := YouthTableByID(table.ID); !ok || found != table {
			t.Errorf("%s is not found by its name", table.ID)
		}
	}
	if _, ok := YouthTableByID("nobody1900"); ok || len(YouthTables) != len(spans) {
		t.Errorf("%d youth tables", len(YouthTables))
	}
	if a, _ := YouthTables[0].Line(Male, 12); a != 41.8 {
		t.Errorf("the default line for boys is %g", float64(a))
	}
	for years, want := range map[int]bool{5: false, 6: true, 100: true} {
		for _, sex := range bothSexes {
			if _, ok := RestingPercentile(sex, years, 70); ok != want {
				t.Errorf("resting percentile for %s %d: %v", sex, years, ok)
			}
			if _, ok := RestingValue(sex, years, 50); ok != want {
				t.Errorf("resting median for %s %d: %v", sex, years, ok)
			}
		}
	}
	last := map[string]int{"friend-2015-treadmill": 79, "friend-2017-cycle": 79, "friend-2022-treadmill": 89, "friend-2022-cycle": 89}
	for id, oldest := range last {
		table, _ := AdultTable(id)
		for _, sex := range bothSexes {
			for years, want := range map[int]bool{17: false, 18: true, 19: true, 20: true, oldest: true, oldest + 1: false} {
				row, ok := table.Row(sex, years)
				if _, placed := row.Percentile(30); ok != want || placed != want {
					t.Errorf("%s for %s %d: row %v, percentile %v", id, sex, years, ok, placed)
				}
			}
		}
	}
}

// The medians of kaminsky2022 (RER of at least 1.10), and not those of the two tables
// that circulate under its name: a 2015 selection, and the global table of 2020, whose
// men of 70 to 79 have 30.8.
func TestMediansAreNoFalseCopies(t *testing.T) {
	for sex, want := range map[Sex][]VO2{Male: {45.4, 0, 0, 29.4}} {
		for i, median := range want {
			row, _ := DefaultAdults(false).Row(sex, 25+10*i)
			if median > 0 && row.Opens(Third) != median {
				t.Errorf("%s %s: %g, want %g", sex, row.Ages, float64(row.Opens(Third)), float64(median))
			}
		}
	}
	for i, wrong := range []VO2{44.8, 42.4, 39.4, 34.8, 30.9, 30.8} {
		if row, _ := DefaultAdults(false).Row(Male, 25+10*i); row.Opens(Third) == wrong {
			t.Errorf("men %s: the median %g is of another table", row.Ages, float64(wrong))
		}
	}
}

// Straight lines between printed percentiles, nothing beyond them.
func TestPercentileOf(t *testing.T) {
	points := []point{{5, 20}, {25, 30}, {50, 30}, {75, 40}, {95, 60}}
	for _, c := range []struct {
		x    float64
		want Percentile
	}{
		{19.99, Percentile{At: 5, Below: true}},
		{20, Percentile{At: 5}},
		{25, Percentile{At: 15}},
		{30, Percentile{At: 25}}, // printed at two percentiles: the lower
		{34, Percentile{At: 60}},
		{40, Percentile{At: 75}},
		{50, Percentile{At: 85}},
		{60, Percentile{At: 95}},
		{60.01, Percentile{At: 95, Above: true}},
	} {
		if got := percentileOf(points, c.x); got != c.want {
			t.Errorf("%g: %+v, want %+v", c.x, got, c.want)
		}
	}
	flat := []point{{5, 20}, {25, 20}, {50, 30}}
	if got := percentileOf(flat, 20); got != (Percentile{At: 25}) {
		t.Errorf("a row that begins flat: %+v", got)
	}
}

// A higher value never stands lower, over every row of every edition.
func TestPercentilesRise(t *testing.T) {
	for _, table := range friendTables {
		for _, row := range table.rows {
			last := -1.0
			for v := VO2(5); v < 80; v += 0.1 {
				p, _ := row.Percentile(v)
				if p.At < last {
					t.Fatalf("%s %s %s: %.1f stands at %g after %g", table.ID, row.Sex, row.Ages, float64(v), p.At, last)
				}
				last = p.At
			}
		}
	}
}

func TestRestingValue(t *testing.T) {
	for _, c := range []struct {
		percent, want float64
		ok            bool
	}{{2.5, 56, true}, {50, 74, true}, {97.5, 102, true}, {60, 0, false}} {
		if got, ok := RestingValue(Female, 25, c.percent); got != c.want || ok != c.ok {
			t.Errorf("percentile %g: %g, %v", c.percent, got, ok)
		}
	}
}

// Every table says what it is, in what unit, from where and how it was
// checked, and its numbers rise along each row.
func TestTablesAreWhole(t *testing.T) {
	ids := map[string]bool{}
	for _, table := range Tables() {
		if table.ID == "" || ids[table.ID] || table.Title == "" || table.Unit == "" || table.Source == "" || table.Status == "" {
			t.Errorf("%+v", table)
		}
		ids[table.ID] = true
		rows := table.Rows()
		if len(rows) < 2 {
			t.Fatalf("%s has no rows", table.ID)
		}
		records, _ := load(table.file)
		if len(records) != len(rows)-1 {
			t.Errorf("%s: %d records, %d rows printed", table.ID, len(records), len(rows)-1)
		}
		if table.ShownOnly {
			continue
		}
		spans := map[string][]Ages{}
		for _, r := range records {
			ages := r.ages()
			if ages.Min > ages.Max {
				t.Errorf("%s: ages %v", table.ID, ages)
			}
			part := r.sex().String() + r.fields["edition"] + r.fields["mode"] + r.fields["source"]
			if before := spans[part]; len(before) > 0 && before[len(before)-1].Max+1 != ages.Min {
				t.Errorf("%s %s: %v follows %v", table.ID, part, ages, before[len(before)-1])
			}
			spans[part] = append(spans[part], ages)
			last := 0.0
			for _, column := range rows[0] {
				if strings.HasPrefix(column, "p") || strings.HasPrefix(column, "met_") {
					if x := r.number(column); x < last {
						t.Errorf("%s %s %v: %s is %g after %g", table.ID, part, ages, column, x, last)
					} else {
						last = x
					}
				}
			}
		}
	}
}

// A damaged table stops the program at start.
func TestDamageStopsTheProgram(t *testing.T) {
	r := record{"test.csv", map[string]string{"sex": "X", "age_min": "many"}}
	for name, f := range map[string]func(){
		"no file":        func() { load("no-such-file.csv") },
		"no column":      func() { r.text("p50") },
		"not a number":   func() { r.number("age_min") },
		"not a sex":      func() { r.sex() },
		"rows of a file": func() { Table{file: "no-such-file.csv"}.Rows() },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: went on", name)
				}
			}()
			f()
		}()
	}
}

// Groups of women of 70 to 79: 5.0, 6.0, 7.0 and 10.0 MET (mandsager2018),
// reached from half a printed tenth below.
func TestGroup(t *testing.T) {
	row, _ := AdultGroups.Row(Female, 75)
	for _, c := range []struct {
		met  MET
		want Group
	}{{0, Lowest}, {4.9, Lowest}, {4.94, Lowest}, {4.96, Second}, {5, Second}, {5.9, Second}, {6, Third}, {7, Fourth}, {9.9, Fourth}, {10, Highest}, {20, Highest}} {
		if got := row.Group(c.met.VO2()); got != c.want {
			t.Errorf("%g MET: group %d, want %d", float64(c.met), got, c.want)
		}
	}
	for g, want := range map[Group]MET{Lowest: 0, Second: 5, Third: 6, Fourth: 7, Highest: 10} {
		if got := row.Opens(g); got != want.VO2() {
			t.Errorf("group %d opens at %g, want %g", g, float64(got), float64(want.VO2()))
		}
		if reach := row.Reaches(g); g > Lowest && (reach >= row.Opens(g) || row.Group(reach+1e-6) != g || row.Group(reach-0.001) != g-1) {
			t.Errorf("group %d is reached at %g", g, float64(reach))
		}
	}
}

// A table in mL/kg/min is compared as it is printed. Men of 40 to 49: fifths at
// 26.53, 30.43, 34.30 and 39.07 (almeida2019).
func TestFifths(t *testing.T) {
	table, ok := AdultTable("almeida-2019")
	if !ok {
		t.Fatal("no such table")
	}
	row, _ := table.Row(Male, 45)
	for _, c := range []struct {
		v    VO2
		want Group
	}{{26.52, 0}, {26.53, 1}, {30.42, 1}, {30.43, 2}, {34.29, 2}, {34.30, 3}, {39.06, 3}, {39.07, 4}} {
		if got := row.Group(c.v); got != c.want {
			t.Errorf("%g: %d, want %d", float64(c.v), got, c.want)
		}
	}
	if row.Reaches(4) != row.Opens(4) {
		t.Errorf("the top fifth opens at %g and is reached at %g", float64(row.Opens(4)), float64(row.Reaches(4)))
	}
}

func TestAdultTables(t *testing.T) {
	want := []string{"friend-2022-treadmill", "friend-2022-cycle", "friend-2015-treadmill", "friend-2017-cycle", "adult-groups", "almeida-2019", "nhanes-2001-2004"}
	var got []string
	for _, table := range AdultTables {
		got = append(got, table.ID)
		for _, sex := range bothSexes {
			for years, want := range map[int]bool{17: false, 18: true, 19: true, 20: true} {
				if _, ok := table.Row(sex, years); ok != want {
					t.Errorf("%s has a row for %s %d: %v", table.ID, sex, years, ok)
				}
			}
		}
		for _, name := range table.Names {
			if name == "" {
				t.Errorf("%s: a group without a name", table.ID)
			}
		}
		if found, ok := AdultTable(table.ID); !ok || found != table || table.Source == "" || table.Own {
			t.Errorf("%s: %+v", table.ID, table)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if _, ok := AdultTable("no-such-table"); ok {
		t.Error("a table that is not there")
	}
	// Groups open at the 25th, 50th, 75th and 95th percentile of the same table.
	for _, table := range friendTables {
		row, _ := table.Row(Male, 55)
		for g, percent := range map[Group]float64{Second: 25, Third: 50, Fourth: 75, Highest: 95} {
			if p, _ := row.Percentile(row.Opens(g)); p.At != percent {
				t.Errorf("%s: group %d opens at percentile %g, want %g", table.ID, g, p.At, percent)
			}
		}
	}
}

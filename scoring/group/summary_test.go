package group

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/reference"
)

const (
	f = scoring.Female
	m = scoring.Male
)

func TestSummarise(t *testing.T) {
	for _, c := range []struct {
		name     string
		people   []someone
		smallest int
		want     string
	}{
		{"nobody", nil, 5, `
too small: 18 and over
too small: under 18
too small: without a place in the tables`},
		{"four people", times(4, someone{group: "A", sex: f, age: 40, vo2: 30}), 5, `
too small: 18 and over
too small: under 18
too small: without a place in the tables`},
		{"three are enough where three may be shown", times(3, someone{sex: f, age: 40, vo2: 30, resting: 62}), 3, `
People
  18 and over: 3
  under 18: -
  without a place in the tables: -
  All: -
By sex, 18 and over
  female: 3 (100 %)
  All: 3 (100 %)
By age, 18 and over
  40–49: 3 (100 %)
  All: 3 (100 %)
Tests used, 18 and over
  Measured VO2max: 3 (100 %)
  All: 3 (100 %)
too small: under 18
too small: without a place in the tables
withheld: Fitness, 18 and over
withheld: Resting heart rate, 18 and over
withheld: By age and sex, 18 and over`},
		{"departments", all(
			times(6, someone{group: "Stores", sex: f, age: 25, vo2: 25, resting: 75}), times(6, someone{group: "Stores", sex: m, age: 35, vo2: 48, resting: 55}),
			times(7, someone{group: "Yard", sex: m, age: 45, vo2: 30, resting: 64}), times(6, someone{group: "yard ", sex: f, age: 55, vo2: 40}),
			times(4, someone{group: "Office", sex: f, age: 65, vo2: 40, resting: 64}), times(5, someone{group: "Office", sex: m, age: 65, vo2: 40, resting: 64}),
			times(1, someone{group: "Office", sex: m, age: 75, vo2: 20, resting: 64}), times(5, someone{group: "Office"}), times(2, someone{age: 30, vo2: 30})), 5, `
People
  18 and over: 35
  under 18: -
  without a place in the tables: 7
  All: -
By class or department, 18 and over
  Stores: 12 (34 %)
  Yard: 13 (37 %)
  Office: 10 (29 %)
  All: 35 (100 %)
By sex, 18 and over
  female: 16 (46 %)
  male: 19 (54 %)
  All: 35 (100 %)
By age, 18 and over
  18–29: 6 (17 %)
  30–39: 6 (17 %)
  40–49: 7 (20 %)
  50–59: 6 (17 %)
  60–79: 10 (29 %)
  All: 35 (100 %)
Tests used, 18 and over
  Measured VO2max: 35 (100 %)
  All: 35 (100 %)
Fitness, 18 and over
  lowest quarter: 6 (17 %)
  second quarter: 8 (23 %)
  third quarter, top quarter: 11 (31 %)
  top twentieth: 10 (29 %)
  All: 35 (100 %)
Resting heart rate, 18 and over
  not given: 6 (17 %)
  under 40, 40–59: 6 (17 %)
  60–69: 17 (49 %)
  70–80, above 80: 6 (17 %)
  All: 35 (100 %)
By class or department and sex, 18 and over
  Stores: female 6 (50 %) male 6 (50 %) All 12 (34 %)
  Yard, Office: female 10 (43 %) male 13 (57 %) All 23 (66 %)
  All: female 16 (46 %) male 19 (54 %) All 35 (100 %)
Fitness by class or department, 18 and over
  Stores: lowest quarter, second quarter 6 (50 %) third quarter, top quarter, top twentieth 6 (50 %) All 12 (34 %)
  Yard, Office: lowest quarter, second quarter 8 (35 %) third quarter, top quarter, top twentieth 15 (65 %) All 23 (66 %)
  All: lowest quarter, second quarter 14 (40 %) third quarter, top quarter, top twentieth 21 (60 %) All 35 (100 %)
By age and sex, 18 and over
  18–39: female 6 (50 %) male 6 (50 %) All 12 (34 %)
  40–79: female 10 (43 %) male 13 (57 %) All 23 (66 %)
  All: female 16 (46 %) male 19 (54 %) All 35 (100 %)
VO2max, 18 and over: All, n 35: 30 40 40
VO2max, 18 and over: Stores, n 12: - 37 -
VO2max, 18 and over: female, n 16: 25 - 40
VO2max, 18 and over: male, n 19: 30 - 48
resting rate, 18 and over: All, n 29: 64 64 64
too small: under 18
withheld: Why not, without a place in the tables`},
		{"classes of a school", all(
			times(8, someone{group: "7a", sex: m, age: 12, vo2: 50, resting: 70}), times(7, someone{group: "7a", sex: m, age: 12, vo2: 38, resting: 80}),
			times(6, someone{group: "7b", sex: m, age: 12, vo2: 52}), times(9, someone{group: "7b", sex: m, age: 13, vo2: 30}),
			times(6, someone{group: "7b", sex: m, age: 8})), 5, `
People
  18 and over: -
  under 18: 30
  without a place in the tables: 6
  All: -
By class or department, under 18
  7a: 15 (50 %)
  7b: 15 (50 %)
  All: 30 (100 %)
By sex, under 18
  male: 30 (100 %)
  All: 30 (100 %)
By age, under 18
  10–17: 30 (100 %)
  All: 30 (100 %)
Tests used, under 18
  Measured VO2max: 30 (100 %)
  All: 30 (100 %)
Fitness, under 18
  below the health line: 16 (53 %)
  at the health line or above: 14 (47 %)
  All: 30 (100 %)
Fitness by class or department, under 18
  7a: below the health line 7 (47 %) at the health line or above 8 (53 %) All 15 (50 %)
  7b: below the health line 9 (60 %) at the health line or above 6 (40 %) All 15 (50 %)
  All: below the health line 16 (53 %) at the health line or above 14 (47 %) All 30 (100 %)
Why not, without a place in the tables
  no test result: 6 (100 %)
  All: 6 (100 %)
VO2max, under 18: All, n 30: 30 38 50
VO2max, under 18: 7a, n 15: 38 50 50
VO2max, under 18: 7b, n 15: 30 30 52
resting rate, under 18: All, n 15: 70 70 80
too small: 18 and over
withheld: By class or department and sex, under 18
withheld: By age and sex, under 18`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, want := strings.TrimSpace(text(summarise(t, c.people, c.smallest))), strings.TrimSpace(c.want)
			if got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

func TestSmallestIsLimited(t *testing.T) {
	for _, smallest := range []int{-1, 0, 1, 2} {
		if _, err := Summarise(nil, smallest); err == nil || !strings.Contains(err.Error(), "use 3 or more") {
			t.Errorf("%d: %v", smallest, err)
		}
	}
	if s, err := Summarise(nil, LeastSmallest); err != nil || s.Smallest != LeastSmallest {
		t.Errorf("%d, %v", s.Smallest, err)
	}
}

// TestPeopleTotal holds when the number of everyone may be printed.
func TestPeopleTotal(t *testing.T) {
	adult, pupil, other := someone{sex: f, age: 40, vo2: 30}, someone{sex: f, age: 12, vo2: 30}, someone{}
	for _, c := range []struct {
		adults, pupils, others int
		want                   string
	}{
		{6, 7, 8, "6 7 8 21"},
		{6, 0, 0, "6 - - -"},
		{6, 4, 0, "6 - - -"},
		{6, 7, 4, "6 7 - -"},
		{6, 3, 2, "6 - - 11"}, // 5 are hidden; any of the two may be nobody or all
		{6, 3, 1, "6 - - -"},
	} {
		s := summarise(t, all(times(c.adults, adult), times(c.pupils, pupil), times(c.others, other)), 5)
		var got []string
		for _, row := range s.Tables[0].Cells {
			if row[0].HasShare != (s.Tables[0].Cells[3][0].Shown && row[0].Shown) {
				t.Errorf("%v: a share without its total", c)
			}
			text, _, _ := strings.Cut(cellText(row[0]), " ")
			got = append(got, text)
		}
		if s.Tables[0].ID != PeopleTable || strings.Join(got, " ") != c.want {
			t.Errorf("%v: %v", c, got)
		}
	}
}

func TestReasons(t *testing.T) {
	walk := someone{sex: f, age: 40, test: "walk-1-mile 900"}
	for _, c := range []struct {
		name string
		who  Member
		want Reason
	}{
		{"nothing read", Member{}, NoResult},
		{"an empty score", Member{Score: &scoring.Score{}}, NoResult},
		{"nothing read, and the caller knows why", Member{LeftOut: Unreadable}, Unreadable},
		{"a reason that is none", Member{LeftOut: 200}, NoResult},
		{"no test", someone{sex: f, age: 40}.member(), NoResult},
		{"no pulse for the walk", walk.member(), ValueMissing},
		{"for adults", someone{sex: f, age: 12, test: "run-1.5-mile 800"}.member(), NotUsable},
		{"not to be believed", someone{sex: f, age: 30, test: "run-1.5-mile 300"}.member(), NotUsable},
		{"norms of its own", someone{sex: f, age: 70, test: "step-in-place-2-min 90"}.member(), OwnNorms},
		{"no age", someone{sex: f, vo2: 30}.member(), AgeMissing},
		{"no sex", someone{age: 40, vo2: 30}.member(), SexMissing},
		{"no sex, a pupil", someone{age: 12, vo2: 30}.member(), SexMissing},
		{"too young for a line", someone{sex: f, age: 6, vo2: 40}.member(), NoTable},
		{"scored whatever the caller says", someone{sex: f, age: 40, vo2: 30, leftOut: Unreadable}.member(), Unstated},
	} {
		if got := personOf(c.who); got.reason != c.want || (got.part == Unplaced) != (c.want != Unstated) {
			t.Errorf("%s: %s, want %s", c.name, reasonIDs[got.reason], reasonIDs[c.want])
		}
	}
}

func TestGroupNames(t *testing.T) {
	var r roll
	for _, c := range []struct {
		name string
		want int
	}{
		{"Stores", 0}, {" stores", 0}, {"STO RES", 0}, {"Stores\u00a0", 0}, {"", noGroup}, {" \t", noGroup},
		{"5 b", 1}, {"5B", 1}, {"1 1", 2}, {"11", 3}, {"1  1", 2}, {"Stra\u00dfe", 4}, {"STRASSE", 4},
		{"Caf\u00e9", 5}, {"Cafe\u0301", 5}, {"a\xffb", 6},
	} {
		if got := r.place(c.name); got != c.want {
			t.Errorf("%q is at %d, want %d", c.name, got, c.want)
		}
	}
	if r.labels[1].Text != "5 b" || r.labels[1].Key != "group-2" {
		t.Errorf("%+v", r.labels[1])
	}
}

// TestQuartiles holds quartiles to those of spreadsheets: QUARTILE.INC(1;2;3;4)
// is 1.75, 2.5 and 3.25 there, QUARTILE.INC(1..9) 3, 5 and 7, as that function
// is documented. Here they are a hundred times as large, to see the decimals.
func TestQuartiles(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   [3]float64
	}{
		{[]float64{400, 100, 300, 200}, [3]float64{175, 250, 325}},
		{[]float64{100, 200, 300, 400, 500, 600, 700, 800, 900}, [3]float64{300, 500, 700}},
		{[]float64{100, 200, 400, 700, 800, 1000}, [3]float64{250, 550, 775}},
		{[]float64{700}, [3]float64{700, 700, 700}},
		{[]float64{37.4, 37.4}, [3]float64{37, 37, 37}}, // whole units
	} {
		var samples []sample
		for _, x := range c.values {
			samples = append(samples, sample{value: x})
		}
		s := newSet(samples, nil, nil)
		for q := 1; q <= 3; q++ {
			if got := s.quartile(q); got.Amount != c.want[q-1] || !got.Shown {
				t.Errorf("quartile %d of %v is %v, want %v", q, c.values, got, c.want[q-1])
			}
		}
	}
}

// TestFigures holds when a figure is left out, for boys with one line at 41.8.
func TestFigures(t *testing.T) {
	boys := func(n, vo2 int) []someone { return times(n, someone{sex: m, age: 12, vo2: vo2}) }
	for _, c := range []struct {
		name     string
		people   []someone
		smallest int
		want     string // quartiles and median; empty if there is no figure
	}{
		{"both sides printed", all(boys(10, 30), boys(10, 50)), 5, "30 40 50"},
		{"too few for quartiles", all(boys(3, 30), boys(3, 50)), 3, "- 40 -"},
		{"enough for quartiles", all(boys(4, 30), boys(4, 50)), 3, "30 40 50"},
		{"enough in general, but not for this smallest", all(boys(5, 30), boys(4, 50)), 4, "30 30 50"},
		{"all on one side, so that five may be below", boys(20, 50), 5, "50 50 50"},
		{"all on one side, and a quartile would leave three", boys(12, 50), 5, "- 50 50"},
		{"all on one side, and the median would leave four", boys(9, 50), 5, ""},
		{"three below of twenty", all(boys(3, 30), boys(17, 50)), 5, "50 50 50"},
		{"too few", boys(4, 50), 5, ""},
	} {
		s := summarise(t, c.people, c.smallest)
		got := ""
		for _, figure := range s.Figures {
			got = strings.Join([]string{valueText(figure.LowerQuartile), valueText(figure.Median), valueText(figure.UpperQuartile)}, " ")
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestSplitKeepsTheRule(t *testing.T) {
	for _, c := range []struct {
		counts []int
		listed bool
		want   string
	}{
		{[]int{4, 10, 10}, true, "0-2 2-3"},
		{[]int{10, 10, 4}, true, "0-1 1-3"},
		{[]int{5, 5, 5, 5}, true, "0-1 1-2 2-3 3-4"},
		{[]int{2, 3, 9}, true, "0-3"}, // each of the first two would have at most 4
		{[]int{2, 3, 9}, false, "0-2 2-3"},
		{[]int{2, 4, 9}, true, "0-2 2-3"},
		{[]int{0, 12}, false, "0-2"},
		{[]int{12}, true, "0-1"},
		{[]int{1, 1, 1, 1, 1, 1}, true, "0-6"},
	} {
		var s sorted
		for _, n := range c.counts {
			s.categories = append(s.categories, category{count: n, listed: c.listed})
		}
		got := ""
		for _, cut := range split(0, len(c.counts), s.cut(5)) {
			got += " " + string(rune('0'+cut[0])) + "-" + string(rune('0'+cut[1]))
		}
		if got[1:] != c.want {
			t.Errorf("%v, listed %v: %s, want %s", c.counts, c.listed, got[1:], c.want)
		}
	}
}

func TestLabels(t *testing.T) {
	age := func(from, to int) Label { return agesLabel(reference.Ages{Min: from, Max: to}) }
	for _, c := range []struct {
		labels    []Label
		key, text string
		of        int
	}{
		{[]Label{{Key: "a", Text: "A"}}, "a", "A", 0},
		{[]Label{{Key: "a", Text: "A"}, {Key: "b", Text: "B"}}, "a+b", "A, B", 2},
		{[]Label{{Key: "a+b", Text: "A, B", Of: []string{"a", "b"}, Texts: []string{"A", "B"}}, {Key: "c", Text: "C"}}, "a+b+c", "A, B, C", 3},
		{[]Label{age(30, 39), age(40, 49)}, "ages-30-49", "30–49", 2},
		{[]Label{age(60, 69), age(80, 120)}, "ages-60-120", "60 and over", 2},
	} {
		if got := joint(c.labels); got.Key != c.key || textOf(got) != c.text || len(got.Of) != c.of || len(got.Texts) != c.of {
			t.Errorf("%+v", got)
		}
	}
}

// TestWordsAreComplete holds that nothing is without a name.
func TestWordsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	once := func(s string) {
		if s == "" || seen[s] {
			t.Errorf("%q is empty or there twice", s)
		}
		seen[s] = true
	}
	for id := range tableCount {
		once(id.String())
		table := Table{ID: id, Part: Youth}
		if got := table.Title(); strings.HasSuffix(got, "under 18") == (id == PeopleTable) {
			t.Errorf("title %q", got)
		}
	}
	for r := range reasonCount {
		once(reasonIDs[r])
	}
	for p := range partCount {
		once(partNames[p])
		once(partKeys[p])
	}
	for _, l := range restingBands {
		once(l.Key)
	}
	if VO2max.Unit() != scoring.MLPerKgMin || RestingRate.Unit() != scoring.BeatsPerMinute {
		t.Error("units")
	}
}

// TestBandsOfRestingRate holds our lines to those of scoring, which does not
// give them away.
func TestBandsOfRestingRate(t *testing.T) {
	for band, line := range restingLines {
		below, at := someone{sex: f, age: 40, vo2: 30, resting: int(line) - 1}, someone{sex: f, age: 40, vo2: 30, resting: int(line)}
		if band == len(restingLines)-1 {
			below.resting, at.resting = int(line), int(line)+1 // "above 80"
		}
		if got := below.member().Score.Resting.Band; int(got) != band {
			t.Errorf("%d is in band %d", below.resting, got)
		}
		if got := at.member().Score.Resting.Band; int(got) != band+1 {
			t.Errorf("%d is in band %d", at.resting, got)
		}
	}
}

// TestOrderOfMembers holds that only the order of groups comes from theirs.
func TestOrderOfMembers(t *testing.T) {
	people := all(times(9, someone{group: "A", sex: f, age: 40, vo2: 30}), times(9, someone{group: "B", sex: m, age: 50, vo2: 40}))
	want := text(summarise(t, people, 5))
	people = append(people[:1:1], append(slices.Clone(people[9:]), people[1:9]...)...)
	if got := text(summarise(t, people, 5)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestShares(t *testing.T) {
	s := summarise(t, all(times(6, someone{group: "A", sex: f, age: 40, vo2: 20}), times(6, someone{group: "A", sex: m, age: 50, vo2: 40}),
		times(6, someone{group: "B", sex: f, age: 40, vo2: 20}), times(12, someone{group: "B", sex: m, age: 50, vo2: 40})), 5)
	for _, table := range s.Tables {
		if table.ID != GroupBySex {
			continue
		}
		want := [][]float64{{6. / 12, 6. / 12, 12. / 30}, {6. / 18, 12. / 18, 18. / 30}, {12. / 30, 18. / 30, 1}}
		for i, row := range table.Cells {
			for j, c := range row {
				if !c.HasShare || math.Abs(c.Share-want[i][j]) > 1e-12 {
					t.Errorf("row %d, column %d: %+v, want a share of %.4f", i, j, c, want[i][j])
				}
			}
		}
		return
	}
	t.Error("no table by group and sex")
}

package pdfreport

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// recordingOf is a recording of a test with its result and what else it takes
// as columns.
func recordingOf(t testing.TB, id string) Recording {
	t.Helper()
	test, ok := fieldtests.ByID(id)
	if !ok {
		t.Fatalf("no test %s", id)
	}
	r := Recording{Test: test, Words: english, Program: "tenback test"}
	add := func(header string, in scoring.Input) {
		if !slices.ContainsFunc(r.Columns, func(c RecordingColumn) bool { return c.Input == in }) {
			r.Columns = append(r.Columns, RecordingColumn{header, in})
		}
	}
	add(test.Results[0].Column, test.Results[0].Input)
	for _, a := range test.Also {
		add(a.Column, a.Input)
	}
	var personal []scoring.Input
	for _, in := range test.Needs() {
		switch {
		case in == scoring.BodyMass || in == scoring.Stature || in == scoring.RestingHR:
			personal = append(personal, in)
		case !in.Info().Personal:
			add(in.Info().Name, in)
		}
	}
	for _, in := range personal {
		add(in.Info().Name, in)
	}
	return r
}

// crowd is people in groups of eleven, with every tenth name very long.
func crowd(n int) []Listed {
	var all []Listed
	for i := range n {
		l := Listed{Name: fmt.Sprintf("Person %d Example", i+1), ID: fmt.Sprint(1000 + i), Group: fmt.Sprintf("Group %c", 'A'+i/11%26),
			Sheet: "People", Row: i + 2, Known: &scoring.Entry{}}
		if i%10 == 3 {
			l.Name = strings.Repeat("Long Name-of-Person ", 4)
		}
		all = append(all, l)
	}
	return all
}

func recordingPDF(t testing.TB, r Recording) ([]byte, Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := WriteRecording(&out, r)
	if err != nil {
		t.Fatalf("%s: %v", r.Test.ID, err)
	}
	return out.Bytes(), report
}

func planPDF(t testing.TB, d DayPlan) ([]byte, Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := WriteDayPlan(&out, d)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), report
}

// recordable are the tests with sheets.
func recordable() []*scoring.Test {
	return slices.DeleteFunc(slices.Clone(fieldtests.All()), func(t *scoring.Test) bool { return !Recordable(t) })
}

// TestEveryTestHasSheets: all tests but the laboratory's and the one without
// any exercise can be printed.
func TestEveryTestHasSheets(t *testing.T) {
	for _, test := range fieldtests.All() {
		if want := !test.Fallback && test != fieldtests.Measured; Recordable(test) != want {
			t.Errorf("%s: recordable %v, want %v", test.ID, !want, want)
		}
	}
	if len(recordable()) != len(dayTests) {
		t.Errorf("%d tests can be recorded, %d are declared", len(recordable()), len(dayTests))
	}
}

// TestDayTestsAgreeWithProtocols: lengths and cadences for the tables are those
// that the test's own protocol gives.
func TestDayTestsAgreeWithProtocols(t *testing.T) {
	counts := map[countForm]string{count10: `ten[- ]second|ten seconds`, count15: `second 5 to second 20.*multiply by 4`, count30: `30 seconds.*twice the count`}
	for _, test := range recordable() {
		d := dayTests[test.ID]
		protocol := strings.Join(test.Protocol, " ")
		holds := func(what, pattern string) {
			if !regexp.MustCompile(pattern).MatchString(protocol) {
				t.Errorf("%s: the protocol does not have %s (%s)", test.ID, what, pattern)
			}
		}
		if d.course > 0 {
			holds("the length", fmt.Sprintf(`\b%.0f m\b`, d.course))
			if laps := int(d.course / lapLength); laps != d.laps {
				t.Errorf("%s: %d laps to cross out, the course has %d", test.ID, d.laps, laps)
			}
		}
		if pattern, ok := counts[d.count]; ok {
			holds("the pulse count", pattern)
		}
		if len(d.cadence) < 3 { // those of a set cadence
			for _, cycles := range d.cadence {
				holds("the cadence", fmt.Sprintf(`\b%d\b`, cycles))
				holds("the metronome", fmt.Sprintf(`\b%d\b`, cycles*beatsInCycle))
			}
		}
	}
}

// TestRecordingGolden compares the text read back out of the sheets with files
// that were reviewed by eye.
func TestRecordingGolden(t *testing.T) {
	people := crowd(4)
	people[2].Known.Set(scoring.BodyMass, scoring.Q(60, scoring.Kilograms), "")
	golden := map[string][]byte{}
	for _, id := range []string{"run-1.5-mile", "run-12-minute", "walk-1-mile", "shuttle-20-m", "step-41-cm", "step-stage", "treadmill-stage"} {
		r := recordingOf(t, id)
		r.People = people
		golden["sheets-"+id], _ = recordingPDF(t, r)
	}
	r := recordingOf(t, "shuttle-20-m")
	r.Blank, r.ShuttleStart = 2, 8.5
	golden["sheets-blank-85"], _ = recordingPDF(t, r)
	golden["day-plan"], _ = planPDF(t, DayPlan{Tests: recordable(), People: 31, Words: english, Program: "tenback test"})
	for name, pdf := range golden {
		t.Run(name, func(t *testing.T) {
			compareGolden(t, filepath.Join("testdata", name+".golden"), dump(extract(t, pdf)))
		})
	}
}

func compareGolden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("text differs from %s (run with -update and look at the difference):\n%s", file, firstDifference(got, string(want)))
	}
}

// TestRecordingInsideMargins: whatever the test, the paper and the number of
// people, no text leaves the type area, and everybody is there once, in order.
func TestRecordingInsideMargins(t *testing.T) {
	for _, test := range recordable() {
		for _, paper := range []Paper{A4, Letter} {
			for _, n := range []int{1, 31, 400} {
				if n == 400 && paper == Letter {
					continue
				}
				r := recordingOf(t, test.ID)
				r.People, r.Paper = crowd(n), paper
				pdf, report := recordingPDF(t, r)
				checkInside(t, fmt.Sprintf("%s, %s, %d people", test.ID, paper, n), pdf, paper, report.Pages)
				var rows []string
				for _, op := range extract(t, pdf) {
					if op.size == 9 && op.x < dayMargin+askedLeast+rowLeast && !strings.Contains(op.text, ".") {
						rows = append(rows, op.text)
					}
				}
				// The levels of the lap cards are set in the same size and come last.
				if len(rows) < n || rows[0] != "2" || rows[n-1] != fmt.Sprint(n+1) {
					t.Errorf("%s, %s: rows %v for %d people", test.ID, paper, rows[:min(len(rows), 5)], n)
				}
			}
			r := recordingOf(t, test.ID)
			r.Blank, r.Paper = 31, paper
			pdf, report := recordingPDF(t, r)
			checkInside(t, test.ID+", blank", pdf, paper, report.Pages)
		}
	}
}

// checkInside holds the text of each page to its type area. Which side of the
// paper is up is told by where the page number at the right ends.
func checkInside(t *testing.T, what string, pdf []byte, paper Paper, pages int) {
	t.Helper()
	width, height := paper.size()
	ops := extract(t, pdf)
	endOf := func(op textOp) float64 { return op.x + textWidth(op.text, regular)*op.size }
	rights := map[int]float64{}
	for _, op := range ops {
		if strings.HasPrefix(op.text, "Page ") {
			rights[op.page] = endOf(op)
		}
	}
	if len(rights) != pages {
		t.Errorf("%s: %d page numbers on %d pages", what, len(rights), pages)
	}
	for page, right := range rights {
		if w := right + dayMargin; math.Abs(w-width) > 1 && math.Abs(w-height) > 1 {
			t.Errorf("%s, page %d: the page number ends at %.0f", what, page, right)
		}
	}
	for _, op := range ops {
		tall := height
		if rights[op.page] > width {
			tall = width
		}
		if op.x < dayMargin-1 || endOf(op) > rights[op.page]+1 || op.y < 12 || op.y > tall-dayTop {
			t.Errorf("%s, page %d: %q at %.0f..%.0f, %.0f", what, op.page, op.text, op.x, endOf(op), op.y)
		}
	}
}

// TestDayPlanIsOnePage whatever is tested and how many come.
func TestDayPlanIsOnePage(t *testing.T) {
	for _, tests := range [][]*scoring.Test{recordable(), recordable()[:1]} {
		for _, paper := range []Paper{A4, Letter} {
			for _, n := range []int{1, 31, 400} {
				pdf, report := planPDF(t, DayPlan{Tests: tests, People: n, Paper: paper, Words: english, Program: "tenback test"})
				if report.Pages != 1 {
					t.Errorf("%d tests, %s, %d people: %d pages", len(tests), paper, n, report.Pages)
				}
				checkInside(t, "plan", pdf, paper, 1)
			}
		}
	}
}

// TestNeeds: what a test takes, by the declared rule of thumb.
func TestNeeds(t *testing.T) {
	shuttle := dayTest{atOnce: 12, minutes: 20, perHelper: 4, perStation: 1}
	bench := dayTest{atOnce: 12, minutes: 12, perHelper: 3, perStation: 3}
	track := dayTest{atOnce: 15, minutes: 35, perHelper: 5}
	for _, tt := range []struct {
		name   string
		d      dayTest
		people int
		want   need
	}{
		{"one person", shuttle, 1, need{1, 1, 35, 1, 1}},
		{"a full wave", shuttle, 12, need{12, 1, 35, 3, 12}},
		{"one more", shuttle, 13, need{12, 2, 55, 3, 12}},
		{"benches shared", bench, 31, need{12, 3, 51, 4, 4}},
		{"few at benches", bench, 4, need{4, 1, 27, 2, 2}},
		{"one track", track, 400, need{15, 27, 960, 3, 1}},
	} {
		if got := tt.d.needFor(tt.people); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

// TestLevelTable: clock and sums of the table by hand for the first levels.
// 8.0 km/h: 7 shuttles of 9.00 s end at 63 s; 8 of 8.00 s at 127 s. 8.5 km/h:
// 7 of 8.47 s end at 59.3 s.
func TestLevelTable(t *testing.T) {
	for start, want := range map[float64][]string{
		8.0: {"1 8.0 7 7 9.00 1:03", "2 9.0 8 15 8.00 2:07", "21 18.5 16 247 3.89"},
		8.5: {"1 8.5 7 7 8.47 0:59", "2 9.0 8 15 8.00 2:03", "worked out here"},
	} {
		r := recordingOf(t, shuttle1Minute)
		r.Blank, r.ShuttleStart = 1, start
		pdf, _ := recordingPDF(t, r)
		text := dump(extract(t, pdf))
		for _, line := range want {
			if !strings.Contains(text, line) {
				t.Errorf("start %.1f: the sheets lack %q", start, line)
			}
		}
	}
}

// TestEvenPace: the last lap's passing time and the rest of the course make the
// finish time.
func TestEvenPace(t *testing.T) {
	r := recordingOf(t, "run-1.5-mile")
	r.Blank = 1
	pdf, _ := recordingPDF(t, r)
	// 12:00 for 2414 m is 119.3 s for 400 m; 2400 m after 715.8 s.
	if text := dump(extract(t, pdf)); !strings.Contains(text, "12:00 1:59 3:59 5:58 7:57 9:57 11:56") {
		t.Error("the pace for 12:00 is not as worked out by hand")
	}
}

func TestSections(t *testing.T) {
	person := func(sheet, group string) Listed { return Listed{Name: "x", Sheet: sheet, Group: group} }
	big := make([]Listed, groupOnOwnPage)
	for i := range big {
		big[i] = person("S", "big")
	}
	for _, tt := range []struct {
		name   string
		people []Listed
		want   []section // people left out
	}{
		{"one list", []Listed{person("S", ""), person("S", "")}, []section{{newPage: true}}},
		{"small groups follow on", []Listed{person("S", "a"), person("S", "b")}, []section{{heading: "a", newPage: true}, {heading: "b"}}},
		{"a large group begins a page", append([]Listed{person("S", "a")}, big...), []section{{heading: "a", newPage: true}, {heading: "big", newPage: true}}},
		{"groups that alternate", []Listed{person("S", "a"), person("S", "b"), person("S", "a")}, []section{{newPage: true, mixed: true}}},
		{"sheets", []Listed{person("S", "a"), person("T", "T")}, []section{{heading: "S · a", newPage: true}, {heading: "T", newPage: true}}},
	} {
		r := recordingOf(t, "race")
		r.People = tt.people
		q := list{newColumns(&recording{papers: newPapers(A4, english, "", options{}), Recording: r})}
		got := q.sections()
		if len(got) != len(tt.want) {
			t.Errorf("%s: %d sections, want %d", tt.name, len(got), len(tt.want))
			continue
		}
		for i, s := range got {
			w := tt.want[i]
			if s.heading != w.heading || s.newPage != w.newPage || s.mixed != w.mixed {
				t.Errorf("%s: section %d is %q, new page %v, mixed %v", tt.name, i, s.heading, s.newPage, s.mixed)
			}
		}
	}
}

// TestListNames: letters of any script, marks, long names and namesakes.
func TestListNames(t *testing.T) {
	r := recordingOf(t, "race")
	r.People = []Listed{{Name: "Łukasz Żółć", Row: 2}, {Name: "Ελένη", Row: 3}, {Name: "Їжакевич", Row: 4}, {Name: "Nguyễn", Row: 5}, {Name: "**王**", Row: 6},
		{Name: "Kim Lee", ID: "07", Row: 7}, {Name: "Kim Lee", ID: "08", Row: 8}, {ID: "only-id", Row: 9},
		{Name: strings.Repeat("Unbroken", 10), Row: 10}, {Name: strings.Repeat("Wide ", 400), Row: 11}}
	pdf, report := recordingPDF(t, r)
	text := dump(extract(t, pdf))
	for _, want := range []string{"Łukasz Żółć", "Ελένη", "Їжакевич", "Nguyễn", "**□**", "Kim Lee (07)", "Kim Lee (08)", "only-id", "Wide…"} {
		if !strings.Contains(strings.Join(strings.Fields(text), ""), strings.Join(strings.Fields(want), "")) {
			t.Errorf("the list lacks %q", want)
		}
	}
	if !strings.Contains(strings.Join(strings.Fields(text), ""), strings.Repeat("Unbroken", 10)) {
		t.Error("a name of 80 letters is cut")
	}
	if !slices.Equal(report.Replaced, []rune{'王'}) {
		t.Errorf("replaced %q", report.Replaced)
	}
}

// TestNamesFitTheirLines: however long a name, it stays between the rules.
func TestNamesFitTheirLines(t *testing.T) {
	q := list{newColumns(&recording{papers: newPapers(A4, english, "", options{}), Recording: recordingOf(t, "race")})}
	for n := 1; n <= 600; n += 7 {
		for _, group := range []string{"", "Group"} {
			for _, name := range []string{strings.Repeat("W", n), strings.Repeat("Ann ", n)} {
				if h := q.nameLines(q.clean(name), group).height; h > writeHeight-1 {
					t.Errorf("%d letters, group %q: %.1f high in a line of %.1f", len(name), group, h, writeHeight)
				}
			}
		}
	}
}

// TestKnownIsNotAsked: no room is given to what the roster has of everybody,
// and no known value is printed.
func TestKnownIsNotAsked(t *testing.T) {
	r := recordingOf(t, "walk-1-mile")
	r.People = crowd(2)
	has := func() bool {
		pdf, _ := recordingPDF(t, r)
		return strings.Contains(strings.Join(strings.Fields(dump(extract(t, pdf))), " "), "If the roster lacks it")
	}
	if !has() {
		t.Error("body mass is lacking and not asked for")
	}
	for _, l := range r.People {
		l.Known.Set(scoring.BodyMass, scoring.Q(61.75, scoring.Kilograms), "")
	}
	if has() {
		t.Error("body mass is asked for though it is known")
	}
	pdf, _ := recordingPDF(t, r)
	if strings.Contains(dump(extract(t, pdf)), "61.75") {
		t.Error("a known body mass is printed")
	}
}

func TestRecordingErrors(t *testing.T) {
	measured := Recording{Test: fieldtests.Measured, Blank: 3, Words: english}
	nobody := recordingOf(t, "race")
	for _, tt := range []struct {
		r    Recording
		want error
	}{{measured, ErrNotRecordable}, {Recording{Words: english, Blank: 1}, ErrNotRecordable}, {nobody, ErrNobodyListed}} {
		if _, err := WriteRecording(io.Discard, tt.r); !errors.Is(err, tt.want) {
			t.Errorf("error %v, want %v", err, tt.want)
		}
	}
	if _, err := WriteDayPlan(io.Discard, DayPlan{Words: english}); !errors.Is(err, ErrNobodyListed) {
		t.Errorf("error %v, want %v", err, ErrNobodyListed)
	}
	if _, err := WriteDayPlan(io.Discard, DayPlan{Words: english, People: 1, Tests: []*scoring.Test{fieldtests.Measured}}); !errors.Is(err, ErrNotRecordable) {
		t.Errorf("error %v, want %v", err, ErrNotRecordable)
	}
	r := recordingOf(t, "race")
	r.Blank = 1
	if _, err := WriteRecording(brokenPipe{}, r); !errors.Is(err, errBroken) {
		t.Errorf("error %v, want %v", err, errBroken)
	}
}

func TestRecordingSameBytes(t *testing.T) {
	for _, test := range recordable() {
		r := recordingOf(t, test.ID)
		r.People = crowd(5)
		first, _ := recordingPDF(t, r)
		if again, _ := recordingPDF(t, r); !bytes.Equal(first, again) {
			t.Errorf("%s: the bytes differ between runs", test.ID)
		}
	}
}

// TestEveryDayWordIsSaid holds the words of the day's papers to what is printed,
// to the fonts, and to the reading level of the pages for people.
func TestEveryDayWordIsSaid(t *testing.T) {
	said := map[string]bool{}
	var sentences []string
	o := options{compress: true, said: func(key, text string) {
		said[key] = true
		for _, r := range text {
			if _, ok := fonts().glyphs[r]; !ok && r != '\n' {
				t.Errorf("%s: no font has %q", key, r)
			}
		}
		if strings.ContainsAny(text, ".”") && len(text) > 40 && !slices.Contains(sentences, text) {
			sentences = append(sentences, text)
		}
	}}
	for _, test := range recordable() {
		for _, people := range [][]Listed{nil, crowd(60)} {
			for _, start := range []float64{8.0, 8.5} {
				r := recordingOf(t, test.ID)
				r.People, r.Blank, r.ShuttleStart = people, 2, start
				if _, err := writeRecording(io.Discard, r, o); err != nil {
					t.Fatalf("%s: %v", test.ID, err)
				}
			}
		}
	}
	for _, n := range []int{1, 400} {
		if _, err := writeDayPlan(io.Discard, DayPlan{Tests: recordable(), People: n, Words: english}, o); err != nil {
			t.Fatal(err)
		}
	}
	for _, key := range english.Keys() {
		if strings.HasPrefix(key, "day.") && !said[key] {
			t.Errorf("no sheet says %q", key)
		}
	}
	const gradeMost = 8.0
	if grade := gradeOf(strings.Join(sentences, "\n")); grade > gradeMost {
		t.Errorf("the words are at grade %.1f, at most %.0f", grade, gradeMost)
	}
}

func FuzzWriteRecording(f *testing.F) {
	f.Add("Kim Sample", "7C", "People", 1)
	f.Add("\U0001F3C3\u200d", "a\x00b\u202e", "((\\", 40)
	f.Add("**x", "", "", 9)
	base := recordingOf(f, shuttle1Minute)
	f.Fuzz(func(t *testing.T, name, group, sheet string, n int) {
		r := base
		for i := range 1 + (n%9+9)%9 {
			r.People = append(r.People, Listed{Name: name, ID: group, Group: group, Sheet: sheet, Row: i})
		}
		var out bytes.Buffer
		if _, err := WriteRecording(&out, r); err != nil {
			t.Fatal(err)
		}
		extract(t, out.Bytes())
	})
}

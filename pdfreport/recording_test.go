package pdfreport_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// recordingOf returns a recording of a test with columns for its result and
// inputs.
func recordingOf(t testing.TB, id string) testday.Recording {
	t.Helper()
	test, ok := fieldtests.ByID(id)
	if !ok {
		t.Fatalf("no test %s", id)
	}
	r := testday.Recording{Test: test, Words: english, Program: "tenback test"}
	add := func(header string, in scoring.Input) {
		if !slices.ContainsFunc(r.Columns, func(c testday.Column) bool { return c.Input == in }) {
			r.Columns = append(r.Columns, testday.Column{Header: header, Input: in})
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

// crowd returns people in groups of eleven, with some very long names.
func crowd(n int) []testday.Listed {
	var all []testday.Listed
	for i := range n {
		l := testday.Listed{Name: fmt.Sprintf("Person %d Example", i+1), ID: fmt.Sprint(1000 + i), Group: fmt.Sprintf("Group %c", 'A'+i/11%26),
			Sheet: "People", Row: i + 2, Known: &scoring.Entry{}}
		if i%10 == 3 {
			l.Name = strings.Repeat("Long Name-of-Person ", 4)
		}
		all = append(all, l)
	}
	return all
}

func recordingPDF(t testing.TB, r testday.Recording) ([]byte, kit.Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := testday.WriteRecording(&out, r)
	if err != nil {
		t.Fatalf("%s: %v", r.Test.ID, err)
	}
	return out.Bytes(), report
}

func planPDF(t testing.TB, d testday.Plan) ([]byte, kit.Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := testday.WritePlan(&out, d)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), report
}

// recordable returns the tests with sheets.
func recordable() []*scoring.Test {
	return slices.DeleteFunc(slices.Clone(fieldtests.All()), func(t *scoring.Test) bool { return !testday.Recordable(t) })
}

// TestRecordingGolden compares the text of sheets with reviewed files.
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
	var planned []*scoring.Test
	for _, id := range strings.Fields("run-1.5-mile run-12-minute run-1-mile jog-1-mile race walk-1-mile walk-2-km walk-6-minute shuttle-20-m " +
		"shuttle-20-m-2-min step-41-cm step-30-cm step-20-cm step-stage cycle-stage treadmill-stage step-in-place-2-min") {
		planned = append(planned, recordingOf(t, id).Test)
	}
	golden["day-plan"], _ = planPDF(t, testday.Plan{Tests: planned, People: 31, Words: english, Program: "tenback test"})
	for name, pdf := range golden {
		t.Run(name, func(t *testing.T) {
			compareGolden(t, name, pdf)
		})
	}
}

// TestRecordingInsideMargins: no text leaves the type area, and everyone is there
// once, in order.
func TestRecordingInsideMargins(t *testing.T) {
	for _, test := range recordable() {
		for _, paper := range []kit.Paper{kit.A4, kit.Letter} {
			for _, n := range []int{1, 31, 120} {
				if n == 120 && paper == kit.Letter {
					continue
				}
				r := recordingOf(t, test.ID)
				r.People, r.Paper = crowd(n), paper
				pdf, report := recordingPDF(t, r)
				checkInside(t, fmt.Sprintf("%s, %s, %d people", test.ID, paper, n), pdf, paper, report.Pages)
				var rows []string
				for _, op := range extract(t, pdf) {
					if op.size == 9 && op.x < typeSide+55 && !strings.Contains(op.text, ".") {
						rows = append(rows, op.text)
					}
				}
				// The levels of the lap cards have the same size and come last.
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

// The type area of a test day's papers. checkInside takes the orientation from
// where the page number ends.
const typeSide, typeTop = 40.0, 32.0

func checkInside(t *testing.T, what string, pdf []byte, paper kit.Paper, pages int) {
	t.Helper()
	width, height := paper.Size()
	ops := extract(t, pdf)
	endOf := func(op textOp) float64 { return op.x + kit.TextWidth(op.text, kit.Regular)*op.size }
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
		if w := right + typeSide; math.Abs(w-width) > 1 && math.Abs(w-height) > 1 {
			t.Errorf("%s, page %d: the page number ends at %.0f", what, page, right)
		}
	}
	for _, op := range ops {
		tall := height
		if rights[op.page] > width {
			tall = width
		}
		if op.x < typeSide-1 || endOf(op) > rights[op.page]+1 || op.y < 12 || op.y > tall-typeTop {
			t.Errorf("%s, page %d: %q at %.0f..%.0f, %.0f", what, op.page, op.text, op.x, endOf(op), op.y)
		}
	}
}

// TestDayPlanIsOnePage: for any tests and number of people.
func TestDayPlanIsOnePage(t *testing.T) {
	for _, tests := range [][]*scoring.Test{recordable(), recordable()[:1]} {
		for _, paper := range []kit.Paper{kit.A4, kit.Letter} {
			for _, n := range []int{1, 31, 400} {
				pdf, report := planPDF(t, testday.Plan{Tests: tests, People: n, Paper: paper, Words: english, Program: "tenback test"})
				if report.Pages != 1 {
					t.Errorf("%d tests, %s, %d people: %d pages", len(tests), paper, n, report.Pages)
				}
				checkInside(t, "plan", pdf, paper, 1)
			}
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
		r := recordingOf(t, "shuttle-20-m")
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

// TestEvenPace: passing times agree with the finish time.
func TestEvenPace(t *testing.T) {
	r := recordingOf(t, "run-1.5-mile")
	r.Blank = 1
	pdf, _ := recordingPDF(t, r)
	// 12:00 for 2414 m is 119.3 s for 400 m; 2400 m after 715.8 s.
	if text := dump(extract(t, pdf)); !strings.Contains(text, "12:00 1:59 3:59 5:58 7:57 9:57 11:56") {
		t.Error("the pace for 12:00 is not as worked out by hand")
	}
}

// TestListNames: any script, marks, long names and namesakes.
func TestListNames(t *testing.T) {
	r := recordingOf(t, "race")
	r.People = []testday.Listed{{Name: "Łukasz Żółć", Row: 2}, {Name: "Ελένη", Row: 3}, {Name: "Їжакевич", Row: 4}, {Name: "Nguyễn", Row: 5}, {Name: "**王**", Row: 6},
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

// TestKnownIsNotAsked: the list has no column for what is known of everyone, and
// prints no known value.
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
	measured := testday.Recording{Test: fieldtests.Measured, Blank: 3, Words: english}
	nobody := recordingOf(t, "race")
	for _, tt := range []struct {
		r    testday.Recording
		want error
	}{{measured, testday.ErrNotRecordable}, {testday.Recording{Words: english, Blank: 1}, testday.ErrNotRecordable}, {nobody, testday.ErrNobodyListed}} {
		if _, err := testday.WriteRecording(io.Discard, tt.r); !errors.Is(err, tt.want) {
			t.Errorf("error %v, want %v", err, tt.want)
		}
	}
	if _, err := testday.WritePlan(io.Discard, testday.Plan{Words: english}); !errors.Is(err, testday.ErrNobodyListed) {
		t.Errorf("error %v, want %v", err, testday.ErrNobodyListed)
	}
	if _, err := testday.WritePlan(io.Discard, testday.Plan{Words: english, People: 1, Tests: []*scoring.Test{fieldtests.Measured}}); !errors.Is(err, testday.ErrNotRecordable) {
		t.Errorf("error %v, want %v", err, testday.ErrNotRecordable)
	}
	r := recordingOf(t, "race")
	r.Blank = 1
	if _, err := testday.WriteRecording(brokenPipe{}, r); !errors.Is(err, errBroken) {
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

// TestEveryDayWordIsSaid: every word is printed, can be drawn, and is easy to
// read.
func TestEveryDayWordIsSaid(t *testing.T) {
	said := map[string]bool{}
	var sentences []string
	hear := func(key, text string) {
		said[key] = true
		for _, r := range text {
			if !inFonts(r) && r != '\n' {
				t.Errorf("%s: no font has %q", key, r)
			}
		}
		if strings.ContainsAny(text, ".”") && len(text) > 40 && !slices.Contains(sentences, text) {
			sentences = append(sentences, text)
		}
	}
	for _, test := range recordable() {
		for _, people := range [][]testday.Listed{nil, crowd(60)} {
			for _, start := range []float64{8.0, 8.5} {
				r := recordingOf(t, test.ID)
				r.People, r.Blank, r.ShuttleStart = people, 2, start
				r.Words = english.Heard(hear)
				if _, err := testday.WriteRecording(io.Discard, r); err != nil {
					t.Fatalf("%s: %v", test.ID, err)
				}
			}
		}
	}
	for _, n := range []int{1, 400} {
		if _, err := testday.WritePlan(io.Discard, testday.Plan{Tests: recordable(), People: n, Words: english.Heard(hear)}); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := testday.WriteTalk(io.Discard, talkOf(1, english.Heard(hear))); err != nil {
		t.Fatal(err)
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
	base := recordingOf(f, "shuttle-20-m")
	f.Fuzz(func(t *testing.T, name, group, sheet string, n int) {
		r := base
		for i := range 1 + (n%9+9)%9 {
			r.People = append(r.People, testday.Listed{Name: name, ID: group, Group: group, Sheet: sheet, Row: i})
		}
		var out bytes.Buffer
		if _, err := testday.WriteRecording(&out, r); err != nil {
			t.Fatal(err)
		}
		extract(t, out.Bytes())
	})
}

package pdfreport_test

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
	"tenback/scoring"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// pageOf makes a person's PDF.
func pageOf(t testing.TB, p person.Person) ([]byte, kit.Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := person.Write(&out, p)
	if err != nil {
		t.Fatalf("%s: %v", p.Name, err)
	}
	return out.Bytes(), report
}

func caseNames() []string { return slices.Sorted(maps.Keys(cases)) }

// TestGolden compares the text of PDFs with reviewed files.
func TestGolden(t *testing.T) {
	for _, name := range []string{"woman-45", "man-55", "woman-71", "man-82-near", "boy-12-below", "girl-12-above",
		"sex-not-given", "squad-62", "measured-no-rest", "rest-104", "man-23", "age-missing", "adult-shuttle", "youth-both", "greek",
		"symptoms", "medicine", "norm-man-67", "norm-high", "no-test", "squad-lab", "lab-impossible", "friend-treadmill", "own-table",
		"man-78-near", "woman-50-low", "tests-differ", "boy-other-line", "girl-symptoms",
		"school-adult", "school-girl", "school-symptoms", "work-woman", "work-symptoms", "work-16", "work-long", "squad-runner", "squad-full", "squad-youth", "squad-symptoms", "squad-norm",
		"again-rise", "again-fall", "again-other-test", "again-girl-rise", "again-boy-fall", "again-squad-same", "again-norm",
		"unscored-medicine", "unscored-cleared", "unscored-girl", "unscored-school", "unscored-boy-9", "unscored-beyond", "unscored-missing", "unscored-unread"} {
		t.Run(name, func(t *testing.T) {
			pdf, _ := pageOf(t, cases[name].person(t))
			compareGolden(t, name, pdf)
		})
	}
}

// compareGolden compares the text of a PDF with a reviewed file.
func compareGolden(t *testing.T, name string, pdf []byte) {
	t.Helper()
	got, file := dump(extract(t, pdf)), filepath.Join("testdata", name+".golden")
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

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "got:  " + g[i] + "\nwant: " + w[i]
		}
	}
	return "one text goes on where the other ends"
}

func TestSameBytesEveryTime(t *testing.T) {
	for _, name := range caseNames() {
		p := cases[name].person(t)
		first, _ := pageOf(t, p)
		var group sync.WaitGroup
		for range 3 {
			group.Go(func() {
				var again bytes.Buffer
				if _, err := person.Write(&again, p); err != nil {
					t.Errorf("%s: %v", name, err)
				} else if !bytes.Equal(first, again.Bytes()) {
					t.Errorf("%s: the bytes differ between runs", name)
				}
			})
		}
		group.Wait()
	}
}

// TestOneSheet: every kind of page has at most two sides and a small file, on
// both papers.
func TestOneSheet(t *testing.T) {
	const most, medianMost = 120 << 10, 60 << 10
	var sizes []int
	for _, name := range caseNames() {
		for _, paper := range []kit.Paper{kit.A4, kit.Letter} {
			p := cases[name].person(t)
			p.Paper = paper
			pdf, report := pageOf(t, p)
			if report.Pages > 2 {
				t.Errorf("%s, %s: %d pages", name, paper, report.Pages)
			}
			if len(pdf) > most {
				t.Errorf("%s, %s: %d bytes", name, paper, len(pdf))
			}
			sizes = append(sizes, len(pdf))
		}
	}
	slices.Sort(sizes)
	if median := sizes[len(sizes)/2]; median > medianMost {
		t.Errorf("median size %d bytes, at most %d", median, medianMost)
	}
}

// TestOneSheetWhateverIsAdded: two sides are enough if more or less is known of a
// person.
func TestOneSheetWhateverIsAdded(t *testing.T) {
	long := strings.Repeat("what was typed here could not be read ", 12)
	changes := map[string]func(m *made){
		"sex not given": func(m *made) { m.sex = scoring.SexUnspecified },
		"at 58":         func(m *made) { m.age = 58 },
		"at 72":         func(m *made) { m.age = 72 },
		"at 72, sex not given": func(m *made) {
			m.age, m.sex = 72, scoring.SexUnspecified
		},
		"laboratory": func(m *made) { m.more = laboratory },
		"symptoms":   func(m *made) { m.more = map[scoring.Input]float64{scoring.Symptoms: scoring.Yes} },
		"remarks": func(m *made) {
			m.problems = []person.Problem{{What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}}
		},
		"two tests": func(m *made) {
			m.tests = append(slices.Clone(m.tests), one("race", scoring.Distance, 5000, scoring.Metres)...)
			m.tests = append(m.tests, one("run-12-minute", scoring.Distance, 1900, scoring.Metres)...)
		},
		"all of it, at 61": func(m *made) {
			m.age, m.problems, m.more = 61, []person.Problem{{What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}}, laboratory
			m.tests = append(slices.Clone(m.tests), one("run-12-minute", scoring.Distance, 1900, scoring.Metres)...)
		},
		"all of it, at 61, sex not given": func(m *made) {
			m.age, m.sex, m.problems, m.more = 61, scoring.SexUnspecified, []person.Problem{{What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}, {What: scoring.Verbatim(long)}}, laboratory
			m.tests = append(slices.Clone(m.tests), one("run-12-minute", scoring.Distance, 1900, scoring.Metres)...)
		},
	}
	for name, m := range cases {
		for change, do := range changes {
			for _, paper := range []kit.Paper{kit.A4, kit.Letter} {
				m := m
				do(&m)
				p, ok := m.score(t)
				p.Problems = slices.Clone(p.Problems)
				for i := range p.Problems {
					p.Problems[i].Unread = !ok
				}
				p.Paper = paper
				if !ok && len(m.tests) == 0 {
					continue // without a test and without what an estimate would need
				}
				if _, report := pageOf(t, p); report.Pages > 2 {
					t.Errorf("%s, %s, %s: %d pages", name, change, paper, report.Pages)
				}
			}
		}
	}
}

func TestInsideMargins(t *testing.T) {
	for _, name := range caseNames() {
		p := cases[name].person(t)
		width, height := p.Paper.Size()
		pdf, _ := pageOf(t, p)
		for _, op := range extract(t, pdf) {
			end := op.x + kit.TextWidth(op.text, kit.Bold)*op.size
			if op.x < kit.MarginSide-4 || end > width-kit.MarginSide+12 || op.y < 24 || op.y > height-24 {
				t.Errorf("%s, page %d: %q at %.0f..%.0f, %.0f", name, op.page, op.text, op.x, end, op.y)
			}
		}
	}
}

func TestNames(t *testing.T) {
	tests := []struct {
		name, typed, want string
		replaced          []rune
	}{
		{"polish", "Łukasz Żółć", "Łukasz Żółć", nil},
		{"icelandic", "Þórður Ægisson", "Þórður Ægisson", nil},
		{"greek", "Ελευθερία", "Ελευθερία", nil},
		{"cyrillic", "Світлана Їжакевич", "Світлана Їжакевич", nil},
		{"vietnamese", "Nguyễn Thị Ĩnh", "Nguyễn Thị Ĩnh", nil},
		{"african", "Ɔkɔsɛ Ŋmɛ", "Ɔkɔsɛ Ŋmɛ", nil},
		{"accents apart", "Rene\u0301e Ba\u0308r", "Renée Bär", nil},
		{"formula", "=HYPERLINK(\"x\")", "=HYPERLINK(\"x\")", nil},
		{"brackets and backslash", `A (B) \C) \\`, `A (B) \C) \\`, nil},
		{"stars", "**Bold** Bob *", "**Bold** Bob *", nil},
		{"line break, tab, spaces", "Ann\r\n\t Lee\u00a0 Roe\u2028X", "Ann Lee Roe X", nil},
		{"hidden", "A\u200bB\u202eC\ufeffD\x00E\u2066F", "ABCDEF", nil},
		{"emoji", "Zoë 🏃\u200d♀\ufe0f", "Zoë □□", []rune{'🏃', '♀'}},
		{"chinese", "王小王", "□□□", []rune{'王', '小'}},
		{"bad bytes", "A\xffB", "A□B", []rune{'\ufffd'}},
		{"too many scripts", "Ж Ω Ễ", "Ж Ω □", []rune{'Ễ'}},
		{"slots", "{{.Name}}", "{{.Name}}", nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := cases["man-23"].person(t)
			p.Name = tt.typed
			pdf, report := pageOf(t, p)
			lines := strings.Split(dump(extract(t, pdf)), "\n")
			// The title comes first, then the name.
			got := strings.Join(lines[2:3], " ")
			if strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(tt.want, " ", "") {
				t.Errorf("drawn as %q, want %q", got, tt.want)
			}
			if !slices.Equal(report.Replaced, tt.replaced) {
				t.Errorf("replaced %q, want %q", report.Replaced, tt.replaced)
			}
		})
	}
}

func TestLongTexts(t *testing.T) {
	p := cases["rest-104"].person(t)
	p.Name = strings.Repeat("Wolfeschlegelsteinhausen", 40)
	p.Group = strings.Repeat("group ", 2000)
	for range 50 {
		p.Problems = append(p.Problems, person.Problem{What: scoring.Verbatim(strings.Repeat("remark ", 500))})
	}
	pdf, report := pageOf(t, p)
	if report.Pages > 2 {
		t.Errorf("%d pages", report.Pages)
	}
	if text := dump(extract(t, pdf)); !strings.Contains(text, "…") {
		t.Error("nothing shows that texts were cut")
	}
}

func TestEmptyName(t *testing.T) {
	p := cases["man-23"].person(t)
	p.Name, p.Group, p.Program = "", "", ""
	if _, report := pageOf(t, p); report.Pages == 0 {
		t.Error("no page")
	}
}

func TestNoScore(t *testing.T) {
	for _, p := range []person.Person{{Words: english}, {Words: english, Score: &scoring.Score{}}} {
		if _, err := person.Write(io.Discard, p); !errors.Is(err, person.ErrNoScore) {
			t.Errorf("error %v, want %v", err, person.ErrNoScore)
		}
	}
}

// TestFaultIsError: a fault inside does not end the batch.
func TestFaultIsError(t *testing.T) {
	p := cases["man-23"].person(t)
	p.Words = nil
	_, err := person.Write(io.Discard, p)
	if err == nil || !strings.Contains(err.Error(), p.Name) {
		t.Errorf("error %v does not name the person", err)
	}
}

// brokenPipe fails every write.
type brokenPipe struct{}

var errBroken = errors.New("broken")

func (brokenPipe) Write([]byte) (int, error) { return 0, errBroken }

func TestWriteError(t *testing.T) {
	if _, err := person.Write(brokenPipe{}, cases["man-23"].person(t)); !errors.Is(err, errBroken) {
		t.Errorf("error %v, want %v", err, errBroken)
	}
}

// TestCliniciansFirst: what a clinician should see precedes the number.
func TestCliniciansFirst(t *testing.T) {
	pdf, _ := pageOf(t, cases["rest-104"].person(t))
	text := dump(extract(t, pdf))
	box, number := strings.Index(text, "see a clinician"), strings.Index(text, "37.3")
	if box < 0 || number < 0 || box > number {
		t.Errorf("the warning stands at %d, the number at %d", box, number)
	}
}

// TestHeartRateDrug: a rate slowed by medicine is not praised.
func TestHeartRateDrug(t *testing.T) {
	p := cases["man-55"].person(t)
	p.Score.Flags = append(p.Score.Flags, scoring.Flag{Code: scoring.FlagHeartRateDrug})
	pdf, _ := pageOf(t, p)
	text := strings.ReplaceAll(dump(extract(t, pdf)), "\n", " ")
	if strings.Contains(text, "as you do") || !strings.Contains(text, "tells little") {
		t.Errorf("the page reads the rate all the same: %s", text)
	}
}

// TestYouthHasNoRanks: pages of people under 18 have words of their own.
func TestYouthHasNoRanks(t *testing.T) {
	for name, m := range cases {
		if m.age == 0 || m.age >= 18 {
			continue
		}
		pdf, _ := pageOf(t, m.person(t))
		text := strings.ToLower(dump(extract(t, pdf)))
		for _, word := range []string{"below average", "above average", "elite", "percentile)", "years younger", "mandsager", "fit adults", "clinician"} {
			if strings.Contains(text, word) {
				t.Errorf("%s: the page says %q", name, word)
			}
		}
	}
}

// TestTablesNeverMixed: no sentence has both the groups and the percentile.
func TestTablesNeverMixed(t *testing.T) {
	for _, name := range caseNames() {
		var sentences []string
		hear := func(_, text string) { sentences = append(sentences, strings.SplitAfter(text, ". ")...) }
		p := cases[name].person(t)
		p.Words = p.Words.Heard(hear)
		if _, err := person.Write(io.Discard, p); err != nil {
			t.Fatal(err)
		}
		for _, s := range sentences {
			group := strings.Contains(s, "bove average") || strings.Contains(s, "elow average") || strings.Contains(s, "Mandsager")
			if group && (strings.Contains(s, "percentile") || strings.Contains(s, "FRIEND")) {
				t.Errorf("%s: %q mixes two tables", name, s)
			}
		}
	}
}

func FuzzWritePerson(f *testing.F) {
	for _, m := range cases {
		f.Add(m.name, m.group)
	}
	f.Add("\U0001F3C3\u200d", "a\x00b\u202e")
	f.Add("((((\\", ")\r\n\\")
	p := cases["woman-71"].person(f)
	f.Fuzz(func(t *testing.T, name, group string) {
		p := p
		p.Name, p.Group, p.Problems = name, group, []person.Problem{{Read: name, What: scoring.Verbatim(name)}}
		var out bytes.Buffer
		report, err := person.Write(&out, p)
		if err != nil {
			t.Fatal(err)
		}
		if report.Pages > 2 || out.Len() > 120<<10 {
			t.Errorf("%d pages, %d bytes", report.Pages, out.Len())
		}
		extract(t, out.Bytes())
	})
}

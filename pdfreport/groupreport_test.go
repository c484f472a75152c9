package pdfreport_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/summary"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/fieldtests"
	"tenback/scoring/group"
	"tenback/scoring/reference"
	"tenback/templates"
)

// isSummaryWord reports whether a block is the summary's, for any audience.
func isSummaryWord(key string) bool {
	return regexp.MustCompile(`^(\w+/)?summary\.`).MatchString(key)
}

// memberOf returns a person with a measured VO2max. resting may be 0 for none.
func memberOf(in string, sex scoring.Sex, age, vo2 float64, resting int) group.Member {
	e := &scoring.Entry{}
	e.SetSex(sex, "")
	e.Set(scoring.Age, scoring.Q(age, scoring.Years), "")
	if resting > 0 {
		e.Set(scoring.RestingHR, scoring.Q(float64(resting), scoring.BeatsPerMinute), "")
	}
	trial := scoring.Trial{Test: fieldtests.Measured}
	trial.Set(scoring.MeasuredVO2, scoring.Q(vo2, scoring.MLPerKgMin), "")
	e.Trials = []scoring.Trial{trial}
	score := scoring.Assess(e)
	return group.Member{Group: in, Score: &score}
}

// inGroups returns people of the given ages in named groups, some without a
// resting rate. They are the same on every run.
func inGroups(names []string, each int, youngest, oldest float64) []group.Member {
	draw := rand.New(rand.NewPCG(1, uint64(len(names))))
	var all []group.Member
	for _, name := range names {
		for i := range each {
			sex := []scoring.Sex{scoring.Female, scoring.Male}[i%2]
			resting := 68 + int(9*draw.NormFloat64())
			if i%6 == 5 {
				resting = 0
			}
			age := youngest + (oldest-youngest)*draw.Float64()
			all = append(all, memberOf(name, sex, age, 36+4*float64(i%2)+6*draw.NormFloat64(), resting))
		}
	}
	return all
}

// leftOut returns people without a place, some for each reason.
func leftOut() []group.Member {
	var all []group.Member
	for r := group.NoResult; r <= group.WithoutConsent; r++ {
		for range 1 + 9*int(group.WithoutConsent-r)/int(group.WithoutConsent) {
			all = append(all, group.Member{Group: "left out", LeftOut: r})
		}
	}
	return all
}

func numberedGroups(form string, n int) []string {
	var all []string
	for i := range n {
		all = append(all, fmt.Sprintf(form, i+1))
	}
	return all
}

// testedAgain makes a second round of testing: a third of the people are new,
// some lack a day or a comparison, the others changed by about mean, and some
// have left.
func testedAgain(members []group.Member, mean float64, left int) []group.Member {
	draw := rand.New(rand.NewPCG(3, uint64(len(members))))
	for i := range members {
		m := &members[i]
		m.Presence = change.TestedAgain
		switch {
		case i%3 == 0:
			m.Presence = change.Newcomer
		case i%40 == 1:
			m.Presence = change.Undated
		case i%10 != 1:
			d := mean + 3.5*draw.NormFloat64()
			m.Change = &change.Comparison{Difference: scoring.VO2(d)}
			switch {
			case d > 4:
				m.Change.Verdict = change.RealRise
			case d < -4:
				m.Change.Verdict = change.RealFall
			}
		}
	}
	for range left {
		members = append(members, group.Member{Presence: change.Left})
	}
	return members
}

// groupCases returns summaries of every kind.
func groupCases(t testing.TB) map[string]summary.Document {
	t.Helper()
	report := func(members []group.Member, a templates.Audience) summary.Document {
		s, err := group.Summarise(members, group.DefaultSmallest)
		if err != nil {
			t.Fatal(err)
		}
		return summary.Document{Summary: s, Words: english, Program: "tenback test", Audience: a, Tested: time.Date(2026, time.May, 12, 0, 0, 0, 0, time.UTC)}
	}
	departments := []string{"Stores", "Human resources and payroll", "Night shift, northern depot", "IT", "Fleet **and** workshop"}
	long := strings.Repeat("upper school, river campus, ", 6)
	all := map[string]summary.Document{
		"work":    report(slices.Concat(inGroups(departments, 30, 19, 69), inGroups([]string{"Board", "Kitchen", "Gate"}, 4, 30, 60), leftOut()), templates.Workplace),
		"school":  report(slices.Concat(inGroups(numberedGroups("%dB", 12), 25, 12, 16), inGroups([]string{"Teachers", ""}, 20, 25, 60), leftOut()), templates.School),
		"squad":   report(inGroups([]string{"Otters", "Herons", "Juniors"}, 14, 17, 31), templates.Squad),
		"class":   report(inGroups([]string{"8B"}, 7, 13, 14), templates.School),
		"young":   report(inGroups([]string{"3a", "3b", ""}, 16, 8, 11), templates.Anyone),
		"forty":   report(inGroups(numberedGroups("Form %d of the upper school, morning and afternoon shift", 40), 11, 11, 18), templates.School),
		"tiny":    report(inGroups(numberedGroups(long+"%d", 30), 3, 20, 60), templates.Anyone),
		"letters": report(inGroups([]string{"Αθήνα", "Київ", "Łódź", "北京", strings.Repeat("W", 700)}, 15, 20, 60), templates.Anyone),
		"small":   report(inGroups([]string{"8B"}, 4, 13, 14), templates.School),
		"nobody":  report(nil, templates.Anyone),
		"reasons": report(leftOut(), templates.Anyone),
		"seasons": report(testedAgain(inGroups([]string{"Stores", "Office"}, 30, 19, 69), 1.8, 7), templates.Workplace),
		"fallen":  report(testedAgain(inGroups([]string{"8A", "8B"}, 25, 13, 14), -2, 3), templates.School),
		"level":   report(testedAgain(inGroups([]string{"Otters"}, 24, 19, 31), 0, 0), templates.Squad),
	}
	own, err := reference.OwnGroupTable("our table", ownGroups())
	if err != nil {
		t.Fatal(err)
	}
	members := inGroups([]string{"A", "B"}, 20, 31, 58)
	for i := range members {
		score := scoring.Options{Adults: own}.Assess(members[i].Score.Entry())
		members[i].Score = &score
	}
	r := report(members, templates.Anyone)
	r.Adults, r.Brand = own, &kit.Brand{Organisation: "Quillhaven Harbour Office", Contact: "Ask in room 12"}
	all["own-table"] = r
	return all
}

// ownGroups is an organiser's table with long names.
func ownGroups() [][]string {
	rows := [][]string{{"sex", "age_min", "age_max", "unit", "Rather short of breath at present", "Getting on", "Fine", "Strong", "As strong as anyone whom we know"}}
	for _, sex := range []string{"F", "M"} {
		rows = append(rows, []string{sex, "18", "99", "mL/kg/min", "", "30", "35", "40", "46"})
	}
	return rows
}

func groupPDF(t testing.TB, name string, r summary.Document) ([]byte, kit.Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := summary.Write(&out, r)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out.Bytes(), report
}

// TestGroupGolden compares the text of summaries with reviewed files.
func TestGroupGolden(t *testing.T) {
	all := groupCases(t)
	for _, name := range []string{"work", "school", "squad", "class", "small", "own-table", "reasons", "seasons"} {
		t.Run(name, func(t *testing.T) {
			pdf, _ := groupPDF(t, name, all[name])
			compareGolden(t, "group-"+name, pdf)
		})
	}
}

// TestGroupLayout: no text leaves the type area or overlaps another, and the
// document is valid.
func TestGroupLayout(t *testing.T) {
	for name, r := range groupCases(t) {
		for _, paper := range []kit.Paper{kit.A4, kit.Letter} {
			r.Paper = paper
			pdf, report := groupPDF(t, name, r)
			checkStructure(t, name, pdf)
			width, height := paper.Size()
			ops := extract(t, pdf)
			if last := ops[len(ops)-1].page; last != report.Pages {
				t.Errorf("%s: %d pages are told, %d drawn", name, report.Pages, last)
			}
			end := func(op textOp) float64 { return op.x + kit.TextWidth(op.text, kit.Regular)*op.size }
			for i, op := range ops {
				if op.x < kit.MarginSide-1 || end(op) > width-kit.MarginSide+8 || op.y < 24 || op.y > height-24 {
					t.Errorf("%s, %s, page %d: %q at %.0f..%.0f, %.0f", name, paper, op.page, op.text, op.x, end(op), op.y)
				}
				for _, other := range ops[i+1:] {
					apart := op.page != other.page || max(op.y-other.y, other.y-op.y) > 0.7*min(op.size, other.size) ||
						end(op) <= other.x+0.5 || end(other) <= op.x+0.5
					if !apart {
						t.Errorf("%s, %s, page %d: %q and %q run into each other", name, paper, op.page, op.text, other.text)
					}
				}
			}
		}
	}
}

// TestTooSmallIsOnePage: it does not show how many people there are.
func TestTooSmallIsOnePage(t *testing.T) {
	all := groupCases(t)
	small, nobody := all["small"], all["nobody"]
	nobody.Audience = small.Audience
	pdf, report := groupPDF(t, "small", small)
	other, _ := groupPDF(t, "nobody", nobody)
	if report.Pages != 1 || !bytes.Equal(pdf, other) {
		t.Errorf("%d pages; the page of four people and that of nobody differ: %v", report.Pages, !bytes.Equal(pdf, other))
	}
}

func TestGroupSameBytes(t *testing.T) {
	r := groupCases(t)["work"]
	first, _ := groupPDF(t, "work", r)
	again, _ := groupPDF(t, "work", r)
	if !bytes.Equal(first, again) {
		t.Error("the bytes differ between runs")
	}
	if !bytes.Contains(first, []byte("D:20260512")) {
		t.Error("the document has not the date of the test")
	}
}

// TestEverySummaryWordIsSaid: with every slot that it declares, and easy to read.
func TestEverySummaryWordIsSaid(t *testing.T) {
	var b strings.Builder
	for _, key := range english.Keys() {
		if isSummaryWord(key) {
			fmt.Fprintf(&b, "{{define %q}}", key)
			for _, slot := range english.Slots(key) {
				fmt.Fprintf(&b, "{{.%s}} ", slot)
			}
			b.WriteString("x{{end}}\n")
		}
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "all.tmpl"), []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	slots, err := templates.Load("en", dir)
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	var text []string
	small := regexp.MustCompile(`sources|summary\.hiding\.(joined|withheld)|summary\.range$`) // names and lists
	hear := func(key, words string) {
		said[key] = true
		if strings.Contains(words, ".") && len(words) > 40 && !small.MatchString(key) {
			text = append(text, words)
		}
	}
	for name, r := range groupCases(t) {
		r.Words = english.Heard(hear)
		if _, err := summary.Write(io.Discard, r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		r.Words = slots
		if _, err := summary.Write(io.Discard, r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, key := range english.Keys() {
		if isSummaryWord(key) && !said[key] {
			t.Errorf("no summary says %q", key)
		}
	}
	slices.Sort(text)
	if grade := gradeOf(strings.Join(slices.Compact(text), "\n")); grade > 8 {
		t.Errorf("grade %.1f, at most 8", grade)
	}
}

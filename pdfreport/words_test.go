package pdfreport_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/templates"
)

// everyCase calls do with every kind of page, and with pages that carry every
// remark there is.
func everyCase(t *testing.T, do func(name string, p person.Person)) {
	t.Helper()
	for _, name := range caseNames() {
		do(name, cases[name].person(t))
	}
	for _, code := range scoring.FlagCodes() {
		p := cases["woman-45"].person(t)
		p.Score.Flags = append(p.Score.Flags, scoring.Flag{Code: code, Detail: scoring.Verbatim("detail")})
		do("flag "+code.ID(), p)
	}
}

// TestEveryWordIsSaid: some page says each block of words.
func TestEveryWordIsSaid(t *testing.T) {
	said := map[string]bool{}
	hear := func(key, _ string) { said[key] = true }
	everyCase(t, func(name string, p person.Person) {
		p.Words = p.Words.Heard(hear)
		if _, err := person.Write(io.Discard, p); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	})
	for _, key := range english.Keys() {
		// See TestEveryDayWordIsSaid and TestEverySummaryWordIsSaid; what is declared
		// in scoring is whole by itself, and the workbook says its own.
		elsewhere := strings.HasPrefix(key, "day.") || isSummaryWord(key) || notOfPages.MatchString(key)
		if !said[key] && !elsewhere {
			t.Errorf("no page says %q", key)
		}
	}
}

// notOfPages matches blocks that no page need say: number formats, what scoring
// declares, and the words of workbooks, messages and slips.
var notOfPages = regexp.MustCompile(`^(format|test|equation|input|unit|remark|say|fifth|safety|exertion|percentile|sheet|starter|choice|guide|setting|slip|questions|(\w+/)?mail)\b`)

// TestEverySlotIsFilled uses blocks that print every slot they declare, so an empty
// slot is an error.
func TestEverySlotIsFilled(t *testing.T) {
	var b strings.Builder
	for _, key := range english.Keys() {
		if strings.HasPrefix(key, "format.") {
			continue
		}
		fmt.Fprintf(&b, "{{define %q}}", key)
		for _, slot := range english.Slots(key) {
			fmt.Fprintf(&b, "{{.%s}} ", slot)
		}
		b.WriteString("x{{end}}\n")
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "all.tmpl"), []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	set, err := templates.Load("en", dir)
	if err != nil {
		t.Fatal(err)
	}
	everyCase(t, func(name string, p person.Person) {
		p.Words = set
		if _, err := person.Write(io.Discard, p); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	})
}

// TestEveryLetterIsDrawn: the words of every language use characters only that
// the fonts have.
func TestEveryLetterIsDrawn(t *testing.T) {
	for _, lang := range templates.Languages() {
		set, err := templates.Load(lang, "")
		if err != nil {
			t.Fatal(err)
		}
		said := map[rune]bool{}
		hear := func(_, text string) {
			for _, r := range text {
				said[r] = true
			}
		}
		everyCase(t, func(name string, p person.Person) {
			p.Words = set
			p.Words = p.Words.Heard(hear)
			if _, err := person.Write(io.Discard, p); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		})
		for r := range said {
			if !inFonts(r) && r != '\n' && !strings.ContainsRune("王小🏃♀", r) {
				t.Errorf("%s: no font has %q", lang, r)
			}
		}
	}
}

// TestReadingLevel: the running text is at grade 8 at most, by the Flesch-Kincaid
// formula:
//
//	0.39 words/sentences + 11.8 syllables/words - 15.59
//
// Source: Kincaid JP et al. 1975, Naval Technical Training Command Research
// Branch Report 8-75 (from memory).
func TestReadingLevel(t *testing.T) {
	const gradeMost = 8.0
	// The small print names papers and formulas.
	small := regexp.MustCompile(`^(\w+/)?(method|source|sources|format|foot|head|resting\.mark|resting\.legend|standing\.groups)\b`)
	for _, name := range []string{"woman-45", "woman-71", "man-82-near", "boy-12-below", "girl-12-above", "rest-104", "measured-no-rest", "sex-not-given",
		"symptoms", "girl-symptoms", "norm-man-67", "norm-high", "medicine", "squad-lab", "tests-differ", "no-test", "friend-treadmill", "man-78-near", "woman-50-low",
		"school-adult", "school-18", "school-girl", "school-symptoms", "work-woman", "work-symptoms", "work-16", "work-long",
		"unscored-medicine", "unscored-girl", "unscored-school", "unscored-boy-9", "unscored-beyond", "unscored-missing"} {
		var text []string
		hear := func(key, said string) {
			if !small.MatchString(key) && strings.ContainsAny(said, ".:") && len(said) > 40 {
				text = append(text, said)
			}
		}
		p := cases[name].person(t)
		p.Words = p.Words.Heard(hear)
		if _, err := person.Write(io.Discard, p); err != nil {
			t.Fatal(err)
		}
		slices.Sort(text)
		grade := gradeOf(strings.Join(slices.Compact(text), "\n"))
		t.Logf("%s: grade %.1f", name, grade)
		if grade > gradeMost {
			t.Errorf("%s: grade %.1f, at most %.0f", name, grade, gradeMost)
		}
	}
}

var (
	sentenceEnd = regexp.MustCompile(`[.!?]+(\s|$)|\n`)
	wordPattern = regexp.MustCompile(`[\pL\d][\pL\d'’₂.–-]*`)
	vowelGroup  = regexp.MustCompile(`[aeiouy]+`)
)

func gradeOf(text string) float64 {
	text = strings.ReplaceAll(text, "**", "")
	sentences := float64(len(sentenceEnd.FindAllString(text+"\n", -1)))
	var words, syllables float64
	for _, word := range wordPattern.FindAllString(strings.ToLower(text), -1) {
		words++
		n := len(vowelGroup.FindAllString(word, -1))
		if strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") && n > 1 {
			n--
		}
		syllables += float64(max(n, 1))
	}
	return 0.39*words/sentences + 11.8*syllables/words - 15.59
}

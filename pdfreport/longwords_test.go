package pdfreport_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/templates"
)

// longWords is English with every vowel doubled, a third longer than the words
// the layout was made for.
var longWords = sync.OnceValue(func() *templates.Set {
	files, err := filepath.Glob(filepath.Join("..", "templates", "en", "*.tmpl"))
	if err != nil || len(files) == 0 {
		panic("no English words")
	}
	dir, err := os.MkdirTemp("", "long-words")
	if err != nil {
		panic(err)
	}
	defer func() { _ = os.RemoveAll(dir) }()
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			panic(err)
		}
		if filepath.Base(name) == "format.tmpl" {
			continue
		}
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(name)), []byte(lengthen(string(text))), 0o600); err != nil {
			panic(err)
		}
	}
	set, err := templates.Load("en", dir)
	if err != nil {
		panic(err)
	}
	return set
})

var (
	action      = regexp.MustCompile(`(?s)\{\{.*?\}\}`)
	anyVowel    = regexp.MustCompile(`[aeiouyAEIOUY]`)
	doubleVowel = "$0$0"
)

// lengthen doubles the vowels outside braces, except in the page number, which
// checkInside reads.
func lengthen(text string) string {
	var b strings.Builder
	end := 0
	for _, at := range action.FindAllStringIndex(text, -1) {
		b.WriteString(anyVowel.ReplaceAllString(text[end:at[0]], doubleVowel))
		b.WriteString(text[at[0]:at[1]])
		end = at[1]
	}
	b.WriteString(anyVowel.ReplaceAllString(text[end:], doubleVowel))
	return strings.ReplaceAll(b.String(), "Paagee {{.Page}}", "Page {{.Page}}")
}

// overlaps lists texts that a reader would see overlap.
func overlaps(ops []textOp) []string {
	type box struct{ left, right, bottom, top float64 }
	at := func(op textOp) box {
		text := strings.Trim(op.text, " ")
		left := op.x + kit.TextWidth(op.text[:strings.Index(op.text, text)], kit.Regular)*op.size
		return box{left, left + kit.TextWidth(text, kit.Regular)*op.size, op.y, op.y + 0.45*op.size}
	}
	var all []string
	for i, a := range ops {
		for _, b := range ops[i+1:] {
			if a.page != b.page || math.Abs(a.y-b.y) > 60 || strings.Trim(a.text, " ") == "" || strings.Trim(b.text, " ") == "" {
				continue
			}
			p, q := at(a), at(b)
			wide := min(p.right, q.right) - max(p.left, q.left)
			high := min(p.top, q.top) - max(p.bottom, q.bottom)
			if wide > 1 && high > 0.5 {
				all = append(all, a.text+" / "+b.text)
			}
		}
	}
	return all
}

// cutTexts lists texts that end in an ellipsis.
func cutTexts(ops []textOp) []string {
	var all []string
	for _, op := range ops {
		if strings.HasSuffix(strings.TrimSpace(op.text), "…") {
			all = append(all, op.text)
		}
	}
	return all
}

var letters = regexp.MustCompile(`[A-Za-z]+`)

// longVocabulary holds all lengthened words in lower case.
var longVocabulary = sync.OnceValue(func() map[string]bool {
	all := map[string]bool{}
	files, _ := filepath.Glob(filepath.Join("..", "templates", "en", "*.tmpl"))
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			panic(err)
		}
		for _, word := range letters.FindAllString(lengthen(string(text)), -1) {
			all[strings.ToLower(word)] = true
		}
	}
	return all
})

// brokenWords lists ends of lines that are parts of lengthened words. Names also
// occur in the plain document.
func brokenWords(plain, ops []textOp) []string {
	var all []string
	names := map[string]bool{}
	for _, op := range plain {
		for _, word := range letters.FindAllString(op.text, -1) {
			names[strings.ToLower(word)] = true
		}
	}
	for _, op := range ops {
		words := letters.FindAllString(op.text, -1)
		if len(words) == 0 {
			continue
		}
		last := strings.ToLower(words[len(words)-1])
		if doubled.MatchString(last) && !longVocabulary()[last] && !names[last] && strings.HasSuffix(strings.ToLower(op.text), last) {
			all = append(all, op.text)
		}
	}
	return all
}

var doubled = regexp.MustCompile(`aa|ee|ii|oo|uu|yy`)

// checkLong compares a document in long words with one in English: no overlaps,
// nothing cut that is whole in English, and few more pages.
func checkLong(t *testing.T, what string, plain, long []byte, pages, morePages int) {
	t.Helper()
	ops := extract(t, long)
	for _, both := range overlaps(ops) {
		t.Errorf("%s: %s lie over one another", what, both)
	}
	for _, text := range brokenWords(extract(t, plain), ops) {
		t.Errorf("%s: a word is broken: %q", what, text)
	}
	before := cutTexts(extract(t, plain))
	for _, text := range cutTexts(ops) {
		if len(before) == 0 && doubled.MatchString(text) {
			t.Errorf("%s: %q is cut", what, text)
		}
	}
	if n := ops[len(ops)-1].page; n > pages+morePages {
		t.Errorf("%s: %d pages, in English %d", what, n, pages)
	}
}

// TestLongWords lays out every page in words a third longer.
func TestLongWords(t *testing.T) {
	for _, name := range caseNames() {
		t.Run(name, func(t *testing.T) {
			for _, paper := range []kit.Paper{kit.A4, kit.Letter} {
				p := cases[name].person(t)
				p.Paper = paper
				plain, report := pageOf(t, p)
				if both := overlaps(extract(t, plain)); len(both) > 0 {
					t.Fatalf("%s: in English %v lie over one another", paper, both)
				}
				p.Words = longWords()
				long, _ := pageOf(t, p)
				checkLong(t, paper.String(), plain, long, report.Pages, 1)
				width, height := paper.Size()
				for _, op := range extract(t, long) {
					end := op.x + kit.TextWidth(strings.TrimRight(op.text, " "), kit.Regular)*op.size
					if op.x < kit.MarginSide-4 || end > width-kit.MarginSide+4 || op.y < 24 || op.y > height-24 {
						t.Errorf("%s: %q at %.0f..%.0f, %.0f", paper, op.text, op.x, end, op.y)
					}
				}
			}
		})
	}
}

// TestLongWordsOnPapers does the same for a test day's papers.
func TestLongWordsOnPapers(t *testing.T) {
	for _, test := range recordable() {
		t.Run(test.ID, func(t *testing.T) {
			r := recordingOf(t, test.ID)
			r.People = crowd(30)
			plain, report := recordingPDF(t, r)
			r.Words = longWords()
			long, _ := recordingPDF(t, r)
			checkLong(t, test.ID, plain, long, report.Pages, 2)
			checkInside(t, test.ID, long, r.Paper, extract(t, long)[len(extract(t, long))-1].page)
		})
	}
	plan := testday.Plan{Tests: recordable(), People: 40, Words: english, Program: "tenback 0.1"}
	plain, report := planPDF(t, plan)
	plan.Words = longWords()
	long, _ := planPDF(t, plan)
	checkLong(t, "plan", plain, long, report.Pages, 1)
}

// TestLongWordsInSummaries does the same for summaries.
func TestLongWordsInSummaries(t *testing.T) {
	for name, r := range groupCases(t) {
		t.Run(name, func(t *testing.T) {
			plain, report := groupPDF(t, name, r)
			r.Words = longWords()
			long, _ := groupPDF(t, name, r)
			checkLong(t, name, plain, long, report.Pages, 2)
		})
	}
}

// TestOverlapsAreFound checks the checks above.
func TestOverlapsAreFound(t *testing.T) {
	word := textOp{page: 1, x: 100, y: 100, size: 10, text: "word"}
	for _, c := range []struct {
		right, up float64
		want      int
	}{{0, 0, 1}, {15, 0, 1}, {15, 3, 1}, {40, 0, 0}, {0, 10, 0}} {
		other := word
		other.x, other.y = other.x+c.right, other.y+c.up
		if got := overlaps([]textOp{word, other}); len(got) != c.want {
			t.Errorf("%v to the right and %v up: %q", c.right, c.up, got)
		}
	}
}

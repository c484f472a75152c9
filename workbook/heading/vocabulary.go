package heading

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

//go:embed headings.csv
var headingsCSV []byte

// vocabulary maps texts to meanings and tests.
type vocabulary struct {
	words map[string][]roster.Meaning // by Key
	tests map[string]*scoring.Test    // by Key
	short map[string]*scoring.Test    // short names that count only beside another word
	names map[string]scoring.Input    // inputs by ID

	whole map[string][]roster.Meaning // words that count only as a whole header, by Key

	lexicon    *lexicon
	signatures map[string]*scoring.Test // by signature
	activity   map[*scoring.Test]class
	named      []namedTest

	// For near misses.
	texts     []spelling // headers
	testTexts []spelling // what tests are called; the text is the test's name
}

type spelling struct {
	key, text string
	whole     bool // only as a whole header
}

// namedTest is what a test is called.
type namedTest struct {
	text string
	test *scoring.Test
}

// known returns the vocabulary, which is built once.
var known = sync.OnceValue(func() *vocabulary {
	v := &vocabulary{words: map[string][]roster.Meaning{}, tests: map[string]*scoring.Test{}, short: map[string]*scoring.Test{}, names: map[string]scoring.Input{}}
	if err := v.fill(); err != nil {
		panic("heading: " + err.Error()) // a fault in the program; every test run meets it
	}
	return v
})

// fill adds the headers of the declared tests and inputs, then the words of
// headings.csv, which must not contradict them.
func (v *vocabulary) fill() error {
	for _, t := range fieldtests.All() {
		for _, name := range append([]string{t.ID, t.Name}, t.Names...) {
			key := Key(name)
			if _, taken := v.tests[key]; !taken {
				v.tests[key] = t
			}
			v.testTexts = append(v.testTexts, spelling{key: key, text: t.Name})
			v.named = append(v.named, namedTest{name, t})
		}
		for _, r := range t.Results {
			v.addAll(roster.Meaning{Role: roster.InputData, Input: r.Input, Test: t}, append([]string{r.Column}, r.Headers...))
		}
		for _, a := range t.Also {
			v.addAll(roster.Meaning{Role: roster.InputData, Input: a.Input, Test: t}, append([]string{a.Column}, a.Headers...))
		}
	}
	for in := range scoring.InputCount {
		info := in.Info()
		v.names[info.ID] = in
		meaning := roster.Meaning{Role: roster.InputData, Input: in}
		switch in {
		case scoring.Time, scoring.Distance:
			meaning.Role = roster.Result
		case scoring.MeasuredVO2, scoring.MeasuredVO2Abs:
			continue // a measured value is a test of its own
		}
		if len(v.words[Key(info.Name)]) == 0 {
			v.add(meaning, info.Name)
		}
	}
	records := csv.NewReader(bytes.NewReader(headingsCSV))
	records.Comment = '#'
	rows, err := records.ReadAll()
	if err != nil {
		return err
	}
	for _, row := range rows[1:] {
		for _, header := range strings.Split(row[2], ";") {
			if err := v.addRecord(row[0], header); err != nil {
				return fmt.Errorf("%s, %s, %s: %w", row[0], row[1], header, err)
			}
		}
	}
	for _, lang := range templates.Languages() {
		v.addStarter(sheetwords.Of(sheetwords.Builtin()[lang]))
	}
	v.whole = map[string][]roster.Meaning{}
	for _, s := range v.texts {
		if s.whole {
			v.whole[s.key] = v.words[s.key]
		}
	}
	if v.lexicon, err = newLexicon(v); err != nil {
		return err
	}
	v.fillSignatures()
	v.lexicon.addTests(v)
	return nil
}

// starterRoles are the columns of starter rosters that hold no input.
var starterRoles = []struct {
	id   string
	role roster.Role
}{{"name", roster.Name}, {"id", roster.ID}, {"born", roster.Birth}, {"tested", roster.TestDate}, {"test", roster.TestName}, {"audience", roster.Audience}, {"language", roster.Language}}

// addStarter adds the headers of starter rosters in a language, to read them as
// what they were written for. Known headers keep their meaning.
func (v *vocabulary) addStarter(words *sheetwords.Words) {
	for _, c := range starterRoles {
		v.add(roster.Meaning{Role: c.role}, words.Say("starter."+c.id+".header", nil))
	}
	for _, s := range roster.Settings() {
		v.add(roster.Meaning{Role: roster.Group}, words.Say(s.GroupKey(), nil))
	}
	v.add(roster.Meaning{Role: roster.Result, Input: scoring.InputCount}, words.Say("starter.result.header", nil))
	v.add(roster.Meaning{Role: roster.InputData, Input: scoring.SexInput}, words.Say("starter.sex.header", nil))
	for _, t := range fieldtests.All() {
		if name := Key(words.Test(t)); v.tests[name] == nil {
			v.tests[name] = t
		}
		for _, r := range t.Results {
			v.add(roster.Meaning{Role: roster.InputData, Input: r.Input, Test: t}, words.Column(t, r.Input))
		}
		for _, a := range t.Also {
			v.add(roster.Meaning{Role: roster.InputData, Input: a.Input, Test: t}, words.Column(t, a.Input))
		}
	}
	for in := range scoring.InputCount {
		switch in {
		case scoring.Time, scoring.Distance, scoring.MeasuredVO2, scoring.MeasuredVO2Abs:
			continue // the test says what they are
		}
		if name := words.Input(in); len(v.words[Key(name)]) == 0 {
			v.add(roster.Meaning{Role: roster.InputData, Input: in}, name)
		}
	}
}

func (v *vocabulary) addAll(m roster.Meaning, headers []string) {
	for _, h := range headers {
		v.add(m, h)
	}
}

// add adds a header.
func (v *vocabulary) add(m roster.Meaning, header string) {
	if key := Key(header); key != "" && !slices.Contains(v.words[key], m) {
		v.words[key] = append(v.words[key], m)
	}
	v.texts = append(v.texts, spelling{key: Key(header), text: header, whole: strings.Contains(header, "/") && len(header) < 7})
}

// roleWords holds the roles in headings.csv.
var roleWords = map[string]roster.Meaning{
	"name": {Role: roster.Name}, "given name": {Role: roster.GivenName}, "family name": {Role: roster.FamilyName},
	"id": {Role: roster.ID}, "list number": {Role: roster.ListNumber}, "group": {Role: roster.Group}, "birth": {Role: roster.Birth},
	"test date": {Role: roster.TestDate}, "test name": {Role: roster.TestName}, "heart rate": {Role: roster.HeartRate},
	"level part": {Role: roster.LevelPart}, "shuttle part": {Role: roster.ShuttlePart},
	"age and sex":     {Role: roster.AgeSex},
	"result":          {Role: roster.Result, Input: scoring.InputCount},
	"result time":     {Role: roster.Result, Input: scoring.Time},
	"result distance": {Role: roster.Result, Input: scoring.Distance},
	"laps":            {Role: roster.Result, Input: scoring.ShuttleLaps},
	"audience":        {Role: roster.Audience}, "language": {Role: roster.Language},
	"email": {Role: roster.Email}, "guardian email": {Role: roster.GuardianEmail}, "page password": {Role: roster.PagePassword},
	"unscored": {Role: roster.Unscored}, "other": {Role: roster.Other},
}

// addRecord adds one line of headings.csv.
func (v *vocabulary) addRecord(meaning, header string) error {
	whole := strings.HasPrefix(header, "=")
	if whole {
		defer func() { v.texts[len(v.texts)-1].whole = true }()
	}
	header = strings.TrimPrefix(header, "=")
	key := Key(header)
	if key == "" {
		return fmt.Errorf("no letters in the header")
	}
	if m, ok := roleWords[meaning]; ok {
		v.add(m, header)
		return nil
	}
	if in, ok := v.names[meaning]; ok {
		v.add(roster.Meaning{Role: roster.InputData, Input: in}, header)
		return nil
	}
	if id, ok := strings.CutPrefix(meaning, "test "); ok {
		t, ok := fieldtests.ByID(id)
		if !ok {
			return fmt.Errorf("no such test")
		}
		v.short[key] = t
		v.named = append(v.named, namedTest{header, t})
		return nil
	}
	id, input, ok := strings.Cut(meaning, "/")
	t, known := fieldtests.ByID(id)
	in, named := v.names[input]
	if !ok || !known || !named || !t.Takes(in) {
		return fmt.Errorf("no such meaning")
	}
	v.add(roster.Meaning{Role: roster.InputData, Input: in, Test: t}, header)
	return nil
}

// testNamed finds the test that a text names, a race with its distance. What the
// text says besides must be understood.
func (v *vocabulary) testNamed(name string) (roster.Meaning, bool) {
	for _, form := range []string{name, withoutParentheses(name)} {
		if t, ok := v.tests[Key(form)]; ok {
			return roster.Meaning{Test: t}, true
		}
	}
	ps := v.lexicon.parse(name)
	s := &said{v: v, pieces: ps, done: v.whatWasDone(ps)}
	if s.strange(false) || s.has(sport|unsupported) {
		return roster.Meaning{}, false
	}
	s.done.find(v)
	switch d := &s.done; {
	case d.clash:
	case d.test != nil:
		return roster.Meaning{Test: d.test}, true
	case len(d.metres) == 1 && (d.activity == 0 || d.isRun()):
		h := raceOf(d.metres[0], d.activity != 0)
		return roster.Meaning{Test: h.Test, Distance: h.Distance}, h.Test != nil
	}
	return roster.Meaning{}, false
}

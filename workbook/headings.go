package workbook

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/agnivade/levenshtein"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/workbook/cell"
	"tenback/workbook/sheetwords"
)

//go:embed headings.csv
var headingsCSV []byte

// heading is what a header was taken to mean.
type heading struct {
	Meaning
	style   cell.TimeStyle
	unclear scoring.Said // why numbers without a unit can't be read; nothing if they can
	morning bool         // a resting heart rate of one morning of several
}

// vocabulary is what columns and tests are recognised by.
type vocabulary struct {
	words map[string][]Meaning     // by headerKey
	tests map[string]*scoring.Test // by headerKey
	short map[string]*scoring.Test // short names that count only beside another word
	names map[string]scoring.Input // inputs by ID

	// For near misses.
	texts     []spelling // headers
	testTexts []spelling // what tests are called; the text is the test's name
}

type spelling struct{ key, text string }

// knownHeadings is the vocabulary; it is built once.
var knownHeadings = sync.OnceValue(func() *vocabulary {
	v := &vocabulary{words: map[string][]Meaning{}, tests: map[string]*scoring.Test{}, short: map[string]*scoring.Test{}, names: map[string]scoring.Input{}}
	if err := v.fill(); err != nil {
		panic("workbook: headings: " + err.Error()) // a fault in the program; every test run meets it
	}
	return v
})

// fill takes the headers from the declared tests and inputs, then the words
// of headings.csv, which may add to them and not contradict them.
func (v *vocabulary) fill() error {
	for _, t := range fieldtests.All() {
		for _, name := range append([]string{t.ID, t.Name}, t.Names...) {
			key := headerKey(name)
			if _, taken := v.tests[key]; !taken {
				v.tests[key] = t
			}
			v.testTexts = append(v.testTexts, spelling{key, t.Name})
		}
		for _, r := range t.Results {
			v.addAll(Meaning{Role: InputData, Input: r.Input, Test: t}, append([]string{r.Column}, r.Headers...))
		}
		for _, a := range t.Also {
			v.addAll(Meaning{Role: InputData, Input: a.Input, Test: t}, append([]string{a.Column}, a.Headers...))
		}
	}
	for in := range scoring.InputCount {
		info := in.Info()
		v.names[info.ID] = in
		meaning := Meaning{Role: InputData, Input: in}
		switch in {
		case scoring.Time, scoring.Distance:
			meaning.Role = Result
		case scoring.MeasuredVO2, scoring.MeasuredVO2Abs:
			continue // a measured value is a test of its own
		}
		if len(v.words[headerKey(info.Name)]) == 0 {
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
		if err := v.addRecord(row[0], row[2]); err != nil {
			return fmt.Errorf("%s, %s, %s: %w", row[0], row[1], row[2], err)
		}
	}
	for _, lang := range templates.Languages() {
		v.addStarter(wordsOf(sheetwords.Builtin()[lang]))
	}
	return nil
}

// starterRoles are the columns of starter rosters that hold no input.
var starterRoles = []struct {
	id   string
	role Role
}{{"name", Name}, {"id", ID}, {"born", Birth}, {"tested", TestDate}, {"test", TestName}, {"audience", Audience}, {"language", Language}}

// addStarter registers the headers of starter rosters in a language, so that
// they are read again as what they were written for. What is known already
// keeps its meaning before them.
func (v *vocabulary) addStarter(words *sheetWords) {
	for _, c := range starterRoles {
		v.add(Meaning{Role: c.role}, words.Say("starter."+c.id+".header", nil))
	}
	for _, s := range Settings() {
		v.add(Meaning{Role: Group}, words.Say(groupKey(s), nil))
	}
	v.add(Meaning{Role: Result, Input: scoring.InputCount}, words.Say("starter.result.header", nil))
	v.add(Meaning{Role: InputData, Input: scoring.SexInput}, words.Say("starter.sex.header", nil))
	for _, t := range fieldtests.All() {
		if name := headerKey(words.Test(t)); v.tests[name] == nil {
			v.tests[name] = t
		}
		for _, r := range t.Results {
			v.add(Meaning{Role: InputData, Input: r.Input, Test: t}, words.Column(t, r.Input))
		}
		for _, a := range t.Also {
			v.add(Meaning{Role: InputData, Input: a.Input, Test: t}, words.Column(t, a.Input))
		}
	}
	for in := range scoring.InputCount {
		switch in {
		case scoring.Time, scoring.Distance, scoring.MeasuredVO2, scoring.MeasuredVO2Abs:
			continue // the test says what they are
		}
		if name := words.Input(in); len(v.words[headerKey(name)]) == 0 {
			v.add(Meaning{Role: InputData, Input: in}, name)
		}
	}
}

func (v *vocabulary) addAll(m Meaning, headers []string) {
	for _, h := range headers {
		v.add(m, h)
	}
}

// add registers a header, and what it is without parentheses if that is free.
func (v *vocabulary) add(m Meaning, header string) {
	for _, form := range []string{header, withoutParentheses(header)} {
		key := headerKey(form)
		known := v.words[key]
		taken := len(known) > 0 && (m.Test == nil || known[0].Test != m.Test)
		if key == "" || slices.Contains(known, m) || taken && form != header {
			continue
		}
		v.words[key] = append(known, m)
	}
	v.texts = append(v.texts, spelling{headerKey(header), header})
}

// roleWords are the meanings of headings.csv that are roles.
var roleWords = map[string]Meaning{
	"name": {Role: Name}, "given name": {Role: GivenName}, "family name": {Role: FamilyName},
	"id": {Role: ID}, "list number": {Role: ListNumber}, "group": {Role: Group}, "birth": {Role: Birth},
	"test date": {Role: TestDate}, "test name": {Role: TestName}, "heart rate": {Role: HeartRate},
	"level part": {Role: levelPart}, "shuttle part": {Role: shuttlePart},
	"age and sex":     {Role: AgeSex},
	"result":          {Role: Result, Input: scoring.InputCount},
	"result time":     {Role: Result, Input: scoring.Time},
	"result distance": {Role: Result, Input: scoring.Distance},
	"audience":        {Role: Audience}, "language": {Role: Language},
	"email": {Role: Email}, "guardian email": {Role: GuardianEmail}, "page password": {Role: PagePassword},
	"unscored": {Role: Unscored}, "other": {Role: Other},
}

// addRecord registers one line of headings.csv.
func (v *vocabulary) addRecord(meaning, header string) error {
	key := headerKey(header)
	if key == "" {
		return fmt.Errorf("no letters in the header")
	}
	if m, ok := roleWords[meaning]; ok {
		v.add(m, header)
		return nil
	}
	if in, ok := v.names[meaning]; ok {
		v.add(Meaning{Role: InputData, Input: in}, header)
		return nil
	}
	if id, ok := strings.CutPrefix(meaning, "test "); ok {
		t, ok := fieldtests.ByID(id)
		if !ok {
			return fmt.Errorf("no such test")
		}
		v.short[key] = t
		return nil
	}
	id, input, ok := strings.Cut(meaning, "/")
	t, known := fieldtests.ByID(id)
	in, named := v.names[input]
	if !ok || !known || !named || !hasInput(t, in) {
		return fmt.Errorf("no such meaning")
	}
	v.add(Meaning{Role: InputData, Input: in, Test: t}, header)
	return nil
}

// hasInput tells whether a test can use an input, as its result or beside it.
func hasInput(t *scoring.Test, in scoring.Input) bool {
	return isResultOf(t, in) || slices.Contains(t.Needs(), in) ||
		in == scoring.ShuttleInLevel && isResultOf(t, scoring.ShuttleLevel) ||
		slices.ContainsFunc(t.Also, func(a scoring.Also) bool { return a.Input == in })
}

func isResultOf(t *scoring.Test, in scoring.Input) bool {
	return slices.ContainsFunc(t.Results, func(r scoring.Result) bool { return r.Input == in })
}

// testNamed finds the test that a cell of a Test column names.
func (v *vocabulary) testNamed(name string) (*scoring.Test, bool) {
	for _, form := range []string{name, withoutParentheses(name)} {
		key := headerKey(form)
		if t, ok := v.tests[key]; ok {
			return t, true
		}
		for _, m := range v.words[key] {
			if m.Test != nil && isResultOf(m.Test, m.Input) {
				return m.Test, true
			}
		}
	}
	return nil, false
}

// testNamed is that of the vocabulary. A few names stand in a column over and
// over, so they are looked up once.
func (rd *reader) testNamed(name string) (*scoring.Test, bool) {
	if t, ok := rd.tests[name]; ok {
		return t, t != nil
	}
	t, ok := rd.words.testNamed(name)
	if len(rd.tests) < testsRemembered && len(name) <= maxHeader {
		rd.tests[name] = t
	}
	return t, ok
}

// testsRemembered bounds the names of tests that are remembered.
const testsRemembered = 1000

// headerKey is a header reduced to what is compared: letters and digits
// without case and accents. A dot between digits stays, lest 1.5 become 15.
func headerKey(s string) string {
	folded := []rune(cell.Fold(shorten(s, maxHeader)))
	var b strings.Builder
	for i, r := range folded {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), unicode.IsMark(r), r == '%':
			b.WriteRune(r)
		case r == '#':
			b.WriteString("no")
		case r == '/' && len(folded) == 3:
			b.WriteRune(r) // H/F is a sex, HF a heart rate
		case (r == '.' || r == ',') && i > 0 && i+1 < len(folded) && unicode.IsDigit(folded[i-1]) && unicode.IsDigit(folded[i+1]):
			b.WriteByte('.')
		}
	}
	return b.String()
}

// maxHeader bounds the part of a header that is looked at, in bytes.
const maxHeader = 200

func shorten(s string, most int) string {
	if len(s) > most {
		return strings.ToValidUTF8(s[:most], "")
	}
	return s
}

func withoutParentheses(s string) string {
	base, _ := cutParentheses(cell.Fold(shorten(s, maxHeader)))
	return base
}

// cutParentheses takes out what stands in parentheses of any kind.
func cutParentheses(s string) (base string, inside []string) {
	var out, in strings.Builder
	depth := 0
	for _, r := range s {
		switch {
		case strings.ContainsRune("([{（【〔", r):
			depth++
			out.WriteByte(' ')
		case strings.ContainsRune(")]}）】〕", r):
			if depth > 0 {
				depth--
			}
			if depth == 0 {
				inside = append(inside, strings.TrimSpace(in.String()))
				in.Reset()
			}
		case depth > 0:
			in.WriteRune(r)
		default:
			out.WriteRune(r)
		}
	}
	if in.Len() > 0 {
		inside = append(inside, strings.TrimSpace(in.String()))
	}
	return strings.TrimSpace(out.String()), inside
}

// splitHeader takes from a header its hints: what stands in parentheses and
// the units behind its words.
func splitHeader(header string) (base string, hints []string) {
	base, hints = cutParentheses(cell.Fold(shorten(header, maxHeader)))
	words := strings.FieldsFunc(base, func(r rune) bool { return unicode.IsSpace(r) || r == '_' })
	for len(words) > 1 {
		last := strings.Trim(words[len(words)-1], ",.;:-")
		if _, ok := cell.UnitOf(last); !ok && !isFeet(last) && !isStones(last) {
			break
		}
		if last != "in" || len(hints) == 0 { // "height in cm" names no inches
			hints = append(hints, last)
		}
		words = words[:len(words)-1]
	}
	return strings.Join(words, " "), hints
}

func isFeet(word string) bool { return word == "ft" || word == "feet" || word == "foot" }

// isStones: like feet, stones come with a second number.
func isStones(word string) bool { return word == "st" || word == "stone" || word == "stones" }

// match recognises a header: as it is, as the question that it asks, or in the
// languages that it is written in.
func (v *vocabulary) match(header string) (heading, bool) {
	if h, ok := v.matchOne(header); ok {
		return h, true
	}
	if asked := withoutQuestion(header); asked != "" {
		if h, ok := v.matchOne(asked); ok {
			return h, true
		}
	}
	return v.matchLanguages(header)
}

// matchOne recognises a header in one language.
func (v *vocabulary) matchOne(header string) (heading, bool) {
	base, hints := splitHeader(header)
	for _, form := range []string{header, withoutParentheses(header), base} {
		if !hasLetters(form) && form != header {
			continue
		}
		if found := v.words[headerKey(form)]; len(found) > 0 {
			return withHints(found, hints), true
		}
	}
	if m, ok := v.besideTest(base); ok {
		return withHints([]Meaning{m}, hints), true
	}
	if m, ok := unitAlone(base); ok {
		return heading{Meaning: m}, true
	}
	if rest, ok := withoutOccasion(base); ok {
		if found := v.words[headerKey(rest)]; len(found) > 0 && found[0].Role == InputData {
			return withHints(found, hints), true
		}
	}
	if rest, ok := withoutSeries(base); ok {
		if found := v.words[headerKey(rest)]; len(found) > 0 {
			h := withHints(found, hints)
			h.morning = isResting(h.Meaning)
			return h, true
		}
	}
	if rest, ok := withoutMorning(base); ok {
		if found := v.words[headerKey(rest)]; len(found) > 0 && isResting(found[0]) {
			h := withHints(found, hints)
			h.morning = true
			return h, true
		}
	}
	return matchRace(header, hints)
}

// unitAlone recognises the Min and Sec of a time in two cells.
func unitAlone(base string) (Meaning, bool) {
	switch u, _ := cell.UnitOf(base); u {
	case scoring.Minutes:
		return Meaning{Role: Minutes, Input: scoring.Time, Unit: scoring.Minutes, UnitGiven: true}, true
	case scoring.Seconds:
		return Meaning{Role: SecondsOf, Input: scoring.Time, Unit: scoring.Seconds, UnitGiven: true}, true
	}
	return Meaning{}, false
}

// withoutSeries drops a "week 3" in front of a header.
func withoutSeries(base string) (string, bool) {
	words := strings.Fields(base)
	if len(words) < 3 || !slices.Contains([]string{"week", "wk", "session", "trial", "day", "woche", "semaine", "semana"}, words[0]) ||
		strings.Trim(words[1], "0123456789") != "" {
		return "", false
	}
	return strings.Join(words[2:], " "), true
}

func isResting(m Meaning) bool { return m.Role == InputData && m.Input == scoring.RestingHR }

// mornings are words that number or name the mornings of a week.
var mornings = []string{"day", "morning", "no", "mon", "tue", "wed", "thu", "fri", "sat", "sun",
	"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "tag", "jour", "dia", "morgen", "matin"}

// withoutMorning drops a "day 3", a "3" or a "Mon" behind a header.
func withoutMorning(base string) (string, bool) {
	words := strings.FieldsFunc(base, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("_-,.:;#", r) })
	n := len(words)
	for n > 1 && (strings.Trim(words[n-1], "0123456789") == "" || slices.Contains(mornings, words[n-1])) {
		n--
	}
	return strings.Join(words[:n], " "), n < len(words)
}

// fillers stand between a test and what was measured in it.
var fillers = map[string]bool{"after": true, "at": true, "the": true, "end": true, "of": true, "final": true, "finish": true,
	"in": true, "for": true, "during": true, "exercise": true, "post": true, "last": true, "test": true}

// besideTest recognises a test's name before or behind a word for something
// measured in it, such as "1-mile walk HR" or "effort of the 1.5 mile run".
func (v *vocabulary) besideTest(base string) (Meaning, bool) {
	words := strings.FieldsFunc(base, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("_-/:,;", r) })
	if len(words) > 12 {
		return Meaning{}, false
	}
	for i := 1; i < len(words); i++ {
		for _, parts := range [][2][]string{{words[:i], words[i:]}, {words[i:], words[:i]}} {
			t := v.testBeside(parts[0])
			if t == nil {
				continue
			}
			if m, ok := v.measuredIn(t, parts[1]); ok {
				return m, true
			}
		}
	}
	return Meaning{}, false
}

func (v *vocabulary) testBeside(words []string) *scoring.Test {
	for _, list := range [][]string{words, withoutFillers(words)} {
		key := headerKey(strings.Join(list, " "))
		if t, ok := v.tests[key]; ok {
			return t
		}
		if t, ok := v.short[key]; ok {
			return t
		}
	}
	return nil
}

func withoutFillers(words []string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return fillers[w] })
}

// measuredIn finds which input of a test some words mean.
func (v *vocabulary) measuredIn(t *scoring.Test, words []string) (Meaning, bool) {
	for _, list := range [][]string{words, withoutFillers(words)} {
		for _, m := range v.words[headerKey(strings.Join(list, " "))] {
			in := m.Input
			switch {
			case m.Test != nil && m.Test != t:
				continue
			case m.Role == HeartRate && hasInput(t, scoring.ExerciseHR):
				in = scoring.ExerciseHR
			case m.Role == HeartRate && hasInput(t, scoring.RecoveryHR):
				in = scoring.RecoveryHR
			case m.Role == levelPart && hasInput(t, scoring.ShuttleLevel):
				in = scoring.ShuttleLevel
			case m.Role == shuttlePart && hasInput(t, scoring.ShuttleInLevel):
				in = scoring.ShuttleInLevel
			case m.Role == Result && in == scoring.InputCount && len(t.Results) > 0:
				in = t.Results[0].Input
			case m.Role != Result && m.Role != InputData && m.Role != levelPart && m.Role != shuttlePart:
				continue
			}
			if in < scoring.InputCount && !in.Info().Personal && hasInput(t, in) {
				return Meaning{Role: InputData, Input: in, Test: t}, true
			}
		}
	}
	return Meaning{}, false
}

// withHints picks the meaning that the header's units fit and sets its unit.
func withHints(found []Meaning, hints []string) heading {
	units, feet, style := readHints(hints)
	if m := found[0]; m.Role == InputData && m.Input == scoring.Effort && slices.ContainsFunc(units, func(u scoring.Unit) bool { return u.Converts(scoring.KmPerHour) }) {
		found = []Meaning{{Role: InputData, Input: scoring.PaceSpeed}} // "Pace (km/h)" is a speed, "Pace" alone all-out or steady
	}
	h := heading{Meaning: found[0]}
	if !holdsAmount(found[0]) {
		return h
	}
	if found[0].Input == scoring.BodyMass && len(units) == 0 && slices.ContainsFunc(hints, isStones) {
		h.Unit, h.unclear = scoring.Kilograms, inStones
		return h
	}
	for _, m := range found {
		want := unitOf(m)
		for _, u := range units {
			if u.Converts(want) || cell.SameWord(u, want) {
				h.Meaning = m
				return h.withUnits(units, feet, style)
			}
		}
	}
	return h.withUnits(units, feet, style)
}

func holdsAmount(m Meaning) bool {
	return (m.Role == InputData || m.Role == Result) && m.Input != scoring.SexInput
}

// unitOf is the unit in which a column's input is kept.
func unitOf(m Meaning) scoring.Unit {
	if m.Input >= scoring.InputCount {
		return scoring.NoUnit
	}
	return m.Input.Info().Unit
}

func (h heading) withUnits(units []scoring.Unit, feet bool, style cell.TimeStyle) heading {
	want := unitOf(h.Meaning)
	h.Unit = want
	var fitting []scoring.Unit
	for _, u := range units {
		if cell.SameWord(u, want) {
			u = want
		}
		if u.Converts(want) && !slices.Contains(fitting, u) && want != scoring.NoUnit {
			fitting = append(fitting, u)
		}
	}
	isTime := h.Input == scoring.Time || h.Role == Result && h.Input == scoring.InputCount
	switch {
	case feet && scoring.Metres.Converts(want):
		h.unclear = inFeet
	case isTime && style == cell.Dotted:
		h.style = cell.Dotted
	case len(fitting) > 1:
		h.unclear = unclearUnits.With(fitting[0], fitting[1])
	case len(fitting) == 1:
		h.Unit, h.UnitGiven = fitting[0], true
	}
	if isTime && h.UnitGiven {
		h.style = map[scoring.Unit]cell.TimeStyle{scoring.Seconds: cell.InSeconds, scoring.Minutes: cell.InMinutes}[h.Unit]
	}
	return h
}

// readHints finds the units that a header's hints name, and whether they say
// minutes and seconds together, as (min:sec) and (分′秒″) do.
func readHints(hints []string) (units []scoring.Unit, feet bool, style cell.TimeStyle) {
	minutes, seconds := false, false
	for _, hint := range hints {
		if u, ok := cell.UnitOf(hint); ok {
			units = append(units, u)
			continue
		}
		words := strings.FieldsFunc(hint, func(r rune) bool {
			return unicode.IsSpace(r) || strings.ContainsRune(`.:,;/'"&+|-`, r)
		})
		for _, w := range words {
			u, ok := cell.UnitOf(w)
			switch {
			case w == "mm" || w == "мм" || u == scoring.Minutes:
				minutes = true
			case w == "ss" || w == "сс" || u == scoring.Seconds:
				seconds = true
			}
			if ok {
				units = append(units, u)
			}
			feet = feet || isFeet(w)
		}
		if len(words) == 2 && words[0] == "m" && words[1] == "s" {
			minutes, seconds = true, true
		}
	}
	for _, hint := range hints {
		feet = feet || isFeet(strings.Trim(hint, ". "))
	}
	if minutes && seconds {
		style = cell.Dotted
	}
	return units, feet, style
}

// slips is how many letters may be wrong in a word of n letters for it to be
// taken for a slip of the hand; common practice, no source.
func slips(n int) int {
	switch {
	case n < 5 || n > 40:
		return 0
	case n < 8:
		return 1
	case n < 14:
		return 2
	}
	return 3
}

// nearestTest finds the test whose name a text is a slip of the hand away from.
func (v *vocabulary) nearestTest(text string) (name string, ok bool) {
	key := headerKey(text)
	return nearestOf(v.testTexts, key, slips(len([]rune(key))))
}

// nearest finds the known header that a text, itself not known, is a slip of
// the hand away from.
func (v *vocabulary) nearest(text string) (known string, ok bool) {
	key := headerKey(text)
	if len(v.words[key]) > 0 {
		return "", false
	}
	return nearestOf(v.texts, key, slips(len([]rune(key))))
}

// nearestOf finds the first of the spellings that are the fewest letters from a
// key, at most so many.
func nearestOf(known []spelling, key string, most int) (text string, ok bool) {
	if most == 0 {
		return "", false
	}
	best := most + 1
	for _, s := range known {
		// Each letter has up to four bytes.
		if d := len(s.key) - len(key); d > 4*most || d < -4*most {
			continue
		}
		if d := levenshtein.ComputeDistance(key, s.key); d < best {
			best, text = d, s.text
		}
	}
	return text, best <= most
}

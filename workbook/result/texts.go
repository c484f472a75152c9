package result

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode"

	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
	"tenback/templates/wording"
	"tenback/workbook/cell"
	"tenback/workbook/sheetwords"
)

// texts knows what result cells can hold, so that what a person typed into one is
// recognised. Blanks are as in [cell.Label].
type texts struct {
	whole  map[string]bool // texts without numbers, and the parts of longer ones
	words  map[string]bool // of the texts with numbers
	tables []string        // beginnings that name a table, such as "women: "
	tests  []string        // names
	flags  []string        // remarks on a score
	open   []string        // beginnings that any text can follow
}

// builtinTexts returns those of every language.
var builtinTexts = sync.OnceValue(func() *texts {
	t := &texts{whole: map[string]bool{}, words: map[string]bool{}}
	for _, lang := range templates.Languages() {
		t.add(sheetwords.Builtin()[lang])
	}
	return t
})

// textsOf returns those of every language, of the user's words and of the groups of
// the user's table, which may be nil.
func textsOf(set *templates.Set, groups *reference.GroupTable) *texts {
	t := *builtinTexts()
	t.whole, t.words = maps.Clone(t.whole), maps.Clone(t.words)
	t.tables, t.tests, t.flags, t.open = slices.Clip(t.tables), slices.Clip(t.tests), slices.Clip(t.flags), slices.Clip(t.open)
	if set != sheetwords.Builtin()[set.Lang()] {
		t.add(set)
	}
	if groups != nil {
		for _, name := range groups.Names {
			t.addText(name)
		}
	}
	return &t
}

func (t *texts) add(set *templates.Set) {
	w := wordsOf(set)
	say := func(key string, slots wording.Slots) string { return label(w.Say(key, slots)) }
	beginning := func(key string, slots wording.Slots) string {
		const gap = "\ue000" // in no text
		for slot, v := range slots {
			if v == nil {
				slots[slot] = gap
			}
		}
		before, _, _ := strings.Cut(say(key, slots), gap)
		return before
	}
	for _, key := range set.Keys() {
		switch family, of, _ := strings.Cut(key, "."); {
		case strings.HasSuffix(of, ".header") || strings.HasSuffix(of, ".explain") || strings.HasPrefix(of, "summary."):
		case family == "remark":
			t.flags = append(t.flags, say(key, nil))
		case slices.Contains([]string{"sheet", "group", "quarter", "fifth"}, family) && len(set.Slots(key)) == 0:
			t.addText(say(key, nil))
		case slices.Contains([]string{"sheet", "percentile", "ages", "unit", "equation"}, family),
			family == "test" && (strings.Contains(of, ".phrase.") || strings.HasSuffix(of, ".name")):
			t.addWords(set.Literal(key))
		}
	}
	for _, table := range []string{"women", "men", "girls", "boys"} {
		t.tables = append(t.tables, beginning("sheet.by-table", wording.Slots{"Table": say("sheet.table."+table, nil), "Text": nil}))
	}
	for month := range time.December {
		if day, err := set.Date(time.Date(2000, month+1, 1, 0, 0, 0, 0, time.UTC)); err == nil {
			t.addWords(day)
		}
	}
	for rank := 1.0; rank <= 4; rank++ {
		t.addWords(reference.Ordinal(rank))
	}
	for _, test := range fieldtests.All() {
		t.tests = append(t.tests, label(w.Test(test)))
	}
	for _, key := range []string{"sheet.not-scored", "sheet.since.not"} {
		t.open = append(t.open, beginning(key, wording.Slots{"Why": nil}))
	}
}

func label(text string) string { return cell.Label(cell.Raw{Kind: cell.Text, Text: text}) }

func (t *texts) addText(text string) {
	t.whole[text] = true
	t.addWords(text)
}

func (t *texts) addWords(text string) {
	for _, w := range wordsIn(text) {
		t.words[w] = true
	}
}

// wordsIn returns the words of a text in lower case; 31st has the word st.
func wordsIn(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

// namesTest reports whether a text begins with a test's name and a colon.
func (t *texts) namesTest(text string) bool {
	return slices.ContainsFunc(t.tests, func(name string) bool {
		rest, ok := strings.CutPrefix(text, name)
		return ok && strings.HasPrefix(strings.TrimPrefix(rest, " "), ":")
	})
}

func (t *texts) isOpen(text string) bool {
	return slices.ContainsFunc(t.open, func(before string) bool { return strings.HasPrefix(text, before) })
}

// amounts returns what recognises numbers in a range.
func amounts(least, most float64) func(*texts, cell.Raw) bool {
	return func(_ *texts, r cell.Raw) bool {
		x, ok := amount(r)
		return ok && x >= least && x <= most
	}
}

var plainDigits = strings.NewReplacer(",", ".", "−", "-", " ", "")

// amount reads a number, also as a text file has it.
func amount(r cell.Raw) (x float64, ok bool) {
	if r.Kind != cell.Number && r.Kind != cell.Text {
		return 0, false
	}
	text, percent := strings.CutSuffix(plainDigits.Replace(cell.Label(r)), "%")
	x, err := strconv.ParseFloat(text, 64)
	if percent {
		x /= 100
	}
	return x, err == nil
}

func isSource(t *texts, r cell.Raw) bool {
	return t.whole[cell.Label(r)] || t.namesTest(cell.Label(r))
}

func isFile(_ *texts, r cell.Raw) bool { return strings.HasSuffix(cell.Label(r), ".pdf") }

func isPercentile(t *texts, r cell.Raw) bool { return amounts(0, 100)(t, r) || isPhrase(t, r) }

// isRate knows the texts about resting rates; a child's may be the number alone.
func isRate(t *texts, r cell.Raw) bool {
	return r.Kind == cell.Text && amounts(20, 250)(t, r) || isPhrase(t, r)
}

// isPhrase knows a text if it knows every part: as a whole, or by its words if the
// part has a number.
func isPhrase(t *texts, r cell.Raw) bool {
	text := cell.Label(r)
	if r.Kind != cell.Text || !cell.HasLetters(text) {
		return false
	}
	if t.isOpen(text) {
		return true
	}
	for part := range strings.SplitSeq(text, "; ") {
		for _, table := range t.tables {
			part = strings.TrimPrefix(part, table)
		}
		switch {
		case t.whole[part]:
		case strings.ContainsAny(part, "0123456789"):
			if slices.ContainsFunc(wordsIn(part), func(w string) bool { return !t.words[w] }) {
				return false
			}
		case slices.ContainsFunc(strings.Split(part, ", "), func(s string) bool { return !t.whole[s] }):
			return false
		}
	}
	return true
}

// ofCell matches a problem, which begins with a cell.
var ofCell = regexp.MustCompile(`^(?:[^;:]*!)?[A-Z]{1,3}[0-9]{1,7} ?: `)

// isFlags knows a text if it knows how each part begins.
func isFlags(t *texts, r cell.Raw) bool {
	text := cell.Label(r)
	if r.Kind != cell.Text {
		return false
	}
	for text != "" {
		if t.isOpen(text) || ofCell.MatchString(text) {
			return true
		}
		flag := ""
		for _, f := range t.flags {
			if len(f) > len(flag) && strings.HasPrefix(text, f) {
				flag = f
			}
		}
		rest, end := text[len(flag):], "; "
		switch {
		case flag == "" && !t.namesTest(text):
			return false
		case flag != "" && strings.HasPrefix(rest, " ("):
			end = "); "
		case flag != "" && rest != "" && !strings.HasPrefix(rest, end):
			return false
		}
		_, text, _ = strings.Cut(rest, end)
	}
	return true
}

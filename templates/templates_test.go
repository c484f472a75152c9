package templates

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"text/template"
	"time"
)

func loaded(t *testing.T, lang, dir string) *Set {
	t.Helper()
	s, err := Load(lang, dir)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// folder makes a folder with the given files.
func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestEveryLanguageLoads(t *testing.T) {
	if !slices.Contains(Languages(), reference) {
		t.Fatalf("languages %v lack the reference", Languages())
	}
	for _, lang := range Languages() {
		if got := loaded(t, lang, "").Lang(); got != lang {
			t.Errorf("Lang() = %q, want %q", got, lang)
		}
	}
}

// TestTranslate: what a language lacks is said in English, and what nothing uses is
// left out.
func TestTranslate(t *testing.T) {
	parse := func(text string) map[string]*block {
		t.Helper()
		blocks, err := parseFile("all.tmpl", text)
		if err != nil {
			t.Fatal(err)
		}
		return blocks
	}
	said := func(blocks map[string]*block) string {
		var all []string
		for _, key := range slices.Sorted(maps.Keys(blocks)) {
			all = append(all, key+"="+blocks[key].tree.Root.String())
		}
		return strings.Join(all, " ")
	}
	english := `{{define "title"}}Report{{end}}{{define "squad/title"}}Squad{{end}}{{define "sum"}}Sum{{end}}{{define "squad/sum"}}Total{{end}}`
	blocks := parse(english)
	missing, unknown := translate(blocks, parse(`{{define "title"}}Bericht{{end}}{{define "titel"}}x{{end}}`))
	if got, want := said(blocks), "squad/sum=Total sum=Sum title=Bericht"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if !slices.Equal(missing, []string{"squad/sum", "squad/title", "sum"}) || !slices.Equal(unknown, []string{"titel"}) {
		t.Errorf("missing %v, unknown %v", missing, unknown)
	}
}

func TestUnknownLanguage(t *testing.T) {
	if _, err := Load("xx", ""); !errors.Is(err, ErrUnknownLanguage) {
		t.Errorf("error %v", err)
	}
}

func TestSay(t *testing.T) {
	s := loaded(t, "en", "")
	got, err := s.Say("number.range", map[string]any{"Low": 29.46, "High": 39.46})
	if err != nil || got != "Likely range 29.5 to 39.5" {
		t.Errorf("%q, %v", got, err)
	}
	got, err = s.Say("head.tested", map[string]any{"Tested": time.Date(2026, 3, 12, 9, 0, 0, 0, time.UTC)})
	if err != nil || got != "tested on 12 March 2026" {
		t.Errorf("%q, %v", got, err)
	}
	got, err = s.Say("method.sure.published", map[string]any{"SEE": 5.0})
	if err != nil || !strings.Contains(got, "5.0\u202fmL/kg/min") {
		t.Errorf("no thin space in %q, %v", got, err)
	}
}

func TestSayErrors(t *testing.T) {
	s := loaded(t, "en", "")
	tests := []struct {
		name, key string
		data      map[string]any
		want      []string
	}{
		{"no such block", "number.rnage", nil, []string{"number.rnage"}},
		{"slot missing", "number.range", map[string]any{"Low": 1.0}, []string{"common.tmpl:", "High"}},
		{"slot of the wrong kind", "number.range", map[string]any{"Low": "x", "High": 1.0}, []string{"common.tmpl:", "x is not a number"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := s.Say(tt.key, tt.data)
			if err == nil {
				t.Fatal("no error")
			}
			for _, want := range tt.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q does not say %q", err, want)
				}
			}
		})
	}
}

func TestOverride(t *testing.T) {
	for name, dir := range map[string]string{
		"files in the folder":       folder(t, map[string]string{"mine.tmpl": `{{define "title"}}Club report{{end}}`}),
		"a subfolder of a language": folder(t, map[string]string{"en/mine.tmpl": `{{define "title"}}Club report{{end}}`, "de/mine.tmpl": `{{define "nonsense"}}{{end}}`}),
	} {
		t.Run(name, func(t *testing.T) {
			s := loaded(t, "en", dir)
			if got, err := s.Say("title", nil); err != nil || got != "Club report" {
				t.Errorf("%q, %v", got, err)
			}
			if got, err := s.Say("unit", nil); err != nil || got != "mL/kg/min" {
				t.Errorf("a block that was not replaced: %q, %v", got, err)
			}
		})
	}
}

func TestOverrideErrors(t *testing.T) {
	tests := []struct {
		name, text string
		want       []string
	}{
		{"does not parse", "\n\n{{define \"title\"}}{{end", []string{"mine.tmpl:3"}},
		{"unknown block", "\n{{define \"number.rang\"}}x{{end}}", []string{"mine.tmpl:2", "number.rang", "number.range"}},
		{"unknown slot", "{{define \"number.range\"}}\n\n{{.Lwo}}{{end}}", []string{"mine.tmpl:3", ".Lwo", ".Low, .High"}},
		{"slot in a condition", "{{define \"number.range\"}}\n{{if gt .Value 3.0}}x{{end}}{{end}}", []string{"mine.tmpl:2", ".Value"}},
		{"slot in an else", "{{define \"number.range\"}}{{if gt .Low 3.0}}x{{else}}\n{{.Value}}{{end}}{{end}}", []string{"mine.tmpl:2", ".Value"}},
		{"no slots at all", "{{define \"title\"}}{{.Name}}{{end}}", []string{"mine.tmpl:1", "it has no slots"}},
		{"field of a field", "{{define \"number.range\"}}{{.Low.High}}{{end}}", []string{"mine.tmpl:1", "Low.High"}},
		{"unknown helper", "{{define \"title\"}}\n{{printf \"%99999999d\" 1}}{{end}}", []string{"mine.tmpl:2", "printf"}},
		{"loop", "{{define \"title\"}}\n{{range 1000000000}}x{{end}}{{end}}", []string{"mine.tmpl:2", "range"}},
		{"calls itself", "{{define \"title\"}}{{template \"title\"}}{{end}}", []string{"mine.tmpl:1", "template"}},
		{"variable", "{{define \"title\"}}{{$x := 1}}{{end}}", []string{"mine.tmpl:1", "variable"}},
		{"whole data", "{{define \"title\"}}{{.}}{{end}}", []string{"mine.tmpl:1"}},
		{"words outside", "\nHello\n{{define \"title\"}}x{{end}}", []string{"mine.tmpl:1", "outside"}},
		{"unknown block of an audience", "\n{{define \"squad/number.rang\"}}x{{end}}", []string{"mine.tmpl:2", "squad/number.rang", "number.range"}},
		{"unknown audience", "{{define \"family/title\"}}x{{end}}", []string{"mine.tmpl:1", "family/title"}},
		{"unknown slot for an audience", "{{define \"squad/number.range\"}}\n{{.Lwo}}{{end}}", []string{"mine.tmpl:2", ".Lwo", ".Low, .High"}},
		{"too few values", "{{define \"number.range\"}}\n{{num .Low}}{{end}}", []string{"mine.tmpl:2", "gives num 1 values"}},
		{"too many values", "{{define \"number.range\"}}\n{{.Low .High}}{{end}}", []string{"mine.tmpl:2", "gives .Low 1 values"}},
		{"a pipe into a slot", "{{define \"number.range\"}}\n{{.Low | .High}}{{end}}", []string{"mine.tmpl:2", "gives .High 1 values"}},
		{"eleven months", "{{define \"format.months\"}}a b c d e f g h i j k{{end}}", []string{"mine.tmpl", "11 month names"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Load("en", folder(t, map[string]string{"mine.tmpl": tt.text}))
			if err == nil {
				t.Fatal("no error")
			}
			for _, want := range tt.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q does not say %q", err, want)
				}
			}
		})
	}
}

// TestUnknownBlockOfALargeFamily: hundreds of names would bury the right one.
func TestUnknownBlockOfALargeFamily(t *testing.T) {
	_, err := Load("en", folder(t, map[string]string{"mine.tmpl": `{{define "say.roster.no-resul"}}x{{end}}`}))
	if err == nil || !strings.Contains(err.Error(), "the nearest are say.roster.no-result,") || strings.Count(err.Error(), ", ") != nearestMost-1 {
		t.Errorf("the error is %v", err)
	}
}

func TestOverrideFolderErrors(t *testing.T) {
	twice := folder(t, map[string]string{"a.tmpl": `{{define "title"}}x{{end}}`, "b.tmpl": `{{define "title"}}y{{end}}`})
	huge := folder(t, map[string]string{"a.tmpl": strings.Repeat(" ", maxFileBytes+1)})
	for dir, want := range map[string]string{
		filepath.Join(t.TempDir(), "none"): "does not exist",
		t.TempDir():                        "no .tmpl file",
		twice:                              "keep one",
		huge:                               "larger than",
	} {
		if _, err := Load("en", dir); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v does not say %q", err, want)
		}
	}
}

func TestNumber(t *testing.T) {
	s := loaded(t, "en", "")
	comma := loaded(t, "en", folder(t, map[string]string{"mine.tmpl": `{{define "format.decimal"}},{{end}}`}))
	tests := []struct {
		x        float64
		decimals int
		want     string
	}{
		{34.46, 1, "34.5"}, {-3.25, 1, "−3.2"}, {-0.04, 1, "0.0"}, {7, 0, "7"}, {1e-9, 9, "0.000"}, {2.5, -1, "2"},
	}
	for _, tt := range tests {
		if got := s.Number(tt.x, tt.decimals); got != tt.want {
			t.Errorf("Number(%v, %d) = %q, want %q", tt.x, tt.decimals, got, tt.want)
		}
	}
	if got := comma.Number(34.46, 1); got != "34,5" {
		t.Errorf("with a comma: %q", got)
	}
}

func TestLayOut(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"lines join", "one\ntwo\r\n  three", "one two three"},
		{"blank line parts", "one\n\n\ntwo", "one\ntwo"},
		{"list", "intro\n- a\nb\n- c", "intro\n- a b\n- c"},
		{"thin spaces stay", "5.0\u202fmL  a\u00a0b", "5.0\u202fmL a\u00a0b"},
		{"nothing", "\n \n", ""},
	}
	for _, tt := range tests {
		if got := layOut(tt.in); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestSlotsAndKeys(t *testing.T) {
	s := loaded(t, "en", "")
	if got := s.Slots("number.range"); !slices.Equal(got, []string{"Low", "High"}) {
		t.Errorf("slots %v", got)
	}
	if got := s.Slots("no such block"); got != nil {
		t.Errorf("slots %v of a block that is not there", got)
	}
	if keys := s.Keys(); !slices.IsSorted(keys) || !slices.Contains(keys, "title") {
		t.Errorf("keys %v", keys)
	}
}

// FuzzLoad: whatever a user's file holds, loading gives words or an error, and
// what was loaded can be said without a fault.
func FuzzLoad(f *testing.F) {
	f.Add(`{{define "title"}}x{{end}}`)
	f.Add(`{{define "number.range"}}{{if gt .Low 1.0}}{{num 1 .High}}{{else}}{{qty 2 .Low "m"}}{{end}}{{end}}`)
	f.Add(`{{/* slots: A */}}{{define "unit"}}{{date .A}}{{end}}`)
	f.Fuzz(func(t *testing.T, text string) {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "x.tmpl"), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := Load("en", dir)
		if err != nil {
			return
		}
		for _, key := range []string{"title", "number.range", "unit"} {
			_, _ = s.Say(key, map[string]any{"Low": 1.0, "High": 2.0})
		}
	})
}

// TestAudiences: an audience has its own blocks where there are any, and those of
// everyone else.
func TestAudiences(t *testing.T) {
	dir := folder(t, map[string]string{"mine.tmpl": `
{{define "squad/number.range"}}{{num 1 .Low}}–{{num 1 .High}}{{end}}
{{define "school/title"}}Report for the family{{end}}`})
	s := loaded(t, "en", dir)
	say := func(a Audience, key string) string {
		t.Helper()
		text, err := s.For(a).Say(key, map[string]any{"Low": 1.0, "High": 2.0})
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	for _, tt := range []struct {
		audience  Audience
		key, want string
	}{
		{Squad, "number.range", "1.0–2.0"},
		{School, "number.range", "Likely range 1.0 to 2.0"},
		{Anyone, "number.range", "Likely range 1.0 to 2.0"},
		{School, "title", "Report for the family"},
		{Workplace, "title", "Fitness report"},
		{Anyone, "title", "Fitness report"},
	} {
		if got := say(tt.audience, tt.key); got != tt.want {
			t.Errorf("%q, %s: %q, want %q", tt.audience, tt.key, got, tt.want)
		}
	}
	if got := s.For(Squad).Key("number.range"); got != "squad/number.range" {
		t.Errorf("the block is said to be %q", got)
	}
	for _, a := range Audiences() {
		if got, err := ParseAudience(" " + strings.ToUpper(string(a))); err != nil || got != a {
			t.Errorf("%q: %q, %v", a, got, err)
		}
	}
	for _, name := range []string{"", "family", "/"} {
		if got, err := ParseAudience(name); err == nil {
			t.Errorf("%q is taken for %q", name, got)
		}
	}
}

func TestFindLanguage(t *testing.T) {
	for _, text := range []string{"en", "EN", " en-GB", "en_US", "English", "english"} {
		if got, err := FindLanguage(text); err != nil || got != "en" {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "xx", "e", "Englisch sprechend"} {
		if _, err := FindLanguage(text); !errors.Is(err, ErrUnknownLanguage) || !strings.Contains(err.Error(), "en English") {
			t.Errorf("%q: error %v", text, err)
		}
	}
	for _, lang := range Languages() {
		if got, err := FindLanguage(lang); err != nil || got != lang || len(languageNames()[lang]) == 0 {
			t.Errorf("%s: %q, %v, names %v", lang, got, err, languageNames()[lang])
		}
	}
}

// TestExecuteSaysTheSame holds what fills blocks to text/template, on every block
// of every language with several fillings of its slots.
func TestExecuteSaysTheSame(t *testing.T) {
	for _, lang := range Languages() {
		s := loaded(t, lang, "")
		root := template.New("").Option("missingkey=error").Funcs(template.FuncMap{
			"num": func(decimals int, x any) (string, error) {
				v, err := number(x)
				return s.Number(v, decimals), err
			},
			"qty": func(decimals int, x any, unit string) (string, error) {
				v, err := number(x)
				return s.Number(v, decimals) + thinSpace + unit, err
			},
			"date": s.Date,
		})
		for key, b := range s.blocks {
			if len(b.slots) > 0 {
				saysTheSame(t, s, root, key, b)
			}
		}
	}
}

func saysTheSame(t *testing.T, s *Set, root *template.Template, key string, b *block) {
	t.Helper()
	other, err := root.AddParseTree(key, b.tree)
	if err != nil {
		t.Fatal(err)
	}
	for _, value := range []any{"female", "", "below", 1, 0, 10, 1.0, 0.0, -3.26, true, time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)} {
		slots := map[string]any{}
		for _, slot := range b.slots {
			slots[slot] = value
		}
		for _, missing := range append([]string{""}, b.slots...) {
			delete(slots, missing)
			ours := filling{set: s, block: b, slots: slots}
			err := ours.execute(b.tree.Root)
			var theirs strings.Builder
			if otherErr := other.Execute(&theirs, slots); otherErr != nil {
				if err == nil && !strings.Contains(otherErr.Error(), "incompatible types for comparison") { // we compare 1 with 1.0
					t.Errorf("%s, %s with %v without %q: %q, but text/template: %v", s.lang, key, value, missing, ours.String(), otherErr)
				}
				continue
			}
			if err != nil || ours.String() != theirs.String() {
				t.Errorf("%s, %s with %v without %q: %q, %v; by text/template %q", s.lang, key, value, missing, ours.String(), err, theirs.String())
			}
		}
	}
}

// TestLanguagesSayTheSame: a slot that the English block uses is used by every
// other language too, or the reader would miss what it says. Slots that tell a
// grammar apart, or that only one language can use, are named here.
func TestLanguagesSayTheSame(t *testing.T) {
	grammar := map[string]bool{"Sex": true, "Ordinal": true}
	english := loaded(t, reference, "")
	for _, lang := range Languages() {
		s := loaded(t, lang, "")
		for key, b := range s.blocks {
			e := english.blocks[key]
			if e == nil {
				continue
			}
			for _, slot := range b.slots {
				mark := regexp.MustCompile(`\.` + slot + `\b`)
				uses := func(b *block) bool { return mark.MatchString(b.tree.Root.String()) }
				if uses(e) && !uses(b) && !grammar[slot] {
					t.Errorf("%s: %s does not use .%s, as the English does: %s", lang, key, slot, b.tree.Root)
				}
			}
		}
	}
}

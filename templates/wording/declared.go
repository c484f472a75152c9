package wording

import (
	"fmt"
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// Declared returns the English words of all that package scoring, the field tests
// and the phrasebooks declare, as blocks of templates.
func Declared() string {
	var f file
	for _, t := range fieldtests.All() {
		f.test(t)
	}
	f.block("safety.first", nil, scoring.ScreenFirst()...)
	f.block("safety.stop", nil, scoring.StopSigns()...)
	for _, e := range scoring.Exertions() {
		f.block("exertion."+e.ID()+".caution", nil, e.Caution())
	}
	for in := range scoring.InputCount {
		f.block("input."+in.String()+".name", nil, in.Info().Name)
		f.block("input."+in.String()+".meaning", nil, in.Info().Meaning)
	}
	for _, u := range scoring.Units() {
		f.block(unitKey(u), nil, u.String())
	}
	for _, code := range scoring.FlagCodes() {
		f.block("remark."+code.ID(), nil, scoring.Flag{Code: code}.String())
	}
	for _, p := range slices.Concat(scoring.Phrases(), limits()) {
		text := p.English
		for _, slot := range p.Slots {
			text = strings.ReplaceAll(text, "{"+slot+"}", "{{."+slot+"}}")
		}
		name := "say." + p.ID
		if strings.HasPrefix(p.ID, "sheet.") {
			name = p.ID // a word of a result column, not part of a sentence
		}
		f.block(name, p.Slots, text)
	}
	for _, n := range reference.Namings() {
		for g, name := range n.Names {
			f.block(groupKey(n.Kind, reference.Group(g)), nil, name)
		}
	}
	return f.String()
}

// limits lists why the limits of equations are ones, each once.
func limits() []*scoring.Phrase {
	var all []*scoring.Phrase
	known := map[string]bool{}
	for _, t := range fieldtests.All() {
		for _, e := range t.Equations {
			for _, l := range e.Limits {
				if p := l.Phrase(); !known[p.ID] {
					known[p.ID], all = true, append(all, p)
				}
			}
		}
	}
	return all
}

// file is a file of words that is being written.
type file struct{ strings.Builder }

// block writes a block of paragraphs.
func (f *file) block(key string, slots []string, paragraphs ...string) {
	fmt.Fprintf(f, "{{define %q}}", key)
	if len(slots) > 0 {
		fmt.Fprintf(f, "{{/* slots: %s */}}", strings.Join(slots, " "))
	}
	if len(paragraphs) > 1 {
		fmt.Fprintf(f, "\n%s\n", strings.Join(paragraphs, "\n\n"))
	} else {
		f.WriteString(paragraphs[0])
	}
	f.WriteString("{{end}}\n")
}

// test writes the blocks of a test and its equations.
func (f *file) test(t *scoring.Test) {
	f.block(testKey(t, "name"), nil, t.Name)
	f.block(testKey(t, "suits"), nil, t.Suits)
	f.block(testKey(t, "protocol"), nil, t.Protocol...)
	for _, r := range t.Results {
		f.block(testKey(t, "column."+r.Input.String()), nil, r.Column)
		if r.Phrase != "" {
			f.block(testKey(t, "phrase."+r.Input.String()), []string{"Value"}, strings.Replace(r.Phrase, "%s", "{{.Value}}", 1))
		}
	}
	for _, a := range t.Also {
		f.block(testKey(t, "column."+a.Input.String()), nil, a.Column)
	}
	for _, e := range t.Equations {
		f.block("equation."+e.ID+".name", nil, e.Name)
		f.block("equation."+e.ID+".people", nil, e.Population)
	}
}

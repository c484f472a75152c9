package wording

import (
	"bytes"
	"fmt"
	"strings"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// DeclaredFile is the file of words that [Declared] writes.
const DeclaredFile = "declared.tmpl"

// generated heads the file; editors and reviewers know the line by its form.
const generated = "{{/* Code generated from package scoring by go test ./templates/wording -update. DO NOT EDIT.\n" +
	"Tests, equations, inputs, units and what scores say. Translate all but names of\nstudies, and keep the slots. */}}\n"

// Declared is the English words of all that package scoring declares: the
// content of templates/en/declared.tmpl.
func Declared() []byte {
	var f file
	f.WriteString(generated)
	for _, t := range scoring.Tests() {
		f.test(t)
	}
	f.part("Cautions for every test.")
	f.block("safety.first", nil, scoring.ScreenFirst()...)
	f.block("safety.stop", nil, scoring.StopSigns()...)
	f.part("What goes into a test. Names stand in the middle of sentences.")
	for in := range scoring.InputCount {
		f.block("input."+in.String()+".name", nil, in.Info().Name)
		f.block("input."+in.String()+".meaning", nil, in.Info().Meaning)
	}
	f.part("Units.")
	for _, u := range scoring.Units() {
		f.block(unitKey(u), nil, u.String())
	}
	f.part("Remarks, in short for a cell.")
	for _, code := range scoring.FlagCodes() {
		f.block("remark."+code.ID(), nil, scoring.Flag{Code: code}.String())
	}
	f.part("Reasons, remedies and details. Slots hold words and numbers of the language.")
	f.phrases(scoring.Phrases())
	f.part("Groups of tables in fifths.")
	for g, name := range reference.Fifths() {
		f.block(fmt.Sprintf("fifth.%d", g+1), nil, name)
	}
	return f.Bytes()
}

// Phrases is the English words of the phrases of other packages, under a comment
// that says how the file is made and what to do with it.
func Phrases(comment string, phrases []*scoring.Phrase) []byte {
	var f file
	fmt.Fprintf(&f, "{{/* %s */}}\n\n", comment)
	f.phrases(phrases)
	return f.Bytes()
}

func (f *file) phrases(all []*scoring.Phrase) {
	for _, p := range all {
		text := p.English
		for _, slot := range p.Slots {
			text = strings.ReplaceAll(text, "{"+slot+"}", "{{."+slot+"}}")
		}
		f.block("say."+p.ID, p.Slots, text)
	}
}

// file is a file of words that is being written.
type file struct{ bytes.Buffer }

func (f *file) part(comment string) { fmt.Fprintf(f, "\n{{/* %s */}}\n", comment) }

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
	f.part(t.Name + ".")
	f.block(testKey(t, "name"), nil, t.Name)
	f.block(testKey(t, "suits"), nil, t.Suits)
	f.block(testKey(t, "protocol"), nil, t.Protocol...)
	if len(t.Cautions) > 0 {
		f.block(testKey(t, "cautions"), nil, t.Cautions...)
	}
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

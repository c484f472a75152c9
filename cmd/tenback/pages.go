package main

import (
	"cmp"
	"context"
	"maps"
	"path/filepath"
	"slices"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/heading"
)

// pageMaker holds what all pages of a roster share.
type pageMaker struct {
	paper    kit.Paper
	audience templates.Audience
	lang     string
	words    map[string]*templates.Set // by language
	brand    *kit.Brand
	scoring  scoring.Options // how the outcomes were scored
}

// newPageMaker loads what the settings of a roster ask for. words is the folder of
// the user's own words, possibly empty.
func newPageMaker(r *workbook.Roster, words string, paper kit.Paper) (m *pageMaker, err error) {
	m = &pageMaker{paper: paper, words: map[string]*templates.Set{}}
	if m.audience, err = audienceSet(r.Settings); err != nil {
		return nil, err
	}
	if m.lang, err = languageOf(r.Settings); err != nil {
		return nil, err
	}
	if err = m.loadWords(r, words); err != nil {
		return nil, err
	}
	m.brand, err = brandOf(r)
	return m, err
}

// loadWords loads the words of every language in use.
func (m *pageMaker) loadWords(roster *workbook.Roster, dir string) error {
	wanted := map[string]bool{m.lang: true}
	for _, s := range roster.Sheets {
		for i := range s.Rows {
			wanted[cmp.Or(s.Rows[i].Person.Language, m.lang)] = true
		}
	}
	for _, lang := range slices.Sorted(maps.Keys(wanted)) {
		words, err := templates.Load(lang, dir)
		if err != nil {
			return err
		}
		m.words[lang] = words
	}
	return nil
}

// person returns what the page of an outcome is made from.
func (m *pageMaker) person(o *workbook.Outcome) person.Person {
	var remarks []person.Problem
	for _, p := range o.Problems() {
		if o.IsPrivate(p) {
			continue
		}
		remarks = append(remarks, person.Problem{Read: p.Read, What: p.What, Unread: o.IsUnread(p)})
	}
	return person.Person{Name: o.Row.Person.Label(), Group: o.Row.Person.Group, Score: o.Score(&m.scoring), Review: o.Review, Tested: o.Row.Entry.Tested,
		Paper: m.paper, Words: m.words[cmp.Or(o.Row.Person.Language, m.lang)], Program: version.Program(), Problems: remarks, Suits: o.Suits,
		Audience: m.audienceOf(o), Brand: m.brand}
}

// audienceOf returns who reads a person's page: the row's own, else the one set,
// else that of the sheet's group column, else the family of someone who may be under 18.
func (m *pageMaker) audienceOf(o *workbook.Outcome) templates.Audience {
	if own := o.Row.Person.Audience; own != "" {
		return templates.Audience(own)
	}
	if m.audience != templates.Anyone {
		return m.audience
	}
	if o.Sheet != nil {
		if setting, ok := heading.SettingOf(o.Sheet); ok {
			return templates.Audience(setting)
		}
	}
	if o.Row.Entry.MayBeYoung() {
		return templates.School
	}
	return templates.Anyone
}

// combine writes all pages into documents for the printer. They are outside the
// folder of pages, because their names could clash with a person's.
func (p runPlan) combine(ctx context.Context, outcomes []workbook.Outcome, m *pageMaker) (files []string, pages int, err error) {
	var people []person.Person
	for i := range outcomes {
		if outcomes[i].Report != "" {
			people = append(people, m.person(&outcomes[i]))
		}
	}
	if p.byGroup {
		batch.ByGroup(people)
	}
	return batch.WriteBooklets(ctx, filepath.Join(p.out, p.base()+"-all-pages"), p.base(), people)
}

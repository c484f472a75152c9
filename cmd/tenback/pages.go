package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/filename"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/heading"
)

// defaultLanguage is the language of pages unless another is asked for.
const defaultLanguage = "en"

// pageFlags are the options on what the pages say and look like.
func pageFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "audience", Usage: "who reads the pages: `WHO` is school, workplace or squad (default: by a column Class, Department or Squad; under 18 school)"},
		langFlag("the pages and the result columns"),
		wordsFlag(),
		&cli.StringFlag{Name: "org", Usage: "`NAME` of your organisation, at the head of every page"},
		&cli.StringFlag{Name: "logo", Usage: "PNG or JPEG `FILE` of your logo"},
		&cli.StringFlag{Name: "accent", Usage: "`COLOUR` of headings, such as #0C4A58"},
		&cli.StringFlag{Name: "contact", Usage: "`LINE` at the foot of every page: whom to ask"},
		&cli.BoolFlag{Name: "combined", Usage: "also write all pages into one PDF for the printer, each person on a new sheet of paper"},
		&cli.BoolFlag{Name: "by-group", Usage: "with --combined: one group after another, not the order of the roster"},
	}
}

// langFlag is the option on the language of what is written.
func langFlag(of string) cli.Flag {
	return &cli.StringFlag{Name: "lang", Usage: "`LANGUAGE` of " + of + ": " + strings.Join(templates.Languages(), ", ")}
}

// wordsFlag is the option on words of one's own.
func wordsFlag() cli.Flag {
	return &cli.StringFlag{Name: "words", Usage: "use your own words from the .tmpl files in `DIR`"}
}

// langOf is the language asked for; empty if none is.
func langOf(c *cli.Context) (string, error) {
	name := c.String("lang")
	if name == "" {
		return "", nil
	}
	lang, err := templates.FindLanguage(name)
	if err != nil {
		return "", usageError(fmt.Sprintf("--lang: %v", err))
	}
	return lang, nil
}

// langOr settles the language: as asked for, or as the settings of the roster
// have it, which may be nil, or the default.
func langOr(lang string, roster *workbook.Roster) (string, error) {
	if lang == "" && roster != nil && roster.Pages.Language.Value != "" {
		var err error
		if lang, err = templates.FindLanguage(roster.Pages.Language.Value); err != nil {
			return "", inWorkbook(roster, roster.Pages.Language, err)
		}
	}
	return cmp.Or(lang, defaultLanguage), nil
}

// pageWishes are the options as given; what is empty is left to the workbook.
type pageWishes struct {
	audience             templates.Audience
	lang, words          string
	org, accent, contact string
	logo                 string // a path
	combined, byGroup    bool
}

func pageWishesFromFlags(c *cli.Context) (pageWishes, error) {
	w := pageWishes{words: c.String("words"), org: c.String("org"), accent: c.String("accent"), contact: c.String("contact"),
		logo: c.String("logo"), combined: c.Bool("combined"), byGroup: c.Bool("by-group")}
	var err error
	if name := c.String("audience"); name != "" {
		if w.audience, err = templates.ParseAudience(name); err != nil {
			return w, usageError(fmt.Sprintf("--audience: %v", err))
		}
	}
	if w.lang, err = langOf(c); err != nil {
		return w, err
	}
	switch {
	case w.combined && c.Bool("no-reports"):
		return w, usageError("--combined puts the pages together, and --no-reports makes none; leave one of them out")
	case w.byGroup && !w.combined:
		return w, usageError("--by-group is the order of --combined; add that too")
	}
	return w, nil
}

// pageMaker makes pages.
type pageMaker struct {
	paper    kit.Paper
	audience templates.Audience
	lang     string
	words    map[string]*templates.Set // by language
	brand    *kit.Brand
	scoring  scoring.Options // how the outcomes were scored
}

// maker settles what the options left to the workbook, and loads what the pages
// need. Options count before the workbook's settings.
func (w pageWishes) maker(roster *workbook.Roster, paper kit.Paper) (*pageMaker, error) {
	m := &pageMaker{paper: paper, audience: w.audience, words: map[string]*templates.Set{}}
	var err error
	set := roster.Pages
	if set.Audience.Value != "" && m.audience == templates.Anyone {
		if m.audience, err = templates.ParseAudience(set.Audience.Value); err != nil {
			return nil, inWorkbook(roster, set.Audience, err)
		}
	}
	if m.lang, err = langOr(w.lang, roster); err != nil {
		return nil, err
	}
	if err := m.loadWords(roster, w.words); err != nil {
		return nil, err
	}
	m.brand, err = w.brand(roster)
	return m, err
}

// inWorkbook says in which cell a setting stands that can't be used.
func inWorkbook(roster *workbook.Roster, s workbook.PageSetting, err error) error {
	return fmt.Errorf("%s: %s: %w", roster.Path, s.Place, err)
}

// loadWords loads the words of every language that a page is wanted in.
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

// brand is the organisation's name and look.
func (w pageWishes) brand(roster *workbook.Roster) (*kit.Brand, error) {
	set := roster.Pages
	b := &kit.Brand{Organisation: cmp.Or(w.org, set.Organisation.Value), Contact: cmp.Or(w.contact, set.Contact.Value)}
	var err error
	switch {
	case w.accent != "":
		if b.Accent, err = kit.ParseAccent(w.accent); err != nil {
			return nil, usageError(fmt.Sprintf("--accent: %v", err))
		}
	case set.Accent.Value != "":
		if b.Accent, err = kit.ParseAccent(set.Accent.Value); err != nil {
			return nil, inWorkbook(roster, set.Accent, err)
		}
	}
	switch name := set.Logo.Value; {
	case w.logo != "":
		if b.Logo, err = readLogo(w.logo); err != nil {
			return nil, fmt.Errorf("--logo: %w", err)
		}
	case name != "":
		// A sheet that came from elsewhere must not open any file it likes.
		if !filename.IsPlain(name) {
			return nil, inWorkbook(roster, set.Logo, fmt.Errorf("%q should be the name of a file beside the roster, without a folder; or use --logo", name))
		}
		if b.Logo, err = readLogo(filepath.Join(filepath.Dir(roster.Path), name)); err != nil {
			return nil, inWorkbook(roster, set.Logo, err)
		}
	}
	return b, nil
}

// readLogo reads a logo's file, no more of it than a logo may have.
func readLogo(path string) (*kit.Logo, error) {
	f, err := openPlain(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, kit.LogoBytesMost+1))
	if err != nil {
		return nil, err
	}
	logo, err := kit.NewLogo(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return logo, nil
}

// person is what the page of an outcome is made from.
func (m *pageMaker) person(o *workbook.Outcome) person.Person {
	var remarks []person.Problem
	for _, p := range o.Problems() {
		remarks = append(remarks, person.Problem{Read: p.Read, What: p.What})
	}
	return person.Person{Name: o.Row.Person.Label(), Group: o.Row.Person.Group, Score: o.Score(&m.scoring), Review: o.Review, Tested: o.Row.Entry.Tested,
		Paper: m.paper, Words: m.words[cmp.Or(o.Row.Person.Language, m.lang)], Program: version.Program(), Problems: remarks,
		Audience: m.audienceOf(o), Brand: m.brand}
}

// audienceOf is who reads a person's page: as the row says, or all rows, or the
// column for groups of the sheet; else the family of someone under 18.
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
	if age, ok := o.Row.Entry.Get(scoring.Age); ok && scoring.IsYouth(age.Amount) {
		return templates.School
	}
	return templates.Anyone
}

// combine writes the pages of all people into documents for the printer. They
// are outside the folder of the pages, where no person's name can be the same.
func (p runPlan) combine(ctx context.Context, outcomes []workbook.Outcome, m *pageMaker) (files []string, pages int, err error) {
	var people []person.Person
	for i := range outcomes {
		if outcomes[i].Report != "" {
			people = append(people, m.person(&outcomes[i]))
		}
	}
	if p.pages.byGroup {
		batch.ByGroup(people)
	}
	return batch.WriteBooklets(ctx, filepath.Join(p.out, p.base()+"-all-pages"), p.base(), people)
}

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/catalogue"
	"tenback/cmd/internal/filename"
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/safefile"
	"tenback/workbook/source"
)

// defaultLanguage is the language of pages unless another is set.
const defaultLanguage = "en"

// settingOptions are options that set one setting.
var settingOptions = map[string]roster.SettingID{"org": roster.SetOrganisation, "contact": roster.SetContact,
	"audience": roster.SetAudience, "lang": roster.SetLanguage, "adult-table": roster.SetAdultTable}

// settingsOf returns the settings that the options give.
func settingsOf(c *cli.Context) (roster.SettingValues, error) {
	all := roster.SettingValues{}
	set := func(id roster.SettingID, value, place string) error {
		if before, given := all[id]; given {
			return usageError(fmt.Sprintf("%s and %s set the same; leave one of them out", before.Place, place))
		}
		all[id] = roster.SettingValue{Value: value, Place: place, ByOption: true}
		return nil
	}
	for option, id := range settingOptions {
		if value := c.String(option); value != "" {
			if err := set(id, value, "--"+option); err != nil {
				return nil, err
			}
		}
	}
	for _, pair := range c.StringSlice("set") {
		name, value, _ := strings.Cut(pair, "=")
		if name == "" || value == "" {
			return nil, usageError(fmt.Sprintf("--set: %q should be NAME=VALUE, such as \"Accent colour=#0C4A58\"", pair))
		}
		id, near, ok := heading.FindSetting(name)
		switch {
		case !ok && near != "":
			return nil, usageError(fmt.Sprintf("--set: there is no setting %q; did you mean %q?", name, near))
		case !ok:
			return nil, usageError(fmt.Sprintf("--set: there is no setting %q; there are %s", name, heading.SettingNames()))
		}
		if err := set(id, value, fmt.Sprintf("--set %q", name)); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// languageOf returns the language set, else the default.
func languageOf(settings roster.SettingValues) (string, error) {
	v, given := settings[roster.SetLanguage]
	if !given {
		return defaultLanguage, nil
	}
	lang, err := templates.FindLanguage(v.Value)
	if err != nil {
		return "", v.Fail(err)
	}
	return lang, nil
}

// wordsOf loads the words of the language set by the options.
func wordsOf(c *cli.Context) (*templates.Set, error) {
	settings, err := settingsOf(c)
	if err != nil {
		return nil, err
	}
	lang, err := languageOf(settings)
	if err != nil {
		return nil, err
	}
	return templates.Load(lang, c.String("words"))
}

// audienceSet returns the audience set, else Anyone.
func audienceSet(settings roster.SettingValues) (templates.Audience, error) {
	v, given := settings[roster.SetAudience]
	if !given {
		return templates.Anyone, nil
	}
	audience, err := templates.ParseAudience(v.Value)
	if err != nil {
		return templates.Anyone, v.Fail(err)
	}
	return audience, nil
}

// brandOf returns the organisation's name and look.
func brandOf(r *workbook.Roster) (*kit.Brand, error) {
	b := &kit.Brand{Organisation: r.Settings[roster.SetOrganisation].Value, Contact: r.Settings[roster.SetContact].Value}
	var err error
	if v, given := r.Settings[roster.SetAccent]; given {
		if b.Accent, err = kit.ParseAccent(v.Value); err != nil {
			return nil, v.Fail(err)
		}
	}
	if v, given := r.Settings[roster.SetLogo]; given {
		if b.Logo, err = readLogo(r, v); err != nil {
			return nil, v.Fail(err)
		}
	}
	return b, nil
}

// readLogo reads a logo's file up to the size that a logo may have.
func readLogo(r *workbook.Roster, v roster.SettingValue) (*kit.Logo, error) {
	f, err := openNamed(r, v)
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
		return nil, fmt.Errorf("%s: %w", f.Name(), err)
	}
	return logo, nil
}

// openNamed opens the file that a setting names. A workbook may name files beside
// it only, because one from elsewhere must not open any file it likes.
func openNamed(r *workbook.Roster, v roster.SettingValue) (*os.File, error) {
	path := v.Value
	if !v.ByOption {
		if !filename.IsPlain(path) {
			return nil, fmt.Errorf("%q should be the name of a file beside the roster, without a folder; or use --set", path)
		}
		path = filepath.Join(filepath.Dir(r.Path), path)
	}
	f, _, err := safefile.OpenPlain(path, os.O_RDONLY)
	if errors.Is(err, safefile.ErrNotPlain) {
		err = fmt.Errorf("%s: %w", path, err)
	}
	return f, err
}

// scoreOptions returns how the settings of a roster want it scored.
func scoreOptions(r *workbook.Roster) (options scoring.Options, err error) {
	if v, given := r.Settings[roster.SetEquations]; given {
		for _, id := range strings.Split(v.Value, ",") {
			id = strings.TrimSpace(id)
			if _, _, ok := fieldtests.Equation(id); !ok {
				return options, v.Fail(fmt.Errorf("there is no equation %q; tenback tests ID shows those of a test", id))
			}
			options.Equations = append(options.Equations, id)
		}
	}
	if v, given := r.Settings[roster.SetAdultTable]; given {
		if options.Adults, err = adultTable(r, v); err != nil {
			return options, v.Fail(err)
		}
	}
	if v, given := r.Settings[roster.SetYouthTable]; given {
		var ok bool
		if options.Youth, ok = reference.YouthTableByID(v.Value); !ok {
			return options, v.Fail(fmt.Errorf("there is no table %q; there are %s", v.Value, catalogue.YouthTables()))
		}
	}
	if v, given := r.Settings[roster.SetFallback]; given {
		answer, doubt := cell.ParseYesNo(cell.Raw{Kind: cell.Text, Text: v.Value})
		if doubt != nil {
			return options, v.Fail(fmt.Errorf("%q should be yes or no", v.Value))
		}
		if answer == scoring.Yes {
			options.Fallback = fieldtests.WithoutExercise()
		}
	}
	return options, nil
}

// adultTable finds a published table by name, or reads one from a CSV file or
// from a sheet of the roster.
func adultTable(r *workbook.Roster, v roster.SettingValue) (*reference.GroupTable, error) {
	if t, ok := reference.AdultTable(v.Value); ok {
		return t, nil
	}
	if sheet, ok := strings.CutPrefix(v.Value, "sheet:"); ok {
		rows, err := source.SheetText(r.Path, sheet, func() (string, error) { return r.In.Password, nil })
		if err != nil {
			return nil, err
		}
		return reference.OwnGroupTable(sheet, rows)
	}
	if !strings.EqualFold(filepath.Ext(v.Value), ".csv") {
		return nil, fmt.Errorf("there is no table %q; there are %s, or give a CSV file or sheet:NAME", v.Value, catalogue.AdultTables())
	}
	f, err := openNamed(r, v)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return reference.ReadGroupTable(filepath.Base(v.Value), f)
}

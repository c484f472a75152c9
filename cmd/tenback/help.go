package main

import (
	"embed"
	"fmt"
	"io"
	"path"
	"strings"
	"text/template"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/catalogue"
	"tenback/cmd/internal/terminal"
	"tenback/workbook/heading"
	"tenback/workbook/result"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

//go:embed guides/*.txt
var guideFiles embed.FS

// guides lists the pages of tenback help, in order.
var guides = []struct{ name, about string }{
	{"roster", "what to put in the workbook"},
	{"questions", "what tenback asks, and how to answer"},
	{"tests", "which test for whom, and when to stop one"},
	{"options", "the options of every command that reads a roster, and the settings"},
	{"desk", "pages while people are still being tested"},
	{"results", "what the columns and pages say"},
	{"seasons", "comparing with last time, and planning the next"},
	{"delivery", "bringing each page to its person"},
	{"privacy", "what is kept where, and who may see it"},
	{"method", "how a number comes about, and how sure it is"},
	{"trouble", "what to do when something does not work"},
}

func helpCommand() *cli.Command {
	return &cli.Command{
		Name:      "help",
		Usage:     "show a guide, such as roster or trouble",
		ArgsUsage: "[GUIDE]",
		Description: `Without a name: the commands and the guides. With one: that guide.

Example:  tenback help roster`,
		Action: func(c *cli.Context) error {
			if c.Args().Len() == 0 {
				if err := cli.ShowAppHelp(c); err != nil {
					return err
				}
				fmt.Fprintln(c.App.Writer, "\nGUIDES:")
				for _, g := range guides {
					fmt.Fprintf(c.App.Writer, "   tenback help %-9s %s\n", g.name, g.about)
				}
				return nil
			}
			name, err := oneArgument(c, "a guide")
			if err != nil {
				return err
			}
			for _, g := range guides {
				if g.name == name {
					return showGuide(c.App.Writer, name)
				}
			}
			return usageError(fmt.Sprintf("there is no guide %q; tenback help lists them", name))
		},
	}
}

// showGuide prints a guide, with its lists filled in from the declarations.
func showGuide(w io.Writer, name string) error {
	file := path.Join("guides", name+".txt")
	t, err := template.New(path.Base(file)).Funcs(template.FuncMap{
		"settingsSheet": func() string { return roster.SettingsSheet },
		"mappingSheet":  func() string { return roster.MappingSheet },
		"personal":      catalogue.PersonalInputs,
		"tests":         catalogue.ForWhom,
		"method":        catalogue.Choices,
		"screen":        catalogue.ScreenFirst,
		"stop":          catalogue.StopSigns,
		"columns":       resultColumnsText,
		"options":       sharedOptions,
		"settings":      settingsText,
		"adultTables":   func() string { return terminal.Wrap(catalogue.AdultTables(), "  ") },
		"youthTables":   func() string { return terminal.Wrap(catalogue.YouthTables(), "  ") },
		"exit": func() string {
			return strings.ReplaceAll(strings.TrimSpace(exitStatuses), "\n   ", "\n  ")
		},
	}).ParseFS(guideFiles, file)
	if err != nil {
		return err
	}
	return t.Execute(w, nil)
}

func resultColumnsText() string {
	var out strings.Builder
	for _, c := range result.Columns(sheetwords.Of(nil)) {
		fmt.Fprintf(&out, "  %s\n%s\n", c.Header, terminal.Wrap(c.Explain, "      "))
	}
	return out.String()
}

// flagString returns the library's text of an option.
var flagString = cli.FlagStringer

// flagText returns the text of an option without the default of a switch.
func flagText(f cli.Flag) string {
	return strings.TrimSuffix(flagString(f), " (default: false)")
}

// sharedOptions lists the options of every command that reads a roster.
func sharedOptions() string {
	var out strings.Builder
	for _, f := range readFlags() {
		name, usage, _ := strings.Cut(flagText(f), "\t")
		name, _, _ = strings.Cut(strings.TrimSpace(name), " [ ")
		fmt.Fprintf(&out, "  %s\n%s\n", name, terminal.Wrap(usage, "      "))
	}
	return out.String()
}

func settingsText() string {
	var out strings.Builder
	for _, s := range heading.ExplainSettings() {
		fmt.Fprintf(&out, "  %s\n%s\n", s.Name, terminal.Wrap(s.Explain, "      "))
	}
	return out.String()
}

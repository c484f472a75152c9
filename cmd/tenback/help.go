package main

import (
	"embed"
	"fmt"
	"io"
	"path"
	"strings"
	"text/template"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
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
		"personal":      personalInputs,
		"tests":         testsForWhom,
		"method":        choices,
		"screen":        func() string { return items(screenFirst()) },
		"stop":          func() string { return items(scoring.StopSigns()) },
		"columns":       resultColumnsText,
		"options":       sharedOptions,
		"settings":      settingsText,
		"adultTables":   func() string { return terminal.Wrap(adultTables(), "  ") },
		"youthTables":   func() string { return terminal.Wrap(youthTables(), "  ") },
		"exit": func() string {
			return strings.ReplaceAll(strings.TrimSpace(exitStatuses), "\n   ", "\n  ")
		},
	}).ParseFS(guideFiles, file)
	if err != nil {
		return err
	}
	return t.Execute(w, nil)
}

func items(lines []string) string {
	var out strings.Builder
	terminal.Section(&out, "", lines)
	return strings.TrimLeft(out.String(), "\n")
}

// screenFirst returns what to ask before any test, and what holds by how hard it is.
func screenFirst() []string {
	all := scoring.ScreenFirst()
	for _, e := range scoring.Exertions() {
		all = append(all, e.Caution())
	}
	return all
}

// personalInputs lists the inputs about a person, as opposed to a test.
func personalInputs() string {
	var out strings.Builder
	for in := range scoring.InputCount {
		info := in.Info()
		if !info.Personal || in == scoring.Age {
			continue
		}
		head := info.Name
		if unit := info.Unit.String(); !info.YesNo && in != scoring.SexInput && unit != "" {
			head += " (" + unit + ")"
		}
		fmt.Fprintf(&out, "  %s\n%s\n", head, terminal.Wrap(info.Meaning, "      "))
	}
	return out.String()
}

func testsForWhom() string {
	var out strings.Builder
	for _, t := range fieldtests.All() {
		if !t.Fallback {
			fmt.Fprintf(&out, "%s (%s)\n%s\n\n", t.Name, t.ID, terminal.Wrap(t.Suits, "  "))
		}
	}
	return out.String()
}

// choices lists, for each test, what reads it unasked and why.
func choices() string {
	var out strings.Builder
	for _, t := range fieldtests.All() {
		if t.Choice == "" {
			continue
		}
		fmt.Fprintln(&out, t.Name)
		for _, e := range t.Equations {
			if !e.Choice {
				fmt.Fprintln(&out, terminal.Wrap(fmt.Sprintf("%s; ages %s; %s", e.Name, e.Ages, e.Error), "  "))
			}
		}
		fmt.Fprintf(&out, "%s\n\n", terminal.Wrap(t.Choice, "  "))
	}
	return out.String()
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

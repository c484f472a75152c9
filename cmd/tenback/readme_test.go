package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"

	"tenback/scoring/audit"
)

// What the README says about the evidence is what the evidence says.
func TestReadmeStatesTheEvidence(t *testing.T) {
	text := readme(t)
	examples, err := audit.Examples()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range examples {
		if !x.Agrees() {
			t.Errorf("%s disagrees, and the README says that all agree", x.ID)
		}
	}
	all, err := audit.Coverages()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		want := ""
		switch c.Equation.ID {
		case "run15-acsm":
			want = fmt.Sprintf("31 men whose uptake was measured, 3.5 + 483/t read %.1f too high on average and its likely range held %.0f%%", c.Bias, 100*c.Likely)
		case "cycle-hrr":
			want = fmt.Sprintf("On %d cycle stages it was %.0f%%", c.People, 100*c.Likely)
		}
		if !strings.Contains(text, want) {
			t.Errorf("the README should say %q", want)
		}
	}
}

// Every command and option that the README and the guides name exists, and so
// does every test and table.
func TestTextsNameWhatExists(t *testing.T) {
	app := newApp(io.Discard, io.Discard)
	known := map[string]bool{"--help": true, "--version": true}
	for _, c := range app.Commands {
		for _, f := range c.Flags {
			for _, name := range f.Names() {
				known["--"+name] = true
			}
		}
	}
	texts := map[string]string{"README": readme(t)}
	for _, g := range guides {
		var out strings.Builder
		if err := showGuide(&out, g.name); err != nil {
			t.Fatal(err)
		}
		texts[g.name] = out.String()
		if !strings.Contains(texts["README"], g.name+"`") {
			t.Errorf("README: the guide %s is missing", g.name)
		}
	}
	named := 0
	for name, text := range texts {
		for _, option := range regexp.MustCompile(`--[a-z][a-z-]+`).FindAllString(text, -1) {
			if named++; !known[option] {
				t.Errorf("%s: there is no option %s", name, option)
			}
		}
		for _, m := range regexp.MustCompile(`(?m)^\s*tenback ([a-z]+)`).FindAllStringSubmatch(text, -1) {
			if named++; findCommand(app, m[1]) == nil {
				t.Errorf("%s: there is no command %s", name, m[1])
			}
		}
		for _, m := range regexp.MustCompile(`tenback help ([a-z]+)`).FindAllStringSubmatch(text, -1) {
			if err := showGuide(io.Discard, m[1]); err != nil {
				t.Errorf("%s: there is no guide %s", name, m[1])
			}
		}
		for _, line := range strings.Split(text, "\n") {
			if name != "README" && len([]rune(line)) > 79 {
				t.Errorf("%s: a line is too wide for a terminal: %s", name, line)
			}
		}
	}
	if named < 40 {
		t.Errorf("only %d options and commands were found", named)
	}
}

func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(string(data)), " ") + "\n" + string(data)
}

// The help of each command fits a screen of 40 lines of 100 characters.
func TestHelpFitsAScreen(t *testing.T) {
	for _, c := range append(newApp(io.Discard, io.Discard).Commands, &cli.Command{}) {
		var out strings.Builder
		run(context.Background(), append([]string{"tenback"}, strings.Fields(c.Name+" --help")...), &out, io.Discard)
		lines := strings.Split(strings.TrimRight(out.String(), "\n"), "\n")
		if len(lines) < 8 || len(lines) > 40 {
			t.Errorf("%s: %d lines", c.Name, len(lines))
		}
		for _, line := range lines {
			if len([]rune(line)) > 100 {
				t.Errorf("%s: too wide: %s", c.Name, line)
			}
		}
	}
}

// Package catalogue prints the field tests, the published tables and the evidence.
package catalogue

import (
	"fmt"
	"io"
	"strings"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// LeftOut lists published equations that are not used.
func LeftOut(w io.Writer) {
	fmt.Fprintln(w, "Published equations that are not used, for what could not be checked:")
	for _, l := range fieldtests.LeftOutEquations() {
		fmt.Fprintf(w, "\n%s: %s\n%s\n%s\n", l.Test, l.Name, terminal.Wrap(l.Missing, "  "), terminal.Wrap("source: "+fieldtests.Cite(l.Source), "  "))
	}
}

// Tests lists the field tests.
func Tests(w io.Writer) {
	t := terminal.Table(w)
	t.AppendHeader([]any{"ID", "Test", "Column in a roster"})
	for _, test := range fieldtests.All() {
		column := `none: only with --set "Estimate without a test=yes"`
		if !test.Fallback {
			column = test.Results[0].Column
		}
		t.AppendRow([]any{test.ID, test.Name, column})
	}
	t.Render()
	fmt.Fprintln(w, "\ntenback tests ID shows one in full.")
}

// Test prints a field test in full.
func Test(w io.Writer, test *scoring.Test) {
	fmt.Fprintf(w, "%s (%s)\n%s\n", test.Name, test.ID, terminal.Wrap(test.Suits, ""))
	terminal.Section(w, "How to run it", test.Protocol)
	terminal.Section(w, "Take care", test.Cautions())
	if len(test.Results) > 0 {
		fmt.Fprintln(w, "\nWrite the result as one of these columns, or in a Result column with the test's name in a Test column")
	}
	for _, r := range test.Results {
		fmt.Fprintf(w, "  %s\n", r.Column)
	}
	var needs []string
	for _, in := range test.Needs() {
		info := in.Info()
		needs = append(needs, strings.TrimSpace(fmt.Sprintf("%s (%s)", info.Name, info.Unit)))
	}
	fmt.Fprintf(w, "\nCan also use\n%s\n", terminal.Wrap(strings.Join(needs, ", "), "  "))
	if test.Choice != "" {
		fmt.Fprintf(w, "\nWhy these equations\n%s\n", terminal.Wrap(test.Choice, "  "))
	}
	for _, e := range test.Equations {
		showEquation(w, e)
	}
}

func showEquation(w io.Writer, e *scoring.Equation) {
	fmt.Fprintf(w, "\nEquation %s: %s\n", e.ID, e.Name)
	if e.Choice {
		fmt.Fprintf(w, "  used only with --set \"Equation=%s\"\n", e.ID)
	}
	for i := range e.Steps {
		fmt.Fprintf(w, "    %s\n", e.PrintedStep(i))
	}
	fmt.Fprintf(w, "    %s  (%s)\n", e.Printed(), e.OutUnit())
	for _, v := range e.Vars {
		fmt.Fprintf(w, "      %s: %s", v.Symbol, v.Input.Info().Name)
		if unit := v.Unit.String(); unit != "" {
			fmt.Fprintf(w, ", %s", unit)
		}
		fmt.Fprintln(w)
	}
	fact := func(name, text string) {
		if text != "" {
			fmt.Fprintf(w, "  %-12s%s\n", name, strings.TrimLeft(terminal.Wrap(text, strings.Repeat(" ", 14)), " "))
		}
	}
	fact("checked on", e.Population)
	fact("ages", e.Ages.String())
	fact("error", e.Error.String())
	fact("", e.Error.Note)
	fact("correlation", e.Correlation)
	if r := e.Retest; r != nil {
		fact("done twice", r.Figure)
		fact("", r.Derived)
		fact("", fieldtests.Cite(r.Source))
	}
	for _, n := range e.Notes {
		fact("note", n)
	}
	fact("values", e.Status)
	fact("source", fieldtests.Cite(e.Source))
}

package catalogue

import (
	"fmt"
	"io"

	"tenback/cmd/internal/terminal"
	"tenback/scoring/audit"
	"tenback/testdata/evidence"
)

// Examples prints the worked examples and counts those that disagree.
func Examples(w io.Writer) (disagree int, err error) {
	examples, err := audit.Examples()
	if err != nil {
		return 0, err
	}
	fmt.Fprintln(w, "Worked examples. Status:")
	for _, s := range evidence.Statuses {
		fmt.Fprintf(w, "  %-9s %s\n", s.Status, s.Meaning)
	}
	fmt.Fprintln(w)
	t := terminal.Table(w)
	t.AppendHeader([]any{"", "Equation", "Gives", "Published", "Ours", "Difference", "Unit", "Status", "Source"})
	agree := map[evidence.Status]int{}
	for _, x := range examples {
		mark, ours, difference := "", "-", "-"
		if x.Err == nil {
			ours, difference = fmt.Sprintf("%.3f", x.Ours), fmt.Sprintf("%+.3f", x.Difference())
		}
		if x.Agrees() {
			agree[x.Status]++
		} else {
			mark = "✗"
			disagree++
		}
		t.AppendRow([]any{mark, x.Equation, x.Gives, x.Expected, ours, difference, x.Unit, x.Status, x.Source})
	}
	t.Render()
	fmt.Fprintf(w, "\n%d of %d worked examples agree within half the last printed digit", len(examples)-disagree, len(examples))
	fmt.Fprintf(w, " (for the %d known to be wrong: ours differs)\n", agree[evidence.Rejected])
	return disagree, nil
}

// Points prints table points, all or those that differ, and counts those that disagree.
func Points(w io.Writer, all bool) (disagree int, err error) {
	points, err := audit.Points()
	if err != nil {
		return 0, err
	}
	t := terminal.Table(w)
	t.AppendHeader([]any{"", "Table", "Sex", "Age", "Value", "Published", "Ours", "Status", "Source"})
	for _, p := range points {
		mark := ""
		if !p.Agrees() {
			mark = "✗"
			disagree++
		}
		if all || mark != "" {
			t.AppendRow([]any{mark, p.Table, p.Sex, p.Age, fmt.Sprintf("%g %s", p.Value, p.Unit), p.Expected, p.Ours, p.Status, p.Source})
		}
	}
	if all || disagree > 0 {
		fmt.Fprintln(w)
		t.Render()
	}
	fmt.Fprintf(w, "%d of %d points of the published tables agree\n", len(points)-disagree, len(points))
	return disagree, nil
}

// Coverage prints how each equation does on people whom it was not made on.
func Coverage(w io.Writer) error {
	all, err := audit.Coverages()
	if err != nil {
		return err
	}
	fmt.Fprintln(w, "\nOutside people, estimate less measured (mL/kg/min), and how many of them lie inside the\nlikely range (68% are meant to) and inside nine chances in ten. Shares with ~ follow from\nbias and SD; the others were counted.")
	t := terminal.Table(w)
	t.AppendHeader([]any{"Equation", "Outside people", "Bias", "SD", "Likely", "Nine in ten", "Source"})
	for _, c := range all {
		if c.People == 0 {
			t.AppendRow([]any{c.Equation.ID, "none", "", "", "", "", ""})
			continue
		}
		sd, likely, nine := "not printed", "", ""
		if c.SD > 0 {
			about := "~"
			if c.Data {
				about = ""
			}
			sd, likely, nine = fmt.Sprintf("%.1f", c.SD), fmt.Sprintf("%s%.0f%%", about, 100*c.Likely), fmt.Sprintf("%s%.0f%%", about, 100*c.Nine)
		}
		t.AppendRow([]any{c.Equation.ID, fmt.Sprintf("%d %s", c.People, c.Who), fmt.Sprintf("%+.1f", c.Bias), sd, likely, nine, c.Source})
	}
	t.Render()
	return nil
}

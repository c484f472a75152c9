package catalogue

import (
	"fmt"
	"io"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
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

// Men prints how the equations do on men whose uptake was measured.
func Men(w io.Writer) error {
	trials, err := audit.Men()
	if err != nil {
		return err
	}
	fmt.Fprintln(w, "\n31 men of 38 to 57 whose uptake was measured (a widely used teaching data set;\nthe original study is not identified), 1.5 miles all-out, estimate less measured:")
	t := terminal.Table(w)
	t.AppendHeader([]any{"Equation", "Bias", "SD", "RMSE", "Error stated", ""})
	for _, m := range trials {
		note := ""
		if !m.Applies {
			note = "for steady runs: does not apply here"
		} else if m.Equation.Error.Status != scoring.ErrorAssumed {
			note = "outside its ages"
		}
		t.AppendRow([]any{m.Equation.ID, fmt.Sprintf("%+.2f", m.Bias), fmt.Sprintf("%.2f", m.SD), fmt.Sprintf("%.2f", m.RMSE), m.Equation.Error, note})
	}
	t.Render()
	return nil
}

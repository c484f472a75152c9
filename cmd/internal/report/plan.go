package report

import (
	"fmt"
	"io"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/change"
)

// When to test again, in weeks of training. Common practice, no source.
const (
	retestFrom = 8
	retestTo   = 12
)

// Plan prints when and how to test again, and the smallest change that counts.
func Plan(w io.Writer, read Scored) {
	last := batch.LatestDay(read.Outcomes)
	if last.IsZero() {
		fmt.Fprintf(w, "Test again after %d to %d weeks of training (common practice, no source).\n", retestFrom, retestTo)
	} else {
		fmt.Fprintf(w, "Last tested %s. Test again between %s and %s:\nafter %d to %d weeks of training (common practice, no source).\n",
			last.Format(terminal.DayForm), last.AddDate(0, 0, 7*retestFrom).Format(terminal.DayForm), last.AddDate(0, 0, 7*retestTo).Format(terminal.DayForm), retestFrom, retestTo)
	}
	fmt.Fprintln(w, `
Make it the same again, so that a change is one of the people and not of the day:
  - the same test for each person, the same course, bench or recording
  - the same hour of the day, like weather, no coffee and no hard training before
  - a first test is practice: let newcomers try the test once before it counts
  - count the resting heart rate on three mornings or more (columns "Rest HR day 1" and so on)
  - ask for body mass, symptoms, medicines and pregnancy again before anyone starts`)
	type counts struct {
		test     *scoring.Test
		equation *scoring.Equation
		people   int
		low, top scoring.VO2
	}
	var tests []*counts
	seen := map[*scoring.Equation]*counts{}
	round := batch.LastRound(read.Roster)
	clinician := 0
	for i := range read.Outcomes {
		o := &read.Outcomes[i]
		if o.ClinicianFirst() {
			clinician++
		}
		best := o.Score(&read.Options).Best()
		if best == nil || best.Test.Fallback || o.Row.Entry.Tested.Before(round) && !o.Row.Entry.Tested.IsZero() {
			continue
		}
		t := seen[best.Equation]
		if t == nil {
			t = &counts{test: best.Test, equation: best.Equation, low: 1e9}
			seen[best.Equation] = t
			tests = append(tests, t)
		}
		smallest := change.SmallestReal(best)
		t.people++
		t.low, t.top = min(t.low, smallest), max(t.top, smallest)
	}
	if len(tests) > 0 {
		fmt.Fprintln(w, "\nThe smallest change of one person that will count (mL/kg/min):")
		table := terminal.Table(w)
		for _, t := range tests {
			size := fmt.Sprintf("%.1f", t.low)
			if t.top-t.low > 0.05 {
				size += fmt.Sprintf(" to %.1f", t.top)
			}
			table.AppendRow([]any{"", t.test.Name, t.equation.Name, terminal.Count(t.people, "person", "people"), size})
		}
		table.Render()
		fmt.Fprintln(w, "For a group's mean a much smaller change counts: tenback group with both workbooks.")
	}
	if clinician > 0 {
		fmt.Fprintf(w, "\n%s should see a clinician first, and test again only if the clinician agrees; tenback check names them.\n", terminal.Count(clinician, "person", "people"))
	}
}

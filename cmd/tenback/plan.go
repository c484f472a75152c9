package main

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook"
	"tenback/workbook/starter"
)

// When to test again, in weeks of training. Common practice, no source.
const (
	retestFrom = 8
	retestTo   = 12
)

func planCommand() *cli.Command {
	return &cli.Command{
		Name:      "plan",
		Usage:     "print when to test again, and write the next season's workbook",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Says when to test again and which change would count, and writes ROSTER-next.xlsx:
the people carried over (those who left too), with the sheets and headers of the
roster, and the results, weights and heart rates empty. The roster itself is not
touched. When the next season is tested, read both together:

  tenback run ROSTER-next.xlsx --earlier ROSTER.xlsx

Example:  tenback plan fitness-week.xlsx

` + sharedHelp,
		Flags: append(readFlags(),
			&cli.StringFlag{Name: "out", Usage: "write the workbook into `DIR` instead of beside the roster"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			s, err := read(c, path)
			if err != nil {
				return err
			}
			dir := cmp.Or(c.String("out"), filepath.Dir(path))
			if err := writable(dir); err != nil {
				return err
			}
			next := filepath.Join(dir, batch.BaseOf(path)+"-next.xlsx")
			var made starter.NextSeason
			err = writeNew(next, "it may hold results; choose another folder with --out", func(w io.Writer) error {
				var err error
				made, err = starter.WriteNextSeason(w, s.Roster, passwordOf(c, path))
				return err
			})
			if err != nil {
				return err
			}
			printPlan(c.App.Writer, s.Roster, s.Outcomes, &s.Options)
			fmt.Fprintf(c.App.Writer, "\nWorkbook  %s (%s: %s", next, strings.Join(made.Sheets, ", "), terminal.Count(made.People, "person", "people"))
			if made.Left > 0 {
				fmt.Fprintf(c.App.Writer, ", %d of them not in the last round", made.Left)
			}
			fmt.Fprintf(c.App.Writer, ")\nThen      tenback run %s", terminal.Argument(next))
			for _, earlier := range append([]string{path}, c.StringSlice("earlier")...) {
				fmt.Fprintf(c.App.Writer, " --earlier %s", terminal.Argument(earlier))
			}
			fmt.Fprintln(c.App.Writer)
			if s.Roster.Locked() {
				fmt.Fprintln(c.App.Writer, "Note      the new workbook has no password, unlike the roster; give it one before you fill it in")
			}
			return nil
		},
	}
}

// printPlan prints when and how to test again, and the smallest change that counts.
func printPlan(w io.Writer, roster *workbook.Roster, outcomes []workbook.Outcome, options *scoring.Options) {
	last := batch.LatestDay(outcomes)
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
	round := batch.LastRound(roster)
	clinician := 0
	for i := range outcomes {
		o := &outcomes[i]
		if o.ClinicianFirst() {
			clinician++
		}
		best := o.Score(options).Best()
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

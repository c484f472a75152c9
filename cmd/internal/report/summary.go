package report

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook"
	"tenback/workbook/result"
)

// Summary prints how many people were scored by which test, and who was left out
// and why.
func Summary(w io.Writer, roster *workbook.Roster, outcomes []workbook.Outcome) {
	scored := map[*scoring.Test]int{}
	for i := range outcomes {
		if o := &outcomes[i]; !o.LeftOut() {
			scored[o.Test]++
		}
	}
	printQuestions(w, roster, "")
	fmt.Fprintf(w, "Scored %d of %s\n", len(outcomes)-countLeftOut(outcomes), CountPeople(outcomes))
	tests := terminal.Table(w)
	for _, t := range fieldtests.All() {
		if scored[t] > 0 {
			tests.AppendRow(table.Row{"", t.Name, scored[t]})
		}
	}
	tests.Render()
	if left := leftOutText(outcomes); left != "" {
		fmt.Fprintf(w, "Not scored: %s\n", left)
	}
	printWithheld(w, outcomes)
	blocking, remarks := split(Findings(roster, outcomes))
	mend, others := splitOtherTest(blocking)
	if len(mend) > 0 {
		fmt.Fprintf(w, "\nTo mend: %s\n", terminal.Count(workbook.CellCount(mend), "cell", "cells"))
		PrintFindings(w, mend)
	}
	if len(others) > 0 {
		fmt.Fprintln(w, "\n"+batch.OtherTestHeading)
		PrintFindings(w, others)
	}
	if len(remarks) > 0 {
		fmt.Fprintf(w, "\n%s; tenback check lists them\n", terminal.Count(len(remarks), "remark", "remarks"))
	}
	// Unrecognised columns may hold answers about health.
	n := 0
	for _, s := range roster.Sheets {
		n += len(s.Unrecognised())
	}
	if n > 0 {
		fmt.Fprintf(w, "\n%s not recognised and left alone; tenback check shows them\n", terminal.Count(n, "column", "columns"))
	}
}

// splitOtherTest separates findings that a cell can correct from those that need
// another test. Cells that wait for an answer about their column are left out.
func splitOtherTest(blocking []workbook.Finding) (mend, others []workbook.Finding) {
	for _, f := range blocking {
		switch {
		case f.Waits:
		case f.OtherTest:
			others = append(others, f)
		default:
			mend = append(mend, f)
		}
	}
	return mend, others
}

// leftOutWords say why people were not scored.
var leftOutWords = map[result.Reason]string{result.WithoutConsent: "without consent", result.ToMend: "with a cell to mend", result.Unanswered: "waiting for an answer about a column", result.NeedsOtherTest: batch.NeedOtherTest, result.WithoutResult: "without a test result"}

// leftOutText returns how many were not scored and why, empty if all were.
func leftOutText(outcomes []workbook.Outcome) string {
	left := map[result.Reason]int{}
	for i := range outcomes {
		left[outcomes[i].WhyLeftOut()]++
	}
	var parts []string
	for why := result.WithoutConsent; why <= result.WithoutResult; why++ {
		if n := left[why]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, leftOutWords[why]))
		}
	}
	return strings.Join(parts, ", ")
}

// printWithheld names the people without consent.
func printWithheld(w io.Writer, outcomes []workbook.Outcome) {
	var names []string
	for i := range outcomes {
		if o := &outcomes[i]; o.Withheld {
			names = append(names, fmt.Sprintf("%s (%s)", o.Row.Person.Label(), batch.Place(o.Row)))
		}
	}
	if len(names) > 0 {
		fmt.Fprintf(w, "Without consent, so no result and no page: %s\n", strings.Join(names, ", "))
	}
}

// CountPeople counts people, and visits if some have several.
func CountPeople(outcomes []workbook.Outcome) string {
	return batch.PeopleText(len(outcomes), batch.CountPeople(outcomes))
}

// Findings returns the problems of a roster and its people, the urgent ones first.
func Findings(roster *workbook.Roster, outcomes []workbook.Outcome) []workbook.Finding {
	all := append([]workbook.Problem(nil), roster.Problems...)
	for i := range outcomes {
		all = append(all, outcomes[i].Problems()...)
	}
	return roster.Findings(all)
}

// split separates findings that prevented a score from remarks.
func split(findings []workbook.Finding) (blocking, remarks []workbook.Finding) {
	for i := range findings {
		if !findings[i].Blocking {
			return findings[:i], findings[i:]
		}
	}
	return findings, nil
}

// PrintFindings lists problems: sheet, cell, its content, why it cannot be used and
// what to type.
func PrintFindings(w io.Writer, findings []workbook.Finding) {
	for i := range findings {
		f := &findings[i]
		where := f.Where()
		if f.Read != "" {
			where += fmt.Sprintf("  %q", f.Read)
		}
		fmt.Fprintf(w, "  %s\n      %s\n", where, f.What)
		if !f.Fix.IsZero() {
			fmt.Fprintf(w, "      → %s\n", f.Fix)
		}
	}
}

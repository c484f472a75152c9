package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/workbook"
	"tenback/workbook/grid"
)

// Check prints what hides the most first: questions about columns, then cells,
// then remarks. The columns as read come between. file is the name of the file of
// questions, if there is one.
func Check(w io.Writer, roster *workbook.Roster, outcomes []workbook.Outcome, file string) {
	printQuestions(w, roster, file)
	printColumns(w, roster)
	blocking, remarks := split(Findings(roster, outcomes))
	mend, otherTest := splitOtherTest(blocking)
	if len(mend) > 0 {
		fmt.Fprintf(w, "To mend: %s\n", terminal.Count(workbook.CellCount(mend), "cell", "cells"))
		PrintFindings(w, mend)
		fmt.Fprintln(w)
	}
	if len(otherTest) > 0 {
		fmt.Fprintln(w, batch.OtherTestHeading)
		PrintFindings(w, otherTest)
		fmt.Fprintln(w)
	}
	if len(remarks) > 0 {
		fmt.Fprintf(w, "Good to know: %s\n", terminal.Count(len(remarks), "remark", "remarks"))
		PrintFindings(w, remarks)
		fmt.Fprintln(w)
	}
	fmt.Fprintf(w, "%d of %s can be scored\n", len(outcomes)-countLeftOut(outcomes), CountPeople(outcomes))
	if left := leftOutText(outcomes); left != "" {
		fmt.Fprintf(w, "The others: %s\n", left)
	}
	printWithheld(w, outcomes)
	if file != "" {
		fmt.Fprintf(w, "Every column and cell is listed in %s, for your answers\n", file)
	}
}

// Unheaded prints the columns of a roster in which no header was found.
func Unheaded(w io.Writer, roster *workbook.Roster, file string) {
	printColumns(w, roster)
	header, in := "HEADER", ""
	if len(roster.Questions) > 0 {
		header = roster.Questions[0].Header
	}
	if file != "" {
		in = fmt.Sprintf(" answer in %s, or", file)
	}
	fmt.Fprintf(w, "Say which column holds the names or IDs:%s give --column %q\n", in, header+"=name")
}

// printQuestions prints the questions about columns, those of the fullest first.
func printQuestions(w io.Writer, r *workbook.Roster, file string) {
	asked := r.QuestionsByWeight()
	if len(asked) == 0 {
		return
	}
	fmt.Fprintf(w, "To answer first: %s\n", terminal.Count(len(asked), "column", "columns"))
	for i := range asked {
		q := &asked[i]
		fmt.Fprintf(w, "  %s!%s  %q", q.Sheet, q.Cell, q.Header)
		if c := r.ColumnAt(q.Sheet, q.Cell); c != nil {
			fmt.Fprintf(w, "  %s  (%s)", strings.Join(c.Values, ", "), terminal.Count(c.Filled, "cell", "cells"))
		}
		fmt.Fprintf(w, "\n      %s\n", q.What)
		for _, c := range q.Choices {
			if !c.Example.IsZero() {
				fmt.Fprintf(w, "      %s: %s\n", c.Meaning, c.Example)
			}
		}
		if file != "" {
			fmt.Fprintf(w, "      → answer in %s, or with", file)
		} else {
			fmt.Fprint(w, "      → give")
		}
		fmt.Fprintf(w, " --column %q\n", q.Header+"="+q.Choices[0].Meaning)
	}
	fmt.Fprintln(w)
}

func countLeftOut(outcomes []workbook.Outcome) int {
	n := 0
	for i := range outcomes {
		if outcomes[i].LeftOut() {
			n++
		}
	}
	return n
}

// printColumns prints what each column of each sheet was taken for.
func printColumns(w io.Writer, roster *workbook.Roster) {
	for _, sheet := range slices.Concat(roster.Sheets, roster.Lists) {
		fmt.Fprintf(w, "%s, header in row %d\n", sheet.Name, sheet.HeaderRow)
		t := terminal.Table(w)
		for _, c := range sheet.Columns {
			t.AppendRow([]any{"  " + grid.Column(c.Index), c.Header, "→ " + c.Meaning.String(), strings.Join(c.Values, ", ")})
		}
		t.Render()
		fmt.Fprintln(w)
	}
}

// The format of `check --json`. Scripts depend on its names.
type (
	jsonCheck struct {
		People   int           `json:"people"` // visits, where someone was tested on several days
		Scored   int           `json:"scored"`
		Columns  []jsonColumn  `json:"columns"`
		Problems []jsonProblem `json:"problems"`
		Rows     []jsonRow     `json:"rows"`

		Questions []jsonQuestion `json:"questions,omitempty"` // about columns, the fullest first

		CannotWrite string   `json:"cannot_write,omitempty"` // why run could not write the results
		Notes       []string `json:"notes,omitempty"`        // on cells that run would leave as they are
	}
	jsonColumn struct {
		Sheet   string `json:"sheet"`
		Column  string `json:"column"`
		Header  string `json:"header"`
		Meaning string `json:"meaning"`
	}
	jsonQuestion struct {
		Sheet   string   `json:"sheet"`
		Cell    string   `json:"cell"` // of the header
		Header  string   `json:"header"`
		What    string   `json:"what"`
		Choices []string `json:"choices"` // as for --column "HEADER=CHOICE", the likeliest first
	}
	jsonProblem struct {
		Sheet    string   `json:"sheet"`
		Cell     string   `json:"cell,omitempty"`  // the first
		Cells    []string `json:"cells,omitempty"` // all, where one cause hits several
		Read     string   `json:"read,omitempty"`
		What     string   `json:"what"`
		Fix      string   `json:"fix,omitempty"`
		Blocking bool     `json:"blocking"`
	}
	jsonRow struct {
		Sheet    string   `json:"sheet"`
		Row      int      `json:"row"`
		VO2max   *float64 `json:"vo2max,omitempty"`
		SD       *float64 `json:"standard_error,omitempty"`
		Equation string   `json:"equation,omitempty"`
		Flags    []string `json:"flags,omitempty"`

		Change *jsonChange `json:"change,omitempty"`
	}
	jsonChange struct {
		Since      string  `json:"since"`
		Difference float64 `json:"difference"`
		SD         float64 `json:"standard_error"`
		Chance     float64 `json:"chance_of_rise"`
		Verdict    string  `json:"verdict"`
	}
)

// JSON prints everything as JSON.
func JSON(w io.Writer, s Scored) error {
	roster, outcomes := s.Roster, s.Outcomes
	all := jsonCheck{People: len(outcomes), Scored: len(outcomes) - countLeftOut(outcomes),
		Columns: []jsonColumn{}, Problems: []jsonProblem{}, Rows: []jsonRow{}, Notes: s.Notes}
	if s.CannotWrite != nil {
		all.CannotWrite = s.CannotWrite.Error()
	}
	for _, sheet := range slices.Concat(roster.Sheets, roster.Lists) {
		for _, c := range sheet.Columns {
			all.Columns = append(all.Columns, jsonColumn{sheet.Name, grid.Column(c.Index), c.Header, c.Meaning.String()})
		}
	}
	for _, q := range roster.QuestionsByWeight() {
		asked := jsonQuestion{Sheet: q.Sheet, Cell: q.Cell, Header: q.Header, What: q.What.String()}
		for _, c := range q.Choices {
			asked.Choices = append(asked.Choices, c.Meaning)
		}
		all.Questions = append(all.Questions, asked)
	}
	for _, f := range Findings(roster, outcomes) {
		p := jsonProblem{Sheet: f.Sheet, Cell: f.Cell, Read: f.Read, What: f.What.String(), Fix: f.Fix.String(), Blocking: f.Blocking}
		if len(f.All) > 1 {
			p.Cells = f.Cells()
		}
		all.Problems = append(all.Problems, p)
	}
	for i := range outcomes {
		for _, line := range outcomes[i].Lines() {
			all.Rows = append(all.Rows, jsonRowOf(&outcomes[i], line.Row, &s.Options))
		}
	}
	var document bytes.Buffer
	out := json.NewEncoder(&document)
	out.SetIndent("", "  ")
	out.SetEscapeHTML(false)
	if err := out.Encode(all); err != nil {
		return err
	}
	_, err := w.Write(terminal.JSON(document.Bytes()))
	return err
}

func jsonRowOf(o *workbook.Outcome, of *workbook.Row, options *scoring.Options) jsonRow {
	row := jsonRow{Sheet: of.Sheet, Row: of.Number}
	score := o.Score(options)
	if best := score.Best(); best != nil {
		v, sd := roundTo2(best.VO2), roundTo2(best.SD)
		row.VO2max, row.SD, row.Equation = &v, &sd, best.Equation.ID
	}
	if c := o.Comparison(); c != nil {
		row.Change = &jsonChange{c.From.Format(time.DateOnly), float64(c.Difference), float64(c.SE), c.Rise, c.Verdict.ID()}
	}
	for _, f := range score.Flags {
		row.Flags = append(row.Flags, f.Code.ID())
	}
	return row
}

// roundTo2 rounds to two decimals.
func roundTo2(v scoring.VO2) float64 { return math.Round(100*float64(v)) / 100 }

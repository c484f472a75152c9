package report

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/workbook"
)

// Explain prints the full working of one outcome of a roster.
func Explain(w io.Writer, roster *workbook.Roster, o *workbook.Outcome, score *scoring.Score) {
	fmt.Fprintf(w, "%s (%s, row %d)\n", o.Row.Person.Label(), o.Row.Sheet, o.Row.Number)
	for _, r := range o.TalkFirst {
		fmt.Fprintf(w, "  ! %s: %s (%s)\n", r.Advice.Said(), r.Why, r.Cell)
	}
	for i := range score.Estimates {
		title := "Headline"
		if i > 0 {
			title = "Also"
		}
		explainEstimate(w, title, &score.Estimates[i])
	}
	problems := o.Problems()
	if o.LeftOut() {
		fmt.Fprintf(w, "\nNot scored: %s\n", leftOutWords[o.WhyLeftOut()])
		for _, p := range roster.Problems {
			if p.Blocking && p.Sheet == o.Row.Sheet {
				problems = append(problems, p)
			}
		}
		for _, q := range roster.Questions {
			if q.Sheet == o.Row.Sheet {
				problems = append(problems, workbook.Problem{Sheet: q.Sheet, Cell: q.Cell, Read: q.Header, What: q.What})
			}
		}
	}
	if len(problems) > 0 {
		fmt.Fprintln(w, "\nNot used")
		for _, p := range problems {
			PrintFindings(w, []workbook.Finding{{Problem: p}})
		}
	}
	for i := range score.Adults {
		explainStanding(w, score, &score.Adults[i])
	}
	for _, h := range score.Youth {
		explainLine(w, h)
	}
	explainChange(w, o, score)
	age, known := o.Row.Entry.Get(scoring.Age)
	explainResting(w, score.Resting, known && scoring.IsYouth(age.Amount))
	explainFlags(w, score.Flags)
}

func explainEstimate(w io.Writer, title string, e *scoring.Estimate) {
	fmt.Fprintf(w, "\n%s: %s, %s\n", title, e.Test.Name, e.Equation.Name)
	working := e.Working()
	inputs := terminal.Table(w)
	for _, in := range working.Inputs {
		inputs.AppendRow([]any{"  " + in.Symbol, in.Used, in.Name, in.Cell, asRead(in)})
	}
	inputs.Render()
	for _, s := range working.Steps {
		switch {
		case s.Formula == "":
			fmt.Fprintf(w, "  %s = %s (%s)\n", s.Symbol, s.Value, s.How)
		default:
			fmt.Fprintf(w, "  %s = %s\n      = %s\n      = %s\n", s.Symbol, s.Formula, s.Numbers, s.Value)
		}
		fmt.Fprintf(w, "      source: %s\n", fieldtests.Cite(s.Source))
	}
	low, high := e.Likely()
	fmt.Fprintf(w, "  error of the equation: ±%.2f mL/kg/min", e.SEE)
	if note := cmp.Or(e.Equation.Error.Note, e.Equation.Error.String()); note != "" {
		fmt.Fprintf(w, " (%s)", note)
	}
	fmt.Fprintln(w)
	if e.FromSteps > 0 {
		fmt.Fprintf(w, "  from predicted values put in: ±%.1f mL/kg/min\n", e.FromSteps)
	}
	if e.Outside > 0 {
		fmt.Fprintf(w, "  for being outside what the equation was checked on (%s): ±%.1f mL/kg/min\n", e.Equation.Population, e.Outside)
	}
	fmt.Fprintf(w, "  all together (root of the sum of squares): ±%.1f mL/kg/min\n", e.SD)
	fmt.Fprintf(w, "  likely range, about two chances in three: %.1f to %.1f mL/kg/min\n", low, high)
	low, high = e.Range90()
	fmt.Fprintf(w, "  range of nine chances in ten: %.1f to %.1f mL/kg/min\n", low, high)
}

// asRead returns the value in the sheet's unit if the equation wants another.
func asRead(in scoring.WorkingInput) string {
	if read := in.Read.String(); read != in.Used && in.Read.Unit != scoring.MaleOne {
		return "read as " + read
	}
	return ""
}

func explainStanding(w io.Writer, s *scoring.Score, st *scoring.Standing) {
	fmt.Fprintf(w, "\nAdult groups, %s, %s years, in mL/kg/min unless it says MET: %s\n", sexWord(st.Sex, false), st.Decades()[0].Ages, st.Name(st.Group))
	best := s.Best()
	if st.Table.Tenths {
		fmt.Fprintf(w, "  %.2f / %.1f = %.2f MET, rounded to %.1f as the table is printed\n",
			best.VO2, reference.MLPerKgMinPerMET, best.VO2.METs(), reference.RoundMET(best.VO2.METs()))
	}
	var chances []string
	for g, p := range st.Chances {
		chances = append(chances, fmt.Sprintf("%s %.0f %%", st.Name(reference.Group(g)), 100*p))
	}
	fmt.Fprintf(w, "  chance of each group: %s\n", strings.Join(chances, ", "))
	for _, d := range st.Decades() {
		title := "own age group"
		if d.Younger > 0 {
			title = terminal.Count(d.Younger, "decade younger", "decades younger")
		}
		fmt.Fprintf(w, "  %s (%s years): would be %s\n", title, d.Ages, st.Name(d.Group))
		goals := terminal.Table(w)
		for _, g := range d.Goals {
			state := "reached"
			if !g.Reached {
				state = fmt.Sprintf("%.1f more", g.Gap)
			}
			goals.AppendRow([]any{"    " + st.Name(g.Group), opening(st.Table, g.VO2), state, fmt.Sprintf("chance %.0f %%", 100*g.Chance), g.InTest.String()})
		}
		goals.Render()
	}
	fmt.Fprintf(w, "      source: %s\n", fieldtests.Cite(st.Table.Source))
	if st.HasPercent {
		fmt.Fprintf(w, "  percentile in the same table: %s\n", st.Percentile)
	}
	if st.Decades()[0].Ages.Max < scoring.IndependenceFrom {
		return
	}
	fmt.Fprintf(w, "Living independently asks for about %.0f mL/kg/min\n      source: %s\n", st.Independence, fieldtests.Cite("shephard2009"))
}

// opening formats the lower bound of a group as its table prints it.
func opening(t *reference.GroupTable, v scoring.VO2) string {
	if t.Tenths {
		return fmt.Sprintf("from %.1f MET = %.2f", float64(v.METs()), float64(v))
	}
	return fmt.Sprintf("from %.2f", float64(v))
}

func explainLine(w io.Writer, h scoring.HealthLine) {
	place := "below"
	if h.Above {
		place = "at or above"
	}
	fmt.Fprintf(w, "\nHealth line for young people, %s: %.1f; the estimate is %s it\n", sexWord(h.Sex, true), h.Line, place)
	if to := h.InTest.String(); to != "" {
		fmt.Fprintf(w, "  reached with %s\n", to)
	}
	fmt.Fprintf(w, "      source: %s\n", fieldtests.Cite(h.Source))
}

func explainResting(w io.Writer, r *scoring.RestingReading, young bool) {
	if r == nil {
		return
	}
	fmt.Fprintf(w, "\nResting heart rate: %s\n", r.Rate)
	for _, p := range r.Percentiles {
		fmt.Fprintf(w, "  %s percentile among the same age group, %s (a low one is a slow pulse)\n", p.Percentile, sexWord(p.Sex, young))
	}
	if len(r.Percentiles) == 0 {
		fmt.Fprintln(w, "  not compared with a table, which takes the age")
		return
	}
	fmt.Fprintf(w, "      source: %s\n", fieldtests.Cite("nhanes0104"))
}

func explainFlags(w io.Writer, flags []scoring.Flag) {
	if len(flags) == 0 {
		return
	}
	fmt.Fprintln(w, "\nRemarks")
	for _, f := range flags {
		fmt.Fprintf(w, "  - %s\n", f)
	}
}

// sexWord returns the word for people of a sex.
func sexWord(s scoring.Sex, young bool) string {
	words := map[scoring.Sex][2]string{scoring.Male: {"men", "boys"}, scoring.Female: {"women", "girls"}}[s]
	if young {
		return words[1]
	}
	return words[0]
}

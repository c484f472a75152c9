package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/fieldtests"
	"tenback/workbook"
)

// explainChange prints the working of the change since earlier tests.
func explainChange(w io.Writer, o *workbook.Outcome, score *scoring.Score) {
	if !o.Doubt.IsZero() {
		fmt.Fprintf(w, "\nChange: not compared, for %s\n", o.Doubt)
	}
	if o.Review == nil {
		return
	}
	fmt.Fprintln(w, "\nDated results")
	dates := terminal.Table(w)
	for _, d := range o.Review.Line {
		value, by := "no VO2max", ""
		if best := d.Score.Best(); best != nil {
			value, by = fmt.Sprintf("%.1f ± %.1f", best.VO2, best.SD), best.Test.Name+", "+best.Equation.Name
		}
		dates.AppendRow([]any{"  " + d.Day.Format(terminal.DayForm), value, by})
	}
	dates.Render()
	if c := o.Review.Comparison; c != nil {
		explainComparison(w, c)
	}
	explainGoals(w, o, score)
	for _, p := range o.Review.Pulse {
		explainPulse(w, p)
	}
	if r := o.Review.Resting; r != nil {
		explainRestingChange(w, r)
	}
	fmt.Fprintln(w, "\nMaximum heart rate is not compared: it says nothing about fitness.")
}

var verdictWords = map[change.Verdict]string{
	change.RealRise: "a real rise", change.ProbableRise: "probably a rise", change.Unclear: "no clear change",
	change.ProbableFall: "probably a fall", change.RealFall: "a real fall"}

func explainComparison(w io.Writer, c *change.Comparison) {
	fmt.Fprintf(w, "\nChange of VO2max since %s: %s\n", c.From.Format(terminal.DayForm), verdictWords[c.Verdict])
	fmt.Fprintf(w, "  %.2f (%s, %s)\n  less %.2f (%s, %s)\n  = %+.2f mL/kg/min\n",
		c.Later.VO2, c.Later.Test.Name, c.Later.Equation.Name, c.Earlier.VO2, c.Earlier.Test.Name, c.Earlier.Equation.Name, c.Difference)
	if !c.Headline {
		fmt.Fprintln(w, "  compared by an equation that both dates have, not by the headlines")
	}
	fmt.Fprintln(w, "  error of the difference, in mL/kg/min:")
	for _, p := range c.Parts {
		fmt.Fprintf(w, "    ±%.2f  %s\n", p.SD, p.What)
	}
	fmt.Fprintf(w, "    ±%.2f  all together (root of the sum of squares)\n", c.SE)
	switch c.Basis {
	case change.ByRetest:
		r := c.Later.Equation.Retest
		fmt.Fprintf(w, "    from a study of repeated tests: %s\n", r.Figure)
		if r.Derived != "" {
			fmt.Fprintf(w, "    worked out: %s\n", r.Derived)
		}
		fmt.Fprintf(w, "      source: %s\n", fieldtests.Cite(r.Source))
	case change.ByDayShare:
		fmt.Fprintf(w, "    an assumption: no study of repeated tests was found for this equation. What it gets wrong about a\n"+
			"    person it gets wrong again, and that cancels; a quarter of its squared error (%.2f) belongs to the day.\n"+
			"    Where both are published the day's share is 0.17 to 0.28.\n", change.DayShare)
	case change.ByBothTests:
		fmt.Fprintln(w, "    two tests or equations: nothing cancels that is known to be alike, so both errors count whole")
	}
	fmt.Fprintf(w, "  chance of a rise: Φ(%.2f / %.2f) = Φ(%.2f) = %.1f %%; real from %.1f %% on, or from %.1f %% down\n",
		c.Difference, c.SE, c.Difference/c.SE, 100*c.Rise, 100*change.RealFrom, 100*(1-change.RealFrom))
	fmt.Fprintf(w, "  smallest change that counts: %.2f × %.2f = %.1f mL/kg/min\n", c.Smallest/c.SE, c.SE, c.Smallest)
	if c.Practice > 0 {
		fmt.Fprintf(w, "  practice alone adds about %.1f mL/kg/min from a first test to a second\n      source: %s\n", c.Practice, fieldtests.Cite(c.Later.Equation.Retest.PracticeSource))
	}
	if t := c.Training; t != nil {
		fmt.Fprintf(w, "  20 weeks of training brought inactive people of this weight %.1f mL/kg/min on average, from nothing to %.1f and more\n      source: %s\n",
			t.Mean, t.Most, fieldtests.Cite("bouchard1999"))
	}
	if a := c.Ageing; a != nil {
		fmt.Fprintf(w, "  the %.2f years between usually take %.2f to %.2f mL/kg/min\n      source: %s\n", a.Years, a.Slow, a.Fast, fieldtests.Cite("paterson1999")+" "+fieldtests.Cite("shephard2009"))
	}
	if m := c.Mass; m != nil && m.Before.Amount != m.After.Amount {
		fmt.Fprintf(w, "  body mass %s before, %s now: the value counts per kilogram\n", m.Before, m.After)
	}
}

var reachWords = map[change.Reach]string{change.ReachedSince: "reached since", change.LostSince: "no longer reached",
	change.WithinTypical: "in reach within a year with a usual gain", change.WithinMost: "in reach within a year with a large gain", change.BeyondAYear: "further than a year"}

func explainGoals(w io.Writer, o *workbook.Outcome, score *scoring.Score) {
	if len(o.Review.Goals) == 0 {
		return
	}
	fmt.Fprintln(w, "\nGoals of the decades since then (by the groups of today)")
	if y := o.Review.InAYear; y != nil {
		fmt.Fprintf(w, "  within a year: %.1f with a usual gain, up to %.1f with a large one, a year's ageing taken off\n", y.Typical, y.Most)
	}
	table := terminal.Table(w)
	st := &score.Adults[0]
	for _, g := range o.Review.Goals {
		table.AppendRow([]any{"  " + st.Name(g.Group), g.Ages.String(), fmt.Sprintf("from %.1f", float64(g.VO2)), reachWords[g.Reach]})
	}
	table.Render()
}

func explainPulse(w io.Writer, p change.PulseChange) {
	var load []string
	for _, q := range p.Pace.Load {
		load = append(load, q.String())
	}
	words := map[change.Verdict]string{change.RealFall: "really lower, a gain", change.ProbableFall: "probably lower", change.Unclear: "day-to-day noise",
		change.ProbableRise: "perhaps higher", change.RealRise: "really higher"}[p.Verdict]
	if p.Large {
		words = "far lower, a large gain"
	}
	fmt.Fprintf(w, "\nHeart rate at %s: %.0f, was %.0f, %+.0f: %s\n", strings.Join(load, ", "), p.Pace.Rate.Amount, p.Before.Amount, p.Difference, words)
	fmt.Fprintf(w, "  each reading ±%.1f %% of the rate (%s)\n  and ±%.0f for what a season does not hold alike: an assumption; of the difference ±%.1f, so it counts from %.0f on\n",
		100*change.PulseShare, fieldtests.Cite("lamberts2004"), change.PulseElsewhere, p.SE, math.Ceil(p.Smallest))
	fmt.Fprintln(w, "  temperature, time of day and caffeine move it as well")
}

func explainRestingChange(w io.Writer, r *change.RestingChange) {
	words := map[change.RestingVerdict]string{change.RestingSame: "no more than comes and goes", change.RestingLower: "lower, as happens with fitness",
		change.RestingHigher: "higher, but not sustained by what is known", change.RestingRecover: "a sustained rise of 7 or more: recover, and ask if it lasts"}[r.Verdict]
	of := "one reading"
	if r.Mornings > 1 {
		of = fmt.Sprintf("median of %d mornings", r.Mornings)
	}
	fmt.Fprintf(w, "\nResting heart rate: %s (%s), usual before %s, %s: %s\n  common practice, no source\n", halves("%.1f", r.Now), of, halves("%.1f", r.Usual), halves("%+.1f", r.Difference), words)
}

// halves formats a median of whole numbers, or a difference of such, without
// ".0".
func halves(format string, x float64) string {
	return strings.TrimSuffix(fmt.Sprintf(format, x), ".0")
}

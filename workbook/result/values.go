package result

import (
	"slices"
	"strings"
	"sync"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
	"tenback/templates/wording"
	"tenback/workbook/people"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

func bestVO2(_ *sheetWords, _ *Outcome, s *scoring.Score) Value {
	if best := s.Best(); best != nil {
		return NumberValue(float64(best.VO2))
	}
	return Value{}
}

func likelyLow(_ *sheetWords, _ *Outcome, s *scoring.Score) Value {
	if best := s.Best(); best != nil {
		low, _ := best.Likely()
		return NumberValue(float64(low))
	}
	return Value{}
}

func likelyHigh(_ *sheetWords, _ *Outcome, s *scoring.Score) Value {
	if best := s.Best(); best != nil {
		_, high := best.Likely()
		return NumberValue(float64(high))
	}
	return Value{}
}

func estimatedFrom(w *sheetWords, _ *Outcome, s *scoring.Score) Value {
	switch best := s.Best(); {
	case best == nil:
		return Value{}
	case best.Measured():
		return TextValue(w.Say("sheet.measured", nil))
	default:
		return TextValue(w.Say("sheet.source", wording.Slots{"Test": w.Test(best.Test), "Equation": w.Equation(best.Equation)}))
	}
}

// Where sex is not given there is one reading for each table, and each says
// which table it is of.
var (
	adultTable = map[scoring.Sex]string{scoring.Female: "sheet.table.women", scoring.Male: "sheet.table.men"}
	youthTable = map[scoring.Sex]string{scoring.Female: "sheet.table.girls", scoring.Male: "sheet.table.boys"}
)

// byTable joins the non-empty readings of one or two tables. With two, each names its
// table.
func byTable[T any](w *sheetWords, readings []T, table func(T) string, read func(T) string) string {
	var parts []string
	for _, r := range readings {
		text := read(r)
		if text != "" && len(readings) > 1 {
			text = w.Say("sheet.by-table", wording.Slots{"Table": w.Say(table(r), nil), "Text": text})
		}
		if text != "" {
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, "; ")
}

func (w *sheetWords) byAdultTable(s *scoring.Score, read func(scoring.Standing) string) string {
	return byTable(w, s.Adults, func(st scoring.Standing) string { return adultTable[st.Sex] }, read)
}

func (w *sheetWords) byYouthTable(s *scoring.Score, read func(scoring.HealthLine) string) string {
	return byTable(w, s.Youth, func(h scoring.HealthLine) string { return youthTable[h.Sex] }, read)
}

func groupText(w *sheetWords, _ *Outcome, s *scoring.Score) Value {
	if len(s.Youth) > 0 {
		return TextValue(w.byYouthTable(s, func(h scoring.HealthLine) string {
			if h.Above {
				return w.Say("sheet.line.above", nil)
			}
			return w.Say("sheet.line.below", nil)
		}))
	}
	return TextValue(w.byAdultTable(s, func(st scoring.Standing) string { return w.Group(st.Table, st.Group) }))
}

func percentile(w *sheetWords, _ *Outcome, s *scoring.Score) Value {
	if adults := s.Adults; len(adults) == 1 && adults[0].HasPercent {
		if p := adults[0].Percentile; !p.Below && !p.Above {
			return NumberValue(p.At)
		}
	}
	return TextValue(w.byAdultTable(s, func(st scoring.Standing) string {
		if !st.HasPercent {
			return ""
		}
		return w.Percentile(st.Percentile)
	}))
}

// nextGroup names no goal to someone who should see a clinician first.
func nextGroup(w *sheetWords, _ *Outcome, s *scoring.Score) Value {
	if s.SeeClinicianFirst() {
		return Value{}
	}
	best := s.Best()
	if len(s.Youth) > 0 {
		return TextValue(w.byYouthTable(s, func(h scoring.HealthLine) string {
			if h.Above {
				return ""
			}
			return w.Say("sheet.goal.line", w.toReach(best, h.Line, h.InTest))
		}))
	}
	return TextValue(w.byAdultTable(s, func(st scoring.Standing) string {
		if st.Next == nil {
			return w.Say("sheet.top", nil)
		}
		return w.goal(best, st, *st.Next)
	}))
}

// goal returns the value that opens a group: "top quarter from 41.8 (2.3 more): 1.5 miles in
// 12:36".
func (w *sheetWords) goal(best *scoring.Estimate, st scoring.Standing, g scoring.Goal) string {
	slots := w.toReach(best, g.VO2, g.InTest)
	slots["Group"] = w.Group(st.Table, g.Group)
	return w.Say("sheet.goal", slots)
}

// toReach returns slots for a value, the gap to it and a result that shows it.
func (w *sheetWords) toReach(now *scoring.Estimate, goal scoring.VO2, target scoring.Target) wording.Slots {
	return wording.Slots{"Value": float64(goal), "Gap": float64(goal.Tenths() - now.VO2.Tenths()), "InTest": w.Target(now.Test, target)}
}

func oneDecadeYounger(w *sheetWords, _ *Outcome, s *scoring.Score) Value { return w.decade(s, 1) }

func twoDecadesYounger(w *sheetWords, _ *Outcome, s *scoring.Score) Value { return w.decade(s, 2) }

// decade returns the standing among people that many decades younger: "40–49:
// third quarter, top quarter from 41.8 (3.1 more): 1.5 miles in 12:36". With two tables
// it says the groups alone, so that a cell can be read whole.
func (w *sheetWords) decade(s *scoring.Score, younger int) Value {
	best, form := s.Best(), "sheet.decade"
	two := len(s.Adults) > 1
	if two {
		form = "sheet.decade.tables"
	}
	var ages reference.Ages // alike in the tables of both sexes
	text := w.byAdultTable(s, func(st scoring.Standing) string {
		among, group, next, ok := st.Ahead(younger)
		if !ok {
			return ""
		}
		ages = among
		if two || next != nil && s.SeeClinicianFirst() {
			return w.Group(st.Table, group)
		}
		goal := w.Say("sheet.top", nil)
		if next != nil {
			goal = w.goal(best, st, *next)
		}
		return w.Say("sheet.decade.group", wording.Slots{"Group": w.Group(st.Table, group), "Goal": goal})
	})
	if text == "" {
		return Value{}
	}
	return TextValue(w.Say(form, wording.Slots{"Ages": w.Ages(ages), "Text": text}))
}

// restingWords is how practitioners read an adult's resting heart rate.
// Common practice, no source.
var restingWords = map[scoring.RestingBand]string{
	scoring.RestingVerySlow: "sheet.resting.very-slow",
	scoring.RestingFit:      "sheet.resting.fit",
	scoring.RestingUsual:    "sheet.resting.usual",
	scoring.RestingRaised:   "sheet.resting.raised",
	scoring.RestingFast:     "sheet.resting.fast",
}

func restingText(w *sheetWords, _ *Outcome, s *scoring.Score) Value {
	r := s.Resting
	if r == nil {
		return Value{}
	}
	band, table := "", youthTable
	if r.IsAdult {
		band, table = w.Say(restingWords[r.Band], nil), adultTable
	}
	place := byTable(w, r.Percentiles, func(p scoring.RestingPercentile) string { return table[p.Sex] },
		func(p scoring.RestingPercentile) string {
			return w.Say("sheet.resting.place", wording.Slots{"Percentile": w.Percentile(p.Percentile)})
		})
	return TextValue(w.Say("sheet.resting", wording.Slots{"Rate": r.Rate.In(scoring.BeatsPerMinute), "Band": band, "Place": place}))
}

// flagsText lists what a clinician should see, then the problems, then other remarks.
func flagsText(w *sheetWords, o *Outcome, s *scoring.Score) Value {
	if o.Withheld {
		return TextValue(w.Say("sheet.not-scored", wording.Slots{"Why": w.Say("sheet.without-consent", nil)}))
	}
	var first, stops, rest []string
	for _, f := range s.Flags {
		if f.Code.Severity() == scoring.Clinician {
			first = append(first, w.Remark(f))
		} else {
			rest = append(rest, w.Remark(f))
		}
	}
	for _, p := range o.Problems() {
		if p.Blocking {
			stops = append(stops, w.shortProblem(o, p))
		}
	}
	for _, p := range o.doubts() {
		if !p.Blocking {
			rest = append(rest, w.shortProblem(o, p))
		}
	}
	for _, n := range s.Norms {
		stops = append(stops, w.norm(n))
	}
	if o.LeftOut() {
		if len(stops) == 0 {
			stops = append(stops, w.Say("sheet.no-result", nil))
		}
		stops[0] = w.Say("sheet.not-scored", wording.Slots{"Why": stops[0]})
	}
	return TextValue(strings.Join(append(append(first, stops...), rest...), "; "))
}

// norm returns the standing against the norms of the test: "2-minute step in
// place: 84, within the usual 67 to 115 at 65–69".
func (w *sheetWords) norm(n scoring.NormReading) string {
	slots := wording.Slots{"Test": w.Test(n.Test), "Count": n.Result.Amount, "Side": [...]string{"below", "within", "above"}[n.Average()+1],
		"Low": n.Mean - n.SD, "High": n.Mean + n.SD, "Ages": w.Ages(n.Ages), "Independence": 0.0}
	if n.Result.Amount < n.Independence {
		slots["Independence"] = n.Independence
	}
	return w.Say("sheet.norm", slots)
}

// shortProblem returns a problem for a cell of its own row. The sheet is named where
// the rows are on several sheets.
func (w *sheetWords) shortProblem(o *Outcome, p roster.Problem) string {
	cell := p.Cell
	if cell != "" && slices.ContainsFunc(o.More, func(l people.Line) bool { return l.Sheet.Name != o.Row.Sheet }) {
		cell = p.Sheet + "!" + cell
	}
	return w.Say("sheet.problem", wording.Slots{"Cell": cell, "What": w.Said(p.What), "Fix": w.Said(p.Fix)})
}

func reportName(_ *sheetWords, o *Outcome, _ *scoring.Score) Value { return TextValue(o.Report) }

// earlierResults holds the texts of "Estimated from" and "Flags" that mark a row with
// results of an earlier run, in every language.
type earlierResults struct {
	measured, sources, notScored []string
}

var knownResults = sync.OnceValue(func() earlierResults {
	known := earlierResults{measured: sheetwords.Every("sheet.measured")}
	const gap = "\x00" // in no text
	for _, lang := range templates.Languages() {
		w := wordsOf(sheetwords.Builtin()[lang])
		for _, t := range fieldtests.All() {
			before, _, _ := strings.Cut(w.Say("sheet.source", wording.Slots{"Test": w.Test(t), "Equation": gap}), gap)
			known.sources = append(known.sources, before)
		}
		before, _, _ := strings.Cut(w.Say("sheet.not-scored", wording.Slots{"Why": gap}), gap)
		known.notScored = append(known.notScored, before)
	}
	return known
})

// saysSource reports whether estimatedFrom wrote a text.
func saysSource(s string) bool {
	return slices.Contains(knownResults().measured, s) ||
		slices.ContainsFunc(knownResults().sources, func(before string) bool { return strings.HasPrefix(s, before) })
}

// saysNotScored reports whether flagsText wrote a text for a row without a value.
func saysNotScored(s string) bool {
	return slices.ContainsFunc(knownResults().notScored, func(before string) bool { return strings.Contains(s, before) })
}

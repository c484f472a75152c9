package result

import (
	"math"
	"strings"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/templates/wording"
)

func changeValue(_ *sheetWords, o *Outcome, _ *scoring.Score) Value {
	if c := o.Comparison(); c != nil {
		return NumberValue(float64(c.Difference))
	}
	return Value{}
}

func changeChance(_ *sheetWords, o *Outcome, _ *scoring.Score) Value {
	if c := o.Comparison(); c != nil {
		return NumberValue(c.Percent() / 100)
	}
	return Value{}
}

// sinceText returns the day compared with, the verdict and the other changes:
// "12 September 2025: real rise; pulse at 11.3 km/h 13 lower".
func sinceText(w *sheetWords, o *Outcome, _ *scoring.Score) Value {
	if !o.Doubt.IsZero() {
		return TextValue(w.Say("sheet.since.not", wording.Slots{"Why": w.Said(o.Doubt)}))
	}
	if o.Review == nil {
		return Value{}
	}
	var parts []string
	if c := o.Review.Comparison; c != nil {
		parts = append(parts, w.Say("sheet.since", wording.Slots{"Day": c.From, "Verdict": w.Say("sheet.verdict."+c.Verdict.ID(), nil)}))
		switch {
		case c.Basis == change.ByBothTests && c.Earlier.Test != c.Later.Test:
			parts = append(parts, w.Say("sheet.since.two-tests", nil))
		case !c.Headline:
			parts = append(parts, w.Say("sheet.since.by", wording.Slots{"Test": w.Test(c.Later.Test), "Equation": w.Equation(c.Later.Equation)}))
		}
	}
	for _, p := range o.Review.Pulse {
		var load []string
		for _, q := range p.Pace.Load {
			if q.Unit == scoring.KmPerHour {
				q.Amount = math.Round(10*q.Amount) / 10
			}
			load = append(load, w.Quantity(q))
		}
		key := "sheet.pulse.same"
		switch {
		case p.Verdict.Falls():
			key = "sheet.pulse.lower"
		case p.Verdict.Rises():
			key = "sheet.pulse.higher"
		}
		parts = append(parts, w.Say(key, wording.Slots{"Load": strings.Join(load, ", "), "Difference": math.Abs(p.Difference)}))
	}
	if r := o.Review.Resting; r != nil && r.Verdict == change.RestingRecover {
		parts = append(parts, w.Say("sheet.since.recover", wording.Slots{"Difference": r.Difference}))
	}
	return TextValue(strings.Join(parts, "; "))
}

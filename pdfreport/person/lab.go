package person

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

// labInputs are the values that only a laboratory gives. The measured maximum
// heart rate, which a field test gives too, is shown beside them.
var labInputs = []scoring.Input{scoring.Threshold1HR, scoring.Threshold2HR, scoring.MaxVentilation, scoring.ExchangeRatio,
	scoring.StrokeVolume, scoring.CardiacOutput, scoring.OxygenDifference}

type labValue struct {
	input    scoring.Input
	amount   float64
	computed bool // worked out from the others
}

// labValues returns what the laboratory measured and what follows from it.
func (c labChapter) labValues() []labValue {
	e := c.score.Entry()
	if !slices.ContainsFunc(labInputs, e.Has) {
		return nil
	}
	solved, found := scoring.FickOf(e).Solve()
	var all []labValue
	add := func(in scoring.Input, worked scoring.Quantity) {
		if q, ok := e.Get(in); ok {
			all = append(all, labValue{in, q.Amount, false})
		} else if slices.Contains(found, in) {
			all = append(all, labValue{in, worked.Amount, true})
		}
	}
	none := scoring.Quantity{}
	add(scoring.MaxHR, solved.HeartRate)
	add(scoring.Threshold1HR, none)
	add(scoring.Threshold2HR, none)
	add(scoring.MaxVentilation, none)
	add(scoring.ExchangeRatio, none)
	add(scoring.StrokeVolume, solved.StrokeVolume)
	add(scoring.CardiacOutput, solved.CardiacOutput)
	add(scoring.OxygenDifference, solved.Difference)
	add(scoring.MeasuredVO2Abs, solved.Uptake)
	return all
}

const labColumns = 3

type labChapter struct{ *page }

// lay lists the values of a laboratory test besides VO2max.
func (c labChapter) lay() kit.Block {
	values := c.labValues()
	if values == nil {
		return nil
	}
	b := c.Heading("lab.heading")
	cell := c.Width / labColumns
	for row := range slices.Chunk(values, labColumns) {
		var columns []kit.Column
		for i, v := range row {
			name, value, _ := strings.Cut(c.Say("lab."+v.input.String(), kit.Words{"Value": v.amount}), "\n")
			if v.computed {
				name += " " + c.Say("lab.computed", nil)
			}
			text := kit.Stack(kit.Paragraphs(name, kit.SmallFace, cell-kit.Gutter),
				kit.Paragraphs(value, kit.BodyFace.With(kit.Bold), cell-kit.Gutter))
			columns = append(columns, kit.At(float64(i)*cell, text))
		}
		b = kit.Stack(b, kit.Beside(columns...), kit.Space(3))
	}
	var notes []string
	if _, ok := c.score.Entry().Get(scoring.ExchangeRatio); ok {
		notes = append(notes, c.Say("lab.note.ratio", nil))
	}
	if slices.ContainsFunc(values, func(v labValue) bool { return v.computed }) {
		notes = append(notes, c.Say("lab.note.computed", nil))
	}
	return kit.Stack(b, kit.Paragraphs(strings.Join(notes, " "), kit.SmallFace, c.Width))
}

func (c labChapter) cites() []string {
	if c.best == nil || !c.score.Entry().Has(scoring.ExchangeRatio) {
		return nil
	}
	return []string{"kaminsky2015", "kaminsky2022"}
}

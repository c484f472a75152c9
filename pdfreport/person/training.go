package person

import (
	"math"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/outlook"
)

// Blocks for the ranges, from low to high.
var (
	intensityKeys = [...]string{"training.light", "training.moderate", "training.vigorous", "training.near-maximal"}
	thresholdKeys = [...]string{"training.below-first", "training.between", "training.above-second"}
)

type trainingChapter struct{ *page }

// lay gives an adult the heart rates to train at, or says that a medicine changes the
// heart rate.
func (c trainingChapter) lay() kit.Block {
	ranges := c.trainingRanges()
	switch {
	case c.onHeartRateDrug() && !c.score.SeeClinicianFirst():
		return kit.Stack(c.Heading("training.heading"), c.Text(c.Say("training.medicine", nil)))
	case ranges == nil:
		return nil
	}
	b := kit.Stack(c.Heading("training.heading"), c.Text(c.trainingWords(ranges)), kit.Space(4), c.rangesTable(ranges), kit.Space(3))
	note := kit.Pick(ranges[0].Measured, "training.note.thresholds", "training.note")
	return kit.Stack(b, kit.Paragraphs(c.Say(note, nil), kit.SmallFace, c.Width))
}

// trainingRanges returns the ranges to show.
func (c *facts) trainingRanges() []outlook.Range {
	if c.youth {
		return nil
	}
	ranges, _ := outlook.Ranges(c.score)
	return ranges
}

// trainingWords say what the ranges are based on, and their error.
func (c trainingChapter) trainingWords(ranges []outlook.Range) string {
	if ranges[0].Measured {
		return c.Say("training.thresholds", nil)
	}
	rest, _ := c.score.Entry().Get(scoring.RestingHR)
	top, shown := ranges[len(ranges)-1], c.shown(ranges)
	slots := kit.Words{"Rest": rest.Amount, "Max": top.High.Amount, "Low": ranges[0].Error, "High": shown[len(shown)-1].Error}
	if top.Error == 0 {
		return c.Say("training.from-measured", slots)
	}
	return c.Say("training.from-age", slots)
}

// noMaximumFrom is the age from which no range near the maximum is shown. Our own bound.
const noMaximumFrom = 60

// shown leaves out the range near the maximum for the old.
func (c *page) shown(ranges []outlook.Range) []outlook.Range {
	if c.years >= noMaximumFrom && !ranges[0].Measured {
		return ranges[:len(ranges)-1]
	}
	return ranges
}

// rangesTable sets the ranges side by side: the name, the heart rates, how they feel.
func (c trainingChapter) rangesTable(ranges []outlook.Range) kit.Block {
	keys := intensityKeys[:]
	if ranges[0].Measured {
		keys = thresholdKeys[:]
	}
	ranges = c.shown(ranges)
	cell := c.Width / float64(len(ranges))
	const inset = 8.0
	var columns []kit.Column
	for i, r := range ranges {
		low, high := math.Round(r.Low.Amount), math.Round(r.High.Amount)
		rates := c.Say("training.rates", kit.Words{"Low": low, "High": high})
		var text kit.Block
		text = kit.Stack(text, kit.Paragraphs(c.Say(keys[i], nil), c.LabelFace(kit.Mist), cell-2*inset),
			kit.Paragraphs(rates, kit.HeadingFace.In(kit.Ink), cell-2*inset))
		if !c.spares(spareComparison) {
			text = kit.Stack(text, kit.Paragraphs(c.Say(keys[i]+".feel", nil), kit.SmallFace, cell-2*inset))
		}
		columns = append(columns, kit.At(float64(i)*cell+inset, text))
	}
	content := kit.Beside(columns...)
	const padding = 4.0
	return kit.Draw(content.Height()+2*padding, func(s *kit.Sheet, x, y float64) {
		height := content.Height() + 2*padding
		s.Box(x, y, c.Width, height, kit.Mist)
		for i := range ranges {
			s.Box(x+float64(i)*cell, y, 1.2, height, c.Accent())
		}
		content.Draw(s, x, y+padding)
	})
}

func (c trainingChapter) cites() []string {
	ranges := c.trainingRanges()
	switch {
	case ranges == nil || ranges[0].Measured:
		return nil
	case ranges[0].Error > 0:
		return []string{"garber2011", "tanaka2001", "sarzynski2013"}
	}
	return []string{"garber2011"}
}

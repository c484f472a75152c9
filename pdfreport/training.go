package pdfreport

import (
	"math"

	"tenback/scoring"
)

// intensityKeys and thresholdKeys are the words for the ranges, low to high.
var (
	intensityKeys = [...]string{"training.light", "training.moderate", "training.vigorous", "training.near-maximal"}
	thresholdKeys = [...]string{"training.below-first", "training.between", "training.above-second"}
)

type trainingChapter struct{ *page }

// training gives an adult the heart rates to train at. Someone who should see
// a clinician first, or whose medicine changes the heart rate, is told why there
// are none.
func (c trainingChapter) lay() block {
	ranges := c.trainingRanges()
	_, hasRanges := scoring.HRRanges(c.score.Entry())
	switch {
	case c.clinicianFirst() && (hasRanges || c.onHeartRateDrug()):
		return append(c.heading("training.heading"), c.text(c.say("training.clinician", nil))...)
	case c.onHeartRateDrug():
		return append(c.heading("training.heading"), c.text(c.say("training.medicine", nil))...)
	case ranges == nil:
		return nil
	}
	b := append(c.heading("training.heading"), c.text(c.trainingWords(ranges))...)
	b = append(b, space(4), c.rangesTable(ranges), space(3))
	note := "training.note"
	if ranges[0].Measured {
		note = "training.note.thresholds"
	}
	return append(b, paragraphs(c.say(note, nil), smallFace, c.width)...)
}

// trainingRanges are the ranges to show; nil if none.
func (c *facts) trainingRanges() []scoring.HRRange {
	if c.youth || c.clinicianFirst() || c.onHeartRateDrug() {
		return nil
	}
	ranges, _ := scoring.HRRanges(c.score.Entry())
	return ranges
}

// trainingWords tells what the ranges were counted from, and their error.
func (c trainingChapter) trainingWords(ranges []scoring.HRRange) string {
	if ranges[0].Measured {
		return c.say("training.thresholds", nil)
	}
	rest, _ := c.score.Entry().Get(scoring.RestingHR)
	top := ranges[len(ranges)-1]
	slots := words{"Rest": rest.Amount, "Max": top.High.Amount, "Low": ranges[0].Error, "High": top.Error}
	if top.Error == 0 {
		return c.say("training.from-measured", slots)
	}
	return c.say("training.from-age", slots)
}

// rangesTable sets the ranges side by side: the name, the heart rates, and how
// it feels.
func (c trainingChapter) rangesTable(ranges []scoring.HRRange) piece {
	keys := intensityKeys[:]
	if ranges[0].Measured {
		keys = thresholdKeys[:]
	}
	cell := c.width / float64(len(ranges))
	const inset = 8.0
	var columns []column
	for i, r := range ranges {
		low, high := math.Round(r.Low.Amount), math.Round(r.High.Amount)
		rates := c.say("training.rates", words{"Low": low, "High": high})
		var text block
		text = append(text, paragraphs(c.say(keys[i], nil), c.labelFace(mist), cell-2*inset)...)
		text = append(text, paragraphs(rates, headingFace.in(ink), cell-2*inset)...)
		if !c.spares(spareComparison) {
			text = append(text, paragraphs(c.say(keys[i]+".feel", nil), smallFace, cell-2*inset)...)
		}
		columns = append(columns, column{float64(i)*cell + inset, text})
	}
	content := beside(columns...)
	const padding = 4.0
	return piece{content.height + 2*padding, func(s *sheet, x, y float64) {
		height := content.height + 2*padding
		s.box(x, y, c.width, height, mist)
		for i := range ranges {
			s.box(x+float64(i)*cell, y, 1.2, height, c.accent())
		}
		content.draw(s, x, y+padding)
	}}
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

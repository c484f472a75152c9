package pdfreport

import (
	"math"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// bandKeys are the words for the practitioner's bands.
var bandKeys = [...]string{"resting.band.very-slow", "resting.band.fit", "resting.band.usual", "resting.band.raised", "resting.band.fast"}

// resting tells and draws where the resting heart rate lies.
func (c *composer) resting() block {
	r := c.score.Resting
	if r == nil {
		return nil
	}
	b := c.heading("resting.heading")
	if c.youth {
		b = append(b, c.text(c.youthResting(r))...)
	} else {
		b = append(b, c.text(c.adultResting(r))...)
	}
	return append(b, space(5), c.restingScale(r))
}

// adultResting is the place in the table, the practitioner's reading, and the
// clinical lines, each in sentences of its own.
func (c *composer) adultResting(r *scoring.RestingReading) string {
	var text string
	for _, p := range r.Percentiles {
		slots := words{"Sex": sexWord(p.Sex), "Percentile": p.At}
		switch {
		case p.Below:
			text += c.say("resting.place.below", slots) + " "
		case p.Above:
			text += c.say("resting.place.above", slots) + " "
		default:
			text += c.say("resting.place", slots) + " "
		}
	}
	return text + c.say(bandKeys[r.Band], nil) + " " + c.say("resting.clinical", nil)
}

// youthResting gives the place in the table only: the adult lines do not hold
// for children.
func (c *composer) youthResting(r *scoring.RestingReading) string {
	var text string
	outside := false
	for _, p := range r.Percentiles {
		low, _ := reference.RestingValue(p.Sex, c.years, 5)
		high, ok := reference.RestingValue(p.Sex, c.years, 95)
		if !ok {
			continue
		}
		text += c.say("youth.resting.place", words{"Sex": sexWord(p.Sex), "Low": low, "High": high, "Rate": r.Rate.Amount}) + " "
		outside = outside || r.Rate.Amount < low || r.Rate.Amount > high
	}
	switch {
	case text == "":
		return c.say("youth.resting.plain", words{"Rate": r.Rate.Amount})
	case outside:
		return text + c.say("youth.resting.outside", nil)
	}
	return text + c.say("youth.resting.inside", nil)
}

const (
	restingBar    = 13.0 // height of a population bar
	restingBarGap = 3.0
)

// restingScale draws the rate over the spread of people of the same age and
// sex; for adults with the practitioner's reading and the clinical lines.
func (c *composer) restingScale(r *scoring.RestingReading) piece {
	rate := r.Rate.Amount
	a := axis{min(30, 10*math.Floor((rate-4)/10)), max(115, rate+8), c.width}
	you := spread([]label{c.labelled(a.at(rate), c.say("resting.you", words{"Rate": rate}), bodyFace.with(bold).in(copper))}, 0, 0, a.width)[0]
	type bar struct{ p5, p25, p50, p75, p95 float64 }
	var bars []bar
	var legends []string
	for _, p := range r.Percentiles {
		var b bar
		for percent, at := range map[float64]*float64{5: &b.p5, 25: &b.p25, 50: &b.p50, 75: &b.p75, 95: &b.p95} {
			*at, _ = reference.RestingValue(p.Sex, c.years, percent)
		}
		bars = append(bars, b)
		key := "resting.legend"
		if c.youth {
			key = "youth.resting.legend"
		}
		legends = append(legends, c.say(key, words{"Sex": sexWord(p.Sex)}))
	}
	barsHeight := float64(max(1, len(bars)))*(restingBar+restingBarGap) + restingBarGap
	var marks piece
	if r.IsAdult {
		marks = c.practiceMarks(a)
	}
	legend := block{}
	for _, l := range legends {
		legend = append(legend, c.fonts.paragraphs(l, smallFace, c.width)...)
	}
	const top = youLabelHeight + 4
	height := top + barsHeight + 14 + marks.height + 3 + legend.height()
	return piece{height, func(s *sheet, x, y float64) {
		base := y + top + barsHeight
		for i, b := range bars {
			at := y + top + restingBarGap + float64(i)*(restingBar+restingBarGap)
			s.box(x+a.at(b.p5), at, a.at(b.p95)-a.at(b.p5), restingBar, groupTones[0])
			s.box(x+a.at(b.p25), at, a.at(b.p75)-a.at(b.p25), restingBar, groupTones[2])
			s.rule(x+a.at(b.p50), at, x+a.at(b.p50), at+restingBar, paper, 1.2)
		}
		s.rule(x, base, x+c.width, base, ink, 0.8)
		for v := math.Ceil(a.lo/10) * 10; v <= a.hi; v += 10 {
			s.rule(x+a.at(v), base, x+a.at(v), base+tickLength, ink, 0.8)
			s.writeCentred(min(max(x+a.at(v), x+6), x+c.width-6), base+tickLength+8, c.language.Number(v, 0), smallFace)
		}
		if marks.draw != nil {
			marks.draw(s, x, base+14)
		}
		s.writeCentred(x+you.at, y+8.5, you.text, you.face)
		s.rule(x+a.at(rate), y+youLabelHeight, x+a.at(rate), base, paper, 3)
		s.rule(x+a.at(rate), y+youLabelHeight, x+a.at(rate), base, copper, 1.4)
		s.diamond(x+a.at(rate), y+youLabelHeight+2, 4.2, copper)
		legend.draw(s, x, base+14+marks.height+3)
	}}
}

// practiceMarks are brackets under the axis with the practitioner's reading,
// and the clinical lines.
func (c *composer) practiceMarks(a axis) piece {
	brackets := []struct {
		from, to float64
		key      string
	}{
		{a.lo, 40, "resting.mark.athletes"},
		{40, 60, "resting.mark.fit"},
		{60, 80, "resting.mark.raised"},
		{80, a.hi, "resting.mark.fast"},
	}
	var texts []piece
	var tallest float64
	for _, b := range brackets {
		width := a.at(b.to) - a.at(b.from) - 4
		t := textPiece(c.fonts.breakLines(plain(c.say(b.key, nil), regular), width/sizeSmall), smallFace, width, centre)
		texts = append(texts, t)
		tallest = max(tallest, t.height)
	}
	note := c.say("resting.mark.practice", nil)
	clinician := c.say("resting.mark.clinician", nil)
	height := 9 + 4 + tallest
	return piece{height, func(s *sheet, x, y float64) {
		s.write(x, y+7, note, smallFace)
		for i, b := range brackets {
			from, to := x+a.at(b.from)+1.5, x+a.at(b.to)-1.5
			s.rule(from, y+12, to, y+12, soft, 0.8)
			s.rule(from, y+12, from, y+9.5, soft, 0.8)
			s.rule(to, y+12, to, y+9.5, soft, 0.8)
			texts[i].draw(s, from-0.5, y+13)
		}
		line := x + a.at(scoring.RestingClinicalHigh)
		s.dashed(line, y-14, line, y-34, ink, 0.9)
		s.write(line+3, y-26, clinician, smallFace.in(ink))
	}}
}

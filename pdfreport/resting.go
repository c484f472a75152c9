package pdfreport

import (
	"math"
	"strings"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// bandKeys are the words for the practitioner's bands.
var bandKeys = [...]string{"resting.band.very-slow", "resting.band.fit", "resting.band.usual", "resting.band.raised", "resting.band.fast"}

type restingChapter struct{ *page }

// resting tells and draws where the resting heart rate lies. Without an age there
// is nothing to hold it against.
func (c restingChapter) lay() block {
	r := c.score.Resting
	if r == nil {
		return nil
	}
	b := c.heading("resting.heading")
	switch {
	case c.youth:
		b = append(b, c.text(c.youthResting(r))...)
	case !r.IsAdult:
		return append(b, c.text(c.say("resting.no-age", words{"Rate": r.Rate.Amount})+"\n"+c.say("resting.clinical", nil))...)
	default:
		b = append(b, c.text(c.adultResting(r))...)
	}
	if c.spares(spareRestingScale) {
		return b
	}
	return append(b, space(5), c.restingScale(r))
}

// adultResting is the place in the table, the practitioner's reading, and the
// clinical lines, each in sentences of its own.
func (c restingChapter) adultResting(r *scoring.RestingReading) string {
	var places []string
	for _, p := range r.Percentiles {
		key, percentile := "resting.place", p.At
		switch {
		case p.Below:
			key, percentile = "resting.place.below", math.Ceil(p.At)
		case p.Above:
			key, percentile = "resting.place.above", math.Floor(p.At)
		}
		places = append(places, c.say(key, words{"Sex": sexWord(p.Sex), "Percentile": percentile}))
	}
	var paragraphs []string
	if len(places) > 0 {
		paragraphs = append(paragraphs, strings.Join(places, " "))
	}
	reading := c.say(bandKeys[r.Band], nil)
	if c.onHeartRateDrug() {
		reading = c.say("flag.heart-rate-drug", nil)
	}
	paragraphs = append(paragraphs, reading)
	if c.spares(spareRestingScale) { // else the scale says it
		paragraphs = append(paragraphs, c.say("resting.clinical", nil))
	}
	return strings.Join(paragraphs, "\n")
}

// onHeartRateDrug tells whether a medicine makes the practitioner's reading of
// the rate meaningless.
func (c *facts) onHeartRateDrug() bool { return c.flagged(scoring.FlagHeartRateDrug) }

// youthResting gives the place in the table only: the adult lines do not hold
// for children.
func (c restingChapter) youthResting(r *scoring.RestingReading) string {
	texts := []string{c.say("youth.resting.rate", words{"Rate": r.Rate.Amount})}
	end := ""
	for _, p := range r.Percentiles {
		low, _ := reference.RestingValue(p.Sex, c.years, 5)
		high, ok := reference.RestingValue(p.Sex, c.years, 95)
		if !ok {
			continue
		}
		texts = append(texts, c.say("youth.resting.place", words{"Sex": sexWord(p.Sex), "Low": low, "High": high}))
		switch {
		case r.Rate.Amount < low || r.Rate.Amount > high:
			end = "youth.resting.outside"
		case end == "":
			end = "youth.resting.inside"
		}
	}
	if end != "" {
		texts = append(texts, c.say(end, nil))
	}
	return strings.Join(texts, " ")
}

const (
	restingBar    = 13.0 // height of a population bar
	restingBarGap = 3.0
	clinicalRow   = 11.0 // the words at the clinical lines
	youRow        = youLabelHeight + 4
	numbersRow    = 14.0 // ticks and numbers under the axis
)

// restingAxis spans the rates that are usual, and more where the rate is not.
func restingAxis(rate, width float64) axis {
	return axis{min(30, 10*math.Floor((rate-4)/10)), max(115, rate+8), width}
}

// populationBar is the spread of resting heart rates in people of one sex and
// about the same age, as percentiles in beats/min.
type populationBar struct {
	p5, p25, p50, p75, p95 float64
	whose                  label
}

// populationBars are the bars to read the rate against: one, two where the sex
// is not given, or none without an age.
func (c restingChapter) populationBars(r *scoring.RestingReading, a axis) []populationBar {
	key := "resting.whose"
	if c.youth {
		key = "youth.resting.whose"
	}
	var bars []populationBar
	for _, p := range r.Percentiles {
		at := func(percent float64) float64 {
			value, _ := reference.RestingValue(p.Sex, c.years, percent)
			return value
		}
		b := populationBar{at(5), at(25), at(50), at(75), at(95),
			labelled(0, c.say(key, words{"Sex": sexWord(p.Sex)}), smallFace.in(ink))}
		b.whose.at = whoseAt(a.at(b.p5), a.at(b.p95), b.whose.width, a.at(r.Rate.Amount))
		bars = append(bars, b)
	}
	return bars
}

// draw draws the bar with its upper edge at y.
func (b populationBar) draw(s *sheet, a axis, x, y float64) {
	s.box(x+a.at(b.p5), y, a.at(b.p95)-a.at(b.p5), restingBar, groupTones[0])
	s.box(x+a.at(b.p25), y, a.at(b.p75)-a.at(b.p25), restingBar, groupTones[2])
	s.rule(x+a.at(b.p50), y, x+a.at(b.p50), y+restingBar, paper, 1.2)
	s.writeCentred(x+b.whose.at, y+restingBar/2+2.7, b.whose.text, b.whose.face)
}

// restingScale draws the rate over the spread of people of the same age and
// sex; for adults with the practitioner's reading and the clinical lines.
func (c restingChapter) restingScale(r *scoring.RestingReading) piece {
	rate := r.Rate.Amount
	a := restingAxis(rate, c.width)
	bars := c.populationBars(r, a)
	you := spread([]label{labelled(a.at(rate), c.say("resting.you", words{"Rate": rate}), bodyFace.with(bold).in(copper))}, 0, a.width)[0]
	// Rows from the top: words of the clinical lines, the reader's rate, bars,
	// axis with its numbers, the practitioner's brackets, notes.
	var clinical, marks piece
	var notes []string
	barsHeight := float64(max(1, len(bars)))*(restingBar+restingBarGap) + restingBarGap
	if r.IsAdult {
		clinical = c.clinicalLines(a, youRow+barsHeight)
		if !c.onHeartRateDrug() {
			marks = c.practiceMarks(a)
			notes = append(notes, c.say("resting.mark.practice", nil))
		}
	}
	if len(bars) > 0 {
		notes = append(notes, c.say("resting.legend", nil))
	}
	below := block{marks, space(3)}
	below = append(below, paragraphs(strings.Join(notes, " "), smallFace, c.width)...)
	height := clinical.height + youRow + barsHeight + numbersRow + below.height()
	return piece{height, func(s *sheet, x, y float64) {
		top := y + clinical.height
		base := top + youRow + barsHeight
		for i, b := range bars {
			b.draw(s, a, x, top+youRow+restingBarGap+float64(i)*(restingBar+restingBarGap))
		}
		block{clinical}.draw(s, x, y)
		c.drawBeats(s, a, x, base)
		below.draw(s, x, base+numbersRow)
		// A patch of paper keeps the words clear of the clinical lines.
		s.box(x+you.at-you.width/2-2, top, you.width+4, youLabelHeight-1, paper)
		s.writeCentred(x+you.at, top+8.5, you.text, you.face)
		s.rule(x+a.at(rate), top+youLabelHeight, x+a.at(rate), base, paper, 3)
		s.rule(x+a.at(rate), top+youLabelHeight, x+a.at(rate), base, copper, 1.4)
		s.diamond(x+a.at(rate), top+youLabelHeight+2, 4.2, copper)
	}}
}

// drawBeats draws the axis with a number at every ten beats.
func (c restingChapter) drawBeats(s *sheet, a axis, x, y float64) {
	const numberInset = 6.0 // keeps the first and last number inside
	s.rule(x, y, x+a.width, y, ink, 0.8)
	for v := math.Ceil(a.lo/10) * 10; v <= a.hi; v += 10 {
		at := a.at(v)
		s.rule(x+at, y, x+at, y+tickLength, ink, 0.8)
		s.writeCentred(x+min(max(at, numberInset), a.width-numberInset), y+tickLength+8, c.language.Number(v, 0), smallFace)
	}
}

// whoseAt is where the name of a bar is centred: at its right end, or at its left
// one if the reader's line would run through it there.
func whoseAt(from, to, width, line float64) float64 {
	const inset = 4.0
	at := to - inset - width/2
	if math.Abs(line-at) < width/2+inset {
		at = from + inset + width/2
	}
	return at
}

// clinicalLines draws the two clinical lines down to the axis, which lies so far
// below their words, each with an arrowhead to the side that it is about. The
// words stand between the lines, where there is always room for both.
func (c restingChapter) clinicalLines(a axis, down float64) piece {
	low, high := c.say("resting.mark.symptoms", nil), c.say("resting.mark.clinician", nil)
	return piece{clinicalRow, func(s *sheet, x, y float64) {
		look := smallFace.in(ink)
		from, to := x+a.at(scoring.RestingClinicalLow), x+a.at(scoring.RestingClinicalHigh)
		for _, at := range []float64{from, to} {
			s.dashed(at, y, at, y+clinicalRow+down, ink, 0.9)
		}
		s.arrowhead(from-1, y+4, -5, ink)
		s.write(from+4, y+7, low, look)
		s.arrowhead(to+1, y+4, 5, ink)
		s.writeRight(to-4, y+7, high, look)
	}}
}

// practiceMarks are brackets under the axis with the practitioner's reading.
func (c restingChapter) practiceMarks(a axis) piece {
	brackets := []struct {
		from, to float64
		key      string
	}{
		{a.lo, scoring.RestingFitFrom, "resting.mark.athletes"},
		{scoring.RestingFitFrom, scoring.RestingUsualFrom, "resting.mark.fit"},
		{scoring.RestingUsualFrom, scoring.RestingFastAbove, "resting.mark.raised"},
		{scoring.RestingFastAbove, a.hi, "resting.mark.fast"},
	}
	var texts []piece
	var tallest float64
	for _, b := range brackets {
		width := a.at(b.to) - a.at(b.from) - 4
		text := c.say(b.key, nil)
		look := fitting(text, smallFace, width)
		t := textPiece(breakLines(text, regular, width/look.size), look, width, centre)
		texts = append(texts, t)
		tallest = max(tallest, t.height)
	}
	return piece{6 + tallest, func(s *sheet, x, y float64) {
		for i, b := range brackets {
			from, to := x+a.at(b.from)+1.5, x+a.at(b.to)-1.5
			s.rule(from, y+4, to, y+4, soft, 0.8)
			s.rule(from, y+4, from, y+1.5, soft, 0.8)
			s.rule(to, y+4, to, y+1.5, soft, 0.8)
			texts[i].draw(s, from-0.5, y+5)
		}
	}}
}

func (c restingChapter) cites() []string {
	r := c.score.Resting
	if r == nil {
		return nil
	}
	var keys []string
	if len(r.Percentiles) > 0 {
		keys = append(keys, "nhanes0104")
	}
	if !c.youth {
		keys = append(keys, "kusumoto2018", "ostchega2011")
	}
	return keys
}

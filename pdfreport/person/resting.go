package person

import (
	"math"
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/reference"
)

// bandKeys are the blocks for the practitioner's bands.
var bandKeys = [...]string{"resting.band.very-slow", "resting.band.fit", "resting.band.usual", "resting.band.usual", "resting.band.fast"}

type restingChapter struct{ *page }

// lay says and draws where the resting heart rate is among others. Without an age
// there is no one to compare with.
func (c restingChapter) lay() kit.Block {
	r := c.score.Resting
	if r == nil {
		return nil
	}
	b := c.Heading("resting.heading")
	switch {
	case c.youth && len(r.Percentiles) == 0:
		return kit.Stack(b, c.Text(c.Say("youth.resting.rate", kit.Words{"Rate": r.Rate.Amount})+" "+c.Say("youth.resting.no-age", nil)))
	case c.youth:
		b = kit.Stack(b, c.Text(c.youthResting(r)))
	case !r.IsAdult:
		return kit.Stack(b, c.Text(c.Say("resting.no-age", kit.Words{"Rate": r.Rate.Amount})+"\n"+c.Say("resting.clinical", nil)))
	default:
		b = kit.Stack(b, c.adultResting(r))
	}
	if c.spares(spareRestingScale) {
		return b
	}
	return kit.Stack(b, kit.Space(5), c.restingScale(r))
}

// adultResting gives the place in the table and the clinical lines, and the
// practitioner's reading small beside them.
func (c restingChapter) adultResting(r *scoring.RestingReading) kit.Block {
	var places []string
	for _, p := range r.Percentiles {
		key, percentile := "resting.place", p.At
		switch {
		case p.Below:
			key, percentile = "resting.place.below", math.Ceil(p.At)
		case p.Above:
			key, percentile = "resting.place.above", math.Floor(p.At)
		}
		places = append(places, c.Say(key, kit.Words{"Sex": sexWord(p.Sex), "Percentile": percentile}))
	}
	texts := []string{strings.Join(places, " ")}
	reading := c.Say(bandKeys[r.Band], nil)
	switch {
	case c.onHeartRateDrug():
		texts, reading = append(texts, c.Say("flag.heart-rate-drug", nil)), ""
	case r.Rate.Amount < scoring.RestingClinicalLow && c.score.SeeClinicianFirst(): // no praise
		texts, reading = append(texts, c.flag(scoring.Flag{Code: scoring.FlagRestingLow})), ""
	case r.Rate.Amount >= scoring.RestingClinicalHigh:
		reading = ""
	}
	if c.spares(spareRestingScale) { // otherwise the scale says it
		texts = append(texts, c.Say("resting.clinical", nil))
	}
	b := c.Text(strings.Join(slices.DeleteFunc(texts, func(t string) bool { return t == "" }), "\n"))
	if reading != "" {
		b = kit.Stack(b, kit.Space(2), kit.Paragraphs(reading, kit.SmallFace, c.Width))
	}
	return b
}

// onHeartRateDrug reports whether a medicine makes readings of heart rates
// meaningless.
func (c *facts) onHeartRateDrug() bool { return c.flagged(scoring.FlagHeartRateDrug) }

// youthResting gives the place in the table only, because the adult lines do not
// hold for children.
func (c restingChapter) youthResting(r *scoring.RestingReading) string {
	texts := []string{c.Say("youth.resting.rate", kit.Words{"Rate": r.Rate.Amount})}
	end := ""
	for _, p := range r.Percentiles {
		low, _ := reference.RestingValue(p.Sex, c.years, 5)
		high, ok := reference.RestingValue(p.Sex, c.years, 95)
		if !ok {
			continue
		}
		texts = append(texts, c.Say("youth.resting.place", kit.Words{"Sex": sexWord(p.Sex), "Low": low, "High": high}))
		switch {
		case r.Rate.Amount < low || r.Rate.Amount > high:
			end = "youth.resting.outside"
		case end == "":
			end = "youth.resting.inside"
		}
	}
	if c.onHeartRateDrug() {
		end = "flag.heart-rate-drug"
	}
	if end != "" {
		texts = append(texts, c.Say(end, nil))
	}
	return strings.Join(texts, " ")
}

const (
	restingBar    = 13.0 // height of a population bar
	restingBarGap = 3.0
	clinicalRow   = 11.0 // words at the clinical lines
	youRow        = youLabelHeight + 4
	numbersRow    = 14.0 // ticks and numbers under the axis
)

// restingAxis spans the usual rates, and more for an unusual one.
func restingAxis(rate, width float64) kit.Axis {
	return kit.Axis{Lo: min(30, 10*math.Floor((rate-4)/10)), Hi: max(115, rate+8), Width: width}
}

// populationBar is the spread of resting heart rates in people of one sex and
// age, as percentiles in beats/min.
type populationBar struct {
	p5, p25, p50, p75, p95 float64
	whose                  kit.Label
}

// populationBars returns the bars to compare with: one, two if the sex is
// missing, or none without an age.
func (c restingChapter) populationBars(r *scoring.RestingReading, a kit.Axis) []populationBar {
	key := kit.Pick(c.youth, "youth.resting.whose", "resting.whose")
	var bars []populationBar
	for _, p := range r.Percentiles {
		at := func(percent float64) float64 {
			value, _ := reference.RestingValue(p.Sex, c.years, percent)
			return value
		}
		b := populationBar{at(5), at(25), at(50), at(75), at(95),
			kit.Labelled(0, c.Say(key, kit.Words{"Sex": sexWord(p.Sex)}), kit.SmallFace.In(kit.Ink))}
		b.whose.At = whoseAt(a.At(b.p5), a.At(b.p95), b.whose.Width, a.At(r.Rate.Amount))
		bars = append(bars, b)
	}
	return bars
}

// draw draws the bar with its upper edge at y.
func (b populationBar) draw(s *kit.Sheet, a kit.Axis, x, y float64) {
	s.Box(x+a.At(b.p5), y, a.At(b.p95)-a.At(b.p5), restingBar, kit.GroupTones[0])
	s.Box(x+a.At(b.p25), y, a.At(b.p75)-a.At(b.p25), restingBar, kit.GroupTones[2])
	s.Rule(x+a.At(b.p50), y, x+a.At(b.p50), y+restingBar, kit.White, 1.2)
	s.WriteCentred(x+b.whose.At, y+restingBar/2+2.7, b.whose.Text, b.whose.Face)
}

// restingScale draws the rate over the spread of people of the same age and sex.
// Adults also get the practitioner's reading and the clinical lines.
func (c restingChapter) restingScale(r *scoring.RestingReading) kit.Block {
	rate := r.Rate.Amount
	a := restingAxis(rate, c.Width)
	bars := c.populationBars(r, a)
	you := kit.Spread([]kit.Label{kit.Labelled(a.At(rate), c.Say("resting.you", kit.Words{"Rate": rate}), kit.BodyFace.With(kit.Bold).In(kit.Copper))}, 0, a.Width)[0]
	// From the top: words of the clinical lines, the reader's rate, bars, axis
	// with numbers, the practitioner's brackets, notes.
	var clinical, marks kit.Block
	var notes []string
	barsHeight := float64(max(1, len(bars)))*(restingBar+restingBarGap) + restingBarGap
	if r.IsAdult {
		clinical = c.clinicalLines(a, youRow+barsHeight)
		if !c.onHeartRateDrug() {
			marks = c.practiceMarks(a)
			notes = append(notes, c.Say("resting.mark.practice", nil))
		}
	}
	if len(bars) > 0 {
		notes = append(notes, c.Say("resting.legend", nil))
	}
	below := kit.Stack(marks, kit.Space(3), kit.Paragraphs(strings.Join(notes, " "), kit.SmallFace, c.Width))
	height := clinical.Height() + youRow + barsHeight + numbersRow + below.Height()
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		top := y + clinical.Height()
		base := top + youRow + barsHeight
		for i, b := range bars {
			b.draw(s, a, x, top+youRow+restingBarGap+float64(i)*(restingBar+restingBarGap))
		}
		clinical.Draw(s, x, y)
		c.drawBeats(s, a, x, base)
		below.Draw(s, x, base+numbersRow)
		// White behind the words covers the clinical lines.
		s.Box(x+you.At-you.Width/2-2, top, you.Width+4, youLabelHeight-1, kit.White)
		s.WriteCentred(x+you.At, top+8.5, you.Text, you.Face)
		s.Rule(x+a.At(rate), top+youLabelHeight, x+a.At(rate), base, kit.White, 3)
		s.Rule(x+a.At(rate), top+youLabelHeight, x+a.At(rate), base, kit.Copper, 1.4)
		kit.Diamond(s, x+a.At(rate), top+youLabelHeight+2, 4.2, kit.Copper)
	})
}

// drawBeats draws the axis with a number every ten beats.
func (c restingChapter) drawBeats(s *kit.Sheet, a kit.Axis, x, y float64) {
	const numberInset = 6.0 // keeps the first and last number inside
	s.Rule(x, y, x+a.Width, y, kit.Ink, 0.8)
	for v := math.Ceil(a.Lo/10) * 10; v <= a.Hi; v += 10 {
		at := a.At(v)
		s.Rule(x+at, y, x+at, y+kit.TickLength, kit.Ink, 0.8)
		s.WriteCentred(x+min(max(at, numberInset), a.Width-numberInset), y+kit.TickLength+8, c.Language.Number(v, 0), kit.SmallFace)
	}
}

// whoseAt returns the centre of a bar's name: at its right end, or at its left
// one if the reader's line would cross it.
func whoseAt(from, to, width, line float64) float64 {
	const inset = 4.0
	at := to - inset - width/2
	if math.Abs(line-at) < width/2+inset {
		return from + inset + width/2
	}
	return at
}

// clinicalLines draws the two clinical lines from their words down to the axis,
// each with an arrowhead to the side it concerns. The words fit between the
// lines.
func (c restingChapter) clinicalLines(a kit.Axis, down float64) kit.Block {
	low, high := c.Say("resting.mark.symptoms", nil), c.Say("resting.mark.clinician", nil)
	return kit.Draw(clinicalRow, func(s *kit.Sheet, x, y float64) {
		look := kit.SmallFace.In(kit.Ink)
		from, to := x+a.At(scoring.RestingClinicalLow), x+a.At(scoring.RestingClinicalHigh)
		for _, at := range []float64{from, to} {
			s.Dashed(at, y, at, y+clinicalRow+down, kit.Ink, 0.9)
		}
		kit.Arrowhead(s, from-1, y+4, -5, kit.Ink)
		s.Write(from+4, y+7, low, look)
		kit.Arrowhead(s, to+1, y+4, 5, kit.Ink)
		s.WriteRight(to-4, y+7, high, look)
	})
}

// practiceMarks draws brackets under the axis with the practitioner's reading.
func (c restingChapter) practiceMarks(a kit.Axis) kit.Block {
	brackets := []struct {
		from, to float64
		key      string
	}{
		{a.Lo, scoring.RestingFitFrom, "resting.mark.athletes"},
		{scoring.RestingFitFrom, scoring.RestingUsualFrom, "resting.mark.fit"},
		{scoring.RestingUsualFrom, scoring.RestingFastAbove, "resting.mark.usual"},
		{scoring.RestingFastAbove, a.Hi, "resting.mark.fast"},
	}
	var texts []kit.Block
	var tallest float64
	for _, b := range brackets {
		width := a.At(b.to) - a.At(b.from) - 4
		text := c.Say(b.key, nil)
		look := kit.Fitting(text, kit.SmallFace, width)
		t := kit.Lines(kit.BreakLines(text, kit.Regular, width/look.Size), look, width, kit.Centre)
		texts = append(texts, t)
		tallest = max(tallest, t.Height())
	}
	return kit.Draw(6+tallest, func(s *kit.Sheet, x, y float64) {
		for i, b := range brackets {
			from, to := x+a.At(b.from)+1.5, x+a.At(b.to)-1.5
			s.Rule(from, y+4, to, y+4, kit.Soft, 0.8)
			s.Rule(from, y+4, from, y+1.5, kit.Soft, 0.8)
			s.Rule(to, y+4, to, y+1.5, kit.Soft, 0.8)
			texts[i].Draw(s, from-0.5, y+5)
		}
	})
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
		keys = append(keys, "kusumoto2018", "nanchen2018", "ostchega2011")
	}
	return keys
}

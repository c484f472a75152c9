package pdfreport

import (
	"regexp"
	"slices"
	"strings"

	"tenback/scoring"
)

// nameSizes are tried from large to small until the name fits on a line.
var nameSizes = []float64{sizeName, 17, 14}

const (
	nameLinesMost = 3
	motifWidth    = 118.0
)

func (c *page) title() string {
	if c.youth {
		return c.say("youth.title", nil)
	}
	return c.say("title", nil)
}

func (c *page) numberKey() string {
	switch {
	case c.norm != nil:
		return "norm.number"
	case c.best.Measured():
		return "number.measured"
	case c.best.Test.Fallback:
		return "number.rough"
	}
	return "number.estimate"
}

type headChapter struct{ *page }

// head is the title line, the name, and who and when.
func (c headChapter) lay() block {
	b := block{c.titleLine(c.title()), c.nameLines(), space(2)}
	facts := limitLines(breakLines(c.whoAndWhen(), regular, c.width/sizeBody), 2)
	whom := limitLines(breakMarked(c.whom(), regular, c.width/sizeBody), forLinesMost)
	factsPiece := textPiece(facts, bodyFace.in(soft), c.width, left)
	if len(facts) == 1 && len(whom) == 1 && (facts[0].width+whom[0].width)*sizeBody+gutter <= c.width {
		return append(b, beside(column{0, block{factsPiece}}, column{c.width - whom[0].width*sizeBody, block{textPiece(whom, bodyFace, c.width, left)}}))
	}
	return append(b, factsPiece, space(1), textPiece(whom, bodyFace, c.width, left))
}

// titleLine is the first line of a document: what it is, and at the right whose,
// or the program's own mark.
func (c *layout) titleLine(title string) piece {
	owner := c.motif
	if c.hasOwner() {
		owner = c.owner(textWidth(title, bold) * sizeHeading)
	}
	return piece{27, func(s *sheet, x, y float64) {
		s.write(x, y+10, title, c.headingFace(paper))
		owner(s, x, y)
		s.rule(x, y+16.5, x+c.width, y+16.5, c.accent(), 0.9)
	}}
}

// whom says whom the page is for.
func (c headChapter) whom() string {
	key := "head.for"
	if c.youth {
		key = "youth.for"
	}
	return c.say(key, words{"Name": unmarked(c.name)})
}

// forLinesMost bounds the words on whom the page is for, which hold the name.
const forLinesMost = 3

// hasOwner tells whether the head names an organisation or shows its logo.
func (c *layout) hasOwner() bool { return c.organisation != "" || c.brand.Logo != nil }

// accent is the colour of headings and rules.
func (c *layout) accent() colour { return c.brand.Accent.or(petrol) }

// headingFace is that of headings on a field of the given colour.
func (c *layout) headingFace(field colour) face {
	return headingFace.in(c.brand.Accent.on(field))
}

// labelFace is that of the names of things, on a field of the given colour.
func (c *layout) labelFace(field colour) face {
	return bodyFace.with(bold).in(c.brand.Accent.on(field))
}

// nameLines sets the name as large as fits.
func (c *layout) nameLines() piece {
	look := face{size: sizeName, weight: bold, colour: ink}
	var lines []line
	for _, look.size = range nameSizes {
		lines = breakLines(c.name, bold, c.width/look.size)
		if len(lines) <= 1 {
			break
		}
	}
	return textPiece(limitLines(lines, nameLinesMost), look, c.width, left)
}

func (c headChapter) whoAndWhen() string {
	var facts []string
	if c.group != "" {
		facts = append(facts, c.group)
	}
	if c.years >= 0 {
		facts = append(facts, c.say("head.age", words{"Age": c.years}))
	}
	if !c.tested.IsZero() {
		facts = append(facts, c.say("head.tested", words{"Tested": c.tested}))
	}
	return strings.Join(facts, " · ")
}

// motif is the mark of a page without an owner, at the right of its head: ten
// steps back along a rule.
func (c *layout) motif(s *sheet, x, y float64) {
	const steps = 10
	x += c.width - motifWidth
	for i := range steps + 1 {
		at := x + float64(i)*motifWidth/steps
		switch {
		case i == 0:
			s.box(at-1.2, y+2, 2.4, 14.5, copper)
		case i == steps:
			s.box(at-2.4, y+6, 2.4, 10.5, c.accent())
		default:
			s.box(at-0.5, y+11.5, 1, 5, c.accent())
		}
	}
}

// drawContinued heads a further page and returns where its parts begin. The
// name is bold as on the first page, so that a code page that only a name needs
// is embedded in one weight.
func (c *layout) drawContinued(s *sheet, y float64) float64 {
	owner := motifWidth
	if c.hasOwner() {
		owner = c.width / 2
	}
	lines := limitLines(breakLines(c.say("head.continued", words{"Name": c.name}), bold, (c.width-owner-gutter)/sizeBody), 1)
	textPiece(lines, bodyFace.with(bold).in(soft), c.width, left).draw(s, marginSide, y-2)
	if !c.hasOwner() {
		c.motif(s, marginSide, y-6)
	} else if c.organisation != "" {
		look := bodyFace.in(soft)
		s.writeRight(marginSide+c.width, y-2+look.baseline(), cutText(c.organisation, regular, owner/look.size), look)
	}
	s.rule(marginSide, y+10.5, marginSide+c.width, y+10.5, c.accent(), 0.9)
	return y + continuedHeight
}

// continuedHeight is the room that the head of a further page takes.
const continuedHeight = 24.0

// drawFoot writes the contact, the program and the page number, as large and as
// low on every page, however small the rest is drawn.
func (c *layout) drawFoot(s *sheet, page, pages int) {
	_, height := c.paper.size()
	y := marginTop + (height-26-marginTop)/c.scale
	look := smallFace.at(smallFace.size / c.scale)
	at := c.say("foot.page", words{"Page": page, "Pages": pages})
	if c.contact == "" {
		s.write(marginSide, y, c.program, look)
		s.writeRight(marginSide+c.width, y, at, look)
		return
	}
	at = c.program + " · " + at
	room := c.width - textWidth(at, regular)*look.size - gutter
	lines := limitLines(breakLines(c.contact, regular, room/look.size), contactLinesMost)
	for i, l := range lines {
		s.line(marginSide, y-float64(len(lines)-1-i)*look.size*denseLeading, l, look)
	}
	s.writeRight(marginSide+c.width, y, at, look)
}

// contactLinesMost is how many lines a contact may take at the foot.
const contactLinesMost = 2

// panel sets a block on a field with a bar at its left edge.
func (c *layout) panel(b block, bar colour, padding float64) block {
	height := b.height() + 2*padding
	return block{{height, func(s *sheet, x, y float64) {
		s.box(x, y, c.width, height, mist)
		s.box(x, y, 3, height, bar)
		b.draw(s, x+panelInset, y+padding)
	}}}
}

// panelPadding is over and under a panel's text.
const panelPadding = 7.0

// panelInset is how far a panel's text stands from its left edge.
const panelInset = 14.0

type clinicianChapter struct{ *page }

// clinicianBox comes first where someone licensed should look first.
func (c clinicianChapter) lay() block {
	var texts []string
	for _, f := range c.score.Flags {
		if f.Code.Severity() != scoring.Clinician {
			continue
		}
		text := c.flag(f)
		if c.youth {
			text = c.say("youth.see-doctor", nil) // the one such remark that the young can have
		}
		// Two answers can lead to the same advice.
		if !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	if texts == nil {
		return nil
	}
	width := c.width - 2*panelInset
	inner := paragraphs(c.say("clinician.heading", nil), bodyFace.with(bold), width)
	inner = append(inner, space(1.5))
	inner = append(inner, paragraphs(strings.Join(texts, "\n"), bodyFace, width)...)
	return c.panel(inner, ink, c.padding())
}

// clinicianFirst tells whether a clinician should see the person before another
// test or hard exercise.
func (c *facts) clinicianFirst() bool {
	return slices.ContainsFunc(c.score.Flags, func(f scoring.Flag) bool { return f.Code.Severity() == scoring.Clinician })
}

// flagged tells whether the score has a remark of a kind.
func (c *facts) flagged(code scoring.FlagCode) bool {
	return slices.ContainsFunc(c.score.Flags, func(f scoring.Flag) bool { return f.Code == code })
}

// flag says a remark.
func (c *page) flag(f scoring.Flag) string {
	slots := words{"Detail": c.details(f)}
	if c.score.Resting != nil {
		slots["Rate"] = c.score.Resting.Rate.Amount
	}
	return c.say("flag."+f.Code.ID(), slots)
}

const headlineColumn = 184.0

type headlineChapter struct{ *page }

// headline is the number, its range, and what they mean.
func (c headlineChapter) lay() block {
	low, high := c.best.Likely()
	label, number, unit := c.say(c.numberKey(), nil), c.one(c.best.VO2), c.say("unit", nil)
	likely := c.say("number.range", words{"Low": float64(low), "High": float64(high)})
	least, most := c.best.Range90()
	nine := words{"Low": float64(least), "High": float64(most)}
	if c.best.Test.Fallback {
		likely = c.say("number.range.rough", nine)
	}
	figure := c.figure(label, number, unit, likely)
	prefix := "adult."
	if c.youth {
		prefix = "youth."
	}
	var chance string
	switch {
	case c.best.Measured():
		chance = c.say(prefix+"chance.measured", nil)
	case c.best.Test.Fallback:
		chance = c.say("adult.chance.no-test", nine) // made for adults only
	default:
		chance = c.say(prefix+"chance.estimate", words{"Test": c.declared().Test(c.best.Test), "Result": c.declared().Result(c.best)})
	}
	textWidth := c.width - headlineColumn - panelInset
	text := paragraphs(c.say(prefix+"meaning", words{"Value": float64(c.best.VO2)})+"\n"+chance, bodyFace, textWidth)
	return block{beside(column{0, figure}, column{headlineColumn + panelInset, text})}
}

// figure is the page's number between its name and its range.
func (c *page) figure(label, number, unit, spread string) block {
	return block{
		textPiece(breakLines(label, bold, headlineColumn/sizeBody), c.labelFace(paper), headlineColumn, left),
		{height: 46, draw: func(s *sheet, x, y float64) {
			end := s.write(x-2, y+39, number, face{size: sizeNumber, weight: bold, colour: copper})
			s.write(end+5, y+39, unit, bodyFace.in(soft))
		}},
		textPiece(breakLines(spread, bold, headlineColumn/sizeBody), bodyFace.with(bold), headlineColumn, left),
	}
}

// typography is what gives texts of the scoring package the page's looks.
var typography = []struct{ plain, set string }{{"VO2", "VO₂"}, {" mL/kg/min", "\u202fmL/kg/min"},
	{" beats/min", "\u202fbeats/min"}, {" km/h", "\u202fkm/h"}}

// ageRange finds ranges of whole numbers, which take a dash and not a hyphen.
var ageRange = regexp.MustCompile(`\b(\d+)-(\d+)\b`)

func typeset(text string) string {
	for _, t := range typography {
		text = strings.ReplaceAll(text, t.plain, t.set)
	}
	if strings.Contains(text, "-") {
		text = ageRange.ReplaceAllString(text, "$1–$2")
	}
	return text
}

// heading opens a part.
func (c *layout) heading(key string) block {
	return block{
		textPiece(breakLines(c.say(key, nil), bold, c.width/sizeHeading), c.headingFace(paper), c.width, left),
		space(3),
	}
}

// text sets words over the whole width.
func (c *layout) text(words string) block { return paragraphs(words, bodyFace, c.width) }

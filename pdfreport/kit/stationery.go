package kit

import (
	"cmp"
	"regexp"
	"strings"
	"time"

	"github.com/go-pdf/fpdf"

	"tenback/templates"
	"tenback/templates/wording"
)

// Layout sets what all parts of a report use: head, foot, panels and text in the
// report's words, width and brand.
type Layout struct {
	Speaker
	Clean        Cleaner
	Name         string // of the report's subject, cleaned
	program      string
	Brand        *Brand
	organisation string // cleaned
	contact      string // cleaned
	Paper        Paper
	Width        float64 // of the type area, at Scale
	Scale        float64 // 1, or less where everything is drawn smaller
}

// NewLayout returns a layout for a report about name, to be completed by Furnish.
func NewLayout(words *templates.Set, name string) Layout {
	c := Layout{Speaker: Speaker{Language: words}, Scale: 1}
	c.Name = c.Clean.Text(name)
	return c
}

// Furnish sets the paper and the contents of heads and feet. brand may be nil.
func (c *Layout) Furnish(paper Paper, brand *Brand, program string) {
	if brand == nil {
		brand = &Brand{}
	}
	c.Brand, c.Paper, c.program = brand, paper, c.Clean.Text(program)
	c.organisation, c.contact = c.Clean.Text(brand.Organisation), c.Clean.Text(brand.Contact)
	width, _ := paper.Size()
	c.Width = width - 2*MarginSide
}

// Open starts the report's document. key may be empty.
func (c *Layout) Open(title, subject string, date time.Time, key string) *fpdf.Fpdf {
	width, height := c.Paper.Size()
	return About{Page: fpdf.SizeType{Wd: width, Ht: height}, Title: title, subject: subject,
		Author: cmp.Or(c.organisation, c.program), Program: c.program, Lang: c.Language.Lang(), date: date, key: key}.Open()
}

// nameSizes are tried in turn until the name fits on a line.
var nameSizes = []float64{sizeName, 17, 14}

const (
	nameLinesMost = 3
	motifWidth    = 118.0
)

// TitleLine sets the title, and at the right the owner or the program's own mark.
func (c *Layout) TitleLine(title string) Block {
	owner := c.motif
	if c.hasOwner() {
		owner = c.owner(TextWidth(title, Bold) * SizeHeading)
	}
	return Draw(27, func(s *Sheet, x, y float64) {
		s.Write(x, y+10, title, c.HeadingFace(White))
		owner(s, x, y)
		s.Rule(x, y+16.5, x+c.Width, y+16.5, c.Accent(), 0.9)
	})
}

// hasOwner reports whether the head names an organisation or shows its logo.
func (c *Layout) hasOwner() bool { return c.organisation != "" || c.Brand.Logo != nil }

// Accent returns the colour of headings and rules.
func (c *Layout) Accent() Colour { return c.Brand.Accent.or(Petrol) }

// HeadingFace returns the face of headings on a field.
func (c *Layout) HeadingFace(field Colour) Face {
	return HeadingFace.In(c.Brand.Accent.On(field))
}

// LabelFace returns the face of labels on a field.
func (c *Layout) LabelFace(field Colour) Face {
	return BodyFace.With(Bold).In(c.Brand.Accent.On(field))
}

// NameLines sets the name as large as fits.
func (c *Layout) NameLines() Block {
	look := Face{Size: sizeName, Weight: Bold, Colour: Ink}
	var lines []Line
	for _, look.Size = range nameSizes {
		lines = BreakLines(c.Name, Bold, c.Width/look.Size)
		if len(lines) <= 1 {
			break
		}
	}
	return Lines(LimitLines(lines, nameLinesMost), look, c.Width, Left)
}

// motif draws ten steps back along a rule, at the right of the head of a page
// without an owner.
func (c *Layout) motif(s *Sheet, x, y float64) {
	const steps = 10
	x += c.Width - motifWidth
	for i := range steps + 1 {
		at := x + float64(i)*motifWidth/steps
		switch {
		case i == 0:
			s.Box(at-1.2, y+2, 2.4, 14.5, Copper)
		case i == steps:
			s.Box(at-2.4, y+6, 2.4, 10.5, c.Accent())
		default:
			s.Box(at-0.5, y+11.5, 1, 5, c.Accent())
		}
	}
}

// DrawContinued draws the head of a further page and returns its lower edge. The
// name is bold as on the first page, to embed its code page in one weight only.
func (c *Layout) DrawContinued(s *Sheet, y float64) float64 {
	owner := Pick(c.hasOwner(), c.Width/2, motifWidth)
	lines := LimitLines(BreakLines(c.Say("head.continued", Words{"Name": c.Name}), Bold, (c.Width-owner-Gutter)/SizeBody), 1)
	Lines(lines, BodyFace.With(Bold).In(Soft), c.Width, Left).Draw(s, MarginSide, y-2)
	if !c.hasOwner() {
		c.motif(s, MarginSide, y-6)
	} else if c.organisation != "" {
		look := BodyFace.In(Soft)
		s.WriteRight(MarginSide+c.Width, y-2+look.Baseline(), CutText(c.organisation, Regular, owner/look.Size), look)
	}
	s.Rule(MarginSide, y+10.5, MarginSide+c.Width, y+10.5, c.Accent(), 0.9)
	return y + ContinuedHeight
}

// ContinuedHeight is the height of the head of a further page.
const ContinuedHeight = 24.0

// DrawFoot writes the contact, the program and the page number, at the same size
// and place whatever the scale.
func (c *Layout) DrawFoot(s *Sheet, page, pages int) {
	_, height := c.Paper.Size()
	y := MarginTop + (height-26-MarginTop)/c.Scale
	look := SmallFace.At(SmallFace.Size / c.Scale)
	at := c.Say("foot.page", Words{"Page": page, "Pages": pages})
	if c.contact == "" {
		s.Write(MarginSide, y, c.program, look)
		s.WriteRight(MarginSide+c.Width, y, at, look)
		return
	}
	at = c.program + " · " + at
	room := c.Width - TextWidth(at, Regular)*look.Size - Gutter
	lines := LimitLines(BreakLines(c.contact, Regular, room/look.Size), contactLinesMost)
	for i, l := range lines {
		s.Line(MarginSide, y-float64(len(lines)-1-i)*look.Size*denseLeading, l, look)
	}
	s.WriteRight(MarginSide+c.Width, y, at, look)
}

const contactLinesMost = 2

// Panel sets a block on a field with a bar at its left edge.
func (c *Layout) Panel(b Block, bar Colour, padding float64) Block {
	height := b.Height() + 2*padding
	return Draw(height, func(s *Sheet, x, y float64) {
		s.Box(x, y, c.Width, height, Mist)
		s.Box(x, y, 3, height, bar)
		b.Draw(s, x+PanelInset, y+padding)
	})
}

// PanelPadding is the space above and below a panel's text.
const PanelPadding = 7.0

// PanelInset is the distance of a panel's text from its left edge.
const PanelInset = 14.0

// Heading sets the heading of a part.
func (c *Layout) Heading(key string) Block {
	return Stack(Lines(BreakLines(c.Say(key, nil), Bold, c.Width/SizeHeading), c.HeadingFace(White), c.Width, Left), Space(3))
}

// Text sets words in the full width.
func (c *Layout) Text(words string) Block { return Paragraphs(words, BodyFace, c.Width) }

// Limits of the owner in the head.
const (
	logoHeightMost = 29.0
	logoWidthMost  = 110.0
	logoGap        = 8.0
	ownerLinesMost = 3
	ownerSizeLeast = 7.6
)

// owner returns a function that draws the logo and the organisation's name at the
// right of the head, over the rule at y+16.5, beside a title of the given width.
func (c *Layout) owner(titleWidth float64) func(s *Sheet, x, y float64) {
	room := c.Width - titleWidth - 2*Gutter
	var logoWidth, logoHeight float64
	if c.Brand.Logo != nil {
		logoWidth, logoHeight = c.Brand.Logo.fit(logoWidthMost, logoHeightMost)
		room -= logoWidth + logoGap
	}
	look := Face{Size: SizeBody, Weight: Bold, Colour: Ink, Dense: true}
	var lines []Line
	if c.organisation != "" {
		for ; look.Size >= ownerSizeLeast; look.Size -= 0.8 {
			lines = BreakLines(c.organisation, Bold, room/look.Size)
			if len(lines) <= 2 {
				break
			}
		}
		look.Size = max(look.Size, ownerSizeLeast)
		lines = BreakLines(c.organisation, Bold, room/look.Size)
		if len(lines) > ownerLinesMost {
			lines = LimitLines(lines, ownerLinesMost)
			lines[ownerLinesMost-1].Width += TextWidth("…", Bold)
		}
	}
	return func(s *Sheet, x, y float64) {
		right := x + c.Width
		if c.Brand.Logo != nil {
			c.Brand.Logo.draw(s, right-logoWidth, y+12.5-logoHeight, logoWidth, logoHeight)
			right -= logoWidth + logoGap
		}
		for i, l := range lines {
			base := y + 10 - float64(len(lines)-1-i)*look.Leading()
			s.Line(right-l.Width*look.Size, base, l, look)
		}
	}
}

// Words holds the slots of a block of words, by name.
type Words map[string]any

// Speaker says the words of a document. It keeps the first error for the end, to
// keep the layout simple.
type Speaker struct {
	Language *templates.Set
	Err      error // the first one
}

// Say fills a block of words.
func (s *Speaker) Say(key string, slots Words) string {
	text, err := s.Language.Say(key, map[string]any(slots))
	if err != nil && s.Err == nil {
		s.Err = err
	}
	return text
}

// Pick returns yes if ok, or else no. It mostly picks the words for a case.
func Pick[T any](ok bool, yes, no T) T {
	if ok {
		return yes
	}
	return no
}

// Declared returns the words of what scoring declares, in the pages' typography.
func (s *Speaker) Declared() wording.Words {
	return wording.Words{Space: string(noBreakThinSpace), Say: func(key string, slots wording.Slots) string { return Typeset(s.Say(key, slots)) }, Number: s.Language.Number}
}

// typography gives texts of package scoring the pages' looks.
var typography = []struct{ plain, set string }{{"VO2", "VO₂"}, {" mL/kg/min", "\u202fmL/kg/min"},
	{" beats/min", "\u202fbeats/min"}, {" km/h", "\u202fkm/h"}}

// ageRange matches ranges of whole numbers, which take a dash instead of a
// hyphen.
var ageRange = regexp.MustCompile(`\b(\d+)-(\d+)\b`)

// Typeset returns a text of package scoring in the pages' typography.
func Typeset(text string) string {
	for _, t := range typography {
		text = strings.ReplaceAll(text, t.plain, t.set)
	}
	if strings.Contains(text, "-") {
		text = ageRange.ReplaceAllString(text, "$1–$2")
	}
	return text
}

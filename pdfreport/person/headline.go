package person

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
)

func (c headChapter) title() string {
	if c.youth {
		return c.Say("youth.title", nil)
	}
	return c.Say("title", nil)
}

func (c *facts) numberKey() string {
	switch {
	case c.unscored():
		return "unscored.number"
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

// lay sets the title line, the name, and who and when.
func (c headChapter) lay() kit.Block {
	b := kit.Stack(c.TitleLine(c.title()), c.NameLines(), kit.Space(2))
	facts := kit.LimitLines(kit.BreakLines(c.whoAndWhen(), kit.Regular, c.Width/kit.SizeBody), 2)
	whom := kit.LimitLines(kit.BreakMarked(c.whom(), kit.Regular, c.Width/kit.SizeBody), forLinesMost)
	factsPiece := kit.Lines(facts, kit.BodyFace.In(kit.Soft), c.Width, kit.Left)
	if len(facts) == 1 && len(whom) == 1 && (facts[0].Width+whom[0].Width)*kit.SizeBody+kit.Gutter <= c.Width {
		return kit.Stack(b, kit.Beside(kit.At(0, factsPiece), kit.At(c.Width-whom[0].Width*kit.SizeBody, kit.Lines(whom, kit.BodyFace, c.Width, kit.Left))))
	}
	return kit.Stack(b, factsPiece, kit.Space(1), kit.Lines(whom, kit.BodyFace, c.Width, kit.Left))
}

// whom says for whom the page is.
func (c headChapter) whom() string {
	key := kit.Pick(c.youth, "youth.for", "head.for")
	return c.Say(key, kit.Words{"Name": kit.Unmarked(c.Name)})
}

// forLinesMost bounds that, because it holds the name.
const forLinesMost = 3

func (c headChapter) whoAndWhen() string {
	var facts []string
	if c.group != "" {
		facts = append(facts, c.group)
	}
	if c.years >= 0 {
		facts = append(facts, c.Say("head.age", kit.Words{"Age": c.years}))
	}
	if !c.tested.IsZero() {
		facts = append(facts, c.Say("head.tested", kit.Words{"Tested": c.tested}))
	}
	return strings.Join(facts, " · ")
}

type clinicianChapter struct{ *page }

// lay comes first on the page if a clinician should look first, or somebody should
// talk to the person before another all-out test.
func (c clinicianChapter) lay() kit.Block {
	var texts []string
	for _, f := range c.score.Flags {
		if f.Code.Severity() != scoring.Clinician {
			continue
		}
		text := c.flag(f)
		switch {
		case f.Code == scoring.FlagSeeClinician && c.score.Entry().OnlyUnclear():
			text = c.Say("clinician.unclear", nil)
		case c.youth && f.Code == scoring.FlagRestingHigh:
			text = c.Say("youth.resting-high", kit.Words{"Rate": c.score.Resting.Rate.Amount})
		case c.youth:
			text = c.Say("youth.see-doctor", nil)
		}
		// Two answers can lead to the same advice.
		if !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	switch {
	case texts != nil:
		texts = append(texts, c.Say(c.forYouth("clinician.until"), nil))
	case c.score.Advice() == scoring.NotAllOut:
		texts = append(texts, c.Say("clinician.talk", nil))
	default:
		return nil
	}
	width := c.Width - 2*kit.PanelInset
	inner := kit.Stack(kit.Paragraphs(c.Say("clinician.heading", nil), kit.BodyFace.With(kit.Bold), width), kit.Space(1.5),
		kit.Paragraphs(strings.Join(texts, "\n"), kit.BodyFace, width))
	return c.Panel(inner, kit.Ink, c.padding())
}

// flagged reports whether the score has a remark of a kind.
func (c *facts) flagged(code scoring.FlagCode) bool {
	return slices.ContainsFunc(c.score.Flags, func(f scoring.Flag) bool { return f.Code == code })
}

// flag says a remark, with the details of all remarks of its kind.
func (c *page) flag(f scoring.Flag) string {
	var details []string
	for _, g := range c.score.Flags {
		if text := c.Declared().Said(g.Detail); g.Code == f.Code && text != "" && !slices.Contains(details, text) {
			details = append(details, text)
		}
	}
	slots := kit.Words{"Detail": strings.Join(details, "; ")}
	if c.score.Resting != nil {
		slots["Rate"] = c.score.Resting.Rate.Amount
	}
	return c.Say("flag."+f.Code.ID(), slots)
}

const headlineColumn = 184.0

type headlineChapter struct{ *page }

// lay sets the number, its range, and what they mean.
func (c headlineChapter) lay() kit.Block {
	low, high := c.best.Likely()
	label, number, unit := c.Say(c.numberKey(), nil), c.one(c.best.VO2), c.Say("unit", nil)
	likely := c.Say("number.range", kit.Words{"Low": float64(low), "High": float64(high)})
	least, most := c.best.Range90()
	nine := kit.Words{"Low": float64(least), "High": float64(most)}
	if c.best.Test.Fallback {
		likely = c.Say("number.range.rough", nine)
	}
	figure := c.figure(label, number, unit, likely)
	prefix := kit.Pick(c.youth, "youth.", "adult.")
	var chance string
	switch {
	case c.best.Measured():
		chance = c.Say(prefix+"chance.measured", nil)
	case c.best.Test.Fallback:
		chance = c.Say("adult.chance.no-test", nine) // for adults only
	default:
		chance = c.Say(prefix+"chance.estimate", kit.Words{"Test": c.Declared().Test(c.best.Test), "Result": c.Declared().Result(c.best.Trial())})
	}
	textWidth := c.Width - headlineColumn - kit.PanelInset
	text := kit.Paragraphs(c.Say(prefix+"meaning", kit.Words{"Value": float64(c.best.VO2)})+"\n"+chance, kit.BodyFace, textWidth)
	return kit.Beside(kit.At(0, figure), kit.At(headlineColumn+kit.PanelInset, text))
}

// figure sets the page's number between its label and its range.
func (c *page) figure(label, number, unit, spread string) kit.Block {
	return kit.Stack(
		kit.Lines(kit.BreakLines(label, kit.Bold, headlineColumn/kit.SizeBody), c.LabelFace(kit.White), headlineColumn, kit.Left),
		kit.Draw(46, func(s *kit.Sheet, x, y float64) {
			end := s.Write(x-2, y+39, number, kit.Face{Size: kit.SizeNumber, Weight: kit.Bold, Colour: kit.Copper})
			s.Write(end+5, y+39, unit, kit.BodyFace.In(kit.Soft))
		}),
		kit.Lines(kit.BreakLines(spread, kit.Bold, headlineColumn/kit.SizeBody), kit.BodyFace.With(kit.Bold), headlineColumn, kit.Left),
	)
}

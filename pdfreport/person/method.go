package person

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates/wording"
)

const (
	methodLabel     = 92.0
	problemsMost    = 4
	problemLineMost = 2
)

type methodChapter struct{ *page }

// lay shows how the number was worked out and how sure it is.
func (c methodChapter) lay() kit.Block {
	b := c.Heading("method.heading")
	working := c.best.Working()
	c.methodRow(&b, "method.test", c.Declared().TestAndResult(c.best.Trial()))
	if !c.best.Measured() {
		eq := c.best.Equation
		c.methodRow(&b, "method.equation", c.Say("method.checked-on", kit.Words{"Equation": wording.Capital(c.Declared().Equation(eq)), "People": c.Declared().People(eq)}))
	}
	if !c.best.Measured() || len(working.Inputs) > 1 {
		c.methodRow(&b, "method.inputs", wording.Capital(c.inputsText(working)))
		c.methodRow(&b, "method.working", c.workingText(working))
	}
	c.methodRow(&b, "method.sure", c.sureText())
	c.remarkRow(&b)
	if !c.best.Measured() && !c.youth && !c.spares(spareSmallPrint) {
		b = kit.Stack(b, kit.Space(3), c.Text(c.Say("method.lab", nil)))
	}
	return b
}

// methodRow adds a labelled row. It leaves out a row without text.
func (c methodChapter) methodRow(b *kit.Block, key, text string) {
	if text == "" {
		return
	}
	c.addRow(b, key, kit.Paragraphs(text, kit.SmallFace.In(kit.Ink), c.Width-methodLabel))
}

func (c methodChapter) addRow(b *kit.Block, key string, content kit.Block) {
	name := kit.Paragraphs(c.Say(key, nil), kit.SmallFace.With(kit.Bold).In(c.Brand.Accent.On(kit.White)), methodLabel-8)
	*b = kit.Stack(*b, kit.Beside(kit.At(0, name), kit.At(methodLabel, content)), kit.Space(1.5))
}

// inputsText lists the inputs as read, and as the equation takes them where that
// differs.
func (c methodChapter) inputsText(w scoring.Working) string {
	words := c.Declared()
	var all []string
	for _, in := range w.Inputs {
		if in.Read.Unit == scoring.MaleOne {
			// In "0 male 1, female 0" the coding follows the number.
			number, coding, _ := strings.Cut(in.Used, " ")
			if u, ok := scoring.UnitBySymbol(coding); ok {
				coding = words.Unit(u)
			}
			all = append(all, words.Input(in.Input)+" "+number+" ("+coding+")")
			continue
		}
		text := words.Input(in.Input) + " " + words.Quantity(in.Read)
		switch {
		case in.Used != in.Read.String():
			text += " (" + in.Symbol + " = " + words.Arithmetic(in.Used) + ")"
		case in.Symbol != in.Name:
			text += " (" + in.Symbol + ")"
		}
		all = append(all, text)
	}
	return kit.Typeset(strings.Join(all, "; "))
}

// workingText sets each step with its formula, the numbers put in, and the value.
func (c methodChapter) workingText(w scoring.Working) string {
	words := c.Declared()
	var lines []string
	for _, step := range w.Steps {
		if step.Formula == "" {
			lines = append(lines, step.Symbol+" = "+words.Arithmetic(step.Value)+" ("+words.Said(step.How)+")")
			continue
		}
		lines = append(lines, step.Symbol+" = "+words.Arithmetic(step.Formula))
		if step.Numbers != step.Formula {
			lines = append(lines, "= "+words.Arithmetic(step.Numbers))
		}
		lines[len(lines)-1] += " = " + words.Arithmetic(step.Value)
	}
	return kit.Typeset(strings.Join(lines, "\n"))
}

// sureText states the error of the number, its parts, and where it comes from.
func (c methodChapter) sureText() string {
	e := c.best
	see := kit.Words{"SEE": float64(e.SEE)}
	low, high := e.Range90()
	nine := " " + c.Say("method.sure.nine", kit.Words{"Low": float64(max(0, low)), "High": float64(high)})
	if e.Measured() {
		return c.Say("method.sure.measured", see) + nine
	}
	text := c.Say(kit.Pick(e.Equation.Error.Status == scoring.ErrorAssumed, "method.sure.assumed", "method.sure.published"), see)
	if e.FromSteps > 0 {
		text += " " + c.Say("method.sure.steps", kit.Words{"Add": float64(e.FromSteps)})
	}
	if e.Outside > 0 {
		text += " " + c.Say("method.sure.outside", kit.Words{"Add": float64(e.Outside)})
	}
	if e.FromSteps > 0 || e.Outside > 0 {
		text += " " + c.Say("method.sure.whole", kit.Words{"SD": float64(e.SD)})
	}
	return text + nine
}

// saidElsewhere lists remarks that other chapters say.
var saidElsewhere = []scoring.FlagCode{scoring.FlagErrorAssumed, scoring.FlagIndependence,
	scoring.FlagSexMissing, scoring.FlagAgeMissing, scoring.FlagNoTable, scoring.FlagYoungestRow, scoring.FlagLowerReading, scoring.FlagNoExercise, scoring.FlagTestsDiffer}

// remarkRow adds what else should be known about the number and the entry.
func (c methodChapter) remarkRow(b *kit.Block) {
	var texts []string
	for _, f := range c.score.Flags {
		if f.Code.Severity() == scoring.Clinician || slices.Contains(saidElsewhere, f.Code) {
			continue
		}
		if f.Code == scoring.FlagHeartRateDrug && c.score.Resting != nil && !c.youth {
			continue // the chapter on resting says it
		}
		if text := c.flag(f); !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	var content kit.Block
	look, width := kit.SmallFace.In(kit.Ink), c.Width-methodLabel
	if len(texts) > 0 {
		content = kit.Paragraphs(strings.Join(texts, " "), look, width)
	}
	for _, problem := range c.problems[:min(problemsMost, len(c.problems))] {
		lines := kit.LimitLines(kit.BreakLines(wording.Capital(c.problem(problem)), kit.Regular, width/look.Size), problemLineMost)
		content = kit.Stack(content, kit.Lines(lines, look, width, kit.Left))
	}
	if content != nil {
		c.addRow(b, "method.remarks", content)
	}
}

// problem says what could not be used of the entry, with the sheet's text
// cleaned.
func (c methodChapter) problem(p Problem) string {
	return c.Clean.Text(c.Say("method.problem", kit.Words{"Read": p.Read, "What": c.Declared().Said(p.What)}))
}

// commonPractice is the bibliography's key for what has no source to list.
const commonPractice = "common"

// citing is a chapter that rests on literature.
type citing interface {
	// cites returns keys of the bibliography. They may be empty or repeat.
	cites() []string
}

type sourcesChapter struct{ *page }

// lay lists the literature that the page rests on.
func (c sourcesChapter) lay() kit.Block {
	p := c.page
	var citations, keys []string
	for _, ch := range []citing{testsChapter{p}, standingChapter{p}, olderChapter{p}, healthLineChapter{p}, restingChapter{p},
		nextChapter{p}, changeChapter{p}, trainingChapter{p}, labChapter{p}} {
		keys = append(keys, ch.cites()...)
	}
	for _, f := range c.score.Flags {
		keys = append(keys, f.Code.Source())
	}
	for i, key := range append(keys, "who2020") {
		if key != "" && key != commonPractice && !slices.Contains(keys[:i], key) {
			citations = append(citations, fieldtests.Cite(key))
		}
	}
	look := kit.SourceFace
	if c.spares(spareSmallPrint) {
		look = look.At(kit.SizeFine)
	}
	return kit.Paragraphs("**"+c.Say("sources.heading", nil)+":** "+strings.Join(citations, " · "), look, c.Width)
}

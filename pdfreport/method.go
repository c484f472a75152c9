package pdfreport

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/templates/wording"
)

const (
	methodLabel     = 92.0
	problemsMost    = 4
	problemLineMost = 2
)

// method shows how the number was worked out, how sure it is, and what the page
// rests on.
func (c *composer) method() block {
	b := c.heading("method.heading")
	working := c.best.Working()
	c.methodRow(&b, "method.test", c.declared().TestAndResult(c.best))
	if !c.best.Measured() {
		eq := c.best.Equation
		c.methodRow(&b, "method.equation", c.say("method.checked-on", words{"Equation": wording.Capital(c.declared().Equation(eq)), "People": c.declared().People(eq)}))
	}
	if !c.best.Measured() || len(working.Inputs) > 1 {
		c.methodRow(&b, "method.inputs", wording.Capital(c.inputsText(working)))
		c.methodRow(&b, "method.working", c.workingText(working))
	}
	c.methodRow(&b, "method.sure", c.sureText())
	c.methodRow(&b, "method.others", c.othersText())
	c.remarkRow(&b)
	if !c.best.Measured() && !c.youth && !c.spares(spareSmallPrint) {
		b = append(b, space(3))
		b = append(b, c.text(c.say("method.lab", nil))...)
	}
	return b
}

// methodRow adds a labelled row; a row without text is left out.
func (c *composer) methodRow(b *block, key, text string) {
	if text == "" {
		return
	}
	c.addRow(b, key, c.fonts.paragraphs(text, smallFace.in(ink), c.width-methodLabel))
}

func (c *composer) addRow(b *block, key string, content block) {
	name := c.fonts.paragraphs(c.say(key, nil), smallFace.with(bold).in(c.brand.Accent.on(paper)), methodLabel-8)
	*b = append(*b, beside(column{0, name}, column{methodLabel, content}), space(1.5))
}

// inputsText lists what was put in: as read, and as the equation wants it where
// that differs.
func (c *composer) inputsText(w scoring.Working) string {
	words := c.declared()
	var all []string
	for _, in := range w.Inputs {
		if in.Read.Unit == scoring.MaleOne {
			// "0 male 1, female 0": the coding is set apart from the number.
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
	return typeset(strings.Join(all, "; "))
}

// workingText is the arithmetic: each step with its formula, the numbers put
// in, and the value, one under another.
func (c *composer) workingText(w scoring.Working) string {
	words := c.declared()
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
	return typeset(strings.Join(lines, "\n"))
}

// sureText tells the error of the number, where each share of it comes from,
// and how far that can be trusted.
func (c *composer) sureText() string {
	e := c.best
	see := words{"SEE": float64(e.SEE)}
	low, high := e.Range90()
	nine := " " + c.say("method.sure.nine", words{"Low": float64(max(0, low)), "High": float64(high)})
	if e.Measured() {
		return c.say("method.sure.measured", see) + nine
	}
	key := "method.sure.published"
	switch e.Equation.Error.Status {
	case scoring.ErrorFromMemory:
		key = "method.sure.memory"
	case scoring.ErrorAssumed:
		key = "method.sure.assumed"
	}
	text := c.say(key, see)
	if e.FromSteps > 0 {
		text += " " + c.say("method.sure.steps", words{"Add": float64(e.FromSteps)})
	}
	if e.Outside > 0 {
		text += " " + c.say("method.sure.outside", words{"Add": float64(e.Outside)})
	}
	if e.FromSteps > 0 || e.Outside > 0 {
		text += " " + c.say("method.sure.whole", words{"SD": float64(e.SD)})
	}
	return text + nine
}

// othersText lists what other equations make of the same tests; what the other
// tests gave has a part of its own.
func (c *composer) othersText() string {
	firsts := c.firstOfEachTest()
	var all []string
	for i := range c.score.Estimates {
		other := &c.score.Estimates[i]
		if slices.Contains(firsts, other) {
			continue
		}
		low, high := other.Likely()
		all = append(all, c.say("method.other", words{"Test": c.declared().Test(other.Test), "Equation": c.declared().Equation(other.Equation), "Value": float64(other.VO2), "Low": float64(low), "High": float64(high)}))
	}
	return strings.Join(all, " ")
}

// saidElsewhere are remarks that have their own place on the page.
var saidElsewhere = []scoring.FlagCode{scoring.FlagErrorAssumed, scoring.FlagIndependence,
	scoring.FlagSexMissing, scoring.FlagAgeMissing, scoring.FlagNoTable, scoring.FlagNoExercise, scoring.FlagTestsDiffer}

// details are those of all remarks of a kind, which are said as one.
func (c *composer) details(f scoring.Flag) string {
	var all []string
	for _, g := range c.score.Flags {
		if text := c.declared().Said(g.Detail); g.Code == f.Code && text != "" && !slices.Contains(all, text) {
			all = append(all, text)
		}
	}
	return strings.Join(all, "; ")
}

// remarkRow adds what else should be known about the number and the entry.
func (c *composer) remarkRow(b *block) {
	var texts []string
	for _, f := range c.score.Flags {
		if f.Code.Severity() == scoring.Clinician || slices.Contains(saidElsewhere, f.Code) {
			continue
		}
		if f.Code == scoring.FlagHeartRateDrug && c.score.Resting != nil && !c.youth {
			continue // said with the resting heart rate
		}
		if text := c.flag(f); !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	var content block
	look, width := smallFace.in(ink), c.width-methodLabel
	if len(texts) > 0 {
		content = c.fonts.paragraphs(strings.Join(texts, " "), look, width)
	}
	for _, problem := range c.problems[:min(problemsMost, len(c.problems))] {
		lines := c.fonts.limitLines(c.fonts.breakLines(wording.Capital(c.problem(problem)), regular, width/look.size), problemLineMost)
		content = append(content, textPiece(lines, look, width, left))
	}
	if content != nil {
		c.addRow(b, "method.remarks", content)
	}
}

// problem says what could not be used of the entry. What stands in a sheet is
// cleaned, whatever words it came with.
func (c *composer) problem(p Problem) string {
	return c.clean.text(c.say("method.problem", words{"Read": p.Read, "What": c.declared().Said(p.What)}))
}

// commonPractice is the bibliography's key for what has no source to list.
const commonPractice = "common"

// sources lists the literature that this page rests on.
func (c *composer) sources() block {
	var keys []string
	add := func(key string) {
		if key != "" && key != commonPractice && !slices.Contains(keys, key) {
			keys = append(keys, key)
		}
	}
	if len(c.score.Norms) > 0 {
		add("rikli-jones")
	}
	for _, e := range c.firstOfEachTest() {
		if e.Measured() {
			continue
		}
		for _, step := range e.Working().Steps {
			add(step.Source)
		}
	}
	for _, st := range c.adults {
		if !st.Table.Own {
			add(st.Table.Source)
		}
		if c.hasSecond(st) {
			add("kaminsky2022")
		}
	}
	if c.usual() != "" {
		add(c.score.Expected.Source)
	}
	if c.readsIndependence() {
		add("shephard2009")
		for _, sex := range c.sexes() {
			if c.outlooks(sex) != nil {
				add("paterson1999")
				add("fleg2005")
			}
		}
	}
	for _, h := range c.score.Youth {
		add(h.Source)
	}
	if r := c.score.Resting; r != nil {
		if len(r.Percentiles) > 0 {
			add("nhanes0104")
		}
		if !c.youth {
			add("kusumoto2018")
			add("ostchega2011")
		}
	}
	if _, ok := c.trainingGain(); ok || c.tellsTraining() {
		add("bouchard1999")
	}
	for _, key := range c.changeSources() {
		add(key)
	}
	if ranges := c.trainingRanges(); ranges != nil && !ranges[0].Measured {
		add("garber2011")
		if ranges[0].Error > 0 {
			add("tanaka2001")
			add("sarzynski2013")
		}
	}
	if c.score.Entry().Has(scoring.ExchangeRatio) && c.norm == nil {
		add("kaminsky2015")
		add("kaminsky2022")
	}
	add("who2020")
	var citations []string
	for _, key := range keys {
		citations = append(citations, scoring.Cite(key))
	}
	look := sourceFace
	if c.spares(spareSmallPrint) {
		look = look.at(sizeFine)
	}
	return c.fonts.paragraphs("**"+c.say("sources.heading", nil)+":** "+strings.Join(citations, " · "), look, c.width)
}

package summary

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring/fieldtests"
	"tenback/scoring/group"
)

// opening sets the first passages.
type opening struct{ *summary }

// groupHead sets the title line, the title, and for whom the summary is.
func (c opening) groupHead() kit.Block {
	b := kit.Stack(c.TitleLine(c.Say("summary.kicker", nil)), c.NameLines(), kit.Space(2))
	var facts []string
	if t := c.table(group.PeopleTable, group.Adults); t != nil {
		if total := t.Cells[len(t.Cells)-1][0]; total.Shown {
			facts = append(facts, c.Say("summary.people.count", kit.Words{"Count": total.Count}))
		}
	}
	facts = append(facts, c.Say("summary.for", nil))
	return kit.Stack(b, c.Text(strings.Join(facts, " · ")))
}

// boxed sets a block of words under its heading on a field.
func (c *summary) boxed(key string, bar kit.Colour) kit.Block {
	width := c.Width - 2*kit.PanelInset
	inner := kit.Stack(kit.Paragraphs(c.Say(key+".heading", nil), c.LabelFace(kit.Mist), width), kit.Space(2),
		kit.Paragraphs(c.Say(key, kit.Words{"Smallest": c.Summary.Smallest}), kit.BodyFace, width))
	return c.Panel(inner, bar, kit.PanelPadding)
}

// titled sets a passage's heading and note.
func (c *summary) titled(title, note string) kit.Block {
	b := kit.Stack(kit.Lines(kit.BreakLines(title, kit.Bold, c.Width/kit.SizeHeading), c.HeadingFace(kit.White), c.Width, kit.Left), kit.Space(2))
	if note != "" {
		b = kit.Stack(b, kit.Paragraphs(note, kit.SmallFace, c.Width), kit.Space(4))
	}
	return b
}

// resumed sets the heading on a further page.
func (c *summary) resumed(title string) kit.Block {
	look := c.LabelFace(kit.White)
	return kit.Stack(kit.Lines(kit.BreakLines(c.Say("summary.continued", kit.Words{"What": title}), kit.Bold, c.Width/look.Size), look, c.Width, kit.Left), kit.Space(2))
}

func (c opening) people() passage {
	t := c.table(group.PeopleTable, group.Adults)
	title := c.Declared().TableOf(t.ID, group.Unplaced)
	return passage{head: kit.Stack(c.titled(title, ""), kit.Stack(countTable{c.summary, t, c.Width}.rows()...))}
}

// tabled returns a passage of rows under column heads, which are repeated on
// further pages.
func (c *summary) tabled(title, note string, heads kit.Block, rows []kit.Block) passage {
	return passage{head: kit.Stack(c.titled(title, note), heads), rows: rows, again: kit.Stack(c.resumed(title), heads)}
}

// partPassages sets the passages on one part of the people.
type partPassages struct {
	*summary
	part group.Part
}

// counts is a table of counts. noteKey may be empty.
func (c partPassages) counts(id group.TableID, noteKey string) passage {
	t := c.table(id, c.part)
	if t == nil {
		return passage{}
	}
	return c.tabled(c.Declared().TableOf(id, c.part), c.note(noteKey), countTable{c.summary, t, c.Width}.head(), countTable{c.summary, t, c.Width}.rows())
}

// crossed is a table of two things, one with two sides.
func (c partPassages) crossed(id group.TableID, noteKey string) passage {
	t := c.table(id, c.part)
	if t == nil {
		return passage{}
	}
	return c.tabled(c.Declared().TableOf(id, c.part), c.note(noteKey), sideTable{c.summary, t}.head(), sideTable{c.summary, t}.rows())
}

func (c *summary) note(key string) string {
	if key == "" {
		return ""
	}
	return c.Say(key, nil)
}

// sexAndAge sets two short tables side by side.
func (c partPassages) sexAndAge() passage {
	sex, age := c.table(group.BySex, c.part), c.table(group.ByAge, c.part)
	switch {
	case sex == nil:
		return c.counts(group.ByAge, "")
	case age == nil:
		return c.counts(group.BySex, "")
	}
	width := (c.Width - 2*kit.Gutter) / 2
	var columns []kit.Column
	for i, t := range []*group.Table{sex, age} {
		title := c.Declared().TableOf(t.ID, c.part)
		b := kit.Stack(c.titled(title, ""), countTable{c.summary, t, width}.head())
		columns = append(columns, kit.At(float64(i)*(width+2*kit.Gutter), kit.Stack(b, kit.Stack(countTable{c.summary, t, width}.rows()...))))
	}
	return passage{head: kit.Beside(columns...)}
}

// fitness is the strip of the groups, or of the sides of the health line.
func (c partPassages) fitness() passage {
	t := c.table(group.ByStanding, c.part)
	if t == nil {
		return passage{}
	}
	key, tones := "summary.standing.adults", tonesOf(t)
	if c.part == group.Youth {
		key, tones = "summary.standing.youth", sideTones[:]
	}
	return passage{head: kit.Stack(c.titled(c.Declared().TableOf(t.ID, c.part), c.Say(key, nil)), c.stripOf(t, tones))}
}

// uptakes sets medians and quartiles of VO2max.
func (c partPassages) uptakes() passage {
	figures := c.figures(group.VO2max)
	all := len(figures)
	// One quartile is too little to draw; the sheet has it.
	figures = slices.DeleteFunc(figures, func(f group.Figure) bool { return !drawable(f) })
	if len(figures) == 0 {
		return passage{}
	}
	note := c.Say("summary.vo2.note", nil)
	if len(figures) < all || all == 1 {
		note += " " + c.Say("summary.vo2.missing", nil)
	}
	chart := newFigureChart(c.summary, figures)
	var rows []kit.Block
	for i, f := range figures {
		rows = append(rows, chart.row(f, i > 0 && kindOf(f.Of) != kindOf(figures[i-1].Of)))
	}
	return c.tabled(c.Declared().OfPart(c.Say("summary.vo2", nil), c.part), note, chart.head(), rows)
}

func (c partPassages) figures(quantity group.Quantity) []group.Figure {
	var all []group.Figure
	for _, f := range c.Summary.Figures {
		if f.Part == c.part && f.Quantity == quantity {
			all = append(all, f)
		}
	}
	return all
}

// restingPicture sets the strip of the bands and the middle of the resting rates.
func (c partPassages) restingPicture() passage {
	t, figures := c.table(group.ByResting, c.part), c.figures(group.RestingRate)
	if t == nil && len(figures) == 0 {
		return passage{}
	}
	key := kit.Pick(c.part == group.Youth, "summary.resting.youth", "summary.resting.adults")
	b := c.titled(c.Declared().TableOf(group.ByResting, c.part), "")
	if len(figures) > 0 {
		if text := c.restingWords(figures[0]); text != "" {
			b = kit.Stack(b, c.Text(text), kit.Space(4))
		}
	}
	if t != nil {
		b = kit.Stack(b, c.stripOf(t, tonesOf(t)), kit.Space(4))
	}
	if len(figures) > 0 && drawable(figures[0]) {
		chart := newFigureChart(c.summary, figures[:1])
		b = kit.Stack(b, chart.head(), chart.row(figures[0], false), kit.Space(4))
	}
	return passage{head: kit.Stack(b, kit.Paragraphs(c.Say(key, nil), kit.SmallFace, c.Width))}
}

func (c partPassages) restingWords(f group.Figure) string {
	switch {
	case !f.Median.Shown:
		return ""
	case !f.LowerQuartile.Shown || !f.UpperQuartile.Shown:
		return c.Say("summary.resting.figure", kit.Words{"Median": f.Median.Amount})
	}
	return c.Say("summary.resting.figure.quartiles", kit.Words{"Median": f.Median.Amount, "Low": f.LowerQuartile.Amount, "High": f.UpperQuartile.Amount})
}

// tonesOf returns the tones of rows from light to dark, mixed where some are taken
// together. No resting rate is white.
func tonesOf(t *group.Table) []kit.Colour {
	var tones []kit.Colour
	next := 0
	for _, l := range t.Rows[:len(t.Rows)-1] {
		keys := l.Of
		if len(keys) == 0 {
			keys = []string{l.Key}
		}
		var own []kit.Colour
		for _, key := range keys {
			if key == group.RestingNotGivenKey {
				own = append(own, kit.White)
				continue
			}
			own = append(own, kit.GroupTones[min(next, len(kit.GroupTones)-1)])
			next++
		}
		tones = append(tones, mixed(own))
	}
	return tones
}

// closing sets the last passages.
type closing struct{ *summary }

// hiding says what is taken together or left out.
func (c closing) hiding() passage {
	smallest := c.Summary.Smallest
	b := c.titled(c.Say("summary.hiding.heading", nil), c.Say("summary.hiding", kit.Words{"Smallest": smallest, "Quartiles": group.QuartilesFrom(smallest)}))
	add := func(text string) {
		lines := kit.LimitLines(kit.BreakMarked(text, kit.Regular, c.Width/kit.SizeSmall), hidingLinesMost)
		b = kit.Stack(b, kit.Lines(lines, kit.SmallFace, c.Width, kit.Left), kit.Space(3))
	}
	if len(c.Summary.TooSmall) > 0 {
		var parts []string
		for _, p := range c.Summary.TooSmall {
			parts = append(parts, c.Declared().Part(p))
		}
		add(c.Say("summary.hiding.parts", kit.Words{"Parts": strings.Join(parts, ", "), "Smallest": smallest}))
	}
	var joined []string
	for i := range c.Summary.Tables {
		t := &c.Summary.Tables[i]
		if len(t.Columns) > 1 {
			continue // each is beside its row there
		}
		var rows []string
		for _, l := range t.Rows {
			if len(l.Of) > 0 {
				rows = append(rows, c.label(l))
			}
		}
		if len(rows) > 0 {
			joined = append(joined, c.Say("sheet.by-table", kit.Words{"Table": c.Declared().TableOf(t.ID, t.Part), "Text": strings.Join(rows, ", ")}))
		}
	}
	if len(joined) > 0 {
		add(c.Say("summary.hiding.joined", kit.Words{"Rows": strings.Join(joined, "; ")}))
	}
	var withheld []string
	for _, w := range c.Summary.Withheld {
		withheld = append(withheld, c.Declared().TableOf(w.ID, w.Part))
	}
	if len(withheld) > 0 {
		add(c.Say("summary.hiding.withheld", kit.Words{"Tables": strings.Join(withheld, "; ")}))
	}
	add(c.Say("summary.hiding.once", nil))
	return passage{head: b}
}

const hidingLinesMost = 14

// groupSources cites the tables that people were read against.
func (c closing) groupSources() passage {
	var texts []string
	if !slices.Contains(c.Summary.TooSmall, group.Adults) {
		if c.Adults.Own {
			texts = append(texts, c.Say("summary.sources.own", kit.Words{"Table": c.cleanName(c.Adults.Source)}))
		} else {
			texts = append(texts, c.Say("summary.sources.adults", kit.Words{"Source": kit.Typeset(fieldtests.Cite(c.Adults.Source))}))
		}
	}
	if !slices.Contains(c.Summary.TooSmall, group.Youth) {
		texts = append(texts, c.Say("summary.sources.youth", kit.Words{"Source": kit.Typeset(fieldtests.Cite(c.Youth.ID))}))
	}
	texts = append(texts, c.Say("summary.sources.quartiles", nil))
	return passage{head: kit.Paragraphs(c.Say("summary.sources", kit.Words{"Text": strings.Join(texts, " ")}), kit.SourceFace, c.Width)}
}

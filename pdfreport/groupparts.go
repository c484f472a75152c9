package pdfreport

import (
	"slices"
	"strings"

	"tenback/scoring/fieldtests"
	"tenback/scoring/group"
)

// opening is the passages at the beginning.
type opening struct{ *summary }

// groupHead is the title line, the title, and for whom.
func (c opening) groupHead() block {
	b := block{c.titleLine(c.say("summary.kicker", nil)), c.nameLines(), space(2)}
	var facts []string
	if t := c.table(group.PeopleTable, group.Adults); t != nil {
		if total := t.Cells[len(t.Cells)-1][0]; total.Shown {
			facts = append(facts, c.say("summary.people.count", words{"Count": total.Count}))
		}
	}
	facts = append(facts, c.say("summary.for", nil))
	return append(b, c.text(strings.Join(facts, " · "))...)
}

// boxed sets words under a heading on a field.
func (c *summary) boxed(heading, text string, bar colour) block {
	width := c.width - 2*panelInset
	inner := paragraphs(heading, c.labelFace(mist), width)
	inner = append(inner, space(2))
	inner = append(inner, paragraphs(text, bodyFace, width)...)
	return c.panel(inner, bar, panelPadding)
}

func (c opening) groupCaution() block {
	return c.boxed(c.say("summary.caution.heading", nil), c.say("summary.caution", words{"Smallest": c.Summary.Smallest}), ink)
}

// tooSmall is all that is said where nothing may be told.
func (c opening) tooSmall() block {
	return c.boxed(c.say("summary.small.heading", nil), c.say("summary.small", words{"Smallest": c.Summary.Smallest}), ink)
}

// titled is a passage's heading with a note under it.
func (c *summary) titled(title, note string) block {
	b := block{textPiece(breakLines(title, bold, c.width/sizeHeading), c.headingFace(paper), c.width, left), space(2)}
	if note != "" {
		b = append(b, paragraphs(note, smallFace, c.width)...)
		b = append(b, space(4))
	}
	return b
}

// resumed heads what stands on a further page.
func (c *summary) resumed(title string) block {
	look := c.labelFace(paper)
	return block{textPiece(breakLines(c.say("summary.continued", words{"What": title}), bold, c.width/look.size), look, c.width, left), space(2)}
}

// people is how many there are in all.
func (c opening) people() passage {
	t := c.table(group.PeopleTable, group.Adults)
	title := c.declared().TableOf(t.ID, group.Unplaced)
	return passage{head: append(c.titled(title, ""), countTable{c.summary, t, c.width}.rows()...)}
}

// tabled is a passage of rows under the heads of their columns, which stand again
// on each further page.
func (c *summary) tabled(title, note string, heads piece, rows []piece) passage {
	return passage{head: append(c.titled(title, note), heads), rows: rows, again: append(c.resumed(title), heads)}
}

// partPassages are those of one part of the people.
type partPassages struct {
	*summary
	part group.Part
}

// counts is a table of counts by one thing; noteKey is empty for no note.
func (c partPassages) counts(id group.TableID, noteKey string) passage {
	t := c.table(id, c.part)
	if t == nil {
		return passage{}
	}
	return c.tabled(c.declared().TableOf(id, c.part), c.note(noteKey), countTable{c.summary, t, c.width}.head(), countTable{c.summary, t, c.width}.rows())
}

// crossed is a table of two things, of which one has two sides.
func (c partPassages) crossed(id group.TableID, noteKey string) passage {
	t := c.table(id, c.part)
	if t == nil {
		return passage{}
	}
	return c.tabled(c.declared().TableOf(id, c.part), c.note(noteKey), sideTable{c.summary, t}.head(), sideTable{c.summary, t}.rows())
}

func (c *summary) note(key string) string {
	if key == "" {
		return ""
	}
	return c.say(key, nil)
}

// sexAndAge are two short tables side by side.
func (c partPassages) sexAndAge() passage {
	sex, age := c.table(group.BySex, c.part), c.table(group.ByAge, c.part)
	switch {
	case sex == nil:
		return c.counts(group.ByAge, "")
	case age == nil:
		return c.counts(group.BySex, "")
	}
	width := (c.width - 2*gutter) / 2
	var columns []column
	for i, t := range []*group.Table{sex, age} {
		title := c.declared().TableOf(t.ID, c.part)
		b := append(c.titled(title, ""), countTable{c.summary, t, width}.head())
		columns = append(columns, column{float64(i) * (width + 2*gutter), append(b, countTable{c.summary, t, width}.rows()...)})
	}
	return passage{head: block{beside(columns...)}}
}

// fitness is the strip of the groups, or of the sides of the health line.
func (c partPassages) fitness() passage {
	t := c.table(group.ByStanding, c.part)
	if t == nil {
		return passage{}
	}
	key, tones := "summary.standing.adults", standingTones(t)
	if c.part == group.Youth {
		key, tones = "summary.standing.youth", sideTones[:]
	}
	return passage{head: append(c.titled(c.declared().TableOf(t.ID, c.part), c.say(key, nil)), c.stripOf(t, tones))}
}

// standingTones are the tones of the groups, mixed where some are taken
// together.
func standingTones(t *group.Table) []colour {
	var tones []colour
	next := 0
	for _, l := range t.Rows[:len(t.Rows)-1] {
		n := max(1, len(l.Of))
		tones = append(tones, mixed(groupTones[next:next+n]))
		next += n
	}
	return tones
}

// uptakes are the medians and quartiles of VO2max.
func (c partPassages) uptakes() passage {
	figures := c.figures(group.VO2max)
	all := len(figures)
	// A single quartile says too little to draw; the sheet has it.
	figures = slices.DeleteFunc(figures, func(f group.Figure) bool { return !drawable(f) })
	if len(figures) == 0 {
		return passage{}
	}
	note := c.say("summary.vo2.note", nil)
	if len(figures) < all || all == 1 {
		note += " " + c.say("summary.vo2.missing", nil)
	}
	chart := newFigureChart(c.summary, figures)
	var rows []piece
	for i, f := range figures {
		rows = append(rows, chart.row(f, i > 0 && kindOf(f.Of) != kindOf(figures[i-1].Of)))
	}
	return c.tabled(c.declared().OfPart(c.say("summary.vo2", nil), c.part), note, chart.head(), rows)
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

// restingPicture is the strip of the bands and the middle of the resting rates.
func (c partPassages) restingPicture() passage {
	t, figures := c.table(group.ByResting, c.part), c.figures(group.RestingRate)
	if t == nil && len(figures) == 0 {
		return passage{}
	}
	key := "summary.resting.adults"
	if c.part == group.Youth {
		key = "summary.resting.youth"
	}
	b := c.titled(c.declared().TableOf(group.ByResting, c.part), "")
	if len(figures) > 0 {
		if text := c.restingWords(figures[0]); text != "" {
			b = append(b, c.text(text)...)
			b = append(b, space(4))
		}
	}
	if t != nil {
		b = append(b, c.stripOf(t, restingTones(t)), space(4))
	}
	if len(figures) > 0 && drawable(figures[0]) {
		chart := newFigureChart(c.summary, figures[:1])
		b = append(b, chart.head(), chart.row(figures[0], false), space(4))
	}
	return passage{head: append(b, paragraphs(c.say(key, nil), smallFace, c.width)...)}
}

func (c partPassages) restingWords(f group.Figure) string {
	switch {
	case !f.Median.Shown:
		return ""
	case !f.LowerQuartile.Shown || !f.UpperQuartile.Shown:
		return c.say("summary.resting.figure", words{"Median": f.Median.Amount})
	}
	return c.say("summary.resting.figure.quartiles", words{"Median": f.Median.Amount, "Low": f.LowerQuartile.Amount, "High": f.UpperQuartile.Amount})
}

// restingTones go from slow and light to fast and dark; no rate is no tone.
func restingTones(t *group.Table) []colour {
	var tones []colour
	next := 0
	for _, l := range t.Rows[:len(t.Rows)-1] {
		keys := l.Of
		if len(keys) == 0 {
			keys = []string{l.Key}
		}
		var own []colour
		for _, key := range keys {
			if key == group.RestingNotGivenKey {
				own = append(own, paper)
				continue
			}
			own = append(own, groupTones[min(next, len(groupTones)-1)])
			next++
		}
		tones = append(tones, mixed(own))
	}
	return tones
}

// closing is the passages at the end.
type closing struct{ *summary }

// hiding tells what is taken together or left out.
func (c closing) hiding() passage {
	smallest := c.Summary.Smallest
	b := c.titled(c.say("summary.hiding.heading", nil), c.say("summary.hiding", words{"Smallest": smallest, "Quartiles": group.QuartilesFrom(smallest)}))
	add := func(text string) {
		lines := limitLines(breakMarked(text, regular, c.width/sizeSmall), hidingLinesMost)
		b = append(b, textPiece(lines, smallFace, c.width, left), space(3))
	}
	if len(c.Summary.TooSmall) > 0 {
		var parts []string
		for _, p := range c.Summary.TooSmall {
			parts = append(parts, c.declared().Part(p))
		}
		add(c.say("summary.hiding.parts", words{"Parts": strings.Join(parts, ", "), "Smallest": smallest}))
	}
	var joined []string
	for i := range c.Summary.Tables {
		t := &c.Summary.Tables[i]
		if len(t.Columns) > 1 {
			continue // the same and more, each beside its row
		}
		var rows []string
		for _, l := range t.Rows {
			if len(l.Of) > 0 {
				rows = append(rows, c.label(l))
			}
		}
		if len(rows) > 0 {
			joined = append(joined, c.say("sheet.by-table", words{"Table": c.declared().TableOf(t.ID, t.Part), "Text": strings.Join(rows, ", ")}))
		}
	}
	if len(joined) > 0 {
		add(c.say("summary.hiding.joined", words{"Rows": strings.Join(joined, "; ")}))
	}
	var withheld []string
	for _, w := range c.Summary.Withheld {
		withheld = append(withheld, c.declared().TableOf(w.ID, w.Part))
	}
	if len(withheld) > 0 {
		add(c.say("summary.hiding.withheld", words{"Tables": strings.Join(withheld, "; ")}))
	}
	add(c.say("summary.hiding.once", nil))
	return passage{head: b}
}

// hidingLinesMost bounds a list of what is taken together.
const hidingLinesMost = 14

func (c closing) use() passage {
	return passage{head: c.boxed(c.say("summary.use.heading", nil), c.say("summary.use", nil), c.accent())}
}

// groupSources are those of the tables that people were read against.
func (c closing) groupSources() passage {
	var texts []string
	if !slices.Contains(c.Summary.TooSmall, group.Adults) {
		if c.Adults.Own {
			texts = append(texts, c.say("summary.sources.own", words{"Table": c.cleanName(c.Adults.Source)}))
		} else {
			texts = append(texts, c.say("summary.sources.adults", words{"Source": typeset(fieldtests.Cite(c.Adults.Source))}))
		}
	}
	if !slices.Contains(c.Summary.TooSmall, group.Youth) {
		texts = append(texts, c.say("summary.sources.youth", words{"Source": typeset(fieldtests.Cite(c.Youth.ID))}))
	}
	texts = append(texts, c.say("summary.sources.quartiles", nil))
	return passage{head: paragraphs(c.say("summary.sources", words{"Text": strings.Join(texts, " ")}), sourceFace, c.width)}
}

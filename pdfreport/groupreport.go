package pdfreport

import (
	"cmp"
	"io"
	"slices"
	"time"

	"tenback/scoring/group"
	"tenback/scoring/reference"
	"tenback/templates"
)

// GroupReport is what the organiser's summary is made from. All that it tells
// of people comes from Summary.
type GroupReport struct {
	Summary  group.Summary
	Adults   *reference.GroupTable // that people were read against; nil for the default
	Youth    *reference.YouthTable // likewise
	Tested   time.Time             // latest test day: the date of the document; zero if unknown
	Paper    Paper
	Words    *templates.Set
	Program  string // name and version, for the foot
	Audience templates.Audience
	Brand    *Brand // of the organisation; nil for none
}

// WriteGroup writes the organiser's summary as a PDF: the same bytes for the
// same input. A summary that may tell nothing gives one page that says so.
// Whatever the texts hold, it returns an error rather than panic.
func WriteGroup(w io.Writer, r GroupReport) (Report, error) {
	return writeGroup(w, r, options{compress: true})
}

func writeGroup(w io.Writer, r GroupReport, o options) (report Report, err error) {
	defer asError(&err, "group summary")
	c := newSummary(r, o)
	_, height := r.Paper.size()
	pages := pour(c.passages(), height-marginTop-marginBottom)
	pdf := c.open(c.name, c.say("summary.kicker", nil), r.Tested, "")
	s := newSheet(pdf)
	for i, page := range pages {
		pdf.AddPage()
		y := marginTop
		if i > 0 {
			y = c.drawContinued(s, y)
		}
		page.draw(s, marginSide, y)
		c.drawFoot(s, i+1, len(pages))
	}
	if c.err != nil {
		return Report{}, c.err
	}
	if err := output(w, pdf, o.compress); err != nil {
		return Report{}, err
	}
	return Report{Pages: len(pages), Replaced: c.clean.replaced}, nil
}

// summary lays out the summary. The composer in it has no score: only
// what draws words, heads and feet is used of it.
type summary struct {
	layout
	GroupReport
}

func newSummary(r GroupReport, o options) *summary {
	says := o.speaker(r.Words.For(r.Audience))
	c := &summary{newLayout(says, ""), r}
	c.furnish(r.Paper, r.Brand, r.Program)
	c.name = c.say("summary.title", nil)
	c.Adults = cmp.Or(r.Adults, reference.AdultGroups)
	c.Youth = cmp.Or(r.Youth, reference.YouthTables[0])
	return c
}

// cleanName makes a name from the roster fit to draw in a text with marks.
func (c *summary) cleanName(text string) string { return c.clean.apart(unmarked(text)) }

// passages lists what the summary holds, in the order of reading.
func (c *summary) passages() []passage {
	first, last := opening{c}, closing{c}
	if len(c.Summary.Tables) == 0 {
		return []passage{{head: first.groupHead()}, {head: first.tooSmall()}}
	}
	all := []passage{{head: first.groupHead()}, {head: first.groupCaution()}, first.people(), last.leavers()}
	parts := []partPassages{{c, group.Adults}, {c, group.Youth}}
	for _, p := range parts {
		all = append(all, p.fitness(), p.crossed(group.GroupByStanding, "summary.sides"), p.uptakes(), p.seasonChange(), p.restingPicture())
	}
	for _, p := range parts {
		all = append(all, p.counts(group.ByGroup, ""), p.crossed(group.GroupBySex, ""), p.sexAndAge(),
			p.crossed(group.AgeBySex, ""), p.counts(group.ByTest, "summary.tests.note"))
	}
	unplaced := partPassages{c, group.Unplaced}
	all = append(all, unplaced.counts(group.ByReason, "summary.unplaced.note"), last.hiding(), last.use(), last.groupSources())
	return slices.DeleteFunc(all, passage.empty)
}

// table finds a table; nil if it is not printed.
func (c *summary) table(id group.TableID, part group.Part) *group.Table {
	for i := range c.Summary.Tables {
		if t := &c.Summary.Tables[i]; t.ID == id && (t.Part == part || id == group.PeopleTable) {
			return t
		}
	}
	return nil
}

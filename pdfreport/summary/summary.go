// Package summary draws the organiser's report of a group, which exposes no one.
package summary

import (
	"cmp"
	"io"
	"slices"
	"time"

	"tenback/pdfreport/kit"
	"tenback/scoring/group"
	"tenback/scoring/reference"
	"tenback/templates"
)

// Document is the input of the organiser's summary. All facts about people come
// from Summary.
type Document struct {
	Summary  group.Summary
	Adults   *reference.GroupTable // nil for the default
	Youth    *reference.YouthTable // nil for the default
	Tested   time.Time             // latest test day; zero if unknown
	Paper    kit.Paper
	Words    *templates.Set
	Program  string // name and version
	Audience templates.Audience
	Brand    *kit.Brand // nil for none
}

// Write writes the summary as a PDF. The same input gives the same bytes. A
// summary that hides everything gives one page that says so.
func Write(w io.Writer, r Document) (report kit.Report, err error) {
	defer kit.AsError(&err, "group summary")
	c := newSummary(r)
	_, height := r.Paper.Size()
	pages := pour(c.passages(), height-kit.MarginTop-kit.MarginBottom)
	pdf := c.Open(c.Name, c.Say("summary.kicker", nil), r.Tested, "")
	s := kit.NewSheet(pdf)
	for i, page := range pages {
		pdf.AddPage()
		y := kit.MarginTop
		if i > 0 {
			y = c.DrawContinued(s, y)
		}
		page.Draw(s, kit.MarginSide, y)
		c.DrawFoot(s, i+1, len(pages))
	}
	if c.Err != nil {
		return kit.Report{}, c.Err
	}
	return kit.Report{Pages: len(pages), Replaced: c.Clean.Replaced}, kit.Output(w, pdf, true)
}

type summary struct {
	kit.Layout
	Document
}

func newSummary(r Document) *summary {
	c := &summary{kit.NewLayout(r.Words.For(r.Audience), ""), r}
	c.Furnish(r.Paper, r.Brand, r.Program)
	c.Name = c.Say("summary.title", nil)
	c.Adults = cmp.Or(r.Adults, reference.DefaultAdults(false))
	c.Youth = cmp.Or(r.Youth, reference.YouthTables[0])
	return c
}

// cleanName cleans a name from the roster for a text with marks of bold.
func (c *summary) cleanName(text string) string { return c.Clean.Apart(kit.Unmarked(text)) }

// passages returns the passages in reading order.
func (c *summary) passages() []passage {
	first, last := opening{c}, closing{c}
	if len(c.Summary.Tables) == 0 {
		return []passage{{head: first.groupHead()}, {head: c.boxed("summary.small", kit.Ink)}}
	}
	all := []passage{{head: first.groupHead()}, {head: c.boxed("summary.caution", kit.Ink)}, first.people(), last.leavers()}
	parts := []partPassages{{c, group.Adults}, {c, group.Youth}}
	for _, p := range parts {
		all = append(all, p.fitness(), p.crossed(group.GroupByStanding, "summary.sides"), p.uptakes(), p.seasonChange(), p.restingPicture())
	}
	for _, p := range parts {
		all = append(all, p.counts(group.ByGroup, ""), p.crossed(group.GroupBySex, ""), p.sexAndAge(),
			p.crossed(group.AgeBySex, ""), p.counts(group.ByTest, "summary.tests.note"))
	}
	unplaced := partPassages{c, group.Unplaced}
	all = append(all, unplaced.counts(group.ByReason, "summary.unplaced.note"), last.hiding(), passage{head: c.boxed("summary.use", c.Accent())}, last.groupSources())
	return slices.DeleteFunc(all, passage.empty)
}

// table returns a table, or nil if it is not printed.
func (c *summary) table(id group.TableID, part group.Part) *group.Table {
	for i := range c.Summary.Tables {
		if t := &c.Summary.Tables[i]; t.ID == id && (t.Part == part || id == group.PeopleTable) {
			return t
		}
	}
	return nil
}

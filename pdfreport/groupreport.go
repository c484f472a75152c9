package pdfreport

import (
	"cmp"
	"io"
	"slices"
	"time"

	"github.com/go-pdf/fpdf"

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
	c := newGroupComposer(r, o)
	pages := c.pour(c.passages(), c.paperHeight-marginTop-marginBottom)
	pdf := c.groupDocument()
	s := newSheet(pdf, c.fonts)
	for i, page := range pages {
		pdf.AddPage()
		y := marginTop
		if i > 0 {
			y = c.drawContinued(s, y)
		}
		page.draw(s, marginSide, y)
		c.drawFoot(s, i+1, len(pages), c.paperHeight)
	}
	if c.err != nil {
		return Report{}, c.err
	}
	if err := output(w, pdf, o.compress); err != nil {
		return Report{}, err
	}
	return Report{Pages: len(pages), Replaced: c.clean.replaced}, nil
}

// groupComposer lays out the summary. The composer in it has no score: only
// what draws words, heads and feet is used of it.
type groupComposer struct {
	*composer
	GroupReport
}

func newGroupComposer(r GroupReport, o options) *groupComposer {
	c := &composer{tested: r.Tested, scale: 1, audience: r.Audience, speaker: o.speaker(r.Words.For(r.Audience)), fonts: fonts(), clean: cleaner{fonts: fonts()}}
	c.furnish(r.Paper, r.Brand, r.Program)
	c.name = c.say("summary.title", nil)
	r.Adults = cmp.Or(r.Adults, reference.AdultGroups)
	r.Youth = cmp.Or(r.Youth, reference.YouthTables[0])
	return &groupComposer{c, r}
}

// cleanName makes a name from the roster fit to draw in a text with marks.
func (c *groupComposer) cleanName(text string) string { return c.clean.apart(unmarked(text)) }

// groupDocument opens a document with fixed dates.
func (c *groupComposer) groupDocument() *fpdf.Fpdf {
	return about{page: fpdf.SizeType{Wd: c.paperWidth, Ht: c.paperHeight}, title: c.name, subject: c.say("summary.kicker", nil),
		author: cmp.Or(c.organisation, c.program), program: c.program, lang: c.language.Lang(), date: c.tested}.open()
}

// passages lists what the summary holds, in the order of reading.
func (c *groupComposer) passages() []passage {
	if len(c.Summary.Tables) == 0 {
		return []passage{{head: c.groupHead()}, {head: c.tooSmall()}}
	}
	all := []passage{{head: c.groupHead()}, {head: c.groupCaution()}, c.people(), c.leavers()}
	for _, part := range []group.Part{group.Adults, group.Youth} {
		all = append(all, c.fitness(part), c.crossed(group.GroupByStanding, part, "summary.sides"), c.uptakes(part), c.seasonChange(part), c.restingPicture(part))
	}
	for _, part := range []group.Part{group.Adults, group.Youth} {
		all = append(all, c.counts(group.ByGroup, part, ""), c.crossed(group.GroupBySex, part, ""), c.sexAndAge(part),
			c.crossed(group.AgeBySex, part, ""), c.counts(group.ByTest, part, "summary.tests.note"))
	}
	all = append(all, c.counts(group.ByReason, group.Unplaced, "summary.unplaced.note"), c.hiding(), c.use(), c.groupSources())
	return slices.DeleteFunc(all, passage.empty)
}

// table finds a table; nil if it is not printed.
func (c *groupComposer) table(id group.TableID, part group.Part) *group.Table {
	for i := range c.Summary.Tables {
		if t := &c.Summary.Tables[i]; t.ID == id && (t.Part == part || id == group.PeopleTable) {
			return t
		}
	}
	return nil
}

package pdfreport

import (
	"io"
	"slices"

	"tenback/scoring"
	"tenback/templates"
)

// DayPlan is what the one-page plan of a test day is made from.
type DayPlan struct {
	Tests   []*scoring.Test
	People  int // who do each of the tests
	Paper   Paper
	Words   *templates.Set
	Program string
}

// setUpMinutes is what setting up a place takes. Common practice, no source.
const setUpMinutes = 15

// longDay is the minutes from which a test is too much for one day.
const longDay = 6 * 60

// need is what a test takes for a number of people.
type need struct {
	atOnce, waves, minutes, helpers, stations int
}

// needFor works out what a test takes.
func (d dayTest) needFor(people int) need {
	n := need{atOnce: min(people, d.atOnce)}
	n.waves = up(people, d.atOnce)
	n.minutes = setUpMinutes + n.waves*d.minutes
	n.helpers = up(n.atOnce, d.perHelper)
	n.stations = 1
	if d.perStation > 0 {
		n.stations = up(n.atOnce, d.perStation)
	}
	return n
}

// up divides and rounds up.
func up(a, b int) int { return (a + b - 1) / b }

// WriteDayPlan writes the plan of a test day as a PDF of one page: the same
// bytes for the same input.
func WriteDayPlan(w io.Writer, d DayPlan) (Report, error) {
	return writeDayPlan(w, d, options{compress: true})
}

func writeDayPlan(w io.Writer, d DayPlan, o options) (report Report, err error) {
	defer asError(&err, "test-day plan")
	if d.People <= 0 {
		return Report{}, ErrNobodyListed
	}
	for _, t := range d.Tests {
		if !Recordable(t) {
			return Report{}, ErrNotRecordable
		}
	}
	p := &dayPlan{newPapers(d.Paper, d.Words, d.Program, o), d}
	p.title = p.say("day.plan", nil)
	// With many tests the page has no room for all; the emergency box is on
	// every test's own sheets as well.
	blocks := []block{p.head(), p.table(), p.checklists(), p.emergency()}
	pages := p.share(blocks)
	for len(pages) > 1 && len(blocks) > 2 {
		blocks = blocks[:len(blocks)-1]
		pages = p.share(blocks)
	}
	return p.write(w, p.sheets(pages))
}

type dayPlan struct {
	*papers
	DayPlan
}

// head says for how many the plan is, and has room for date and place.
func (p *dayPlan) head() block {
	people := p.say("day.plan.people", words{"Count": p.People})
	return block{
		{dayTitle.leading(), func(s *sheet, x, y float64) {
			s.write(x, y+dayTitle.baseline(), p.title, dayTitle)
			s.writeRight(x+p.width, y+dayTitle.baseline(), people, dayBody)
		}},
		p.whenAndWhere(),
	}
}

// table is what each test takes.
func (p *dayPlan) table() block {
	keys := []string{"test", "once", "waves", "wave", "whole", "helpers", "needs", "start"}
	widths := []float64{112, 34, 34, 42, 52, 40, 0, 58}
	test, needs := 0, slices.Index(keys, "needs") // begin at the left edge of their columns
	rest := p.width
	var heads []string
	for i, key := range keys {
		heads = append(heads, p.say("day.plan."+key, nil))
		if i != needs {
			widths[i] = headWidth(heads[i], widths[i])
		}
		rest -= widths[i]
	}
	widths[needs] = rest
	atLeft := []int{test, needs}
	b := block{columnHeads(heads, widths, atLeft)}
	long := false
	for _, t := range p.Tests {
		d := dayTests[t.ID]
		n := d.needFor(p.People)
		long = long || n.minutes > longDay
		b = append(b, p.planRow(widths, atLeft, []string{p.declared().Test(t), whole(n.atOnce), whole(n.waves), whole(d.minutes), p.duration(n.minutes), whole(n.helpers),
			p.say("day.plan.needs."+d.needs, words{"Count": n.stations}), ""}))
	}
	b = append(b, space(6))
	b = append(b, paragraphs(p.say("day.plan.model", words{"SetUp": setUpMinutes}), daySmall, p.width)...)
	if long {
		b = append(b, space(2))
		b = append(b, paragraphs(p.say("day.plan.long", nil), daySmall, p.width)...)
	}
	return b
}

// planRow is one test of the table, at least as high as a line to write on.
func (p *dayPlan) planRow(widths []float64, atLeft []int, texts []string) piece {
	var cells []piece
	height := writeHeight
	for i, text := range texts {
		look, a := daySmall, centre
		if i == 0 {
			look = daySmall.with(bold)
		}
		if slices.Contains(atLeft, i) {
			a = left
		}
		cell := textPiece(breakLines(text, look.weight, (widths[i]-6)/look.size), look, widths[i], a)
		cells = append(cells, cell)
		height = max(height, cell.height+5)
	}
	return piece{height, func(s *sheet, x, y float64) {
		at := x
		for i, cell := range cells {
			cell.draw(s, at, y+(height-cell.height)/2)
			at += widths[i]
		}
		s.rule(x, y+height, x+p.width, y+height, ink, thin)
	}}
}

// duration writes minutes as people say them.
func (p *dayPlan) duration(minutes int) string {
	if minutes < 60 {
		return p.say("day.plan.minutes", words{"Minutes": minutes})
	}
	return p.say("day.plan.hours", words{"Hours": minutes / 60, "Minutes": minutes % 60})
}

// checklists are what to see to before, on and after the day.
func (p *dayPlan) checklists() block {
	width := (p.width - 2*gutter) / 3
	var columns []column
	for i, key := range []string{"before", "on", "after"} {
		b := headed(p.say("day.plan."+key, nil), width)
		b = append(b, space(2))
		b = append(b, ticked(p.say("day.plan."+key+".list", nil), daySmall.at(8.8), width)...)
		columns = append(columns, column{float64(i) * (width + gutter), b})
	}
	return block{beside(columns...)}
}

package testday

import (
	"io"
	"slices"
	"strconv"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/templates"
)

// Plan is the input of the one-page plan of a test day.
type Plan struct {
	Tests   []*scoring.Test
	People  int // in each of the tests
	Paper   kit.Paper
	Words   *templates.Set
	Program string
}

// setUpMinutes is the time to set up a place. Common practice, no source.
const setUpMinutes = 15

// longDay is the number of minutes that is too much for one day.
const longDay = 6 * 60

// need is what a test takes for a number of people.
type need struct {
	atOnce, waves, minutes, helpers, stations int
}

func needFor(d *scoring.Day, people int) need {
	n := need{atOnce: min(people, d.AtOnce)}
	n.waves = up(people, d.AtOnce)
	n.minutes = setUpMinutes + n.waves*d.Minutes
	n.helpers = up(n.atOnce, d.PerHelper)
	n.stations = 1
	if d.PerStation > 0 {
		n.stations = up(n.atOnce, d.PerStation)
	}
	return n
}

// up divides and rounds up.
func up(a, b int) int { return (a + b - 1) / b }

// WritePlan writes the plan of a test day as a PDF of one page. The same input
// gives the same bytes.
func WritePlan(w io.Writer, d Plan) (report kit.Report, err error) {
	defer kit.AsError(&err, "test-day plan")
	if d.People <= 0 {
		return kit.Report{}, ErrNobodyListed
	}
	for _, t := range d.Tests {
		if !Recordable(t) {
			return kit.Report{}, ErrNotRecordable
		}
	}
	p := &dayPlan{newPapers(d.Paper, d.Words, d.Program), d}
	p.title = p.Say("day.plan", nil)
	// Many tests leave no space for all. The emergency box is on every test's
	// own sheets too.
	blocks := []kit.Block{p.head(), p.table(), p.checklists(), p.emergency()}
	pages := p.share(blocks)
	for len(pages) > 1 && len(blocks) > 2 {
		blocks = blocks[:len(blocks)-1]
		pages = p.share(blocks)
	}
	return p.write(w, p.sheets(pages))
}

type dayPlan struct {
	*papers
	Plan
}

// head says for how many people the plan is, with lines for date and place.
func (p *dayPlan) head() kit.Block {
	return kit.Stack(titled(p.title, p.Say("day.plan.people", kit.Words{"Count": p.People}), p.width), p.whenAndWhere())
}

// table says what each test takes.
func (p *dayPlan) table() kit.Block {
	keys := []string{"test", "once", "waves", "wave", "whole", "helpers", "needs", "start"}
	widths := []float64{112, 34, 34, 42, 52, 40, 0, 58}
	test, needs := 0, slices.Index(keys, "needs") // left-aligned
	rest := p.width
	var heads []string
	for i, key := range keys {
		heads = append(heads, p.Say("day.plan."+key, nil))
		if i != needs {
			widths[i] = headWidth(heads[i], widths[i])
		}
		rest -= widths[i]
	}
	widths[needs] = rest
	atLeft := []int{test, needs}
	b := columnHeads(heads, widths, atLeft)
	long := false
	for _, t := range p.Tests {
		d := t.Day
		n := needFor(d, p.People)
		long = long || n.minutes > longDay
		b = kit.Stack(b,
			p.planRow(widths, atLeft, []string{p.Declared().Test(t), strconv.Itoa(n.atOnce), strconv.Itoa(n.waves), strconv.Itoa(d.Minutes), p.duration(n.minutes), strconv.Itoa(n.helpers), p.Say("day.plan.needs."+d.Needs, kit.Words{"Count": n.stations}), ""}))
	}
	b = kit.Stack(b, kit.Space(6), kit.Paragraphs(p.Say("day.plan.model", kit.Words{"SetUp": setUpMinutes}), daySmall, p.width))
	if long {
		b = kit.Stack(b, kit.Space(2), kit.Paragraphs(p.Say("day.plan.long", nil), daySmall, p.width))
	}
	return b
}

// planRow sets one test, at least as high as a line to write on.
func (p *dayPlan) planRow(widths []float64, atLeft []int, texts []string) kit.Block {
	var cells []kit.Block
	height := writeHeight
	for i, text := range texts {
		look, a := daySmall, kit.Centre
		if i == 0 {
			look = daySmall.With(kit.Bold)
		}
		if slices.Contains(atLeft, i) {
			a = kit.Left
		}
		cell := kit.Lines(kit.BreakLines(text, look.Weight, (widths[i]-6)/look.Size), look, widths[i], a)
		cells = append(cells, cell)
		height = max(height, cell.Height()+5)
	}
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		at := x
		for i, cell := range cells {
			cell.Draw(s, at, y+(height-cell.Height())/2)
			at += widths[i]
		}
		s.Rule(x, y+height, x+p.width, y+height, kit.Ink, thin)
	})
}

// duration says minutes as people do.
func (p *dayPlan) duration(minutes int) string {
	if minutes < 60 {
		return p.Say("day.plan.minutes", kit.Words{"Minutes": minutes})
	}
	return p.Say("day.plan.hours", kit.Words{"Hours": minutes / 60, "Minutes": minutes % 60})
}

// checklists are for before, on and after the day.
func (p *dayPlan) checklists() kit.Block {
	width := (p.width - 2*kit.Gutter) / 3
	var columns []kit.Column
	for i, key := range []string{"before", "on", "after"} {
		b := kit.Stack(headed(p.Say("day.plan."+key, nil), width), kit.Space(2), ticked(p.Say("day.plan."+key+".list", nil), daySmall.At(8.8), width))
		columns = append(columns, kit.At(float64(i)*(width+kit.Gutter), b))
	}
	return kit.Beside(columns...)
}

package testday

import (
	"slices"
	"strconv"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// Widths of the columns of the list, in points.
const (
	askedLeast = 30.0
	rowLeast   = 25.0
	nameLeast  = 108.0
	sexWidth   = 26.0
	bornWidth  = 54.0
	writeWidth = 44.0 // at least: three digits, or m:ss
	notesLeast = 42.0
	stripCell  = 12.0
)

// stagesMost is the number of stages of a test in the list, if they fit. A fourth
// is rare.
const stagesMost = 3

// listColumn is a column between the name and the notes.
type listColumn struct {
	head   string
	width  float64
	band   string   // purpose, shared by neighbouring columns
	labels []string // to cross out in each line
	fixed  string   // printed in each line
}

// columns holds the columns of the list and their widths.
type columns struct {
	*recording
	asked, row, nameWidth, notes float64 // widths
	more                         []listColumn
}

// newColumns returns the columns of q's list with as many stages of a test as
// fit, on landscape pages if necessary.
func newColumns(q *recording) columns {
	c := columns{asked: headWidth(q.Say("day.asked", nil), askedLeast)}
	for stages := stagesMost; stages > 0; stages-- {
		for _, papers := range []*papers{q.papers, q.landscape()} {
			c.recording = &recording{papers: papers, Recording: q.Recording, day: q.day}
			c.row, c.more = headWidth(c.numberHead(), rowLeast), c.of(stages)
			if c.least() <= c.width {
				c.widen()
				return c
			}
		}
	}
	c.widen()
	return c
}

// of returns the columns to type in, those that help on the day, and those for
// what the roster may lack, for so many stages.
func (q columns) of(stages int) []listColumn {
	var typed, work, lacking []listColumn
	entry := q.Say("day.type", nil)
	missing := entry
	if len(q.People) > 0 {
		missing = q.Say("day.missing", nil)
	} else {
		typed = append(typed, listColumn{head: q.Say("day.sex", nil), width: sexWidth, band: entry},
			listColumn{head: q.Say("day.born", nil), width: bornWidth, band: entry})
	}
	for _, c := range q.Columns {
		switch {
		case c.Input.Info().Personal:
			if q.lacks(c.Input) {
				lacking = append(lacking, listColumn{head: c.Header, width: writeWidth, band: missing})
			}
		case c.Input.Stage() > stages:
		default:
			typed = append(typed, q.typedColumn(c, entry))
		}
	}
	helps := q.Say("day.work", nil)
	write := func(key string, slots kit.Words) {
		work = append(work, listColumn{head: q.Say(key, slots), width: writeWidth, band: helps})
	}
	cross := func(key string, n int) {
		var labels []string
		for i := range n {
			labels = append(labels, strconv.Itoa(i+1))
		}
		work = append(work, listColumn{head: q.Say(key, nil), width: float64(n) * stripCell, band: helps, labels: labels})
	}
	if q.day.Count.Seconds > 0 {
		write("day.count", kit.Words{"Seconds": q.day.Count.Seconds})
	}
	if q.day.Laps > 0 {
		cross("day.laps", q.day.Laps)
	}
	if q.day.RunFor > 0 {
		write("day.metres-left", nil)
	}
	if q.day.Lengths {
		work = append(work, listColumn{head: q.Say("day.lengths", nil), width: 2 * writeWidth, band: helps})
		write("day.metres-over", nil)
	}
	if q.day.Levels {
		cross("day.levels-done", len(fieldtests.ShuttlesInLevels(q.ShuttleStart)))
	}
	all := slices.Concat(typed, work, lacking)
	if len(q.People) == 0 {
		all = slices.Concat(typed, lacking, work)
	}
	for i := range all {
		all[i].width = headWidth(all[i].head, all[i].width)
	}
	return all
}

// typedColumn returns a column to be typed in.
func (q columns) typedColumn(c Column, band string) listColumn {
	l := listColumn{head: c.Header, width: writeWidth, band: band}
	hint := func(key string) { l.head += " (" + q.Say(key, nil) + ")" }
	switch c.Input {
	case scoring.Time:
		hint("day.unit.time")
	case scoring.ShuttleLevel:
		hint("day.unit.level")
	case scoring.Effort:
		hint("day.unit.effort")
	case scoring.Gait:
		hint("day.unit.gait")
	case scoring.ShuttleStart:
		l.fixed = q.Language.Number(q.ShuttleStart, 1)
	}
	return l
}

// lacks reports whether someone on the list has no such value yet.
func (q columns) lacks(in scoring.Input) bool {
	return len(q.People) == 0 || slices.ContainsFunc(q.People, func(l Listed) bool { return l.Known == nil || !l.Known.Has(in) })
}

// total returns the width of the columns between the name and the notes.
func (q columns) total() float64 {
	sum := 0.0
	for _, c := range q.more {
		sum += c.width
	}
	return sum
}

// least returns the least width of the list.
func (q columns) least() float64 { return q.asked + q.row + nameLeast + q.total() + notesLeast }

// numberHead heads the row numbers of the sheet, or those of the empty lines.
func (q columns) numberHead() string {
	if len(q.People) == 0 {
		return q.Say("day.number", nil)
	}
	return q.Say("day.row", nil)
}

// widen shares out the spare width: a part to the columns, each at most half its
// width again, then most of the rest to the name.
func (q *columns) widen() {
	const ofColumns, ofName = 0.4, 0.55
	grow := min(0.5, ofColumns*(q.width-q.least())/q.total())
	for i := range q.more {
		q.more[i].width *= 1 + grow
	}
	q.nameWidth = nameLeast + ofName*(q.width-q.least())
	q.notes = q.width - q.asked - q.row - q.nameWidth - q.total()
}

// head names the test and the columns.
func (q columns) head() kit.Block {
	title := q.Say("day.list", kit.Words{"Test": q.name()})
	look := dayTitle.At(15)
	b := kit.Stack(kit.Draw(look.Leading(), func(s *kit.Sheet, x, y float64) {
		s.Write(x, y+look.Baseline(), title, look)
	}), fields([]field{
		{q.Say("day.date", nil), q.width * 0.25}, {q.Say("day.place", nil), q.width * 0.35}, {q.Say("day.writer", nil), q.width*0.40 + 8},
	}), kit.Space(6))
	heads := []string{q.Say("day.asked", nil), q.numberHead(), q.Say("day.name", nil)}
	widths := []float64{q.asked, q.row, q.nameWidth}
	for _, c := range q.more {
		heads, widths = append(heads, c.head), append(widths, c.width)
	}
	heads, widths = append(heads, q.Say("day.notes", nil)), append(widths, q.notes)
	return kit.Stack(b, q.bands(), columnHeads(heads, widths, []int{2}))
}

// bands names the purpose of the columns above them.
func (q columns) bands() kit.Block {
	const padding = 3.0
	type band struct {
		from, to float64
		lines    kit.Block
	}
	var all []band
	height := 0.0
	x := q.asked + q.row + q.nameWidth
	for i := 0; i < len(q.more); {
		from, text := x, q.more[i].band
		for i < len(q.more) && q.more[i].band == text {
			x += q.more[i].width
			i++
		}
		look := daySmall.At(7.6)
		lines := kit.Lines(kit.BreakLines(text, kit.Regular, (x-from-2*padding)/look.Size), look, x-from, kit.Centre)
		all = append(all, band{from, x, lines})
		height = max(height, lines.Height())
	}
	return kit.Draw(height+2*padding, func(s *kit.Sheet, left, y float64) {
		for _, b := range all {
			b.lines.Draw(s, left+b.from, y+height+padding-b.lines.Height())
			s.Rule(left+b.from+2, y+height+2*padding, left+b.to-2, y+height+2*padding, kit.Ink, thin)
		}
	})
}

package pdfreport

import (
	"slices"
	"strings"

	"tenback/scoring"
)

// Widths of the columns of the list, in points.
const (
	askedLeast = 30.0
	rowLeast   = 25.0
	nameLeast  = 108.0
	sexWidth   = 26.0
	bornWidth  = 54.0
	writeWidth = 44.0 // at least: a number of three digits, or m:ss
	notesLeast = 42.0
	stripCell  = 12.0
)

// spareLines are left after the last person of a list, for those who turn up.
const spareLines = 2

// stagesMost is how many stages of a test the list has room for where it can. A
// fourth is rare.
const stagesMost = 3

// groupOnOwnPage is the number of people from which a group begins a page of
// its own, so that it can be handed to whoever leads it.
const groupOnOwnPage = 8

// listColumn is one column of the list after the name.
type listColumn struct {
	head   string
	width  float64
	band   string   // what the columns with the same band are for
	labels []string // to cross out, in each line
	fixed  string   // printed in each line
}

// listColumns are the columns after the name: those to type in, those that help
// on the day, and what the roster may lack. Of a test in stages they hold so
// many stages.
func (q *recording) listColumns(stages int) []listColumn {
	var typed, work, lacking []listColumn
	entry := q.say("day.type", nil)
	missing := entry
	if len(q.People) > 0 {
		missing = q.say("day.missing", nil)
	} else {
		typed = append(typed, listColumn{head: q.say("day.sex", nil), width: sexWidth, band: entry},
			listColumn{head: q.say("day.born", nil), width: bornWidth, band: entry})
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
	helps := q.say("day.work", nil)
	write := func(key string, slots words) {
		work = append(work, listColumn{head: q.say(key, slots), width: writeWidth, band: helps})
	}
	cross := func(key string, n int) {
		var labels []string
		for i := range n {
			labels = append(labels, whole(i+1))
		}
		work = append(work, listColumn{head: q.say(key, nil), width: float64(n) * stripCell, band: helps, labels: labels})
	}
	if q.day.count.seconds > 0 {
		write("day.count", words{"Seconds": q.day.count.seconds})
	}
	if q.day.laps > 0 {
		cross("day.laps", q.day.laps)
	}
	switch q.Test.ID {
	case run12Minute:
		write("day.metres-left", nil)
	case walk6Minute:
		work = append(work, listColumn{head: q.say("day.lengths", nil), width: 2 * writeWidth, band: helps})
		write("day.metres-over", nil)
	case shuttle1Minute:
		cross("day.levels-done", len(scoring.ShuttlesInLevels(q.ShuttleStart)))
	}
	all := slices.Concat(typed, work, lacking)
	if len(q.People) == 0 {
		all = slices.Concat(typed, lacking, work)
	}
	for i := range all {
		all[i].width = q.headWidth(all[i].head, all[i].width)
	}
	return all
}

// typedColumn is a column that is typed in as it stands.
func (q *recording) typedColumn(c RecordingColumn, band string) listColumn {
	l := listColumn{head: c.Header, width: writeWidth, band: band}
	hint := func(key string) { l.head += " (" + q.say(key, nil) + ")" }
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
		l.fixed = q.language.Number(q.ShuttleStart, 1)
	}
	return l
}

// lacks tells whether someone on the list, or whoever will write themselves
// into it, has no such value yet.
func (q *recording) lacks(in scoring.Input) bool {
	return len(q.People) == 0 || slices.ContainsFunc(q.People, func(l Listed) bool { return l.Known == nil || !l.Known.Has(in) })
}

// columnsWidth is what the columns after the name take without the notes.
func (q *recording) columnsWidth() float64 {
	sum := 0.0
	for _, c := range q.columns {
		sum += c.width
	}
	return sum
}

// askedWidth is the column to tick.
func (q *recording) askedWidth() float64 { return q.headWidth(q.say("day.asked", nil), askedLeast) }

// rowWidth is the column of the numbers.
func (q *recording) rowWidth() float64 { return q.headWidth(q.numberHead(), rowLeast) }

// numberHead heads the column of the numbers: rows of the sheet, or those of the
// empty lines.
func (q *recording) numberHead() string {
	if len(q.People) == 0 {
		return q.say("day.number", nil)
	}
	return q.say("day.row", nil)
}

// leastWidth is the narrowest that the list can be.
func (q *recording) leastWidth() float64 {
	return q.askedWidth() + q.rowWidth() + nameLeast + q.columnsWidth() + notesLeast
}

// widen gives the columns a share of the room that is left, each at most half
// its width again.
func (q *recording) widen() {
	const share = 0.4
	grow := min(0.5, share*(q.width-q.leastWidth())/q.columnsWidth())
	for i := range q.columns {
		q.columns[i].width *= 1 + grow
	}
}

// nameWidth is what the name gets: the most of what the other columns leave.
func (q *recording) nameWidth() float64 {
	const share = 0.55
	return nameLeast + share*(q.width-q.leastWidth())
}

// section is a stretch of the list under one heading.
type section struct {
	heading string
	people  []Listed
	newPage bool
	// mixed tells that the groups of these people alternate, so that each name
	// carries its own.
	mixed bool
}

// sections parts the people by worksheet, and by group where each group stands
// together.
func (q *recording) sections() []section {
	if len(q.People) == 0 {
		return []section{{people: make([]Listed, q.Blank)}}
	}
	sheets := stretchesOf(q.People, func(l Listed) string { return l.Sheet })
	var all []section
	for _, onSheet := range sheets {
		sheet := ""
		if len(sheets) > 1 {
			sheet = onSheet[0].Sheet
		}
		groups := stretchesOf(onSheet, func(l Listed) string { return l.Group })
		if !eachOnce(groups, func(l Listed) string { return l.Group }) {
			all = append(all, section{heading: q.clean(sheet), people: onSheet, newPage: true, mixed: true})
			continue
		}
		for i, group := range groups {
			heading := q.clean(sheet)
			if name := q.clean(group[0].Group); !strings.Contains(heading, name) {
				heading = strings.TrimPrefix(heading+" · "+name, " · ")
			}
			all = append(all, section{heading: heading, people: group, newPage: i == 0 || len(group) >= groupOnOwnPage})
		}
	}
	return all
}

// list is the pages of the list of people.
func (q *recording) list() []block {
	note := q.listNote()
	head := q.listHead()
	const beforeNote = 6.0
	room := q.height - head.height() - note.height() - beforeNote
	var pages []block
	var page block
	used := 0.0
	finish := func() {
		if len(page) > 0 {
			pages = append(pages, slices.Concat(head, page, block{space(beforeNote)}, note))
			page, used = nil, 0
		}
	}
	add := func(p piece) {
		page = append(page, p)
		used += p.height
	}
	twins := q.twins()
	sections := q.sections()
	for n, sec := range sections {
		heading := q.sectionHeading(sec.heading)
		if sec.newPage || used+heading.height+3*writeHeight > room {
			finish()
		}
		add(heading)
		lines := len(sec.people)
		if len(q.People) > 0 && (n == len(sections)-1 || sections[n+1].newPage) {
			lines += spareLines
		}
		for i := range lines {
			if used+writeHeight > room {
				if i >= len(sec.people) {
					break // no page for spare lines alone
				}
				finish()
				add(q.sectionHeading(q.continued(sec.heading)))
			}
			switch {
			case i >= len(sec.people):
				add(q.line("", "", "", i))
			case len(q.People) == 0:
				add(q.line(whole(i+1), "", "", i))
			default:
				l := sec.people[i]
				small := ""
				if sec.mixed {
					small = q.clean(l.Group)
				}
				add(q.line(whole(l.Row), q.label(l, twins), small, i))
			}
		}
	}
	finish()
	return pages
}

func (q *recording) continued(heading string) string {
	if heading == "" {
		return ""
	}
	return q.say("day.continued", words{"Group": heading})
}

// twins are the names that more than one person has.
func (q *recording) twins() map[string]bool {
	count := map[string]int{}
	twins := map[string]bool{}
	for _, l := range q.People {
		count[l.Name]++
		twins[l.Name] = count[l.Name] > 1
	}
	return twins
}

// label is what a person is called: the name, else the ID; both where others
// have the same name.
func (q *recording) label(l Listed, twins map[string]bool) string {
	switch {
	case l.Name == "":
		return q.clean(l.ID)
	case l.ID != "" && twins[l.Name]:
		return q.clean(l.Name) + " (" + q.clean(l.ID) + ")"
	}
	return q.clean(l.Name)
}

// sectionHeading is the line over a group; nothing where there is no name for it.
func (q *recording) sectionHeading(text string) piece {
	if text == "" {
		return piece{}
	}
	text = q.fonts.cut(text, bold, q.width/dayHeading.size)
	return piece{20, func(s *sheet, x, y float64) {
		s.write(x, y+14.5, text, dayHeading)
		s.rule(x, y+20, x+q.width, y+20, ink, thin)
	}}
}

// listHead names the test and the columns.
func (q *recording) listHead() block {
	title := q.say("day.list", words{"Test": q.name()})
	look := dayTitle.at(15)
	b := block{{look.leading(), func(s *sheet, x, y float64) {
		s.write(x, y+s.fonts.baseline(look), title, look)
	}}, q.fields([]field{
		{q.say("day.date", nil), q.width * 0.25}, {q.say("day.place", nil), q.width * 0.35}, {q.say("day.writer", nil), q.width*0.40 + 8},
	}), space(6)}
	heads := []string{q.say("day.asked", nil), q.numberHead(), q.say("day.name", nil)}
	widths := []float64{q.askedWidth(), q.rowWidth(), q.nameWidth()}
	for _, c := range q.columns {
		heads, widths = append(heads, c.head), append(widths, c.width)
	}
	heads, widths = append(heads, q.say("day.notes", nil)), append(widths, q.notesWidth())
	return append(b, q.bands(), q.columnHeads(heads, widths, []int{2}))
}

// notesWidth is what is left for notes.
func (q *recording) notesWidth() float64 {
	return q.width - q.askedWidth() - q.rowWidth() - q.nameWidth() - q.columnsWidth()
}

// bands says over the columns what they are for.
func (q *recording) bands() piece {
	const padding = 3.0
	type band struct {
		from, to float64
		lines    piece
	}
	var all []band
	height := 0.0
	x := q.askedWidth() + q.rowWidth() + q.nameWidth()
	for i := 0; i < len(q.columns); {
		from, text := x, q.columns[i].band
		for i < len(q.columns) && q.columns[i].band == text {
			x += q.columns[i].width
			i++
		}
		look := daySmall.at(7.6)
		lines := textPiece(q.fonts.breakLines(text, regular, (x-from-2*padding)/look.size), look, x-from, centre)
		all = append(all, band{from, x, lines})
		height = max(height, lines.height)
	}
	return piece{height + 2*padding, func(s *sheet, left, y float64) {
		for _, b := range all {
			b.lines.draw(s, left+b.from, y+height+padding-b.lines.height)
			s.rule(left+b.from+2, y+height+2*padding, left+b.to-2, y+height+2*padding, ink, thin)
		}
	}}
}

// listNote stands under the list.
func (q *recording) listNote() block {
	key := "day.private"
	if len(q.People) == 0 {
		key = "day.private.blank"
	}
	return q.text(q.say(key, nil), daySmall, q.width)
}

// line is one person's line: number, name, and room to write. The fifth lines
// are stronger, to keep the eye in its row.
func (q *recording) line(number, name, group string, index int) piece {
	nameLines := q.nameLines(name, group)
	askedWidth, rowWidth := q.askedWidth(), q.rowWidth()
	stroke := thin
	if index%5 == 4 {
		stroke = thick
	}
	return piece{writeHeight, func(s *sheet, x, y float64) {
		const square = 11.0
		middle := y + writeHeight/2
		bottom := y + writeHeight
		s.frame(x+(askedWidth-square)/2, middle-square/2, square, square, ink, thin)
		at := x + askedWidth
		s.writeRight(at+rowWidth-7, middle+3.2, number, dayBody.at(9))
		at += rowWidth
		block{nameLines}.draw(s, at+3, middle-nameLines.height/2)
		upright := func(at float64) { s.rule(at, y, at, bottom, hairline, thin) }
		upright(at)
		at += q.nameWidth()
		for _, c := range q.columns {
			upright(at)
			if c.fixed != "" {
				s.writeCentred(at+c.width/2, middle+3.2, c.fixed, dayBody.at(9))
			}
			cell := 0.0
			if len(c.labels) > 0 {
				cell = c.width / float64(len(c.labels))
			}
			for i, label := range c.labels {
				s.writeCentred(at+(float64(i)+0.5)*cell, middle+2.8, label, dayBody.at(8))
				if i > 0 {
					upright(at + float64(i)*cell)
				}
			}
			at += c.width
		}
		upright(at)
		s.rule(x, bottom, x+q.width, bottom, ink, stroke)
	}}
}

// nameLines sets a name, and the group under it, as large as fits the line.
func (q *recording) nameLines(name, group string) piece {
	width := q.nameWidth() - 6
	if name == "" {
		return piece{}
	}
	small := face{size: 7.2, colour: ink, dense: true}
	if group != "" {
		look := q.fonts.largest(name, face{weight: bold, colour: ink, dense: true}, width, 9.6, 8.4, 7.4)
		one := textPiece([]line{q.fonts.oneLine(q.fonts.cut(name, bold, width/look.size), bold)}, look, width, left)
		two := textPiece([]line{q.fonts.oneLine(q.fonts.cut(group, regular, width/small.size), regular)}, small, width, left)
		return beside(column{0, block{one, two}})
	}
	var lines []line
	look := face{weight: bold, colour: ink, dense: true}
	for most, size := range []float64{10, 8.6, 6.3} {
		look.size = size
		lines = q.fonts.breakLines(name, bold, width/size)
		if len(lines) <= most+1 {
			return textPiece(lines, look, width, left)
		}
	}
	look.size = 6.2
	lines = q.fonts.breakLines(name, bold, (width-4)/look.size)
	return textPiece(q.fonts.limitLines(lines, 3), look, width, left)
}
